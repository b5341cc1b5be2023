using NodaTime;
using Seamwright.Shops;

namespace Seamwright.Documents;

/// <summary>How facts become words in a drawing: the program's texts, in the reader's units, culture and zone.</summary>
public interface IWords
{
    /// <summary>Zone of the clock.</summary>
    DateTimeZone Zone { get; }

    /// <summary>Units in which scales take their round steps.</summary>
    UnitSystem Units { get; }

    /// <summary>A text by key with its facts put in.</summary>
    string Say(string key, params ReadOnlySpan<object> facts);

    /// <summary>A fact in words: a quantity with its unit, a member of a closed set, a sum of money.</summary>
    string Word(object fact);

    /// <summary>Time of day.</summary>
    string Clock(Instant moment);

    /// <summary>Weekday, day and month.</summary>
    string Day(Instant moment);

    /// <summary>Clock, with the day where it is not today.</summary>
    string Moment(Instant moment);

    /// <summary>A length of time.</summary>
    string Span(Duration span);
}
