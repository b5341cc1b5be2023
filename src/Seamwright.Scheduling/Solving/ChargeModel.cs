using Google.OrTools.Sat;

namespace Seamwright.Scheduling.Solving;

/// <summary>Money in steps of time. Steps that a mode decides by itself become part of its cost; each other step is one literal.</summary>
internal static class ChargeModel
{
    public static void Add(ProjectModel model)
    {
        foreach (Charge charge in model.Project.Charges)
            Add(model, charge);
    }

    private static void Add(ProjectModel model, Charge charge)
    {
        ActivityVariables activity = model.Activities[charge.Activity];
        var points = Points(model.Hinted, activity, charge.Edge).ToList();
        long paid = 0;
        foreach (Step step in charge.Amount.Steps)
        {
            long more = step.Amount - paid;
            paid = step.Amount;
            if (more == 0)
                continue;
            var open = new List<(TimeExpression Time, ILiteral? Applies)>();
            foreach ((TimeExpression time, ILiteral? applies) in points)
            {
                if (time.Possible.Min >= step.From)
                    model.AddCost(applies, more);
                else if (time.Possible.Max >= step.From)
                    open.Add((time, applies));
            }

            if (open.Count > 0)
                model.AddCost(Reached(model, open, step.From), more);
        }
    }

    /// <summary>One entry per mode with its own possible times, so that fixed slots decide their charge without a literal.</summary>
    private static IEnumerable<(TimeExpression Time, ILiteral? Applies)> Points(HintedModel model, ActivityVariables activity, Edge edge)
    {
        bool alike = activity.Starts.All(s => s.SameAs(activity.Starts[0]));
        if (alike)
            return activity.Points(model, edge).Select(p => (p.Time, p.Applies));
        return Enumerable.Range(0, activity.Chosen.Length)
            .SelectMany(k => activity.Points(model, edge, [k]))
            .Select(p => (p.Time, p.Applies));
    }

    private static BoolVar Reached(ProjectModel model, List<(TimeExpression Time, ILiteral? Applies)> points, int minute)
    {
        BoolVar reached = model.Hinted.Bool(h => points.Any(p => (p.Applies is null || h.True(p.Applies)) && p.Time.Hinted(h) >= minute));
        foreach ((TimeExpression time, ILiteral? applies) in points)
            model.Model.Add(time.Minutes <= minute - 1).When(reached.Not(), applies);
        return reached;
    }
}
