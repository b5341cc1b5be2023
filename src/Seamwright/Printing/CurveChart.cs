using NodaTime;
using Seamwright.Planning.Tradeoffs;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>The curve as a stair in letters: money upward, time to the right. What is cheapest by some moment lies on the stair.</summary>
internal static class CurveChart
{
    private const int Rows = 10;

    public static void Write(Page page, RepairInput input, TradeoffCurve curve, string names)
    {
        var plans = curve.Points.Select(point => point.Plan).ToList();
        page.Title(page.Say("curve.chart"));
        decimal least = plans[0].Cost.Spent.Amount, most = plans[^1].Cost.Spent.Amount;
        string[] labels = [.. Enumerable.Range(0, Rows).Select(row => page.Format.Text(new Money(least + ((most - least) * row / (Rows - 1)), input.Shop.Currency)))];
        int room = labels.Max(Letters.Width) + 2;

        var (from, to) = (plans[^1].ReadyForPaint, plans[0].ReadyForPaint);
        var margin = Duration.Max(Duration.FromMinutes(20), (to - from) / 12);
        var awake = OpenHours.Within(input.Shop, from - margin, to + margin).Concat(plans.Select(plan => new Interval(plan.ReadyForPaint - margin / 2, plan.ReadyForPaint + margin / 2)));
        var axis = TimeAxis.Over(from - margin, to + margin, awake, page.Width - room - 1);
        var field = Stair(page, plans, axis, names, plan => most > least ? (int)Math.Round((plan.Cost.Spent.Amount - least) / (most - least) * (Rows - 1)) : 0);

        for (int row = Rows - 1; row >= 0; row--)
        {
            string label = row == 0 || row == Rows - 1 || row == Rows / 2 ? labels[row] : "";
            page.Line([new Run($"{new string(' ', room - 1 - Letters.Width(label))}{label} ", Tone.Faint), .. Runs(field[row], names)]);
        }
        foreach (string line in TimeScale.Lines(page.Format, axis).Reverse())
            page.Line(new string(' ', room), new Run(line, Tone.Faint));
    }

    /// <summary>Points and the lines between them, the lowest row first.</summary>
    private static char[][] Stair(Page page, List<Plan> plans, TimeAxis axis, string names, Func<Plan, int> rowOf)
    {
        char[][] field = [.. Enumerable.Range(0, Rows).Select(_ => Enumerable.Repeat(' ', axis.Columns).ToArray())];
        var spots = plans.Select(plan => (Column: Math.Clamp((int)axis.Position(plan.ReadyForPaint), 0, axis.Columns - 1), Row: rowOf(plan))).ToList();
        for (int i = 1; i < spots.Count; i++)
        {
            // From the earlier, dearer point to the right as long as nothing cheaper is ready, then down to the cheaper one.
            var (earlier, later) = (spots[i], spots[i - 1]);
            for (int column = earlier.Column; column <= later.Column; column++)
                field[earlier.Row][column] = page.Marks.Rule;
            for (int row = later.Row; row < earlier.Row; row++)
                field[row][later.Column] = page.Marks.Upright;
        }
        for (int i = spots.Count - 1; i >= 0; i--)
            field[spots[i].Row][spots[i].Column] = names[i];
        for (int column = spots[0].Column + 1; column < axis.Columns; column++)
            field[spots[0].Row][column] = page.Marks.Rule;
        return field;
    }

    private static IEnumerable<Run> Runs(char[] line, string names)
    {
        int start = 0;
        for (int i = 1; i <= line.Length; i++)
        {
            if (i < line.Length && names.Contains(line[i], StringComparison.Ordinal) == names.Contains(line[start], StringComparison.Ordinal))
                continue;
            yield return new Run(new string(line, start, i - start), names.Contains(line[start], StringComparison.Ordinal) ? Tone.Answer : Tone.Faint);
            start = i;
        }
    }
}
