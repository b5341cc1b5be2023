using System.Collections.Immutable;
using NodaTime;
using Seamwright.Files.Format;
using Seamwright.Files.Trees;
using Seamwright.Files.Values;
using Seamwright.Materials;
using Seamwright.Repairs;

namespace Seamwright.Files.Typed;

/// <summary>Reads what lies on the metal.</summary>
/// <param name="zone">The shop's zone.</param>
/// <param name="now">The moment from which is planned.</param>
/// <param name="sheets">Sheets by name; null = not known.</param>
internal sealed class Layers(DateTimeZone zone, Instant? now, ImmutableDictionary<string, DataSheet>? sheets)
{
    private static readonly ImmutableArray<SurfaceKind> Coats =
    [
        SurfaceKind.EtchPrimer, SurfaceKind.EpoxyPrimer, SurfaceKind.UrethanePrimer, SurfaceKind.WeldThroughPrimer,
        SurfaceKind.ElectroCoat, SurfaceKind.SoundPaint,
    ];

    /// <summary>The surface of a place; bare metal where nothing is stated.</summary>
    public Surface Read(MapReader place, Metal metal)
    {
        if (place.Find("beneath") is not { } field)
            return Bare(place.Self, metal);
        if (field.Node is ScalarNode)
            return Coat(field, null);
        if (MapReader.Open(field, RepairFormat.Beneath) is not { } map)
            return new(SurfaceKind.BareSteel, null, null);

        if (map.Has("bare") == map.Has("coat"))
            field.Problem("repair.bare-or-coat");
        if (map.Has("bare"))
            return map.Word<Metal>("bare") is { } bare ? Bare(map.Find("bare")!.Value, bare) : new(SurfaceKind.BareSteel, null, null);
        var applied = map.Moment("applied", zone);
        if (applied is { } moment && now is { } present && moment > present)
            map.Problem("applied", "repair.applied-in-future");
        return map.Find("coat") is { } coat ? Coat(coat, applied) : new(SurfaceKind.BareSteel, null, null);
    }

    private static Surface Bare(Field field, Metal metal)
    {
        switch (metal)
        {
            case Metal.Steel:
                return new(SurfaceKind.BareSteel, null, null);
            case Metal.ZincCoatedSteel:
                return new(SurfaceKind.ZincCoatedSteel, null, null);
            case Metal.Aluminium:
                return new(SurfaceKind.BareAluminium, null, null);
            default:
                field.Problem("repair.bare-not-known", Words.Word(metal));
                return new(SurfaceKind.BareSteel, null, null);
        }
    }

    private Surface Coat(Field field, Instant? applied)
    {
        var unknown = new Surface(SurfaceKind.SoundPaint, null, applied);
        if (Plain.Id(field) is not { } name)
            return unknown;
        if (sheets?.GetValueOrDefault(name) is { } sheet)
        {
            if (KindOf(sheet) is { } kind)
                return new(kind, sheet.Id, applied);
            field.Problem("repair.no-coat", name, Words.Word(sheet.Use));
            return unknown;
        }

        foreach (var kind in Coats)
        {
            if (Words.Word(kind) == name)
                return new(kind, null, applied);
        }

        if (sheets is not null)
            References.TellUnknown(field, name, sheets.Keys.Concat(Coats.Select(kind => Words.Word(kind))), "reference.coat");
        return unknown;
    }

    private static SurfaceKind? KindOf(DataSheet sheet) => sheet.Use switch
    {
        MaterialUse.EtchPrimer => SurfaceKind.EtchPrimer,
        MaterialUse.WeldThroughPrimer => SurfaceKind.WeldThroughPrimer,
        MaterialUse.Primer => sheet.Chemistry == Chemistry.TwoPartEpoxy ? SurfaceKind.EpoxyPrimer : SurfaceKind.UrethanePrimer,
        MaterialUse.StoneChip => SurfaceKind.SoundPaint,
        _ => null,
    };
}
