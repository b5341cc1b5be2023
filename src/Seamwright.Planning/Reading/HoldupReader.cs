using System.Collections.Immutable;
using Seamwright.Planning.Mapping;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Reading;

/// <summary>
/// What the vehicle waits for: from the ready moment back along whatever bound each start most closely: a cure, earlier work of the same
/// person, a delivery, a lamp, closed hours.
/// </summary>
internal sealed class HoldupReader
{
    private const int Longest = 12;

    private readonly PlanningCase _planning;
    private readonly Found _found;
    private readonly Supplies _supplies;
    private readonly List<Holdup> _chain = [];

    private HoldupReader(PlanningCase planning, Found found, Supplies supplies) => (_planning, _found, _supplies) = (planning, found, supplies);

    public static ImmutableArray<Holdup> Read(PlanningCase planning, Found found, ImmutableArray<Work.Step> steps, Supplies supplies)
    {
        var reader = new HoldupReader(planning, found, supplies);
        var last = ActiveLags.Into(found, TimePoint.StartOf(ProjectBuilder.Paint))
            .Where(lag => lag.Lag.From.Activity != ProjectBuilder.Ready)
            .OrderByDescending(lag => lag.Earliest)
            .FirstOrDefault();
        if (last.Lag is not null)
            reader.Back(last);
        reader._chain.Reverse();
        _ = steps;
        return [.. reader._chain];
    }

    private void Back(ActiveLag lag)
    {
        for (var at = (ActiveLag?)lag; at is { } binding && _chain.Count < Longest;)
        {
            if (binding.Lag.From.Activity is not { } activity)
            {
                at = null;
                continue;
            }
            var planned = _found.Schedule[activity];
            AddWait(binding, planned);
            if (Block(planned) is not { } block)
                return;
            AddWork(planned, block);
            at = Bound(planned, block);
        }
    }

    /// <summary>The time between the end of the work and what it allows: a cure.</summary>
    private void AddWait(ActiveLag binding, PlannedActivity planned)
    {
        if (binding.Earliest <= binding.From || planned.Id.Value.StartsWith("hold:", StringComparison.Ordinal))
            return;
        var meaning = _found.Project.Activities[planned.Id];
        var sheet = planned.Mode is { } mode ? SheetOf(planned, mode) : null;
        var place = PlaceOf(meaning);
        _chain.Add(new Holdup(place, At(binding.From), At(binding.Earliest), sheet is null ? Reason.Of("holdup-wait") : Reason.Of("holdup-cure", sheet.Id)));
    }

    private void AddWork(PlannedActivity planned, (int Start, int End, string? Person) block)
    {
        var meaning = _found.Project.Activities[planned.Id];
        if (meaning.Kind is { } kind && block.End > block.Start)
            _chain.Add(new Holdup(PlaceOf(meaning), At(block.Start), At(block.End), Reason.Of("holdup-step", kind)));
    }

    /// <summary>What bound the start of a block most closely; null where it could not have been earlier for another reason already told.</summary>
    private ActiveLag? Bound(PlannedActivity planned, (int Start, int End, string? Person) block)
    {
        var points = planned.Batch is { } batch
            ? _found.Schedule.Activities.Where(member => member.Present && member.Batch == batch).Select(member => TimePoint.StartOf(member.Id)).Append(TimePoint.StartOf(batch))
            : [TimePoint.StartOf(planned.Id)];
        var lags = points.SelectMany(point => ActiveLags.Into(_found, point)).Where(lag => lag.Earliest <= block.Start).ToList();
        var closest = lags.OrderByDescending(lag => lag.Earliest).Cast<ActiveLag?>().FirstOrDefault();
        int bound = closest?.Earliest ?? _planning.Time.Now;
        if (Arrival(planned) is { } arrival && arrival > bound && arrival <= block.Start)
        {
            _chain.Add(new Holdup(null, At(_planning.Time.Now), At(arrival), Reason.Of("holdup-delivery")));
            return null;
        }
        var before = PersonBefore(block);
        if (before is { } earlier && earlier.End > bound)
        {
            var meaning = _found.Project.Activities[earlier.Id];
            _chain.Add(new Holdup(PlaceOf(meaning), At(earlier.Start), At(earlier.End), Reason.Of("holdup-person", block.Person!, meaning.Kind ?? StepKind.Operation)));
            bound = earlier.End;
            closest = null;
        }
        if (block.Person is { } person && OpeningAfter(person, bound, block.Start) is { } opening)
        {
            _chain.Add(new Holdup(null, At(bound), At(opening), Reason.Of("holdup-hours")));
            return closest;
        }
        return closest is { } lag && block.Start - lag.Earliest < 30 ? lag : null;
    }

    private int? Arrival(PlannedActivity planned)
    {
        bool ordered = _found.Schedule.Covers.Any(cover =>
            (cover.Activity == planned.Id || (cover.Batch is { } batch && batch == planned.Batch))
            && _found.Project.Lots.TryGetValue(cover.Lot, out var lot) && lot.Pack is null && cover.Lot.Value.StartsWith("order:", StringComparison.Ordinal));
        return ordered && _supplies.Orders.Length > 0 ? _planning.Time.Ceiling(_supplies.Orders[0].Arrives) : null;
    }

    private (ActivityId Id, int Start, int End)? PersonBefore((int Start, int End, string? Person) block)
    {
        if (block.Person is null)
            return null;
        (ActivityId Id, int Start, int End)? latest = null;
        foreach (var other in _found.Schedule.Activities.Where(other => other.Present))
        {
            if (Block(other) is { } its && its.Person == block.Person && its.End <= block.Start && its.End > (latest?.End ?? -1) && its.End > its.Start)
                latest = (other.Id, its.Start, its.End);
        }
        return latest;
    }

    private int? OpeningAfter(string person, int bound, int start)
    {
        var who = _planning.Shop.People.FirstOrDefault(candidate => candidate.Id == person);
        if (who is null)
            return null;
        foreach (var window in _planning.Hours.Of(who))
        {
            if (window.From > bound && window.From <= start && start - window.From < 30)
                return window.From;
        }
        return null;
    }

    private (int Start, int End, string? Person)? Block(PlannedActivity planned)
    {
        if (planned.Batch is { } id)
        {
            var batch = _found.Schedule[id];
            return (batch.Start, batch.End, batch.Crew?.Value);
        }
        string? person = planned.Mode is { } mode ? _found.Project.Modes.GetValueOrDefault((planned.Id, mode))?.Person : null;
        return (planned.Start, planned.End, person);
    }

    private Materials.DataSheet? SheetOf(PlannedActivity planned, ModeId mode)
    {
        var meaning = _found.Project.Modes.GetValueOrDefault((planned.Id, mode));
        return meaning?.Option?.Sheet ?? meaning?.Sheet ?? _found.Project.Activities[planned.Id].Sheet;
    }

    private static PlaceId? PlaceOf(ActivityMeaning meaning) => meaning.Places.IsEmpty ? null : meaning.Places[0];

    private NodaTime.Instant At(int minute) => _planning.Time.At(minute);
}
