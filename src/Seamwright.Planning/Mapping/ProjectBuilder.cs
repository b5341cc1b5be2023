using System.Collections.Immutable;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Shops;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Mapping;

/// <summary>
/// Turns a repair into a project of activities, batches, lags and dated lots. One file a topic: people, preparation and primer, seals,
/// bonds, lamps, paint and what follows, stock. A builder is used once.
/// </summary>
internal sealed partial class ProjectBuilder
{
    private static readonly ActivityId ReadyId = new("ready");
    private static readonly ActivityId PaintId = new("paint");
    private static readonly ActivityId DeliverId = new("deliver");

    private readonly PlanningCase _case;
    private readonly Variation _variation;
    private readonly PlanTime _time;
    private readonly Shop _shop;
    private readonly WorkingHours _hours;

    private readonly List<Activity> _activities = [];
    private readonly List<Batch> _batches = [];
    private readonly List<Lag> _lags = [];
    private readonly List<ConditionalWindow> _conditional = [];
    private readonly ImmutableDictionary<ActivityId, ActivityMeaning>.Builder _activityMeanings = ImmutableDictionary.CreateBuilder<ActivityId, ActivityMeaning>();
    private readonly ImmutableDictionary<(ActivityId, ModeId), ModeMeaning>.Builder _modeMeanings = ImmutableDictionary.CreateBuilder<(ActivityId, ModeId), ModeMeaning>();
    private readonly ImmutableDictionary<BatchId, BatchMeaning>.Builder _batchMeanings = ImmutableDictionary.CreateBuilder<BatchId, BatchMeaning>();

    private ProjectBuilder(PlanningCase planning, Variation variation)
    {
        _case = planning;
        _variation = variation;
        _time = planning.Time;
        _shop = planning.Shop;
        _hours = variation.IsSetAside(FactIds.Hours)
            ? new WorkingHours(planning.Time, planning.Shop, planning.Repair.PaintSlots, roundTheClock: true)
            : planning.Hours;
    }

    /// <summary>The start of the moment at which everything is ready for paint.</summary>
    public static ActivityId Ready => ReadyId;

    /// <summary>Painting.</summary>
    public static ActivityId Paint => PaintId;

    /// <summary>Handing over.</summary>
    public static ActivityId Deliver => DeliverId;

    /// <summary>
    /// Builds the problem. Null where some joint or place has no admissible way at all: then no schedule exists and the facts say why.
    /// </summary>
    public static RepairProject? Build(PlanningCase planning, Variation variation) => new ProjectBuilder(planning, variation).Build();

    private RepairProject? Build()
    {
        AddPaint();
        AddOperations();
        AddBonds();
        AddAreas();
        if (!AddSeals() || !AddCavities())
            return null;
        AddPrimerSessions();
        AddAfterPaint();
        if (_variation.TimesReady)
            AddReadyMoment();
        PriceMoves();
        var (consumables, lots, unlocks, meanings) = StockLots();

        var project = new Project
        {
            Horizon = _time.Horizon,
            StartStep = PlanTime.Grid,
            Resources = Resources(),
            Consumables = consumables,
            Lots = lots,
            Unlocks = unlocks,
            Activities = [.. _activities],
            Batches = [.. _batches],
            Lags = [.. _lags],
            ConditionalWindows = [.. _conditional],
            Charges = Charges(),
        };
        return new RepairProject(
            project,
            _variation,
            _activityMeanings.ToImmutable(),
            _modeMeanings.ToImmutable(),
            _batchMeanings.ToImmutable(),
            meanings,
            Moving);
    }

    private void Add(Activity activity, ActivityMeaning meaning)
    {
        _activities.Add(activity);
        _activityMeanings.Add(activity.Id, meaning);
    }

    /// <summary>Work that any person with the skill can do, one mode a person.</summary>
    private ActivityId AddWork(
        string id, StepKind kind, ImmutableArray<PlaceId> places, Skill skill, int minutes,
        ImmutableArray<Window> starts = default, ImmutableArray<Trigger> when = default, long cost = 0,
        ImmutableArray<Consumption> consumes = default)
    {
        var activity = new ActivityId(id);
        var modes = ImmutableArray.CreateBuilder<Mode>();
        foreach (var person in minutes == 0 ? [] : PeopleFor(skill, default))
        {
            var mode = new ModeId(person.Id);
            modes.Add(new Mode
            {
                Id = mode,
                Duration = minutes,
                Demands = [new Demand(PersonId(person), 1)],
                Cost = cost + SolverMoney.Labour(person, minutes),
                Starts = starts.IsDefault ? [] : starts,
                Consumes = consumes.IsDefault ? [] : consumes,
            });
            _modeMeanings.Add((activity, mode), new ModeMeaning(person.Id));
        }
        // No work is a moment; work that nobody can do never begins.
        if (modes.Count == 0)
            modes.Add(Moment(minutes == 0 ? starts : [Never]));
        Add(new Activity { Id = activity, Modes = modes.ToImmutable(), PresentWhen = when.IsDefault ? [] : when }, new ActivityMeaning(minutes == 0 ? null : kind, places));
        return activity;
    }

    private ActivityId AddMoment(string id, ImmutableArray<Window> starts = default)
    {
        var activity = new ActivityId(id);
        Add(new Activity { Id = activity, Modes = [Moment(starts)] }, new ActivityMeaning(null, []));
        return activity;
    }

    private static Mode Moment(ImmutableArray<Window> starts) => new() { Id = new ModeId("at"), Starts = starts.IsDefault ? [] : starts };

    /// <summary>To not before from.</summary>
    private void After(TimePoint from, TimePoint to, int minutes = 0, ImmutableArray<ModeId> fromModes = default, ImmutableArray<ModeId> toModes = default) =>
        AddLag(LagKind.Minimum, from, to, new Delay.Fixed(minutes), fromModes, toModes);

    private void AddLag(LagKind kind, TimePoint from, TimePoint to, Delay delay, ImmutableArray<ModeId> fromModes = default, ImmutableArray<ModeId> toModes = default) =>
        _lags.Add(new Lag
        {
            From = from,
            To = to,
            Kind = kind,
            Delay = delay,
            FromModes = fromModes.IsDefault ? [] : fromModes,
            ToModes = toModes.IsDefault ? [] : toModes,
        });

    private static int Minutes(NodaTime.Duration duration) => (int)Math.Ceiling(duration.TotalMinutes - 1e-9);

    private static int Minutes(NodaTime.Duration per, double units) => (int)Math.Ceiling(per.TotalMinutes * units - 1e-9);
}
