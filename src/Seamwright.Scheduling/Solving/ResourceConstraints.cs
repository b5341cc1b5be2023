using Google.OrTools.Sat;

namespace Seamwright.Scheduling.Solving;

/// <summary>No resource is demanded beyond its capacity. Calendars are not looked at here: starts already keep to them.</summary>
internal static class ResourceConstraints
{
    public static void Add(ProjectModel model)
    {
        var work = new Dictionary<ResourceId, List<(IntervalVar Interval, int Units)>>();
        foreach (Resource resource in model.Project.Resources)
            work[resource.Id] = [];
        foreach (ActivityVariables activity in model.Groups)
            AddActivity(model, activity, work);
        foreach (BatchVariables batch in model.Batches.Values.Where(b => b.IsPossible))
            AddBatch(model, batch, work);

        foreach (Resource resource in model.Project.Resources)
        {
            List<(IntervalVar Interval, int Units)> items = work[resource.Id];
            if (items.Sum(i => (long)i.Units) <= resource.Capacity)
                continue;
            if (items.TrueForAll(i => 2 * i.Units > resource.Capacity))
            {
                model.Model.AddNoOverlap(items.Select(i => i.Interval));
                continue;
            }

            CumulativeConstraint cumulative = model.Model.AddCumulative(resource.Capacity);
            foreach ((IntervalVar interval, int units) in items)
                cumulative.AddDemand(interval, units);
        }
    }

    private static void AddActivity(ProjectModel model, ActivityVariables activity, Dictionary<ResourceId, List<(IntervalVar, int)>> work)
    {
        // Modes that take as long need one interval together, not one each.
        var own = Enumerable.Range(0, activity.Chosen.Length).Where(k => activity.Batches[k] is null && activity.IsPossible(k));
        foreach (var same in own.Where(k => activity.Data.Modes[k].Duration > 0).GroupBy(k => activity.Data.Modes[k].Duration))
        {
            var demands = same
                .SelectMany(k => activity.Data.Modes[k].Demands, (k, demand) => (Mode: k, demand.Resource, demand.Units))
                .GroupBy(d => (d.Resource, d.Units));
            foreach (var demand in demands)
            {
                IntervalVar interval = Interval(model.Model, activity, same.Key, activity.Either(model.Hinted, [.. demand.Select(d => d.Mode)]));
                work[demand.Key.Resource].Add((interval, demand.Key.Units));
            }
        }
    }

    private static IntervalVar Interval(CpModel model, ActivityVariables activity, int duration, ILiteral? present)
    {
        LinearExpr start = LinearExpr.Affine(activity.Start!, activity.StartStep, 0);
        return present is null
            ? model.NewFixedSizeIntervalVar(start, duration, "work")
            : model.NewOptionalFixedSizeIntervalVar(start, duration, present, "work");
    }

    private static void AddBatch(ProjectModel model, BatchVariables batch, Dictionary<ResourceId, List<(IntervalVar, int)>> work)
    {
        if (batch.LongestDuration == 0)
            return;
        var demands = batch.Crews
            .SelectMany(c => c.Crew.Demands, (c, demand) => (c.Does, demand.Resource, demand.Units))
            .GroupBy(d => (d.Resource, d.Units));
        foreach (var demand in demands)
        {
            ILiteral present = demand.Count() == batch.Crews.Count ? batch.Used : model.Hinted.AnyOf(demand.Select(d => d.Does))!;
            IntervalVar interval = model.Model.NewOptionalIntervalVar(batch.Start.Minutes, batch.Duration, batch.End.Minutes, present, "batch");
            work[demand.Key.Resource].Add((interval, demand.Key.Units));
        }
    }
}
