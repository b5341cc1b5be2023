using System.Globalization;
using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using Seamwright.Storage.Databases;

namespace Seamwright.Storage.Copies;

/// <summary>A row as one line of JSON that means the same on every database.</summary>
internal static class RowText
{
    private static readonly InstantPattern Instants = InstantPattern.ExtendedIso;
    private static readonly LocalDatePattern Dates = LocalDatePattern.Iso;

    public static void Write(Utf8JsonWriter json, TableShape table, object row)
    {
        json.WriteStartObject();
        foreach (var (property, name) in table.Columns)
        {
            json.WritePropertyName(name);
            switch (property.GetGetter().GetClrValue(row))
            {
                case null: json.WriteNullValue(); break;
                case string text: json.WriteStringValue(text); break;
                case bool flag: json.WriteBooleanValue(flag); break;
                case int whole: json.WriteNumberValue(whole); break;
                case long whole: json.WriteNumberValue(whole); break;
                case double number: json.WriteNumberValue(number); break;
                case decimal amount: json.WriteStringValue(amount.ToString(CultureInfo.InvariantCulture)); break;
                case Guid id: json.WriteStringValue(id); break;
                case Instant instant: json.WriteStringValue(Instants.Format(instant)); break;
                case LocalDate date: json.WriteStringValue(Dates.Format(date)); break;
                case byte[] bytes: json.WriteBase64StringValue(bytes); break;
                case DateTimeOffset moment: json.WriteStringValue(moment); break;
                case DateTime moment: json.WriteStringValue(moment); break;
                case Enum word: json.WriteStringValue(word.ToString()); break;
                case var other: throw new InvalidOperationException($"A backup cannot hold the {other.GetType().Name} of {table.Name}.{name}.");
            }
        }

        json.WriteEndObject();
    }

    /// <summary>The row's values as the database takes them.</summary>
    /// <exception cref="FormatException">The line is no row of this table.</exception>
    public static object?[] Read(JsonElement line, TableShape table)
    {
        var values = new object?[table.Columns.Length];
        for (int i = 0; i < values.Length; i++)
        {
            var (property, name) = table.Columns[i];
            if (!line.TryGetProperty(name, out var value))
                throw new FormatException($"{table.Name} has no {name}.");
            values[i] = TableShape.ToDatabase(property, value.ValueKind == JsonValueKind.Null ? null : Value(value, Nullable.GetUnderlyingType(property.ClrType) ?? property.ClrType));
        }

        return values;
    }

    private static object Value(JsonElement value, Type type) =>
        type == typeof(string) ? value.GetString()!
        : type == typeof(bool) ? value.GetBoolean()
        : type == typeof(int) ? value.GetInt32()
        : type == typeof(long) ? value.GetInt64()
        : type == typeof(double) ? value.GetDouble()
        : type == typeof(decimal) ? decimal.Parse(value.GetString()!, CultureInfo.InvariantCulture)
        : type == typeof(Guid) ? value.GetGuid()
        : type == typeof(Instant) ? Instants.Parse(value.GetString()!).Value
        : type == typeof(LocalDate) ? Dates.Parse(value.GetString()!).Value
        : type == typeof(byte[]) ? value.GetBytesFromBase64()
        : type == typeof(DateTimeOffset) ? value.GetDateTimeOffset()
        : type == typeof(DateTime) ? value.GetDateTime()
        : type.IsEnum ? Enum.Parse(type, value.GetString()!)
        : throw new FormatException($"A backup holds no {type.Name}.");
}
