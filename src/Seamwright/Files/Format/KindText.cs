using System.Globalization;

namespace Seamwright.Files.Format;

/// <summary>Kinds of values in words, for documentation.</summary>
internal static class KindText
{
    /// <summary>What may stand after a key.</summary>
    public static string Of(Kind kind) => kind switch
    {
        Kind.Quantity quantity => quantity.Measure.Dimension.Name[(quantity.Measure.Dimension.Name.IndexOf(' ', StringComparison.Ordinal) + 1)..],
        Kind.Word word => SetLink(word.Set),
        Kind.WordList list => $"{SetLink(list.Set)}, one or a list",
        Kind.Text => "text",
        Kind.Id => "name",
        Kind.IdList => "name, one or a list",
        Kind.Flag => "yes or no",
        Kind.Whole => "whole number",
        Kind.Number => "number",
        Kind.Amount => "money",
        Kind.Moment => "time",
        Kind.MomentList => "time, one or a list",
        Kind.Date => "date",
        Kind.DateList => "date, one or a list",
        Kind.Expiry => "date or month",
        Kind.Clock => "time of day",
        Kind.Days => "weekdays",
        Kind.Breaks => "span of the day, one or a list",
        Kind.Ratio => "ratio",
        Kind.File => "path",
        Kind.Header => "version line",
        Kind.Map map => Link(map.Section.Name),
        Kind.MapList list => $"list of {Link(list.Section.Name)}",
        Kind.FileList list => $"path or {Link(list.Section.Name)}, one or a list",
        Kind.WordTable table => $"{SetLink(table.Set)} → {Of(table.Value)}",
        Kind.NameTable table => $"name → {Of(table.Value)}",
        Kind.Either either => string.Join(" or ", either.Forms.Select(Of)),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "There is no such kind of value."),
    };

    /// <summary>The range of a value, or empty.</summary>
    public static string Range(Kind kind) => kind switch
    {
        Kind.Quantity quantity => quantity.Measure.Range,
        Kind.Whole whole => string.Create(CultureInfo.InvariantCulture, $"{whole.Least} to {whole.Most}"),
        Kind.Number number => string.Create(CultureInfo.InvariantCulture, $"{number.Least} to {number.Most}"),
        Kind.WordTable table => Range(table.Value),
        _ => "",
    };

    /// <summary>Heading of a closed set of words.</summary>
    public static string SetName(Type set) => set == typeof(LawWord) ? "law" : Words.Word(set.Name);

    private static string Link(string section) => $"[{section}](#{section})";

    private static string SetLink(Type set) => $"[{SetName(set)}](#{SetName(set)}-words)";
}
