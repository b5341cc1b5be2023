using NodaTime;

namespace Seamwright.Program.Printing;

/// <summary>A share of one over time, drawn as a filled curve.</summary>
internal static class CureCurve
{
    private const int Rows = 8;
    private const int LabelColumns = 7;

    /// <summary>Draws the curve.</summary>
    /// <param name="page">The page.</param>
    /// <param name="name">What is drawn.</param>
    /// <param name="start">Start.</param>
    /// <param name="done">When the share is one.</param>
    /// <param name="share">Share at a moment. [0…1]</param>
    public static void Write(Page page, string name, Instant start, Instant done, Func<Instant, double> share)
    {
        page.Title(page.Say("cure.curve", name));
        var axis = TimeAxis.Over(start, done, [new Interval(start, done)], page.Width - LabelColumns - 1);
        double[] values = new double[axis.Columns];
        for (int c = 0; c < values.Length; c++)
            values[c] = share(Instant.Min(done, start + (done - start) * ((c + 0.5) / values.Length)));

        string levels = page.Marks.Levels;
        for (int row = Rows - 1; row >= 0; row--)
        {
            char[] line = new char[values.Length];
            for (int c = 0; c < line.Length; c++)
            {
                double filled = Math.Clamp(values[c] * Rows - row, 0, 1);
                line[c] = levels[(int)Math.Round(filled * (levels.Length - 1))];
            }
            string label = row == Rows - 1 ? "100 %" : row == Rows / 2 - 1 ? "50 %" : "";
            page.Line(new Run($"{label,LabelColumns - 1} ", Tone.Faint), new Run(new string(line), Tone.Answer));
        }
        foreach (string line in TimeScale.Lines(page.Format, axis).Reverse())
            page.Line(new string(' ', LabelColumns), new Run(line, Tone.Faint));
    }
}
