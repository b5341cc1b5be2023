using System.Collections.Immutable;
using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using Seamwright.Program.Texts;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;

namespace Seamwright.Program.Printing.Json;

/// <summary>Writes single values: the only place where a quantity becomes a JSON number.</summary>
internal sealed class JsonTo(Utf8JsonWriter json, Formatter format, DateTimeZone zone, bool tellsMoney = true)
{
    private static readonly OffsetDateTimePattern Iso = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:sso<+HH:mm>");

    /// <summary>A moment to the second with the shop's offset; null where there is none.</summary>
    public void Moment(string name, Instant? moment)
    {
        if (moment is { } at)
            json.WriteString(name, Iso.Format(Instant.FromUnixTimeSeconds((at + Duration.FromMilliseconds(500)).ToUnixTimeSeconds()).InZone(zone).ToOffsetDateTime()));
        else
            json.WriteNull(name);
    }

    /// <summary>Whether whoever reads it may see money.</summary>
    public bool TellsMoney => tellsMoney;

    /// <summary>A sum, where money may be seen; otherwise nothing.</summary>
    public void Sum(string name, Money money)
    {
        if (tellsMoney)
            json.WriteNumber(name, money.Rounded.Amount);
    }

    /// <summary>A number rounded to three decimals: more would be noise of the arithmetic.</summary>
    public void Number(string name, double value) => json.WriteNumber(name, decimal.Round((decimal)value, 3, MidpointRounding.AwayFromZero));

    public void Text(string name, string? text)
    {
        if (string.IsNullOrEmpty(text))
            json.WriteNull(name);
        else
            json.WriteString(name, text);
    }

    /// <summary>A member of a closed set as files write it: <c>two-part-epoxy</c>.</summary>
    public void Word(string name, Enum member) => json.WriteString(name, Files.Words.Word(member));

    public void Reason(string name, Reason reason)
    {
        json.WritePropertyName(name);
        Reason(reason);
    }

    public void Reasons(string name, ImmutableArray<Reason> reasons)
    {
        json.WriteStartArray(name);
        foreach (var reason in reasons)
        {
            if (tellsMoney || !reason.Facts.Any(fact => fact is Money))
                Reason(reason);
        }
        json.WriteEndArray();
    }

    public void Places(string name, ImmutableArray<PlaceId> places)
    {
        json.WriteStartArray(name);
        foreach (var place in places)
            json.WriteStringValue(place.Value);
        json.WriteEndArray();
    }

    private void Reason(Reason reason)
    {
        json.WriteStartObject();
        json.WriteString("key", reason.Key);
        json.WriteString("text", format.Sentence(reason));
        json.WriteEndObject();
    }
}
