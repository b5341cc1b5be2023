using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Text;
using System.Threading.Channels;
using NodaTime;
using Seamwright.Planning;
using Seamwright.Planning.Suppositions;
using Seamwright.Planning.Tradeoffs;
using Seamwright.Planning.Uncertainty;
using Seamwright.Program.Printing.Json;
using Seamwright.Program.Texts;
using Seamwright.Program.Web.Live;
using Seamwright.Storage;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;
using Seamwright.Stored;
using Seamwright.Work;

namespace Seamwright.Program.Web.Desk;

/// <summary>
/// Plans the shop in the background whenever something changes, and holds what every page shows. One search at a time: however often
/// people save, no page waits for another's plan.
/// </summary>
internal sealed partial class ShopDesk(ShopStore store, IClock clock, Changes changes, Sentences sentences, DeskLimits limits, ILogger<ShopDesk> log) : BackgroundService
{
    /// <summary>Setting: the data is an invented demonstration that lives at its own moment.</summary>
    public const string DemoSetting = "demo";

    private const int MostVehicles = 100;

    /// <summary>Answers kept before all are let go.</summary>
    private const int MostKept = 200;

    // Open pages are shown anew while a search runs: often enough to see it move, seldom enough for twenty of them.
    private static readonly TimeSpan Beat = TimeSpan.FromSeconds(1.5);

    // Several savings in a row are one change.
    private static readonly TimeSpan Gather = TimeSpan.FromMilliseconds(200);

