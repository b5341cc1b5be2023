using System.Collections.Immutable;
using System.Diagnostics;
using NodaTime;
using Seamwright.Planning.Mapping;
using Seamwright.Scheduling;
using Seamwright.Work;

namespace Seamwright.Planning.WholeShop;

/// <summary>
/// Searches a plan for all vehicles of a shop: first each is placed beside the others in the order of the promises with choices that are merely
/// cheap, so that there is a plan soon; then each is planned alone (that is its bound) and placed again; then a few at a time are taken out and put back. Only improvements are kept, so it can be stopped at any moment.
/// </summary>
internal sealed class ShopSearch
{
    /// <summary>Longest search for one vehicle: an exact answer rarely needs a tenth of it.</summary>
    private static readonly Duration OneVehicle = Duration.FromSeconds(2);

    /// <summary>Exact answers for one vehicle take about a hundred times as long as quick ones.</summary>
    private const int QuickPerExact = 60;

    /// <summary>Most vehicles taken out at once.</summary>
    private const int Most = 5;

    /// <summary>Minutes that a cheaper person may be waited for, tried by chance.</summary>
    private static readonly int[] Patience = [0, 60, 240, 900];

    private readonly ShopPlanOptions _options;
    private readonly ImmutableArray<VehicleSearch> _vehicles;
    private readonly Stopwatch _clock = Stopwatch.StartNew();
    private readonly Lock _gate = new();
    private ShopState _best;
    private int _version;
    private int _tries;

    public ShopSearch(ImmutableArray<RepairInput> inputs, ShopPlanOptions options)
    {
        _options = options;
        var each = new PlanOptions { Seed = options.Seed, Deterministic = options.Deterministic, TimeLimit = OneVehicle, Alternatives = false };
        (_vehicles, _best) = FirstPlan.Find(inputs, each, Threads.MaxDegreeOfParallelism - 1);
    }

    /// <summary>Proven lower bound of all vehicles that can be planned at all. [solver money]</summary>
    public long Bound { get; private set; }

    public ImmutableArray<VehicleSearch> Vehicles => _vehicles;

    public ShopState Best => _best;

    public Duration Elapsed => Duration.FromTimeSpan(_clock.Elapsed);

    public Duration FirstAfter { get; private set; }

    private ParallelOptions Threads => new() { MaxDegreeOfParallelism = _options.Deterministic ? 1 : Environment.ProcessorCount };

    private bool IsOver =>
        _options.Stop.IsCancellationRequested
        || (_options.Tries is { } tries && _tries >= tries)
        || (!_options.Deterministic && Elapsed >= _options.TimeLimit)
        || (_best.PlacedCount == Possible && _best.Cost <= Bound);

    /// <summary>Vehicles that have a plan where they are alone.</summary>
    private int Possible => _vehicles.Count(vehicle => vehicle.MayHavePlan);

    public void Run()
    {
        var empty = _best with { Vehicles = [.. new Placed?[_vehicles.Length]] };
        Tell();
        // Those that found no place with cheap choices come first, so that there is a plan for all of them soon.
        var open = Enumerable.Range(0, _vehicles.Length).ToLookup(i => _best.Vehicles[i] is null);
        PlanAlone([.. open[true]], CancellationToken.None);
        _best = PlaceAll(_best, exactly: true);
        FirstAfter = Elapsed;
        Tell();
        using var over = CancellationTokenSource.CreateLinkedTokenSource(_options.Stop);
        if (!_options.Deterministic)
            over.CancelAfter(TimeSpan.FromTicks(Math.Max(1, (_options.TimeLimit - Elapsed).BclCompatibleTicks)));
        PlanAlone([.. open[false]], over.Token);
        Bound = AssignmentBound.Of([.. _vehicles.Select(vehicle => vehicle.Bounds)]);
        // Once more with the choices that are best for each by itself.
        var again = over.IsCancellationRequested ? empty : PlaceAll(empty, exactly: false);
        if (again.PlacedCount > _best.PlacedCount || (again.PlacedCount == _best.PlacedCount && again.Cost < _best.Cost))
            _best = again;
        Tell();
        Parallel.For(0, _vehicles.Length, Threads, i => _vehicles[i].Tighten(over.Token));
        Bound = AssignmentBound.Of([.. _vehicles.Select(vehicle => vehicle.Bounds)]);
        Tell();
        Parallel.For(0, Threads.MaxDegreeOfParallelism, Threads, thread => Improve(new Random(_options.Seed + (7919 * thread))));
    }

    /// <summary>
    /// Each with the shop to itself: its bound, and whether there is a plan for it at all. First with time left aside, which takes little; where
    /// it is stopped, what bay days and lateness cost at least is the bound.
    /// </summary>
    private void PlanAlone(ImmutableArray<int> vehicles, CancellationToken stop)
    {
        foreach (Action<VehicleSearch> step in (Action<VehicleSearch>[])[vehicle => vehicle.Relax(), vehicle => vehicle.ReachASlot()])
        {
            Parallel.For(0, vehicles.Length, Threads, turn =>
            {
                if (!stop.IsCancellationRequested)
                    step(_vehicles[vehicles[turn]]);
            });
        }
    }

