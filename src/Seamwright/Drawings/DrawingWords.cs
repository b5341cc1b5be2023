using NodaTime;
using Seamwright.Documents;
using Seamwright.Program.Texts;
using Seamwright.Shops;

namespace Seamwright.Program.Drawings;

/// <summary>The program's texts for drawings, in the reader's units, culture and zone.</summary>
/// <param name="format">Formatter of the reader.</param>
public sealed class DrawingWords(Formatter format) : IWords
{
    /// <inheritdoc/>
    public DateTimeZone Zone => format.Notation.Zone;

    /// <inheritdoc/>
    public UnitSystem Units => format.Notation.Units;

    /// <inheritdoc/>
    public string Say(string key, params ReadOnlySpan<object> facts) => format.Say(key, facts);

    /// <inheritdoc/>
    public string Word(object fact) => format.Word(fact);

    /// <inheritdoc/>
    public string Clock(Instant moment) => format.Clock(moment);

    /// <inheritdoc/>
    public string Day(Instant moment) => format.Day(moment);

    /// <inheritdoc/>
    public string Moment(Instant moment) => format.Moment(moment);

    /// <inheritdoc/>
    public string Span(Duration span) => format.Text(span);
}
