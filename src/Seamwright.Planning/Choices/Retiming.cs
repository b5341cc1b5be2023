using NodaTime;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Planning.Mapping;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Shops;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Choices;

/// <summary>
/// Another material on one joint with the rest of the plan left where it is: the joint leaves its session and goes into the first gap of
/// somebody who seals. A quick answer, marked as such; planning again can only be better.
/// </summary>
internal sealed class Retiming
{
    private readonly PlanningCase _planning;
    private readonly Found _found;
    private readonly Plan _plan;
    private readonly Shop _shop;

    public Retiming(PlanningCase planning, Found found, Plan plan) => (_planning, _found, _plan, _shop) = (planning, found, plan, planning.Shop);

    public Consequence? With(JointPlan current, JointFacts facts, MaterialId material)
    {
        var option = facts.Options
            .Where(option => option.Sheet.Id == material && option.Admissible && !(option.CoatWindow is [var window] && window.From < 0))
            .OrderBy(option => option.Preparation)
            .FirstOrDefault();
        var planned = _found.Schedule.Find(new ActivityId($"seal:{current.Joint}"));
        if (option is null || planned is not { Present: true, Batch: { } batch } || _planning.Application.For(option.Sheet).IsEmpty)
            return null;

        int setUp = SetUp(option.Sheet);
        int earliest = Math.Max(EarliestAfterPreparation(planned, current, option), SupplyMinute(option));
        if (Gap(planned, current, batch, option, earliest, setUp + option.Work) is not { } start)
            return null;
        int end = start + setUp + option.Work;
        int ready = Math.Max(ReadyWithout(current.Joint), option.Ready?.At(end) ?? end);
        var (slot, costOfTime) = Slot(ready, option.PaintBy?.At(end) ?? int.MaxValue);
        var money = MaterialMoney(option, joint: current) + costOfTime;
        var at = _planning.Time.At(Math.Min(ready, 10_000_000));
        return new Consequence(at, at - _plan.ReadyForPaint, money, slot, Resolved: false);
    }

    /// <summary>When the surface is ready for this way of doing the joint.</summary>
    private int EarliestAfterPreparation(PlannedActivity planned, JointPlan current, JointOption option)
    {
        int bound = ActiveLags.Into(_found, TimePoint.StartOf(planned.Id)).Select(lag => lag.Earliest).DefaultIfEmpty(_planning.Time.Now).Max();
        if (option.CoatWindow is [var window])
            bound = Math.Max(bound, window.From);
        if (option.Preparation == current.Preparation || option.Preparation == Preparation.AsIs)
            return bound;
        int work = (int)Math.Ceiling(option.Route.Work.TotalMinutes);
        if (option.Preparation == Preparation.Abrade)
            return bound + work;
        var primer = option.Route.Primer;
        int primed = bound + work + (int)_shop.Times.PrimerByGun.TotalMinutes;
        return primer?.Milestone(MilestoneKind.NextLayer) is { } next ? _planning.Cures.Reached(next).At(primed) : primed;
    }

    private int SupplyMinute(JointOption option)
    {
        bool stocked = _planning.Input.Stock.Packs.Any(pack =>
            pack.Material == option.Sheet.Id && Verdicts.MayBeUsed(PackRules.Judge(pack, option.Sheet, _planning.Repair.Now, _shop.Zone, 1)));
        if (stocked || _shop.Supplier is not { } supplier)
            return _planning.Time.Now;
        return SupplierHours.Arrival(supplier, _shop.Zone, _planning.Repair.Now) is { } at ? _planning.Time.Ceiling(at) : _planning.Time.Horizon;
    }

    /// <summary>First start at which somebody who seals is free long enough inside hours and limits.</summary>
    private int? Gap(PlannedActivity planned, JointPlan current, BatchId own, JointOption option, int earliest, int length)
    {
        int? best = null;
        foreach (var person in _shop.People.Where(person => person.Skills.Contains(Skill.Seal)))
        {
            var busy = Busy(person.Id, planned, current, own);
            foreach (var window in _planning.Hours.Of(person))
            {
                for (int start = Grid(Math.Max(window.From, earliest)); start + length <= window.To; start += PlanTime.Grid)
                {
                    if (best is { } known && start >= known)
                        break;
                    if (IsAllowed(option, start) && !busy.Exists(block => block.Start < start + length && start < block.End))
                    {
                        best = start;
                        break;
                    }
                }
                if (best is not null && window.From > best)
                    break;
            }
        }
        return best;
    }

