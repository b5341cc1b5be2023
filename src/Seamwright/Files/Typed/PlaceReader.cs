using System.Collections.Immutable;
using NodaTime;
using Seamwright.Files.Format;
using Seamwright.Files.Trees;
using Seamwright.Files.Values;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Units;

namespace Seamwright.Files.Typed;

/// <summary>Reads joints, bonds, bare areas, cavities and operations.</summary>
/// <param name="zone">The shop's zone.</param>
/// <param name="now">The moment from which is planned.</param>
/// <param name="sheets">Sheets by name; null = not known.</param>
internal sealed class PlaceReader(DateTimeZone zone, Instant? now, ImmutableDictionary<string, DataSheet>? sheets)
{
    private readonly Layers _layers = new(zone, now, sheets);

    public Joint Joint(MapReader map)
    {
        string id = map.Id("id") ?? "";
        var metals = Metals(map);
        var look = Look(map);
        CheckSize(map, look);
        return new Joint
        {
            Id = new(id),
            Name = map.Text("name") ?? id,
            Type = map.Word<JointType>("type") ?? JointType.Lap,
            Length = map.Length("length") ?? Length.Zero,
            Count = map.Whole("count") ?? map.Whole("runs") ?? 1,
            Metals = metals,
            Position = map.Word<Position>("position") ?? Position.Level,
            Tilt = map.Angle("tilt"),
            Look = look,
            Depth = map.Length("depth"),
            GapFill = map.Volume("gap_fill") ?? Volume.Zero,
            ClosedToAir = map.Flag("closed_to_air") ?? false,
            Function = map.Word<JointFunction>("function") ?? JointFunction.Seal,
            Masked = map.Flag("masked") ?? false,
            Rubbed = map.Flag("rubbed") ?? false,
            Torsion = map.Flag("torsion") ?? false,
            Radius = map.Length("radius"),
            Drains = map.Whole("drains") ?? 0,
            Surface = _layers.Read(map, metals[0]),
            Above = map.Word<LayerAbove>("above") ?? LayerAbove.Paint,
            Stage = map.Word<Stage>("stage") ?? Stage.BeforePaint,
            Zone = map.Text("zone"),
            Edge = map.Word<PanelEdge>("edge"),
            After = Places(map, "after"),
            GalvanicIsolation = map.Flag("galvanic_isolation") ?? IsGalvanic(metals),
            Wanted = map.Find("wanted") is { } wanted ? Material(wanted) : null,
        };
    }

    public Bond Bond(MapReader map)
    {
        string id = map.Id("id") ?? "";
        var closed = map.Moment("closed", zone);
        if (closed is { } moment && now is { } present && moment > present)
            map.Problem("closed", "repair.closed-in-future");
        if (!map.Has("closed") && !map.Has("fit_time"))
            map.Self.Problem("key.missing", "fit_time", "60 min");
        var adhesive = map.Find("adhesive") is { } field ? Material(field) : null;
        if (adhesive is { } name && sheets?.GetValueOrDefault(name.Value) is { } sheet && sheet.Use != MaterialUse.PanelAdhesive)
            map.Problem("adhesive", "repair.no-adhesive", name.Value, Words.Word(sheet.Use));
        return new Bond
        {
            Id = new(id),
            Name = map.Text("name") ?? id,
            Adhesive = adhesive ?? new MaterialId(""),
            Length = map.Length("length") ?? Length.Zero,
            Metals = Metals(map),
            Closed = closed,
            FitTime = map.Duration("fit_time") ?? Duration.Zero,
            CleanTime = map.Duration("clean_time") ?? Duration.FromMinutes(15),
            RePrime = map.Flag("re_prime") ?? true,
            ClosesAccess = map.Flag("closes_access") ?? false,
            Zone = map.Text("zone"),
            After = Places(map, "after"),
        };
    }

    public BareArea BareArea(MapReader map)
    {
        string id = map.Id("id") ?? "";
        var metal = map.Word<Metal>("metal") ?? Metal.Steel;
        return new BareArea
        {
            Id = new(id),
            Name = map.Text("name") ?? id,
            Area = map.Area("area") ?? Area.Zero,
            Metal = metal,
            Surface = _layers.Read(map, metal),
            StoneChip = map.Flag("stone_chip") ?? false,
            Position = map.Word<Position>("position") ?? Position.Level,
            Stage = map.Word<Stage>("stage") ?? Stage.BeforePaint,
            Edge = map.Word<PanelEdge>("edge"),
            After = Places(map, "after"),
        };
    }

