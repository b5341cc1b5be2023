using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Files.Format;
using Seamwright.Files.Values;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Units;

namespace Seamwright.Files.Typed;

/// <summary>Reads data sheets.</summary>
internal static class MaterialsReader
{
    private static readonly ImmutableDictionary<Chemistry, ImmutableArray<Hazard>> UsualHazards =
        new Dictionary<Chemistry, ImmutableArray<Hazard>>
        {
            [Chemistry.OnePartPolyurethane] = [Hazard.Isocyanate],
            [Chemistry.TwoPartPolyurethane] = [Hazard.Isocyanate],
            [Chemistry.TwoPartEpoxy] = [Hazard.Epoxy],
            [Chemistry.TwoPartAcrylic] = [Hazard.Acrylate, Hazard.Flammable],
            [Chemistry.OnePartSolventRubber] = [Hazard.Solvent, Hazard.Flammable],
            [Chemistry.AcidEtch] = [Hazard.Acid, Hazard.Solvent, Hazard.Flammable],
            [Chemistry.ZincRich] = [Hazard.ZincFume, Hazard.Flammable],
            [Chemistry.Solventborne] = [Hazard.Solvent, Hazard.Flammable],
            [Chemistry.Wax] = [Hazard.Solvent, Hazard.Flammable],
        }.ToImmutableDictionary();

    private static readonly ImmutableArray<string> CoverageKeys = ["per_metre", "per_square_metre", "per_place", "expansion"];

    /// <summary>Sheets of one file in file order.</summary>
    public static IEnumerable<(MapReader Map, DataSheet Sheet)> Read(MapReader file, string currency)
    {
        var reference = Reference(file, AirState.Standard);
        var maps = file.Maps("sheets").ToArray();
        if (file.Has("sheets") && maps.Length == 0)
            file.Problem("sheets", "value.empty-list");
        foreach (var map in maps)
            yield return (map, Sheet(map, reference, currency));
    }

    private static AirState Reference(MapReader map, AirState fallback)
    {
        if (map.Map("reference") is not { } reference)
            return fallback;
        var air = new AirState(
            reference.Temperature("temperature") ?? fallback.Temperature, reference.Humidity("humidity") ?? fallback.Humidity);
        if (air.Humidity.Fraction is > 0 and < 1)
            return air;
        reference.Problem("humidity", "material.reference-humidity");
        return fallback;
    }

    private static DataSheet Sheet(MapReader map, AirState fileReference, string currency)
    {
        var use = map.Word<MaterialUse>("use") ?? MaterialUse.SeamSealer;
        var chemistry = map.Word<Chemistry>("chemistry") ?? Chemistry.TwoPartEpoxy;
        string source = map.Text("source") ?? "";
        var limits = map.Map("limits") is { } limitMap ? Limits(limitMap) : new();
        HeatAllowance? heat = map.Map("heat") is { } heatMap
            ? new(heatMap.Temperature("up_to") ?? default, heatMap.Duration("hold") ?? Duration.Zero)
            : null;
        var warmest = heat is { } allowed && limits.PanelTo is { } limit ? Temperature.Max(allowed.PanelUpTo, limit) : limits.PanelTo ?? heat?.PanelUpTo;
        var milestones = new MilestoneReader(
            use, chemistry, Reference(map, fileReference), map.Energy("energy"), source, limits.PanelFrom, warmest);
        var pack = map.Map("pack");
        var sag = map.Map("sag");
        var sheet = new DataSheet
        {
            Id = new(map.Id("id") ?? ""),
            Name = map.Text("name") ?? "",
            Use = use,
            Chemistry = chemistry,
            Method = map.Word<ApplicationMethod>("method") ?? UsualMethod(use, chemistry),
            Source = source,
            System = map.Text("system"),
            Limits = limits,
            Milestones = map.Map("times") is { } times ? milestones.Read(times) : [],
            DepthCure = map.Length("depth_in_first_day") is { } depth ? new(depth, milestones.DepthLaw()) : null,
            PaintNeedsCuredThrough = map.Flag("paint_needs_cured_through") ?? false,
            Surfaces = Surfaces(map),
            Looks = [.. map.WordList<Profile>("looks")],
            SagVertical = sag?.Length("vertical"),
            SagOverhead = sag?.Length("overhead"),
            LevelOnly = map.Flag("level_only") ?? false,
            MaximumTilt = map.Angle("maximum_tilt"),
            MinimumRadius = map.Length("minimum_radius"),
            Heat = heat,
            StandsHeatUpTo = map.Temperature("stands_heat_up_to"),
            Coverage = map.Map("coverage") is { } coverage ? CoverageOf(coverage) : null,
            Film = map.Map("film") is { } film
                ? new(film.Length("dry_thickness") ?? default, film.Share("volume_solids") ?? 1, film.Share("transfer_efficiency") ?? 0.6)
                : null,
            Pack = pack is null ? new() { Price = Money.Zero } : Pack(pack, currency),
            Hazards = map.Has("hazards") ? map.WordList<Hazard>("hazards") : UsualHazards.GetValueOrDefault(chemistry, []),
            Trainings = [.. map.Ids("trainings").Select(item => item.Name)],
        };
        sheet = sheet with { NextLayerWithin = Within(map, sheet) };
        Check(map, pack, sheet);
        return sheet;
    }

