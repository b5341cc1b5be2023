using System.Collections;
using System.Globalization;
using System.Reflection;

namespace Seamwright.EndToEnd.Tests.Stored;

/// <summary>Everything a record holds, as one text, so that two can be compared however deep they are.</summary>
internal static class Facts
{
    public static string Of(object? value) => value switch
    {
        null => "–",
        string text => $"\"{text}\"",
        IDictionary table => Sorted(table.Keys.Cast<object>().Select(key => $"{Of(key)}: {Of(table[key])}")),
        IEnumerable items when IsSet(value.GetType()) => Sorted(items.Cast<object?>().Select(Of)),
        IEnumerable items => $"[{string.Join(", ", items.Cast<object?>().Select(Of))}]",
        IConvertible simple => simple.ToString(CultureInfo.InvariantCulture),
        // Times and zones say best themselves what they are.
        _ when value.GetType().Namespace == "NodaTime" => value.ToString()!,
        // What is stored and not what is computed from it: a rounded amount of money has a rounded amount, and so on for ever.
        _ => $"{value.GetType().Name}({string.Join(", ", Fields(value.GetType()).Select(field => Of(field.GetValue(value))))})",
    };

    private static IEnumerable<FieldInfo> Fields(Type type) =>
        type.GetFields(BindingFlags.Instance | BindingFlags.NonPublic | BindingFlags.Public).OrderBy(field => field.Name, StringComparer.Ordinal);

    private static bool IsSet(Type type) => type.GetInterfaces().Any(one => one.IsGenericType && one.GetGenericTypeDefinition() == typeof(IReadOnlySet<>));

    private static string Sorted(IEnumerable<string> items) => $"{{{string.Join(", ", items.Order(StringComparer.Ordinal))}}}";
}
