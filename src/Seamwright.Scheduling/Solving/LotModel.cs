using Google.OrTools.Sat;
using Google.OrTools.Util;

namespace Seamwright.Scheduling.Solving;

/// <summary>Every consumption is covered by lots that serve it and are usable when it happens; paid lots only if it pays.</summary>
internal sealed class LotModel
{
    /// <summary>Consumption of one consumable at one start: of everything that joins a batch, or of one activity on its own.</summary>
    private sealed record Draw(ConsumableId Consumable, TimeExpression Start, List<LinearExpr> Amounts, HashSet<ActivityId> Activities, BatchId? Batch)
    {
        public long Most { get; set; }
    }

    private readonly ProjectModel model;
    private readonly Dictionary<LotId, BoolVar> paid = [];

    private LotModel(ProjectModel model) => this.model = model;

    public static LotModel Add(ProjectModel model)
    {
        var lots = new LotModel(model);
        List<Draw> draws = lots.Draws();
        HashSet<ConsumableId> plenty = lots.Plentiful(draws);
        draws.RemoveAll(d => plenty.Contains(d.Consumable));
        if (draws.Count > 0)
            lots.Cover(draws);
        return lots;
    }

    /// <summary>Lots that the solution may draw on: free ones, and those it pays for.</summary>
    public bool MayUse(Lot lot, CpSolver solver) =>
        IsFree(lot) || (paid.TryGetValue(lot.Id, out BoolVar? used) && solver.BooleanValue(used));

    private bool IsFree(Lot lot) => lot.Cost == 0 && (lot.Unlock is not { } unlock || model.Project.Unlocks.First(u => u.Id == unlock).Cost == 0);

    private List<Draw> Draws()
    {
        var draws = new Dictionary<(int Variable, BatchId? Batch, ConsumableId Consumable), Draw>();
        Draw At(TimeExpression start, BatchId? batch, ConsumableId consumable)
        {
            var key = (start.Variable.GetIndex(), batch, consumable);
            if (!draws.TryGetValue(key, out Draw? draw))
                draws[key] = draw = new Draw(consumable, start, [], [], batch);
            return draw;
        }

        foreach (ActivityVariables activity in model.Groups)
        {
            var most = new Dictionary<Draw, long>();
            for (int k = 0; k < activity.Chosen.Length; k++)
            {
                if (!activity.IsPossible(k))
                    continue;
                foreach (Consumption consumption in activity.Data.Modes[k].Consumes.Where(c => c.Amount > 0))
                {
                    Draw draw = activity.Batches[k] is { } batch
                        ? At(batch.Start, batch.Data.Id, consumption.Consumable)
                        : At(activity.Points(model.Hinted, Edge.Start).First(p => p.Batch is null).Time, null, consumption.Consumable);
                    draw.Amounts.Add(activity.Counts[k] * consumption.Amount);
                    draw.Activities.UnionWith(activity.Members.Select(m => m.Id));
                    most[draw] = Math.Max(most.GetValueOrDefault(draw), (long)consumption.Amount * activity.Count);
                }
            }

            foreach ((Draw draw, long amount) in most)
                draw.Most += amount;
        }

        foreach (BatchVariables batch in model.Batches.Values.Where(b => b.IsPossible))
        {
            foreach (Consumption consumption in batch.Data.Consumes.Where(c => c.Amount > 0))
            {
                Draw draw = At(batch.Start, batch.Data.Id, consumption.Consumable);
                draw.Amounts.Add(batch.Used * consumption.Amount);
                draw.Most += consumption.Amount;
            }
        }

        return [.. draws.Values];
    }

    /// <summary>Consumables that free lots cover whatever is decided; nothing has to be said about them.</summary>
    private HashSet<ConsumableId> Plentiful(List<Draw> draws)
    {
        ConsumableId[] consumables = [.. model.Project.Consumables.Select(c => c.Id)];
        Lot[] free = [.. model.Project.Lots.Where(IsFree)];
        var plenty = new HashSet<ConsumableId>();
        foreach (ConsumableId[] together in Connected(consumables))
        {
            long[] worst = [.. together.Select(WorstCase)];
            if (worst.Any(w => w > int.MaxValue))
                continue;
            bool Always(int c, int lot) =>
                free[lot].Serves.Contains(together[c])
                && draws.Where(d => d.Consumable == together[c]).All(d => free[lot].Usable.Contains(d.Start.Possible.Min) && free[lot].Usable.Contains(d.Start.Possible.Max));
            if (Transport.Fill([.. worst.Select(w => (int)w)], [.. free.Select(l => l.Amount)], Always) is not null)
                plenty.UnionWith(together);
        }

        return plenty;
    }

