using System.Collections.Immutable;
using Seamwright.Files.Trees;
using Seamwright.Files.Values;

namespace Seamwright.Files.Typed;

/// <summary>Names that point at something else in the files.</summary>
internal static class References
{
    /// <summary>Tells that a name points at nothing, with the nearest known name where there is one.</summary>
    public static void TellUnknown(Field field, string name, IEnumerable<string> known, string key)
    {
        if (!field.File.Problems.ShowsMoreOf(field.File.Shown))
        {
            field.Problem(key, "", "");
            return;
        }

        var names = known.Order(StringComparer.Ordinal).ToImmutableArray();
        string? near = names.FirstOrDefault(candidate => candidate.Equals(name, StringComparison.OrdinalIgnoreCase));
        string shown = names.Length == 0 ? "–" : Words.OneOf(names.Take(40));
        if (near is not null)
            field.Problem(key + "-near", Words.Quote(name), near);
        else
            field.Problem(key, Words.Quote(name), shown);
    }
}

/// <summary>Looks at the unit of a quantity before it is known what it should be.</summary>
internal static class QuantityUnit
{
    /// <summary>Whether the value's unit is one of length.</summary>
    public static bool IsLength(Field field)
    {
        string text = (field.Node as ScalarNode)?.Text.Trim() ?? "";
        string unit = text.TrimStart('+', '-', '.', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9').Trim();
        return Dimensions.Length.Find(unit) is not null;
    }
}
