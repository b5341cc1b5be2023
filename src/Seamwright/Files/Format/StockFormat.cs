using Seamwright.Files.Values;
using static Seamwright.Files.Format.Key;
using static Seamwright.Files.Format.Kinds;

namespace Seamwright.Files.Format;

/// <summary>The stock file.</summary>
internal static class StockFormat
{
    /// <summary>Version line.</summary>
    public const string Line = "stock/1";

    public static Section Pack { get; } = new("pack", "A container in stock.",
    [
        Must("id", Id, "Name on the label, unique.", "A"),
        Must("material", Id, "Short name of its sheet.", "SL2"),
        May("count", Count(1, 1000), "1", "So many alike; they are named id-1, id-2 and so on.", "3"),
        May("lot", Text, "unknown", "Lot of the maker.", "L-207"),
        May("expires", new Kind.Expiry(), "no date: not expired", "Last usable day, that day included; a month means its last day.", "2026-11"),
        May("opened", new Kind.Date(), "sealed", "Day on which it was opened.", "2026-12-23"),
        May("activated", Moment, "not activated", "When a two-part aerosol was activated.", "2027-06-14T08:15"),
        May("left", new Kind.Either(new Kind.Quantity(Measures.Volume), new Kind.Quantity(Measures.StripLength)), "a full pack", "What is left; a length for a strip.", "180 ml"),
        May("partner_missing", Flag, "no", "The second component is missing.", "true"),
        May("nozzles", Count(0, 1000), "what a new pack of the sheet brings if sealed, else none", "Nozzles that lie with this pack and fit only its ratio.", "0"),
        May("on_hold", Text, "may be used", "Set aside, not to be used: the reason.", "fell off the shelf"),
    ]);

    public static Section Nozzles { get; } = new("nozzles", "Loose mixing nozzles.",
    [
        Must("count", Count(0, 10_000), "How many.", "4"),
        May("fits", new Kind.Ratio(), "any ratio", "The ratio they fit.", "2:1"),
    ]);

    public static Section File { get; } = new("stock", "What the shop has on its shelves.",
    [
        May("seamwright", new Kind.Header(Line), "needed in a file of its own", "Kind and version of the file.", Line),
        May("invented", Flag, "no", "True where the data is made up for demonstration.", "true"),
        May("note", Text, "none", "A remark for the reader; not used.", "after the spring stock-take"),
        May("packs", Maps(Pack), "none", "Packs.", "see pack"),
        May("nozzles", new Kind.Either(new Kind.Whole(0, 10_000), new Kind.MapList(Nozzles)), "0", "Loose mixing nozzles: how many, or a list by the ratio they fit.", "4"),
    ]);
}