    public static Cavity Cavity(MapReader map)
    {
        string id = map.Id("id") ?? "";
        return new Cavity
        {
            Id = new(id),
            Name = map.Text("name") ?? id,
            Treatment = map.Word<CavityTreatment>("treatment") ?? CavityTreatment.Wax,
            Volume = map.Volume("volume"),
            Length = map.Length("length"),
            Drains = map.Whole("drains") ?? 0,
            Stage = map.Word<Stage>("stage") ?? Stage.AfterPaintHeat,
            Edge = map.Word<PanelEdge>("edge"),
            After = Places(map, "after"),
        };
    }

    public static Operation Operation(MapReader map)
    {
        string id = map.Id("id") ?? "";
        return new Operation
        {
            Id = new(id),
            Name = map.Text("name") ?? id,
            Time = map.Duration("time") ?? Duration.Zero,
            Skill = map.Word<Skill>("skill") ?? Skill.Weld,
            HotWork = map.Flag("hot_work") ?? false,
            ClosesAccess = map.Flag("closes_access") ?? false,
            Near = Places(map, "near"),
            Stage = map.Word<Stage>("stage") ?? Stage.BeforePaint,
            After = Places(map, "after"),
        };
    }

    /// <summary>A sheet's name; told where there is no such sheet.</summary>
    public MaterialId? Material(Field field)
    {
        if (Plain.Id(field) is not { } name)
            return null;
        if (sheets is not null && !sheets.ContainsKey(name))
            References.TellUnknown(field, name, sheets.Keys, "reference.material");
        return new MaterialId(name);
    }

    private static ImmutableArray<PlaceId> Places(MapReader map, string key) =>
        [.. map.Ids(key).Select(item => new PlaceId(item.Name))];

    private static ImmutableArray<Metal> Metals(MapReader map)
    {
        var metals = map.WordList<Metal>("metal");
        if (metals.Length > 2)
            map.Problem("metal", "repair.metals");
        return metals.Length == 0 ? [Metal.Steel] : metals;
    }

    // Light metals and carbon fibre against anything else make a cell as soon as water comes in (trade practice).
    private static bool IsGalvanic(ImmutableArray<Metal> metals) =>
        metals.Length == 2 && metals[0] != metals[1]
        && metals.Any(metal => metal is Metal.Aluminium or Metal.Magnesium or Metal.CarbonFibre);

    private static Look Look(MapReader joint)
    {
        if (joint.Find("look") is not { } field)
            return new(Profile.None, default, default, false, false);
        if (field.Node is ScalarNode)
        {
            var bare = Plain.Word<Profile>(field);
            if (bare is { } word and not (Profile.None or Profile.Dab))
                field.Problem("repair.look-needs-size", Words.Word(word));
            return new(bare ?? Profile.None, default, default, false, false);
        }

        if (MapReader.Open(field, RepairFormat.Look) is not { } map)
            return new(Profile.None, default, default, false, false);
        var profile = map.Word<Profile>("profile") ?? Profile.None;
        if (profile is not (Profile.None or Profile.Dab) && !map.Has("width"))
            map.Self.Problem("repair.look-needs-size", Words.Word(profile));
        else if (profile is Profile.Round or Profile.Brushed or Profile.SkipBrushed or Profile.Sprayed or Profile.Ditch && !map.Has("height"))
            map.Self.Problem("repair.look-needs-height", Words.Word(profile));
        var width = map.Length("width") ?? Length.Zero;
        var height = map.Length("height") ?? (profile == Profile.Fillet ? width : Length.Zero);
        return new(profile, width, height, map.Flag("visible") ?? false, map.Flag("strict") ?? false);
    }

    private static void CheckSize(MapReader map, Look look)
    {
        if (map.Has("count") && (map.Has("length") || map.Has("runs")))
            map.Problem("count", "repair.count-or-length");
        else if (!map.Has("count") && !map.Has("length") && look.Profile != Profile.None)
            map.Self.Problem("repair.length-needed");
    }
}
