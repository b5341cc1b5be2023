using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using Seamwright.Files.Format;
using Seamwright.Files.Trees;
using Seamwright.Files.Values;
using Seamwright.Materials;
using Seamwright.Units;

namespace Seamwright.Files.Typed;

/// <summary>Reads packs and nozzles.</summary>
/// <param name="zone">The shop's zone.</param>
/// <param name="now">The moment from which is planned; null = not known, as when a stock file is checked alone.</param>
/// <param name="sheets">Sheets by name; null = not known.</param>
internal sealed class StockReader(DateTimeZone zone, Instant? now, ImmutableDictionary<string, DataSheet>? sheets)
{
    /// <summary>Most packs in a stock: a slip in a count must not fill the memory.</summary>
    public const int MostPacks = 20_000;

    private readonly HashSet<string> _names = [];

    public Stock Read(MapReader map)
    {
        ImmutableArray<Pack> packs = [.. map.Maps("packs").SelectMany(Packs).Take(MostPacks + 1)];
        if (packs.Length > MostPacks)
            map.Problem("packs", "stock.too-many", Words.Number(MostPacks));
        return new() { Packs = packs, Nozzles = Nozzles(map) };
    }

    private static ImmutableArray<NozzleStock> Nozzles(MapReader map)
    {
        if (map.Find("nozzles") is not { } field)
            return [];
        if (field.Node is ScalarNode)
            return map.Whole("nozzles") is { } count and > 0 ? [new(count, null)] : [];
        var nozzles = ImmutableArray.CreateBuilder<NozzleStock>();
        foreach (var item in map.Maps("nozzles"))
        {
            string? fits = item.Find("fits") is { } ratio && Composite.Ratio(ratio) is { } parts
                ? string.Create(CultureInfo.InvariantCulture, $"{parts.Base}:{parts.Hardener}")
                : null;
            nozzles.Add(new(item.Whole("count") ?? 0, fits));
        }

        return nozzles.ToImmutable();
    }

    private IEnumerable<Pack> Packs(MapReader map)
    {
        string id = map.Id("id") ?? "";
        string material = map.Id("material") ?? "";
        var sheet = sheets?.GetValueOrDefault(material);
        if (sheets is not null && sheet is null && material.Length > 0)
            References.TellUnknown(map.Find("material")!.Value, material, sheets.Keys, "reference.material");

        var pack = new Pack
        {
            Id = new(id),
            Material = new(material),
            Lot = map.Text("lot") ?? "",
            Expires = map.Find("expires") is { } expires ? Times.Expiry(expires) : null,
            Opened = map.Date("opened"),
            Activated = map.Moment("activated", zone),
            PartnerMissing = map.Flag("partner_missing") ?? false,
            Nozzles = map.Whole("nozzles"),
            OnHold = map.Text("on_hold"),
        };
        pack = WithAmount(map, pack, sheet);
        Check(map, pack);

        int count = map.Whole("count") ?? 1;
        for (int i = 1; i <= count; i++)
        {
            string name = map.Has("count") && count > 1 ? $"{id}-{Words.Number(i)}" : id;
            if (name.Length > 0 && !_names.Add(name))
                map.Problem("id", "reference.twice", Words.Quote(name));
            yield return pack with { Id = new(name) };
        }
    }

    private static Pack WithAmount(MapReader map, Pack pack, DataSheet? sheet)
    {
        bool isStrip = sheet?.Use == MaterialUse.SeamTape;
        if (map.Find("left") is not { } left)
            return pack with { Left = sheet?.Pack.Content ?? default, StripLeft = sheet?.Pack.StripLength ?? default };

        // Without its sheet a pack shows by the unit alone whether it is a strip.
        var measure = sheet is null && QuantityUnit.IsLength(left) || isStrip ? Measures.StripLength : Measures.Volume;
        if (QuantityText.Read(left, measure) is not { } amount)
            return pack;
        if (measure == Measures.StripLength)
            pack = pack with { StripLeft = Length.FromMetres(amount) };
        else
            pack = pack with { Left = Volume.FromCubicMetres(amount) };

        const double Slack = 1 + 1e-9;      // 12.2 fl oz of 360 ml: unit conversion must not make a full pack overfull
        if (sheet is not null && (pack.Left > sheet.Pack.Content * Slack || pack.StripLeft > sheet.Pack.StripLength * Slack))
            left.Problem("stock.left-above-content", Words.Quote(left.Scalar() ?? ""), isStrip
                ? Words.Number(sheet.Pack.StripLength.Metres) + " m"
                : Words.Number(Math.Round(sheet.Pack.Content.Millilitres, 3)) + " ml");
        return pack;
    }

    private void Check(MapReader map, Pack pack)
    {
        if (pack.Opened is { } opened)
        {
            if (pack.Expires is { } expires && expires < opened)
                map.Problem("expires", "stock.expired-before-opening");
            if (now is { } moment && opened > moment.InZone(zone).Date)
                map.Problem("opened", "stock.opened-in-future");
        }

        if (pack.Activated is { } activated && now is { } present && activated > present)
            map.Problem("activated", "stock.activated-in-future");
    }
}