    private List<(int Start, int End)> Busy(string person, PlannedActivity planned, JointPlan current, BatchId own)
    {
        var busy = new List<(int Start, int End)>();
        foreach (var batch in _found.Schedule.Batches.Where(batch => batch.Used && batch.Crew?.Value == person))
        {
            if (batch.Id != own)
            {
                busy.Add((batch.Start, batch.End));
                continue;
            }
            bool alone = _found.Schedule.Activities.Count(other => other.Present && other.Batch == own) == 1;
            int work = _found.Project.Modes[(planned.Id, planned.Mode!.Value)].Option!.Work;
            if (!alone)
                busy.Add((batch.Start, batch.End - work));
        }
        _ = current;
        foreach (var other in _found.Schedule.Activities.Where(other => other is { Present: true, Batch: null, Mode: not null } && other.End > other.Start))
        {
            if (_found.Project.Modes.GetValueOrDefault((other.Id, other.Mode!.Value))?.Person == person)
                busy.Add((other.Start, other.End));
        }
        return busy;
    }

    private bool IsAllowed(JointOption option, int start) =>
        _planning.Application.For(option.Sheet).Any(window => window.Contains(start))
        && (option.CoatWindow.IsEmpty || option.Preparation != Preparation.AsIs || option.CoatWindow[0].Contains(start));

    /// <summary>When everything but this joint is ready for paint.</summary>
    private int ReadyWithout(PlaceId joint) =>
        ActiveLags.Into(_found, TimePoint.StartOf(ProjectBuilder.Paint))
            .Where(lag => lag.Lag.From.Activity is { } from && from != ProjectBuilder.Ready && from.Value != $"seal:{joint}")
            .Select(lag => lag.Earliest)
            .DefaultIfEmpty(_planning.Time.Now)
            .Max();

    private (Instant? Slot, Money Cost) Slot(int ready, int paintBy)
    {
        var slots = _planning.Repair.PaintSlots;
        int at = slots.IndexOf(_plan.Slot);
        // Everything else still reaches the plan's own slot, so only a later one has to be looked for.
        int next = Math.Max(0, at);
        while (next < slots.Length && _planning.Time.Ceiling(slots[next]) < ready)
            next++;
        if (next == slots.Length || _planning.Time.Floor(slots[next]) > paintBy)
            return (null, Money.Zero);
        if (next == at)
            return (slots[next], Money.Zero);
        var bay = _shop.TimeValue.BayDay * (_planning.Hours.BayDays(slots[0], slots[next]) - _planning.Hours.BayDays(slots[0], _plan.Slot));
        var moved = _plan.ReadyForDelivery + (slots[next] - _plan.Slot);
        return (slots[next], bay + Lateness(moved) - _plan.Cost.Lateness);
    }

    private Money Lateness(Instant delivery)
    {
        int minute = _planning.Time.Ceiling(delivery);
        int hours = _planning.Hours.StartedHoursAfter(_planning.Repair.Promise).TakeWhile(start => start <= minute).Count();
        var late = _shop.TimeValue.LatePerStartedHour * hours;
        return late > _shop.TimeValue.LateAtMost ? _shop.TimeValue.LateAtMost : late;
    }

    /// <summary>Material and set-up of the new way less those of the old one; the applying minutes are the look's and stay.</summary>
    private Money MaterialMoney(JointOption option, JointPlan joint)
    {
        var old = _planning.Sheets[joint.Material!.Value];
        bool oldAlone = _plan.Steps.Any(step => step.Kind == StepKind.Seal && step.Material == old.Id && step.Places.Length == 1 && step.Places[0] == joint.Joint);
        bool newShares = _plan.Steps.Any(step => step.Kind == StepKind.Seal && step.Material == option.Sheet.Id);
        var before = Charge(old, joint.Amount, joint.StripLength) + (oldAlone ? Session(old) : Money.Zero);
        var after = Charge(option.Sheet, option.Amount, option.StripLength) + (newShares ? Money.Zero : Session(option.Sheet));
        return after - before;
    }

    private Money Charge(DataSheet sheet, Volume volume, Length strip) =>
        _planning.ExpiringSoon.Contains(sheet.Id) ? Money.Zero
        : sheet.Pack.SingleUse ? sheet.Pack.Price : MaterialCharge.ShareOfPack(sheet, volume, strip);

    private Money Session(DataSheet sheet)
    {
        var person = _shop.People.First(person => person.Skills.Contains(Skill.Seal));
        var labour = person.PerHour * (SetUp(sheet) / 60m);
        return Nozzles.Takes(sheet)
            ? labour + _shop.Amounts.NozzlePrice + Charge(sheet, Nozzles.Waste(_shop.Amounts), Length.Zero)
            : labour;
    }

    private int SetUp(DataSheet sheet) =>
        (int)Math.Ceiling(Nozzles.Takes(sheet) ? (_shop.Times.TwoPartSetUp + _shop.Times.NewNozzle).TotalMinutes : _shop.Times.OnePartSetUp.TotalMinutes);

    private static int Grid(int minute) => (minute + PlanTime.Grid - 1) / PlanTime.Grid * PlanTime.Grid;
}
