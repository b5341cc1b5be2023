using Google.OrTools.Sat;
using Google.OrTools.Util;

namespace Seamwright.Scheduling.Solving;

/// <summary>
/// The part of the model that stands for one activity, or for several identical ones: those are counted per mode, because
/// telling them apart makes proofs slower by an order of magnitude.
/// </summary>
internal sealed class ActivityVariables
{
    private ActivityVariables(List<Activity> members) => Members = members;

    public List<Activity> Members { get; }

    public Activity Data => Members[0];

    public int Count => Members.Count;

    /// <summary>Null: always present.</summary>
    public required ILiteral? Present { get; init; }

    /// <summary>One entry per mode: at least one member chooses it. Null: always.</summary>
    public required ILiteral?[] Chosen { get; init; }

    /// <summary>One entry per mode: how many members choose it.</summary>
    public required LinearExpr[] Counts { get; init; }

    /// <summary>One entry per mode: its batch, or null for a mode with a time of its own.</summary>
    public required BatchVariables?[] Batches { get; init; }

    /// <summary>One entry per mode: its own possible starts; empty for a mode in a batch or a mode that cannot be chosen.</summary>
    public required MinuteSet[] Starts { get; init; }

    /// <summary>Start variable of the modes outside batches, on the grid; null if there is none.</summary>
    public required IntVar? Start { get; init; }

    public required int StartStep { get; init; }

    public bool IsPossible(int mode) => Batches[mode] is { } batch ? batch.IsPossible : !Starts[mode].IsEmpty;

    public static ActivityVariables Create(
        HintedModel model, Project project, Calendar calendar, List<Activity> members, Dictionary<BatchId, BatchVariables> batches, int? latestStart)
    {
        Activity data = members[0];
        int step = project.StartStep;
        BatchVariables?[] inBatch = [.. data.Modes.Select(m => m.Batch is { } b ? batches[b] : null)];
        MinuteSet[] starts = [.. data.Modes.Select(m => m.Batch is null
            ? calendar.Starts(calendar.Common(m.Demands), m.Duration, m.Starts).Between(0, latestStart ?? int.MaxValue)
            : new MinuteSet(step, []))];
        BoolVar? present = data.PresentWhen.IsEmpty
            ? null
            : model.Bool(h => h.Schedule.Find(data.Id)?.Present);

        var chosen = new ILiteral?[data.Modes.Length];
        var counts = new LinearExpr[data.Modes.Length];
        for (int k = 0; k < data.Modes.Length; k++)
            (chosen[k], counts[k]) = Choice(model, members, k, present);

        MinuteSet any = new(step, starts.SelectMany(s => s.Ranges));
        IntVar? start = any.IsEmpty
            ? null
            : model.Int(Domain.FromFlatIntervals(any.Intervals(step)), h => h.Schedule.Find(data.Id) is { Present: true, Batch: null } p ? p.Start / step : any.Min / step);
        var variables = new ActivityVariables(members)
        {
            Present = present,
            Chosen = chosen,
            Counts = counts,
            Batches = inBatch,
            Starts = starts,
            Start = start,
            StartStep = step,
        };
        variables.State(model, any);
        return variables;
    }

    /// <summary>The points in time that an edge can be, each with the literal that says that it is this one.</summary>
    public IEnumerable<(TimeExpression Time, ILiteral? Applies, BatchVariables? Batch)> Points(HintedModel model, Edge edge, IReadOnlyCollection<int>? modes = null)
    {
        int[] listed = [.. Enumerable.Range(0, Chosen.Length).Where(k => IsPossible(k) && (modes is null || modes.Contains(k)))];
        foreach (var own in listed.Where(k => Batches[k] is null).GroupBy(k => edge == Edge.Start ? 0 : Data.Modes[k].Duration))
        {
            MinuteSet possible = new MinuteSet(StartStep, own.SelectMany(k => Starts[k].Ranges)).Shift(own.Key);
            yield return (new TimeExpression(Start!, StartStep, own.Key, possible), Either(model, [.. own]), null);
        }

        foreach (var joined in listed.Where(k => Batches[k] is not null).GroupBy(k => Batches[k]!))
            yield return (edge == Edge.Start ? joined.Key.Start : joined.Key.End, Either(model, [.. joined]), joined.Key);
    }

    /// <summary>The numbers of some modes of one member; no ids means all modes.</summary>
    public int[] Numbers(ActivityId member, IReadOnlyCollection<ModeId> ids)
    {
        Activity named = Members.First(m => m.Id == member);
        return [.. Enumerable.Range(0, named.Modes.Length).Where(k => ids.Count == 0 || ids.Contains(named.Modes[k].Id))];
    }

    /// <summary>True if one of the modes is chosen. Null: always.</summary>
    public ILiteral? Either(HintedModel model, int[] modes)
    {
        int possible = Enumerable.Range(0, Chosen.Length).Count(IsPossible);
        if (modes.Count(IsPossible) == possible && possible > 0)
            return Present;
        return model.AnyOf(modes.Select(k => Chosen[k]));
    }

    private static (ILiteral? Chosen, LinearExpr Count) Choice(HintedModel model, List<Activity> members, int k, BoolVar? present)
    {
        Activity data = members[0];
        if (data.Modes.Length == 1)
            return present is null ? (null, LinearExpr.Constant(members.Count)) : (present, present);

        // Members of a group number their modes alike, though the ids may differ.
        long? Choosing(HintValues h)
        {
            long number = 0;
            foreach (Activity member in members)
            {
                if (h.Schedule.Find(member.Id) is not { } planned)
                    return null;
                number += planned.Present && planned.Mode == member.Modes[k].Id ? 1 : 0;
            }

            return number;
        }

        BoolVar chosen = model.Bool(h => Choosing(h) is { } n ? n > 0 : null);
        if (members.Count == 1)
            return (chosen, chosen);
        IntVar count = model.Int(0, members.Count, Choosing);
        model.Model.Add(count >= chosen);
        model.Model.Add(count <= members.Count * chosen);
        return (chosen, count);
    }

    private void State(HintedModel model, MinuteSet any)
    {
        if (Chosen.Length > 1)
            model.Model.Add(LinearExpr.Sum(Counts) == (Present is null ? LinearExpr.Constant(Count) : (LinearExpr)(BoolVar)Present));
        for (int k = 0; k < Chosen.Length; k++)
        {
            if (!IsPossible(k))
                model.Forbid(Chosen[k] is { } impossible ? [impossible] : []);
            else if (Batches[k] is null && !Starts[k].SameAs(any) && Chosen[k] is { } chosen)
                model.Model.AddLinearExpressionInDomain(Start!, Domain.FromFlatIntervals(Starts[k].Intervals(StartStep))).OnlyEnforceIf(chosen);
        }
    }
}
