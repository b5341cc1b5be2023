using Google.OrTools.Sat;
using Google.OrTools.Util;

namespace Seamwright.Scheduling.Solving;

/// <summary>A batch is used if chosen, lasts as long as its members need, and lies inside one open stretch of its crew.</summary>
internal static class BatchConstraints
{
    public static void Add(ProjectModel model)
    {
        foreach (BatchVariables batch in model.Batches.Values)
        {
            Use(model.Model, batch);
            if (!batch.IsPossible)
                continue;
            Length(model.Model, batch);
            Crew(model, batch);
            Stretches(model, batch);
            Starts(model, batch);
            if (batch.Data.LatestEnd is { } latest)
                LatestEnd(model, batch, latest);
        }
    }

    private static void Use(CpModel model, BatchVariables batch)
    {
        if (!batch.IsPossible)
        {
            model.AddBoolAnd([batch.Used.Not()]);
            foreach (ILiteral? member in batch.Members)
                model.AddBoolAnd(member is null ? [batch.Used] : [member.Not()]);
            return;
        }

        // One implication per member instead of their sum: this is what makes the relaxation pay whole set-ups.
        foreach (ILiteral? member in batch.Members)
        {
            if (member is null)
                model.AddBoolAnd([batch.Used]);
            else
                model.AddImplication(member, batch.Used);
        }

        if (batch.Members.TrueForAll(m => m is not null))
            model.AddBoolOr([.. batch.Members.Select(m => m!), batch.Used.Not()]);
    }

    private static void Length(CpModel model, BatchVariables batch)
    {
        LinearExpr work = LinearExpr.Sum(batch.Work);
        model.Add(batch.Duration == work + batch.Data.Setup).OnlyEnforceIf(batch.Used);
        model.Add(batch.Start.Minutes + batch.Duration == batch.End.Minutes).OnlyEnforceIf(batch.Used);
        int fits = batch.LongestDuration - batch.Data.Setup;
        model.Add(work <= fits * batch.Used);
        if (batch.Data.MaxLoad is { } most && batch.Load.Count > 0)
            model.Add(LinearExpr.Sum(batch.Load) <= most * batch.Used);
    }

    private static void Crew(ProjectModel model, BatchVariables batch)
    {
        model.AddCost(batch.Used, batch.Data.Cost);
        if (batch.Crews.Count == 0)
            return;
        if (batch.Crews.Count > 1)
            model.Model.Add(LinearExpr.Sum(batch.Crews.Select(c => c.Does)) == batch.Used);

        long cheapest = batch.Crews.Min(c => c.Crew.CostPerMinute);
        model.AddCost(LinearExpr.Sum(batch.Work) * cheapest);
        model.AddCost(batch.Used, batch.Data.Setup * cheapest);
        foreach ((Crew crew, BoolVar does, _) in batch.Crews)
        {
            model.AddCost(does, crew.Cost);
            if (crew.CostPerMinute > cheapest)
                model.AddCost(DurationBy(model, batch, crew, does) * (crew.CostPerMinute - cheapest));
        }
    }

    /// <summary>The length of the batch if this crew does it, otherwise 0.</summary>
    private static IntVar DurationBy(ProjectModel model, BatchVariables batch, Crew crew, BoolVar does)
    {
        IntVar by = model.Hinted.Int(0, batch.LongestDuration, h => h.Schedule.Find(batch.Data.Id) is { } p ? (p.Used && p.Crew == crew.Id ? p.End - p.Start : 0) : null);
        LinearExpr duration = LinearExpr.Sum(batch.Work) + batch.Data.Setup;
        model.Model.Add(by >= duration).OnlyEnforceIf(does);
        return by;
    }

    private static void Stretches(ProjectModel model, BatchVariables batch)
    {
        if (batch.Crews.Count == 0)
            return;
        foreach (var same in batch.Crews.GroupBy(c => string.Join(";", c.Stretches)))
        {
            ILiteral works = same.Count() == batch.Crews.Count ? batch.Used : model.Hinted.AnyOf(same.Select(c => c.Does))!;
            List<Window> stretches = same.First().Stretches;
            var fitting = stretches
                .Select(w => (Window: w, Starts: model.Calendar.Starts([w], batch.ShortestDuration, batch.Data.Starts)))
                .Where(f => !f.Starts.IsEmpty).ToList();
            if (fitting.Count == 0)
            {
                model.Model.AddBoolAnd([works.Not()]);
                continue;
            }

            var inside = new List<ILiteral>();
            foreach ((Window window, MinuteSet starts) in fitting)
            {
                // A short stretch that every possible batch fills alone still needs its end, hence no shortcut for one stretch.
                ILiteral here = fitting.Count == 1 ? works : model.Hinted.Bool(h => h.True(works) && batch.Start.Hinted(h) is { } s ? window.From <= s && s < Math.Max(window.To, window.From + 1) : false);
                inside.Add(here);
                model.Model.AddLinearConstraint(batch.Start.Minutes, starts.Min, starts.Max).OnlyEnforceIf(here);
                model.Model.Add(batch.End.Minutes <= window.To).OnlyEnforceIf(here);
            }

            if (fitting.Count > 1)
                model.Model.Add(LinearExpr.Sum(inside.Cast<BoolVar>()) == LinearExpr.Term(works, 1));
        }
    }

    private static void Starts(ProjectModel model, BatchVariables batch)
    {
        foreach ((Mode mode, ILiteral? chosen) in batch.Modes)
        {
            if (mode.Starts.IsEmpty)
                continue;
            MinuteSet allowed = Calendar.Inside(batch.Start.Possible, mode.Starts);
            if (allowed.IsEmpty)
                model.Model.AddBoolAnd(chosen is not null ? [chosen.Not()] : [batch.Used.Not()]);
            else if (!allowed.SameAs(batch.Start.Possible))
                model.Model.AddLinearExpressionInDomain(batch.Start.Variable, Domain.FromFlatIntervals(allowed.Intervals(batch.Start.Scale))).When(chosen);
        }
    }

    private static void LatestEnd(ProjectModel model, BatchVariables batch, TimeFunction latest)
    {
        Window[] stretches = [.. batch.Crews.SelectMany(c => c.Stretches).Distinct()];

        // Where even the longest batch, or one up to the end of its stretch, would be in time, nothing has to be said.
        int Enough(int start)
        {
            int stretchEnd = -1;
            foreach (Window stretch in stretches)
            {
                if (stretch.From <= start && start <= stretch.To)
                    stretchEnd = Math.Max(stretchEnd, stretch.To);
            }

            return stretchEnd < 0 ? start + batch.LongestDuration : Math.Min(start + batch.LongestDuration, stretchEnd);
        }

        new DelayConstraint(model, batch.Start, batch.End, [batch.Used]).AtMost(latest, Enough);
    }
}