    /// <summary>In the order of the promises, the dearer of two first.</summary>
    private ShopState PlaceAll(ShopState state, bool exactly)
    {
        var order = Enumerable.Range(0, _vehicles.Length)
            .Where(i => _vehicles[i].MayHavePlan && state.Vehicles[i] is null)
            .OrderBy(i => _vehicles[i].Case.Repair.Promise)
            .ThenByDescending(i => _vehicles[i].Bound);
        foreach (int i in order)
        {
            if (Place(state, i, exactly) is { } placed)
                state = state.With(i, placed);
        }
        return state;
    }

    /// <summary>Beside the others with the choices of a known schedule; exactly where that finds nothing.</summary>
    private Placed? Place(ShopState state, int vehicle, bool exactly)
    {
        var search = _vehicles[vehicle];
        var others = state.Others(vehicle);
        if (search.Quick(others, search.Patterns[0], long.MaxValue, Patience[1]) is { } quick && Placed.Of(search.Case, quick) is { IsSupplied: true } placed)
            return placed;
        return exactly && search.Beside(others, search.Patterns[0], long.MaxValue) is { } found ? Placed.Of(search.Case, found) : null;
    }

    private int Lamps => _best.Shop.Lamps?.Count ?? 0;

    /// <summary>
    /// Takes a few vehicles out and puts them back with known choices, again and again; now and then one vehicle is planned anew exactly, which
    /// finds choices that fit the others better.
    /// </summary>
    private void Improve(Random random)
    {
        for (int turn = 1; !IsOver; turn++)
        {
            ShopState before;
            int version;
            lock (_gate)
                (before, version) = (_best, _version);
            Interlocked.Increment(ref _tries);
            bool exact = turn % QuickPerExact == 0;
            var chosen = Neighbourhood.Choose(before, _vehicles, random, exact ? 1 : Most);
            if (chosen.IsEmpty)
                return;
            if ((exact ? Exactly(before, chosen[0]) : Again(before, chosen, random)) is { } better)
                Accept(better, version, chosen, before);
        }
    }

    private ShopState? Exactly(ShopState before, int vehicle)
    {
        var now = before.Vehicles[vehicle];
        var search = _vehicles[vehicle];
        var found = search.Beside(before.Others(vehicle), now?.Found ?? search.Patterns[0], now is null ? long.MaxValue : now.Cost - 1);
        return found is null ? null : before.With(vehicle, Placed.Of(search.Case, found));
    }

    /// <summary>The chosen vehicles placed anew, in the order given; null where that is not better.</summary>
    private ShopState? Again(ShopState before, ImmutableArray<int> chosen, Random random)
    {
        var state = chosen.Aggregate(before, (rest, vehicle) => rest.With(vehicle, null));
        bool more = chosen.Any(vehicle => before.Vehicles[vehicle] is null);
        long spare = more ? long.MaxValue : chosen.Sum(vehicle => before.Vehicles[vehicle]!.Cost) - chosen.Sum(vehicle => _vehicles[vehicle].Bound) - 1;
        if (spare < 0)
            return null;
        foreach (int vehicle in chosen)
        {
            var search = _vehicles[vehicle];
            long atMost = more ? long.MaxValue : search.Bound + spare;
            var pattern = before.Vehicles[vehicle] is { } now && random.Next(2) == 0 ? now.Found : search.Patterns[random.Next(search.Patterns.Length)];
            if (search.Quick(state.Others(vehicle), pattern, atMost, Patience[random.Next(Patience.Length)]) is not { } found)
                return null;
            var placed = Placed.Of(search.Case, found);
            state = state.With(vehicle, placed);
            if (!more)
                spare -= placed.Cost - search.Bound;
        }
        return chosen.All(vehicle => state.Vehicles[vehicle]!.IsSupplied) ? state : null;
    }

    private void Accept(ShopState better, int version, ImmutableArray<int> chosen, ShopState before)
    {
        lock (_gate)
        {
            if (_version != version)
            {
                // Somebody else moved vehicles meanwhile: the move is kept only if it still fits and still pays.
                var merged = _best;
                foreach (int vehicle in chosen)
                    merged = merged.With(vehicle, better.Vehicles[vehicle]);
                bool moved = chosen.Any(vehicle => !ReferenceEquals(_best.Vehicles[vehicle], before.Vehicles[vehicle]));
                if (moved || !chosen.All(vehicle => ShopState.Fits(merged.Vehicles[vehicle]!, merged.Others(vehicle), Lamps)))
                    return;
                better = merged;
            }
            if (better.PlacedCount < _best.PlacedCount || (better.PlacedCount == _best.PlacedCount && better.Cost >= _best.Cost))
                return;
            _best = better;
            _version++;
        }
        Tell();
    }

    private void Tell() => _options.Progress?.Report(new ShopProgress(
        Elapsed,
        _best.PlacedCount,
        _vehicles.Length,
        SolverMoney.Back(_best.Cost, _best.Shop.Currency),
        SolverMoney.Back(Bound, _best.Shop.Currency)));
}
