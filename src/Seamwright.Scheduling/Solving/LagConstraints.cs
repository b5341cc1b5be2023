using System.Globalization;
using Google.OrTools.Sat;
using Google.OrTools.Util;

namespace Seamwright.Scheduling.Solving;

/// <summary>
/// Time lags and conditional windows. Lags of several activities that join the same batch are one lag of the batch: fifteen
/// members with the same delay need its pieces once, not fifteen times.
/// </summary>
internal static class LagConstraints
{
    private sealed record Side(TimeExpression Time, ILiteral? Applies, BatchVariables? Batch);

    private sealed record Joined(Side From, Side To, Lag Lag, List<(ILiteral? From, ILiteral? To)> When);

    public static void Add(ProjectModel model)
    {
        foreach (Joined lag in Join(model))
        {
            foreach ((ILiteral? from, ILiteral? to) in Merge(model.Hinted, lag))
                State(model, lag, from, to);
        }

        foreach (ConditionalWindow window in model.Project.ConditionalWindows)
            State(model, window);
    }

    private static List<Joined> Join(ProjectModel model)
    {
        var joined = new Dictionary<(object, object, LagKind, object), Joined>();
        foreach (Lag lag in model.Project.Lags)
        {
            foreach (Side from in Sides(model, lag.From, lag.FromModes))
            {
                foreach (Side to in Sides(model, lag.To, lag.ToModes))
                {
                    var key = ((object)from.Time.Key, (object)to.Time.Key, lag.Kind, DelayKey(lag.Delay));
                    if (!joined.TryGetValue(key, out Joined? known))
                        joined[key] = known = new Joined(from, to, lag, []);
                    known.When.Add((from.Applies, to.Applies));
                }
            }
        }

        return [.. joined.Values];
    }

    private static object DelayKey(Delay delay) => delay is Delay.ByTime { Function: var function } ? function : delay;

    private static IEnumerable<Side> Sides(ProjectModel model, TimePoint point, IReadOnlyCollection<ModeId> modes)
    {
        if (point.Batch is { } id)
        {
            BatchVariables batch = model.Batches[id];
            if (batch.IsPossible)
                yield return new Side(point.Edge == Edge.Start ? batch.Start : batch.End, batch.Used, batch);
            yield break;
        }

        ActivityVariables activity = model.Activities[point.Activity!.Value];
        foreach ((TimeExpression time, ILiteral? applies, BatchVariables? inBatch) in
                 activity.Points(model.Hinted, point.Edge, activity.Numbers(point.Activity!.Value, modes)))
            yield return new Side(time, applies, inBatch);
    }

    private static List<(ILiteral? From, ILiteral? To)> Merge(HintedModel model, Joined lag)
    {
        var byTo = lag.When.GroupBy(w => Key(w.To)).Select(g => (From: Either(model, lag.From.Batch, g.Select(w => w.From)), g.First().To));
        return byTo.GroupBy(w => Key(w.From)).Select(g => (g.First().From, To: Either(model, lag.To.Batch, g.Select(w => w.To)))).ToList();
    }

    private static int? Key(ILiteral? literal) => literal?.GetIndex();

    private static ILiteral? Either(HintedModel model, BatchVariables? batch, IEnumerable<ILiteral?> literals)
    {
        List<ILiteral?> distinct = [.. literals.DistinctBy(Key)];
        if (distinct.Contains(null))
            return null;
        if (batch is not null)
        {
            var keys = distinct.Select(Key).ToHashSet();
            if (keys.Contains(batch.Used.GetIndex()) || batch.Members.TrueForAll(m => keys.Contains(Key(m))))
                return batch.Used;
        }

        return model.AnyOf(distinct);
    }

    private static void State(ProjectModel model, Joined lag, ILiteral? from, ILiteral? to)
    {
        var constraint = new DelayConstraint(model, lag.From.Time, lag.To.Time, [from, to]);
        switch (lag.Lag.Delay, lag.Lag.Kind)
        {
            case (Delay.Fixed { Minutes: var minutes }, LagKind.Minimum):
                constraint.AtLeast(minutes);
                break;
            case (Delay.Fixed { Minutes: var minutes }, _):
                constraint.AtMost(minutes);
                break;
            case (Delay.ByTime { Function: var function }, LagKind.Minimum):
                constraint.AtLeast(function);
                break;
            case (Delay.ByTime { Function: var function }, _):
                constraint.AtMost(function);
                break;
            default:
                throw new InvalidOperationException(string.Create(CultureInfo.InvariantCulture, $"Unknown delay {lag.Lag.Delay}."));
        }
    }

    private static void State(ProjectModel model, ConditionalWindow window)
    {
        ActivityVariables other = model.Activities[window.WhenActivity];
        ILiteral? when = other.Either(model.Hinted, other.Numbers(window.WhenActivity, window.WhenModes));
        foreach ((TimeExpression time, ILiteral? applies, _) in model.Activities[window.Activity].Points(model.Hinted, Edge.Start))
        {
            MinuteSet allowed = Calendar.Inside(time.Possible, window.Windows);
            if (allowed.IsEmpty)
                model.Hinted.Forbid([.. new[] { when, applies }.Where(l => l is not null).Select(l => l!)]);
            else if (!allowed.SameAs(time.Possible))
                model.Model.AddLinearExpressionInDomain(time.Variable, Domain.FromFlatIntervals(allowed.Intervals(time.Scale))).When(when, applies);
        }
    }
}
