using Seamwright.Documents.Drawing;
using Seamwright.Repairs;

namespace Seamwright.Documents.SeamMap;

/// <summary>
/// How a run of each look is drawn. The looks differ by form, not by colour: a thick line, a line with a light edge, a brushed band, the
/// same with gaps, a dotted band, a trough, a hollow band, a saw, dots, dashes.
/// </summary>
internal static class SeamStroke
{
    /// <summary>Draws a run.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="run">The run.</param>
    /// <param name="joint">Its joint.</param>
    /// <param name="state">How far it is; colours repeat it.</param>
    /// <param name="dabs">How many dabs, where it is made of such.</param>
    public static void Draw(ICanvas canvas, Run run, Joint joint, SeamState state, int dabs)
    {
        string tone = Tone(state);
        switch (joint.Look.Profile)
        {
            case Profile.None:
                canvas.Line("run run--bare", run.From, run.To);
                break;
            case Profile.Round:
                canvas.Line($"run run--round{tone}", run.From, run.To);
                break;
            case Profile.HalfRound:
                canvas.Line($"run run--half-round{tone}", run.From, run.To);
                Beside(canvas, "run run--shine", run, -1.6);
                break;
            case Profile.Brushed:
                Brushed(canvas, run, tone);
                break;
            case Profile.SkipBrushed:
                foreach (var piece in Pieces(run, 20, 7))
                    Brushed(canvas, piece, tone);
                break;
            case Profile.Sprayed:
                Band(canvas, Field(state), run, 8);
                foreach (double off in (double[])[-5, 0, 5])
                    Beside(canvas, $"run run--spray{tone}", run, off);
                break;
            case Profile.Ditch:
                Band(canvas, Field(state), run, 5);
                Beside(canvas, $"run run--edge{tone}", run, -5);
                Beside(canvas, $"run run--edge{tone}", run, 5);
                break;
            case Profile.Strip:
                Band(canvas, $"band band--hollow", run, 4.5);
                break;
            case Profile.Fillet:
                Saw(canvas, run, tone);
                break;
            case Profile.Dab:
                break;
        }
        if (MapMeasures.IsDabs(joint) || joint.Look.Profile == Profile.Dab)
            Dabs(canvas, run, dabs, state);
    }

    /// <summary>Class suffix of a state, with a leading blank; empty for what is open or nothing.</summary>
    public static string Tone(SeamState state) => state switch
    {
        SeamState.Late => " run--late",
        SeamState.Curing => " run--curing",
        SeamState.Sealed => " run--sealed",
        SeamState.Ready => " run--ready",
        _ => "",
    };

    private static string Field(SeamState state) => state == SeamState.Curing ? "band band--curing" : "band";

    private static void Brushed(ICanvas canvas, Run run, string tone)
    {
        Band(canvas, tone.Contains("curing", StringComparison.Ordinal) ? "band band--curing" : "band", run, 6.5);
        foreach (double off in (double[])[-5, -1.8, 1.8, 5])
            Beside(canvas, $"run run--grain{tone}", run, off);
    }

    private static void Dabs(ICanvas canvas, Run run, int shown, SeamState state)
    {
        string look = state switch
        {
            SeamState.Late => "dab dab--late",
            SeamState.Curing => "dab dab--curing",
            SeamState.Ready => "dab dab--ready",
            _ => "dab",
        };
        for (int i = 0; i < shown; i++)
            canvas.Disc(look, run.At(shown == 1 ? 0.5 : (double)i / (shown - 1)), 4.5);
    }

    private static void Saw(ICanvas canvas, Run run, string tone)
    {
        canvas.Line($"run run--fillet{tone}", run.From, run.To);
        int teeth = Math.Max(1, (int)(run.Length / 9));
        var (nx, ny) = Normal(run);
        var spots = new Spot[2 * teeth + 1];
        for (int i = 0; i < spots.Length; i++)
        {
            var at = run.At((double)i / (2 * teeth));
            spots[i] = i % 2 == 0 ? at : at.By(-7 * nx, -7 * ny);
        }
        canvas.Line($"run run--grain{tone}", spots);
    }

    private static IEnumerable<Run> Pieces(Run run, double length, double gap)
    {
        for (double start = 0; start < run.Length - 1; start += length + gap)
            yield return new(run.At(start / run.Length), run.At(Math.Min(1, (start + length) / run.Length)));
    }

    private static void Beside(ICanvas canvas, string look, Run run, double by)
    {
        var (nx, ny) = Normal(run);
        canvas.Line(look, run.From.By(by * nx, by * ny), run.To.By(by * nx, by * ny));
    }

    private static void Band(ICanvas canvas, string look, Run run, double half)
    {
        var (nx, ny) = Normal(run);
        canvas.Area(look, run.From.By(half * nx, half * ny), run.To.By(half * nx, half * ny), run.To.By(-half * nx, -half * ny), run.From.By(-half * nx, -half * ny));
    }

    private static (double X, double Y) Normal(Run run) =>
        run.Length > 0 ? (-(run.To.Y - run.From.Y) / run.Length, (run.To.X - run.From.X) / run.Length) : (0, 1);
}
