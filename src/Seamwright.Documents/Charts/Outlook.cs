using NodaTime;
using Seamwright.Documents.Drawing;
using Seamwright.Units;

namespace Seamwright.Documents.Charts;

/// <summary>Where values of the air come from.</summary>
public enum OutlookKind
{
    /// <summary>A hygrometer said so.</summary>
    Measured,

    /// <summary>A weather forecast says so.</summary>
    Foretold,

    /// <summary>The last reading, going on by the heating pattern.</summary>
    Patterned,

    /// <summary>The last reading, taken to stay as it is.</summary>
    Constant,
}

/// <summary>The part of a time that nobody has measured.</summary>
/// <param name="From">Its start.</param>
/// <param name="Kind">Where its values come from instead.</param>
public sealed record Outlook(Instant From, OutlookKind Kind)
{
    private const double HatchGap = 11;

    // A ground, a hatch that differs by kind, and the word: colour alone would say it to some only.
    internal void DrawGround(ICanvas canvas, TimeScale time, Box plot, IWords words, bool named)
    {
        double x = time.X(Instant.Max(From, time.Stretches[0].From));
        var ground = plot with { Left = x, Width = plot.Right - x };
        string word = words.Word(Kind);
        canvas.Open(new Mark("outlook", word));
        canvas.Rectangle("forecast", ground);
        Spot[] corners = [new(ground.Left, ground.Top), new(ground.Right, ground.Top), new(ground.Right, ground.Bottom), new(ground.Left, ground.Bottom)];
        foreach (double lean in LeansOf(Kind))
        {
            foreach (var (start, end) in Hatch.Of(corners, HatchGap, lean))
                canvas.Line("forecast__hatch", start, end);
        }
        canvas.Close();
        canvas.Line("now", new(x, plot.Top), new(x, plot.Bottom));
        // Above the plot, where no curve runs through it.
        if (named)
            canvas.Text(ChartParts.Faint, new(plot.Right, plot.Top - 10), word, Align.End);
    }

    private static double[] LeansOf(OutlookKind kind) => kind switch
    {
        OutlookKind.Foretold => [45],
        OutlookKind.Patterned => [45, -45],
        _ => [0],
    };
}

/// <summary>What a climate chart says at one moment.</summary>
/// <param name="At">The moment.</param>
/// <param name="Kind">Where the values come from.</param>
/// <param name="Values">The values; null where nothing is known and the curves are open.</param>
public sealed record ClimateFigure(Instant At, OutlookKind Kind, ClimateValues? Values);

/// <summary>Air and panel at one moment.</summary>
/// <param name="Air">Temperature of the air.</param>
/// <param name="Panel">Temperature of the panel.</param>
/// <param name="DewPoint">Dew point of the air.</param>
/// <param name="Humidity">Relative humidity of the air.</param>
public sealed record ClimateValues(Temperature Air, Temperature Panel, Temperature DewPoint, RelativeHumidity Humidity);
