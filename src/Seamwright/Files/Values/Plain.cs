using System.Collections.Immutable;
using System.Globalization;

namespace Seamwright.Files.Values;

/// <summary>Reads values that are not quantities. Each returns null where there is a problem, which has been told.</summary>
internal static class Plain
{
    public static string? Text(Field field) => field.Scalar();

    /// <summary>A short name: no blanks at the ends, one line.</summary>
    public static string? Id(Field field)
    {
        if (field.Scalar() is not { } text)
            return null;
        if (text.Length <= 60 && !text.Any(c => char.IsControl(c) || c is '[' or ']' or ',' or '/' or '\\'))
            return text;
        field.Problem("value.not-a-name", Words.Quote(text));
        return null;
    }

    public static bool? Flag(Field field)
    {
        switch (field.Scalar()?.ToLowerInvariant())
        {
            case "true" or "yes":
                return true;
            case "false" or "no":
                return false;
            case null:
                return null;
            case var text:
                field.Problem("value.not-yes-or-no", Words.Quote(text));
                return null;
        }
    }

    public static int? Whole(Field field, int least, int most)
    {
        if (field.Scalar() is not { } text)
            return null;
        if (int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int number) && number >= least && number <= most)
            return number;
        field.Problem("value.not-a-whole-number", Words.Quote(text), Words.Number(least), Words.Number(most));
        return null;
    }

    public static double? Number(Field field, double least, double most)
    {
        if (field.Scalar() is not { } text)
            return null;
        if (double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double number)
            && number >= least && number <= most)
        {
            return number;
        }

        field.Problem("value.not-a-number", Words.Quote(text), Words.Number(least), Words.Number(most));
        return null;
    }

    /// <summary>A plain decimal number; negative amounts make no sense in these files.</summary>
    public static decimal? Amount(Field field)
    {
        if (field.Scalar() is not { } text)
            return null;
        if (decimal.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out decimal amount) && amount <= 10_000_000)
            return amount;
        field.Problem("value.not-money", Words.Quote(text));
        return null;
    }

    /// <summary>One word of a closed set.</summary>
    public static T? Word<T>(Field field)
        where T : struct, Enum
    {
        if (field.Scalar() is not { } text)
            return null;
        var known = Words.Of(typeof(T));
        foreach (var (word, value) in known)
        {
            if (word == text)
                return (T)value;
        }

        TellUnknown(field, text, known.Select(pair => pair.Word));
        return null;
    }

    /// <summary>Tells that a word is not of the set, with the nearest one where there is one.</summary>
    public static void TellUnknown(Field field, string text, IEnumerable<string> known)
    {
        var words = known.ToImmutableArray();
        if (field.File.Problems.ShowsMoreOf(field.File.Shown) && Words.Nearest(text, words) is { } near)
            field.Problem("value.unknown-word-near", Words.Quote(text), near, Words.OneOf(words));
        else
            field.Problem("value.unknown-word", Words.Quote(text), Words.OneOf(words));
    }
}
