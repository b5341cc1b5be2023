using Google.OrTools.Sat;
using Google.OrTools.Util;

namespace Seamwright.Scheduling.Solving;

/// <summary>The part of the model that stands for one batch.</summary>
internal sealed class BatchVariables
{
    private BatchVariables(Batch data) => Data = data;

    public Batch Data { get; }

    /// <summary>False: no start fits, so the batch and every mode that joins it are out.</summary>
    public bool IsPossible { get; private init; } = true;

    public required BoolVar Used { get; init; }

    public required TimeExpression Start { get; init; }

    public required TimeExpression End { get; init; }

    public required IntVar Duration { get; init; }

    public required int ShortestDuration { get; init; }

    public required int LongestDuration { get; init; }

    /// <summary>Each crew with the literal that says that it does the batch.</summary>
    public required List<(Crew Crew, BoolVar Does, List<Window> Stretches)> Crews { get; init; }

    /// <summary>Literals of the modes that join; null stands for a mode that is always chosen.</summary>
    public List<ILiteral?> Members { get; } = [];

    /// <summary>The modes that join, each with its literal; null stands for one that is always chosen.</summary>
    public List<(Mode Mode, ILiteral? Chosen)> Modes { get; } = [];

    /// <summary>Work of the members, without set-up.</summary>
    public List<LinearExpr> Work { get; } = [];

    /// <summary>Load of the members.</summary>
    public List<LinearExpr> Load { get; } = [];

    /// <param name="model">Where the variables are added.</param>
    /// <param name="project">The project.</param>
    /// <param name="calendar">Its calendars.</param>
    /// <param name="data">The batch.</param>
    /// <param name="joins">Work of each mode that joins the batch, by activity.</param>
    public static BatchVariables Create(HintedModel model, Project project, Calendar calendar, Batch data, IReadOnlyList<(ActivityId Activity, int Work)> joins)
    {
        int step = project.StartStep;
        var shares = new Dictionary<ActivityId, int>();
        foreach ((ActivityId activity, int work) in joins)
            shares[activity] = Math.Max(work, shares.GetValueOrDefault(activity));
        int leastWork = joins.Count == 0 ? 0 : joins.Min(j => j.Work);
        int shortest = data.Setup + leastWork;
        long longest = Math.Min(data.Setup + Math.Min(shares.Values.Sum(w => (long)w), data.MaxWork ?? int.MaxValue), project.Horizon);
        var stretches = data.Crews.IsEmpty
            ? [calendar.Common([])]
            : data.Crews.Select(c => calendar.Common(c.Demands)).ToList();

        MinuteSet starts = calendar.Starts(stretches.SelectMany(s => s), shortest, data.Starts);
        bool possible = !starts.IsEmpty && shortest <= longest && shares.Count > 0;
        if (!possible)
            starts = new MinuteSet(step, [(0, 0)]);
        longest = Math.Max(shortest, Math.Min(longest, stretches.SelectMany(s => s).Select(w => w.To - w.From).DefaultIfEmpty(0).Max()));
        MinuteSet ends = possible ? Ends(project, data, calendar, stretches, shortest, (int)longest, joins) : new MinuteSet(1, [(shortest, shortest)]);

        string name = data.Id.Value;
        PlannedBatch? Planned(HintValues h) => h.Schedule.Find(data.Id);
        BoolVar used = model.Bool(h => Planned(h)?.Used);
        IntVar start = model.Int(Domain.FromFlatIntervals(starts.Intervals(step)), h => Planned(h) is { Used: true } p ? p.Start / step : starts.Min / step);
        IntVar duration = model.Int(shortest, longest, h => Planned(h) is { Used: true } p ? p.End - p.Start : shortest);
        IntVar end = model.Int(Domain.FromFlatIntervals([.. ends.Ranges.SelectMany(r => new[] { (long)r.First, r.Last })]), h => Planned(h) is { Used: true } p ? p.End : ends.Min);
        List<BoolVar> does = data.Crews.Length == 1
            ? [used]
            : [.. data.Crews.Select(c => model.Bool(h => Planned(h) is { } p ? p.Crew == c.Id : null))];
        return new BatchVariables(data)
        {
            IsPossible = possible,
            Used = used,
            Start = new TimeExpression(start, step, 0, starts),
            End = new TimeExpression(end, 1, 0, ends),
            Duration = duration,
            ShortestDuration = shortest,
            LongestDuration = (int)longest,
            Crews = [.. data.Crews.Zip(does, stretches).Select(x => (x.First, x.Second, x.Third))],
        };
    }

    private static MinuteSet Ends(
        Project project, Batch data, Calendar calendar, List<List<Window>> stretches, int shortest, int longest, IReadOnlyList<(ActivityId Activity, int Work)> joins)
    {
        int step = joins.Select(j => j.Work).Append(project.StartStep).Aggregate(Divisor);
        var ends = new List<(int, int)>();
        foreach (Window stretch in stretches.SelectMany(s => s))
        {
            MinuteSet starts = calendar.Starts([stretch], shortest, data.Starts);
            foreach ((int first, int last) in starts.Ranges)
                ends.Add((first + shortest, first + shortest + MinuteSet.RoundDown(Math.Min(stretch.To, last + longest) - first - shortest, step)));
        }

        return new MinuteSet(step, ends);
    }

    private static int Divisor(int a, int b) => b == 0 ? a : Divisor(b, a % b);
}
