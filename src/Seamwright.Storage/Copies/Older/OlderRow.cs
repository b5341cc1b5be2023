using System.Globalization;
using System.Text.Json;
using NodaTime.Text;

namespace Seamwright.Storage.Copies.Older;

/// <summary>
/// Values of a backup as SQLite keeps them, without the model of today: the model of an older version knows only what a column holds in the database. A point in time is a
/// number there and a text in the backup, which tells it from every other number.
/// </summary>
internal static class OlderRow
{
    /// <summary>A value of a backup for a column.</summary>
    /// <exception cref="FormatException">It is no value of such a column.</exception>
    public static object? Value(JsonElement value, Type type) => value.ValueKind == JsonValueKind.Null ? null : Of(value, Nullable.GetUnderlyingType(type) ?? type);

    private static object Of(JsonElement value, Type type) =>
        type == typeof(long) && value.ValueKind == JsonValueKind.String ? InstantPattern.ExtendedIso.Parse(value.GetString()!).Value.ToUnixTimeTicks() / 10
        : type == typeof(long) ? value.GetInt64()
        : type == typeof(int) ? value.GetInt32()
        : type == typeof(string) ? value.GetString()!
        : type == typeof(bool) ? value.GetBoolean()
        : type == typeof(double) ? value.GetDouble()
        : type == typeof(decimal) ? decimal.Parse(value.GetString()!, CultureInfo.InvariantCulture)
        : type == typeof(Guid) ? value.GetGuid()
        : type == typeof(DateOnly) ? DateOnly.ParseExact(value.GetString()!, "yyyy-MM-dd", CultureInfo.InvariantCulture)
        : type == typeof(byte[]) ? value.GetBytesFromBase64()
        : type == typeof(DateTimeOffset) ? value.GetDateTimeOffset()
        : type == typeof(DateTime) ? value.GetDateTime()
        : throw new FormatException($"A backup holds no {type.Name}.");
}
