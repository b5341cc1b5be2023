using System.Collections.Immutable;
using Seamwright.Planning.Mapping;
using Seamwright.Work;

namespace Seamwright.Planning.WholeShop;

/// <summary>
/// The first plan of a shop: the vehicles are got ready and placed in the order of their promises, each with cheap choices. Getting one ready takes
/// longer than placing it and needs no other, so one thread gets ready while the other places, and lends a hand where it would have to wait.
/// </summary>
internal sealed class FirstPlan
{
    private readonly ImmutableArray<RepairInput> _inputs;
    private readonly PlanOptions _each;
    private readonly ImmutableArray<SharedAir?> _air;
    private readonly ImmutableArray<int> _order;
    private readonly VehicleSearch?[] _ready;
    private readonly ManualResetEventSlim[] _done;
    private int _claimed;

    private FirstPlan(ImmutableArray<RepairInput> inputs, PlanOptions each)
    {
        (_inputs, _each) = (inputs, each);
        _air = SharedAir.For(inputs);
        _order = [.. Enumerable.Range(0, inputs.Length).OrderBy(i => inputs[i].Repair.Promise)];
        _ready = new VehicleSearch?[inputs.Length];
        _done = [.. inputs.Select(_ => new ManualResetEventSlim())];
    }

    /// <summary>Gets all vehicles ready and places those that find a place.</summary>
    /// <param name="inputs">One a vehicle.</param>
    /// <param name="each">How each is planned by itself.</param>
    /// <param name="helpers">Threads beside this one. [0 or more]</param>
    public static (ImmutableArray<VehicleSearch> Vehicles, ShopState State) Find(ImmutableArray<RepairInput> inputs, PlanOptions each, int helpers)
    {
        var plan = new FirstPlan(inputs, each);
        var others = Enumerable.Range(0, helpers).Select(_ => Task.Run(plan.PrepareAll)).ToArray();
        var state = plan.PlaceAll();
        Task.WaitAll(others);
        return ([.. plan._ready.Select(vehicle => vehicle!)], state);
    }

    private ShopState PlaceAll()
    {
        var sheets = _inputs[0].Sheets.ToImmutableDictionary(sheet => sheet.Id);
        var state = new ShopState(_inputs[0].Shop, new SharedStock(_inputs[0].Stock, sheets), [.. new Placed?[_inputs.Length]]);
        for (int turn = 0; turn < _order.Length; turn++)
        {
            int i = _order[turn];
            var vehicle = Await(turn);
            if (vehicle.First(state.Others(i)) is { } found && Placed.Of(vehicle.Case, found) is { IsSupplied: true } placed)
                state = state.With(i, placed);
        }
        return state;
    }

    private VehicleSearch Await(int turn)
    {
        while (!_done[turn].IsSet)
        {
            if (!PrepareNext())
                _done[turn].Wait();
        }
        return _ready[_order[turn]] ?? throw new InvalidOperationException("A vehicle could not be got ready; the thread that tried tells why.");
    }

    private void PrepareAll()
    {
        while (PrepareNext())
            continue;
    }

    private bool PrepareNext()
    {
        int turn = Interlocked.Increment(ref _claimed) - 1;
        if (turn >= _order.Length)
            return false;
        int i = _order[turn];
        try
        {
            var vehicle = new VehicleSearch(_inputs[i], _each, _air[i]);
            vehicle.Prepare();
            _ready[i] = vehicle;
        }
        finally
        {
            // Whoever waits goes on even where this one failed.
            _done[turn].Set();
        }
        return true;
    }
}
