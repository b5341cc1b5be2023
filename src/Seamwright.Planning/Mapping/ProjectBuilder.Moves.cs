using System.Collections.Immutable;
using NodaTime;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Work;
using Step = Seamwright.Work.Step;

namespace Seamwright.Planning.Mapping;

/// <summary>
/// What it costs to move work that was announced: a price for another day, one for another person, one for each moved promise. A shift within the
/// day is free; among equals the announced time is kept.
/// </summary>
internal sealed partial class ProjectBuilder
{
    private static readonly ModeId SameTime = new("same-time");
    private static readonly ModeId SameDay = new("same-day");
    private static readonly ModeId OtherDay = new("other-day");

    private readonly ImmutableDictionary<(ActivityId, ModeId), long>.Builder _modePrices = ImmutableDictionary.CreateBuilder<(ActivityId, ModeId), long>();
    private readonly ImmutableDictionary<(BatchId, CrewId), long>.Builder _crewPrices = ImmutableDictionary.CreateBuilder<(BatchId, CrewId), long>();
    private (int From, long Amount)? _handOverPrice;

    private long PriceOfWork => SolverMoney.From(_shop.TimeValue.MovedWork);

    private long PriceOfPromise => SolverMoney.From(_shop.TimeValue.MovedPromise);

    private MovePrices Moving => new(_modePrices.ToImmutable(), _crewPrices.ToImmutable(), _handOverPrice);

    private long PriceOfSlot(Instant slot) => _variation.Announced is { } announced && announced.Slot != slot ? PriceOfPromise : 0;

    /// <summary>From the day after the announced hand-over on.</summary>
    private ImmutableArray<Charge> PriceOfHandOver()
    {
        if (_variation.Announced is not { } announced || PriceOfPromise == 0)
            return [];
        int from = Math.Max(0, _time.Ceiling(EndOfDay(announced.HandOver)));
        _handOverPrice = (from, PriceOfPromise);
        return [new Charge { Activity = DeliverId, Edge = Edge.Start, Amount = new StepFunction([new Scheduling.Step(from, PriceOfPromise)]) }];
    }

    private Instant EndOfDay(Instant at) => _shop.Zone.AtStartOfDay(at.InZone(_shop.Zone).Date.PlusDays(1)).ToInstant();

    private void PriceMoves()
    {
        if (_variation.Announced is not { } announced)
            return;
        foreach (var (mode, slot, _) in _slots)
        {
            if (PriceOfSlot(slot) is > 0 and var price)
                _modePrices[(PaintId, mode)] = price;
        }
        for (int i = _activities.Count - 1; i >= 0; i--)
        {
            var activity = _activities[i];
            var meaning = _activityMeanings[activity.Id];
            if (meaning.Kind is { } kind && announced.Find(kind, meaning.Places) is { } work)
            {
                _activities[i] = WithPersonPrices(activity, work, Announcement.IsPriced(kind) ? PriceOfWork : 1);
                AddKept(activity, work, Announcement.IsPriced(kind) ? PriceOfWork : 1);
            }
        }
        for (int i = 0; i < _batches.Count; i++)
            _batches[i] = WithCrewPrices(_batches[i], announced);
    }

    /// <summary>One mode for the announced time, one for the announced day, one for any other.</summary>
    private void AddKept(Activity activity, Step work, long price)
    {
        var id = new ActivityId($"kept:{activity.Id}");
        int start = _time.Floor(work.Start);
        var day = new Window(
            Math.Max(0, _time.Ceiling(_shop.Zone.AtStartOfDay(work.Start.InZone(_shop.Zone).Date).ToInstant())),
            Math.Min(_time.Horizon + 1, _time.Ceiling(EndOfDay(work.Start))));
        var modes = ImmutableArray.CreateBuilder<Mode>();
        if (start >= 0 && start % PlanTime.Grid == 0 && start <= _time.Horizon)
            Keep(SameTime, new Window(start, start + 1), 0);
        if (day.From < day.To)
            Keep(SameDay, day, 1);
        modes.Add(new Mode { Id = OtherDay, Starts = [new Window(0, 1)], Cost = price + 1 });
        _modePrices[(id, OtherDay)] = price + 1;
        Add(new Activity { Id = id, Modes = modes.ToImmutable(), PresentWhen = activity.PresentWhen }, new ActivityMeaning(null, []));

        void Keep(ModeId mode, Window window, long cost)
        {
            modes.Add(new Mode { Id = mode, Starts = [new Window(0, 1)], Cost = cost });
            if (cost > 0)
                _modePrices[(id, mode)] = cost;
            _conditional.Add(new ConditionalWindow { Activity = activity.Id, Windows = [window], WhenActivity = id, WhenModes = [mode] });
        }
    }

    /// <summary>Other hands have their price; among equals the announced material is kept.</summary>
    private Activity WithPersonPrices(Activity activity, Step work, long price)
    {
        var modes = activity.Modes.ToBuilder();
        for (int i = 0; i < modes.Count; i++)
        {
            var meaning = _modeMeanings.GetValueOrDefault((activity.Id, modes[i].Id));
            long more = (meaning?.Person is { } person && person != work.Person ? price : 0)
                + ((meaning?.Option?.Sheet ?? meaning?.Sheet) is { } sheet && sheet.Id != work.Material ? 1 : 0);
            if (more == 0)
                continue;
            _modePrices[(activity.Id, modes[i].Id)] = more;
            modes[i] = modes[i] with { Cost = modes[i].Cost + more };
        }
        return activity with { Modes = modes.ToImmutable() };
    }

    /// <summary>A session keeps its person where anybody announced for that material does it.</summary>
    private Batch WithCrewPrices(Batch batch, Announcement announced)
    {
        var meaning = _batchMeanings[batch.Id];
        var people = announced.PeopleFor(meaning.Kind, meaning.Sheet?.Id);
        if (people.IsEmpty)
            return batch;
        long price = Announcement.IsPriced(meaning.Kind) ? PriceOfWork : 1;
        foreach (var crew in batch.Crews.Where(crew => !people.Contains(crew.Id.Value)))
            _crewPrices[(batch.Id, crew.Id)] = price;
        return batch with { Crews = [.. batch.Crews.Select(crew => people.Contains(crew.Id.Value) ? crew : crew with { Cost = crew.Cost + price })] };
    }
}
