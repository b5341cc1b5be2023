namespace Seamwright.Storage.Databases;

/// <summary>Tables in which nothing is ever changed or deleted.</summary>
internal static class AppendOnly
{
    /// <summary>Names of the tables.</summary>
    public static IReadOnlyList<string> Tables { get; } = ["WorkLog", "Plans", "Audit"];

    /// <summary>What is refused.</summary>
    public static IReadOnlyList<string> Refused { get; } = ["update", "delete"];

    /// <summary>Guards of a table, by what they refuse.</summary>
    public static string Guard(string table, string refused) => $"{table}_refuses_{refused}";

    /// <summary>All guards.</summary>
    public static IEnumerable<string> Guards => Tables.SelectMany(table => Refused.Select(refused => Guard(table, refused)));
}