    private readonly Channel<bool> _wanted = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropOldest });
    private readonly ConcurrentDictionary<string, Lazy<Task<PlanAnswer>>> _answers = new();
    private readonly ConcurrentDictionary<string, Lazy<Task<WhatIfAnswer>>> _supposed = new();
    private readonly ConcurrentDictionary<string, Lazy<Task<TradeoffCurve>>> _curves = new();
    private readonly SemaphoreSlim _oneAnswer = new(1);
    private readonly TaskCompletionSource _looked = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private volatile DeskState _state = DeskState.Unknown;
    private long _waitingSince;
    private volatile RunningSearch? _search;

    /// <summary>The search that runs now; null = none.</summary>
    public RunningSearch? Search => _search;

    /// <summary>Ends once the shop was looked at for the first time since the start.</summary>
    public Task Looked => _looked.Task;

    /// <summary>What is known now.</summary>
    public DeskState State => _state;

    /// <summary>Since when a plan is waited for; null = what is shown is up to date.</summary>
    public Instant? WaitingSince => Volatile.Read(ref _waitingSince) is > 0 and long ticks ? Instant.FromUnixTimeTicks(ticks) : null;

    /// <summary>Something was saved: plan anew.</summary>
    public void Changed()
    {
        Interlocked.CompareExchange(ref _waitingSince, clock.GetCurrentInstant().ToUnixTimeTicks(), 0);
        _wanted.Writer.TryWrite(true);
    }

    /// <summary>Ends a search that runs and keeps its best plan.</summary>
    public void StopSearch()
    {
        _search?.Stop();
        changes.Tell();
    }

    /// <summary>Everything about one repair planned by itself: other materials, cheapest and fastest plan. One at a time; kept while the facts are the same.</summary>
    public Task<PlanAnswer> AnswerFor(RepairInput input)
    {
        if (_answers.Count > MostKept)
            _answers.Clear();
        return _answers.GetOrAdd(input.ContentHash + input.Repair.Id, _ => new(() => InTurn(() => RepairPlanner.Answer(input)))).Value;
    }

    /// <summary>What being ready earlier costs, for one repair planned by itself; one search at a time, kept while the facts are the same.</summary>
    public Task<TradeoffCurve> CurveFor(RepairInput input)
    {
        if (_curves.Count > MostKept)
            _curves.Clear();
        return _curves.GetOrAdd(input.ContentHash + input.Repair.Id, _ => new(() => InTurn(() => CurvePlanner.Answer(input)))).Value;
    }

    /// <summary>What would follow from suppositions; one search at a time, kept while the facts are the same.</summary>
    public Task<WhatIfAnswer> Suppose(RepairInput input, ImmutableArray<Supposition> suppositions)
    {
        if (_supposed.Count > MostKept)
            _supposed.Clear();
        return _supposed.GetOrAdd($"{input.ContentHash}|{input.Repair.Id}|{string.Join('|', suppositions.Select(one => one.Key))}", _ => new(() => InTurn(() => WhatIf.Answer(input, suppositions)))).Value;
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        Changed();
        await foreach (bool _ in _wanted.Reader.ReadAllAsync(stoppingToken))
        {
            try
            {
                await Task.Delay(Gather, stoppingToken);
                Interlocked.Exchange(ref _waitingSince, clock.GetCurrentInstant().ToUnixTimeTicks());
                await Plan(stoppingToken);
                if (_wanted.Reader.Count == 0)
                    Interlocked.Exchange(ref _waitingSince, 0);
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                CouldNotPlan(log, e);
                Show(_state with { IsPlanning = false });
            }
        }
    }

    private async Task Plan(CancellationToken stop)
    {
        Instant? now = !(await store.Settings(stop)).ContainsKey(DemoSetting) ? clock.GetCurrentInstant() : null;
        var shop = await StoredShop.Load(store, now, stop);
        var vehicles = ImmutableArray.CreateBuilder<DeskVehicle>();
        RepairInput? common = null;
        var lines = await store.RepairPage(new RepairFilter { State = RepairState.Open }, 1, MostVehicles, stop);
        foreach (var line in lines.Items)
        {
            if (await store.RepairDocument(line.Id, stop) is not { } document)
                continue;
            var reading = shop.Read(document);
            if (reading.Input is { } input && !StoredShop.HasOwnAir(document))
            {
                // Read from the same documents they are equal; one object for all lets their cures share what is integrated.
                common ??= input;
                reading = reading with { Input = input with { Climate = common.Climate, Stock = common.Stock, Sheets = common.Sheets } };
            }
            var before = _state.Vehicle(line.Id);
            vehicles.Add(new DeskVehicle(line.Id, line.Title, document.Version, reading.Input, reading.Problems, before?.Plan, before?.Chance, before?.Conflicts ?? []));
        }

        var inputs = vehicles.Select(vehicle => vehicle.Input).OfType<RepairInput>().ToImmutableArray();
        Show(new DeskState
        {
            AsOf = now ?? inputs.Select(input => (Instant?)input.Repair.Now).FirstOrDefault() ?? clock.GetCurrentInstant(),
            IsPlanning = !inputs.IsEmpty,
            Shop = inputs.FirstOrDefault()?.Shop ?? shop.Shop,
            Climate = inputs.FirstOrDefault()?.Climate,
            Vehicles = vehicles.ToImmutable(),
        });
        if (inputs.IsEmpty)
            return;

        using var search = new RunningSearch(stop);
        _search = search;
        var options = new ShopPlanOptions { TimeLimit = limits.LongestSearch, Stop = search.Token, Progress = search };
        var searching = Task.Factory.StartNew(
            () => ShopPlanner.PlanWithChances(inputs, options, new ChanceOptions { Samples = limits.Samples, Threads = 1, SeekRobust = false }),
            stop, TaskCreationOptions.LongRunning, TaskScheduler.Default);
        while (await Task.WhenAny(searching, Task.Delay(Beat, CancellationToken.None)) != searching)
            changes.Tell();
        _search = null;
        var (plan, chances) = await searching;
        // A search leaves much behind that a quiet shop would keep for hours.
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);

        var planned = plan.Vehicles.Select((vehicle, i) => (vehicle, chances[i])).ToDictionary(item => item.vehicle.Input);
        var shown = _state.Vehicles.Select(vehicle => vehicle.Input is { } input && planned.TryGetValue(input, out var one)
            ? vehicle with { Plan = one.vehicle.Plan, Chance = one.Item2, Conflicts = one.vehicle.Conflicts }
            : vehicle with { Plan = null, Chance = null }).ToImmutableArray();
        Show(_state with { IsPlanning = false, Vehicles = shown });
        await Keep(shown, stop);
    }

    private async Task Keep(ImmutableArray<DeskVehicle> vehicles, CancellationToken stop)
    {
        var present = await store.PresentPlans(stop);
        foreach (var vehicle in vehicles)
        {
            if (vehicle is not { Plan: { } plan, Input: { } input })
                continue;
            var before = present.GetValueOrDefault(vehicle.Id);
            if (before is not null && before.InputHash == plan.InputHash && before.Ready == plan.ReadyForPaint && before.Cost == plan.Cost.Total.Rounded.Amount)
                continue;
            string json = Encoding.UTF8.GetString(PlanJson.Write(input, new PlanAnswer { Recommended = plan }, new Formatter(sentences, Notation.Of(input.Shop, input.Repair.Now))));
            await store.KeepPlan(
                new PlanDraft(before?.Id, vehicle.Id, plan.InputHash, plan.Seed, plan.EngineVersion, json, plan.ReadyForPaint, plan.Cost.Total.Rounded.Amount, input.Shop.Currency),
                "planner", stop);
        }
    }

    private async Task<T> InTurn<T>(Func<T> work)
    {
        await _oneAnswer.WaitAsync();
        try
        {
            return await Task.Factory.StartNew(work, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
        }
        finally
        {
            _oneAnswer.Release();
            changes.Tell();
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "The shop could not be planned")]
    private static partial void CouldNotPlan(ILogger log, Exception cause);

    private void Show(DeskState state)
    {
        _state = state;
        _looked.TrySetResult();
        changes.Tell();
    }
}
