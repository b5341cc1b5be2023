using System.Text;

namespace Seamwright.Scheduling;

/// <summary>
/// Checks that batches said to be interchangeable really are: a wrong claim would silently cut off the optimum.
/// Two neighbours of a group are exchanged everywhere in the project; nothing may change.
/// </summary>
internal static class SymmetryClaims
{
    public static List<string> Mistakes(Project project)
    {
        var mistakes = new List<string>();
        foreach (List<Batch> group in Groups(project))
        {
            for (int i = 1; i < group.Count; i++)
            {
                if (group[i].SymmetryIndex == group[i - 1].SymmetryIndex)
                    mistakes.Add(ProblemValidator.Text($"Batch {group[i].Id}: its symmetry index {group[i].SymmetryIndex} is used twice in group {group[i].SymmetryGroup}."));
                else if (Difference(project, group[i - 1], group[i]) is { } difference)
                    mistakes.Add(ProblemValidator.Text($"Batches {group[i - 1].Id} and {group[i].Id} are not interchangeable: {difference}."));
            }
        }

        return mistakes;
    }

    /// <summary>The groups with two or more members, each in order of its index.</summary>
    public static IEnumerable<List<Batch>> Groups(Project project) =>
        project.Batches
            .Where(b => b.SymmetryGroup is not null)
            .GroupBy(b => b.SymmetryGroup)
            .Select(g => g.OrderBy(b => b.SymmetryIndex).ToList())
            .Where(g => g.Count > 1);

    private static string? Difference(Project project, Batch a, Batch b)
    {
        if (Data(a) != Data(b) || !Equals(a.LatestEnd, b.LatestEnd))
            return "their own data differ";

        var twin = new Dictionary<(ActivityId, ModeId), ModeId>();
        foreach (Activity activity in project.Activities)
        {
            List<Mode> inA = [.. activity.Modes.Where(m => m.Batch == a.Id)];
            List<Mode> inB = [.. activity.Modes.Where(m => m.Batch == b.Id)];
            if (inA.Count != inB.Count || inA.Zip(inB).Any(pair => Data(pair.First) != Data(pair.Second)))
                return $"the modes of activity {activity.Id} differ";
            foreach ((Mode first, Mode second) in inA.Zip(inB))
                (twin[(activity.Id, first.Id)], twin[(activity.Id, second.Id)]) = (second.Id, first.Id);
        }

        ModeId Twin(ActivityId activity, ModeId mode) => twin.GetValueOrDefault((activity, mode), mode);
        ModeId Same(ActivityId activity, ModeId mode) => mode;
        BatchId Other(BatchId batch) => batch == a.Id ? b.Id : batch == b.Id ? a.Id : batch;
        var numbers = new Dictionary<TimeFunction, int>();
        List<string> before = Mentions(project, Same, batch => batch, numbers);
        List<string> after = Mentions(project, Twin, Other, numbers);
        return before.SequenceEqual(after) ? null : "a lag, trigger or window treats them differently";
    }

    private static string Data(Batch b) => ProblemValidator.Text(
        $"{b.Setup}|{b.Cost}|{b.MaxWork}|{b.MaxLoad}|{Join(b.Crews.Select(c => ProblemValidator.Text($"{c.Id}/{c.Cost}/{c.CostPerMinute}/{Join(c.Demands)}")))}|{Join(b.Consumes)}|{Join(b.Starts)}");

    private static string Data(Mode m) => ProblemValidator.Text($"{m.Cost}|{m.Work}|{m.Load}|{Join(m.Starts)}|{Join(m.Consumes)}");

    private static string Join<T>(IEnumerable<T> parts) => string.Join(";", parts.Select(p => p?.ToString()).Order(StringComparer.Ordinal));

    private static List<string> Mentions(
        Project project, Func<ActivityId, ModeId, ModeId> mode, Func<BatchId, BatchId> batch, Dictionary<TimeFunction, int> numbers)
    {
        string Modes(ActivityId? activity, IEnumerable<ModeId> modes) =>
            activity is { } known ? Join(modes.Select(m => mode(known, m))) : "";
        string Point(TimePoint p) => p.Batch is { } b ? $"{p.Edge} batch {batch(b)}" : $"{p.Edge} {p.Activity}";

        var lines = new List<string>();
        foreach (Lag lag in project.Lags)
        {
            string delay = lag.Delay switch
            {
                Delay.ByTime { Function: var f } => "f" + Number(numbers, f),
                Delay.Fixed { Minutes: var minutes } => ProblemValidator.Text($"{minutes}"),
                _ => "",
            };
            lines.Add(new StringBuilder()
                .Append(Point(lag.From)).Append('|').Append(Modes(lag.From.Activity, lag.FromModes)).Append('|')
                .Append(Point(lag.To)).Append('|').Append(Modes(lag.To.Activity, lag.ToModes)).Append('|')
                .Append(lag.Kind).Append('|').Append(delay).ToString());
        }

        foreach (Activity activity in project.Activities)
        {
            foreach (Trigger trigger in activity.PresentWhen)
            {
                lines.Add(trigger switch
                {
                    Trigger.InMode t => $"present {activity.Id} {t.Activity} {Modes(t.Activity, t.Modes)}",
                    Trigger.BatchUsed t => $"present {activity.Id} batch {batch(t.Batch)}",
                    _ => "",
                });
            }
        }

        foreach (ConditionalWindow w in project.ConditionalWindows)
            lines.Add($"window {w.Activity} {w.WhenActivity} {Modes(w.WhenActivity, w.WhenModes)} {Join(w.Windows)}");
        lines = [.. lines.Distinct()];
        lines.Sort(StringComparer.Ordinal);
        return lines;
    }

    private static string Number(Dictionary<TimeFunction, int> numbers, TimeFunction function)
    {
        if (!numbers.TryGetValue(function, out int number))
            numbers[function] = number = numbers.Count;
        return ProblemValidator.Text($"{number}");
    }
}