    private long WorstCase(ConsumableId consumable)
    {
        long Amount(IEnumerable<Consumption> consumes) => consumes.Where(c => c.Consumable == consumable).Sum(c => (long)c.Amount);
        return model.Project.Activities.Sum(a => a.Modes.Max(m => Amount(m.Consumes))) + model.Project.Batches.Sum(b => Amount(b.Consumes));
    }

    /// <summary>Consumables linked by lots that serve several of them.</summary>
    private IEnumerable<ConsumableId[]> Connected(ConsumableId[] consumables)
    {
        var head = consumables.ToDictionary(c => c, c => c);
        foreach (Lot lot in model.Project.Lots)
        {
            foreach (ConsumableId served in lot.Serves.Skip(1))
            {
                (ConsumableId old, ConsumableId now) = (head[served], head[lot.Serves[0]]);
                foreach (ConsumableId moved in consumables.Where(c => head[c] == old))
                    head[moved] = now;
            }
        }

        return consumables.GroupBy(c => head[c]).Select(g => g.ToArray());
    }

    private void Cover(List<Draw> draws)
    {
        var taken = model.Project.Lots.ToDictionary(l => l.Id, _ => new List<IntVar>());
        foreach (Draw draw in draws)
        {
            var parts = new List<IntVar>();
            foreach (Lot lot in model.Project.Lots.Where(l => l.Serves.Contains(draw.Consumable)))
            {
                if (Part(draw, lot) is not { } part)
                    continue;
                parts.Add(part);
                taken[lot.Id].Add(part);
            }

            model.Model.Add(LinearExpr.Sum(parts) == LinearExpr.Sum(draw.Amounts));
        }

        foreach (Lot lot in model.Project.Lots.Where(l => taken[l.Id].Count > 0))
            Limit(lot, taken[lot.Id]);
    }

    private IntVar? Part(Draw draw, Lot lot)
    {
        MinuteSet inTime = Calendar.Inside(draw.Start.Possible, [lot.Usable]);
        long most = Math.Min(draw.Most, lot.Amount);
        if (inTime.IsEmpty || most == 0)
            return null;
        long Planned(HintValues h) => h.Schedule.Covers
            .Where(c => c.Lot == lot.Id && c.Consumable == draw.Consumable
                && (c.Activity is { } a ? draw.Activities.Contains(a) && h.Schedule.Find(a)?.Batch == draw.Batch : c.Batch == draw.Batch))
            .Sum(c => (long)c.Amount);
        IntVar part = model.Hinted.Int(0, most, h => Planned(h));
        if (!inTime.SameAs(draw.Start.Possible))
        {
            BoolVar drawn = model.Hinted.Bool(h => Planned(h) > 0);
            model.Model.Add(part <= most * drawn);
            model.Model.AddLinearExpressionInDomain(draw.Start.Variable, Domain.FromFlatIntervals(inTime.Intervals(draw.Start.Scale))).OnlyEnforceIf(drawn);
        }

        if (!IsFree(lot))
            model.Model.Add(part <= most * Paid(lot));
        return part;
    }

    private void Limit(Lot lot, List<IntVar> parts)
    {
        LinearExpr total = LinearExpr.Sum(parts);
        if (IsFree(lot))
            model.Model.Add(total <= lot.Amount);
        else
            model.Model.Add(total <= lot.Amount * Paid(lot));
    }

    private BoolVar Paid(Lot lot)
    {
        if (paid.TryGetValue(lot.Id, out BoolVar? known))
            return known;
        BoolVar used = model.Hinted.Bool(h => h.Schedule.Covers.Any(c => c.Lot == lot.Id));
        model.AddCost(used, lot.Cost);
        if (lot.Unlock is { } unlock)
            model.Model.AddImplication(used, Unlocked(unlock));
        return paid[lot.Id] = used;
    }

    private readonly Dictionary<UnlockId, BoolVar> unlocked = [];

    private BoolVar Unlocked(UnlockId id)
    {
        if (unlocked.TryGetValue(id, out BoolVar? known))
            return known;
        BoolVar paidFor = model.Hinted.Bool(h => h.Schedule.Unlocked.Contains(id));
        model.AddCost(paidFor, model.Project.Unlocks.First(u => u.Id == id).Cost);
        return unlocked[id] = paidFor;
    }
}