    private static ApplicationMethod UsualMethod(MaterialUse use, Chemistry chemistry) => use switch
    {
        MaterialUse.SeamTape => ApplicationMethod.Strip,
        MaterialUse.Primer or MaterialUse.EtchPrimer or MaterialUse.WeldThroughPrimer or MaterialUse.StoneChip or MaterialUse.CavityWax =>
            ApplicationMethod.Aerosol,
        _ => chemistry is Chemistry.TwoPartEpoxy or Chemistry.TwoPartPolyurethane or Chemistry.TwoPartAcrylic
            ? ApplicationMethod.CartridgeWithMixer
            : ApplicationMethod.Cartridge,
    };

    private static ApplicationLimits Limits(MapReader map)
    {
        var limits = new ApplicationLimits
        {
            PanelFrom = map.Temperature("panel_from"),
            PanelTo = map.Temperature("panel_to"),
            HumidityFrom = map.Humidity("humidity_from"),
            HumidityTo = map.Humidity("humidity_to"),
            LeastWater = map.Water("least_water"),
        };
        map.Ordered("panel_from", limits.PanelFrom, "panel_to", limits.PanelTo);
        map.Ordered("humidity_from", limits.HumidityFrom, "humidity_to", limits.HumidityTo);
        return map.Difference("dew_point_margin") is { } margin ? limits with { DewPointMargin = margin } : limits;
    }

    private static ImmutableDictionary<SurfaceKind, bool> Surfaces(MapReader map)
    {
        var surfaces = ImmutableDictionary<SurfaceKind, bool>.Empty;
        foreach (var (kind, value) in map.WordTable<SurfaceKind>("surfaces"))
        {
            if (Plain.Flag(value) is { } allowed)
                surfaces = surfaces.SetItem(kind, allowed);
        }

        return surfaces;
    }

    private static Coverage? CoverageOf(MapReader map)
    {
        if (CoverageKeys.Count(map.Has) != 1)
            map.Self.Problem("material.one-coverage");
        return map.Volume("per_metre") is { } metre ? new Coverage.PerMetre(metre)
            : map.Volume("per_square_metre") is { } square ? new Coverage.PerSquareMetre(square)
            : map.Volume("per_place") is { } place ? new Coverage.PerPlace(place)
            : map.Number("expansion") is { } factor ? new Coverage.Expansion(factor)
            : null;
    }

    private static Packaging Pack(MapReader map, string currency)
    {
        if (map.Has("content") == map.Has("strip_length"))
            map.Self.Problem("material.content-or-strip");
        MixRatio? ratio = null;
        if (map.Find("ratio") is { } field && Composite.Ratio(field) is { } parts)
            ratio = new(parts.Base, parts.Hardener, map.Density("base_density"), map.Density("hardener_density"));
        else if (map.Has("base_density") || map.Has("hardener_density"))
            map.Self.Problem("material.density-without-ratio");

        int? openedLife = null;
        if (map.Duration("opened_life") is { } life)
        {
            openedLife = (int)life.TotalDays;
            if (life != Duration.FromDays(openedLife.Value))
                map.Problem("opened_life", "material.opened-life-days");
        }

        return new Packaging
        {
            Content = map.Volume("content") ?? default,
            StripLength = map.Length("strip_length") ?? default,
            Ratio = ratio,
            Price = new Money(map.Amount("price") ?? 0, currency),
            NozzlesIncluded = map.Whole("nozzles") ?? 0,
            OpenedLifeDays = openedLife,
            ActivatedLife = map.Duration("activated_life"),
            SingleUse = map.Flag("single_use") ?? false,
        };
    }

    // The same number of reference hours ends the window too: never later than the sheet says in the cold, sooner in the heat.
    private static MaximumWindow? Within(MapReader map, DataSheet sheet)
    {
        if (map.Has("paint_within") && map.Has("next_layer_within"))
            map.Problem("next_layer_within", "material.two-windows");
        string key = map.Has("paint_within") ? "paint_within" : "next_layer_within";
        if (map.Duration(key) is not { } clock)
            return null;
        var (first, second) = key == "paint_within"
            ? (MilestoneKind.Paint, MilestoneKind.NextLayer)
            : (MilestoneKind.NextLayer, MilestoneKind.Paint);
        var milestone = sheet.Milestone(first) ?? sheet.Milestone(second);
        if (milestone is not null && milestone.Needed.Hours > clock.TotalHours)
            map.Problem(key, "material.window-below-minimum", key, Words.Number(Math.Round(milestone.Needed.Minutes)));
        return new(clock, milestone?.Law is CureLaw.Clock or null ? null : milestone.Law);
    }

    private static void Check(MapReader map, MapReader? pack, DataSheet sheet)
    {
        if (sheet.DepthCure is not null && !sheet.IsMoistureCure)
            map.Problem("depth_in_first_day", "material.depth-without-moisture-cure");
        if (sheet.PaintNeedsCuredThrough && sheet.DepthCure is null)
            map.Problem("paint_needs_cured_through", "material.cured-through-without-depth");
        if (pack is not null && pack.Has("ratio") && !sheet.IsTwoPart)
            pack.Problem("ratio", "material.ratio-of-one-part");
        if (pack is not null && pack.Has("strip_length") && sheet.Use != MaterialUse.SeamTape)
            pack.Problem("strip_length", "material.strip-length-of-paste");
        if (sheet.Heat is { } heat && sheet.Limits.PanelFrom is { } coldest && heat.PanelUpTo < coldest)
            map.Problem("heat", "value.below-its-lower-bound", "heat.up_to", "limits.panel_from");
    }
}
