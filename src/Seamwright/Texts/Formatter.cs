using System.Collections;
using System.Text;
using NodaTime;
using Seamwright.Air;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;

namespace Seamwright.Program.Texts;

/// <summary>
/// Turns typed facts into words: the only place where a quantity, a time or a sum meets a unit, a culture and a zone.
/// Sentences name their facts as <c>{0}</c>; <c>{0:date}</c> always gives date and clock, <c>{0:clock}</c> the clock alone,
/// <c>{0:signed}</c> a plus sign, <c>{0:currency}</c> the currency, <c>{0:pack|packs}</c> a count with its noun.
/// </summary>
public sealed partial class Formatter(Sentences sentences, Notation notation)
{
    /// <summary>How the reader wants it.</summary>
    public Notation Notation { get; } = notation;

    /// <summary>A reason as a sentence.</summary>
    public string Sentence(Reason reason) => Fill(reason.Key, reason.Facts.AsSpan());

    /// <summary>A text by key, with its facts put in.</summary>
    public string Say(string key, params ReadOnlySpan<object> facts) => Fill(key, facts);

    /// <summary>Whether there is a text for a key.</summary>
    public bool Knows(string key) => sentences.Find(key) is not null;

    /// <summary>A fact in words.</summary>
    /// <param name="fact">Quantity, time, money, id, enumeration member, number, text, reason, or a list of such.</param>
    /// <param name="format">One of the formats named at the class; empty = the usual way.</param>
    public string Word(object fact, string format = "") => fact switch
    {
        string text => text,
        Reason reason => Sentence(reason),
        Enum member => Word(member),
        PlaceId or MaterialId or PackId => fact.ToString()!,
        Temperature or TemperatureDifference or RelativeHumidity or HumidityRatio or AbsoluteHumidity or Pressure or Length or Area
            or Volume or Mass or Density or Angle or MolarEnergy or AirState or Look or Coverage => Quantity(fact),
        Money money => Text(money, format),
        Duration span => Signed(Text(span), format, span > Duration.Zero),
        ReferenceTime work => Text(Duration.FromHours(work.Hours)),
        Instant moment => format switch
        {
            "clock" => Clock(moment),
            "date" => DateAndClock(moment),
            _ => Moment(moment),
        },
        Interval span => Between(span.Start, span.End),
        LocalDate date => Text(date),
        LocalTime time => Text(time),
        int or long when format.Contains('|', StringComparison.Ordinal) => Counted(Convert.ToInt64(fact, Notation.Culture), format),
        int or long => Signed(Number(Convert.ToDouble(fact, Notation.Culture), 0), format, Convert.ToInt64(fact, Notation.Culture) > 0),
        double number => Number(number, 2),
        decimal number => Number((double)number, 2),
        IEnumerable list => List(list),
        _ => Convert.ToString(fact, Notation.Culture) ?? "",
    };

    /// <summary>The word of an enumeration member, from <c>words.json</c> under <c>Type.Member</c>.</summary>
    public string Word(Enum member) => sentences.Find($"{member.GetType().Name}.{member}") ?? member.ToString();

    /// <summary>Several facts: <c>J1</c>, <c>J1 and J2</c>, <c>J1, J2 and J3</c>.</summary>
    public string List(IEnumerable facts)
    {
        var words = new List<string>();
        foreach (object fact in facts)
            words.Add(Word(fact));
        return words.Count switch
        {
            0 => Say("list.none"),
            1 => words[0],
            _ => Say("list.and", string.Join(", ", words.Take(words.Count - 1)), words[^1]),
        };
    }

    private string Fill(string key, ReadOnlySpan<object> facts)
    {
        // A missing text must not hide what it was about.
        if (sentences.Find(key) is not { } pattern)
            return facts.IsEmpty ? key : $"{key}: {string.Join(" · ", facts.ToArray().Select(fact => Word(fact)))}";

        var text = new StringBuilder(pattern.Length + 32);
        for (int i = 0; i < pattern.Length; i++)
        {
            char c = pattern[i];
            if (c is '{' or '}' && i + 1 < pattern.Length && pattern[i + 1] == c)
            {
                text.Append(c);
                i++;
            }
            else if (c == '{' && pattern.IndexOf('}', i) is var end and > 0)
            {
                text.Append(Place(pattern.AsSpan(i + 1, end - i - 1), facts));
                i = end;
            }
            else
            {
                text.Append(c);
            }
        }
        return text.ToString();
    }

    private string Place(ReadOnlySpan<char> place, ReadOnlySpan<object> facts)
    {
        int colon = place.IndexOf(':');
        var number = colon < 0 ? place : place[..colon];
        string format = colon < 0 ? "" : place[(colon + 1)..].ToString();
        return int.TryParse(number, System.Globalization.CultureInfo.InvariantCulture, out int index) && index < facts.Length
            ? Word(facts[index], format)
            : $"{{{place}}}";
    }

    private string Counted(long count, string format)
    {
        int bar = format.IndexOf('|', StringComparison.Ordinal);
        return $"{Number(count, 0)} {(count == 1 ? format[..bar] : format[(bar + 1)..])}";
    }

    private static string Signed(string text, string format, bool positive) => format == "signed" && positive ? $"+{text}" : text;
}
