using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Seamwright.Materials;
using Seamwright.Work;

namespace Seamwright.Planning.Uncertainty;

/// <summary>Draws samples of a network: block by block, on up to two threads; equal seeds give equal samples whatever the threads.</summary>
internal static class Sampler
{
    /// <summary>Draws.</summary>
    /// <param name="network">The decided plan.</param>
    /// <param name="scatter">How far things scatter.</param>
    /// <param name="samples">How many; rounded up to whole blocks.</param>
    /// <param name="seed">Seed.</param>
    /// <param name="threads">Threads. [≥ 1]</param>
    public static Draws Draw(PlanNetwork network, Scatter scatter, int samples, ulong seed, int threads)
    {
        int blocks = (samples + Normals.Lanes - 1) / Normals.Lanes;
        var draws = new Draws(network, blocks * Normals.Lanes);
        Parallel.For(
            0, blocks,
            new ParallelOptions { MaxDegreeOfParallelism = threads },
            () => new SampleBlock(network, scatter, seed),
            (block, _, workspace) =>
            {
                workspace.Run((uint)block, draws.Ready.AsSpan(block * Normals.Lanes, Normals.Lanes));
                return workspace;
            },
            workspace => draws.Add(workspace));
        return draws;
    }
}

/// <summary>What samples gave.</summary>
internal sealed class Draws(PlanNetwork network, int samples)
{
    private readonly Lock _lock = new();

    /// <summary>Ready moment of each sample, a whole minute of the plan; +∞ where it is not within the plan.</summary>
    public double[] Ready { get; } = new double[samples];

    /// <summary>How often each work lay on the path that the ready moment waited for.</summary>
    public long[] WorkCritical { get; } = new long[network.Works.Length];

    /// <summary>How often each cure did.</summary>
    public long[] CureCritical { get; } = new long[network.Cures.Length];

    /// <summary>Samples in which bared metal waited too long.</summary>
    public long Stale { get; private set; }

    public void Add(SampleBlock workspace)
    {
        lock (_lock)
        {
            for (int i = 0; i < WorkCritical.Length; i++)
                WorkCritical[i] += workspace.WorkCritical[i];
            for (int i = 0; i < CureCritical.Length; i++)
                CureCritical[i] += workspace.CureCritical[i];
            Stale += workspace.Stale;
        }
    }
}

/// <summary>The workspace of one thread: noise of a block of samples, and the pass through the network.</summary>
internal sealed class SampleBlock
{
    private const int Lanes = Normals.Lanes;

    private readonly PlanNetwork _network;
    private readonly Scatter _scatter;
    private readonly ulong _seed;
    private readonly ClimateDraw _climate;
    private readonly double[] _labour;       // [part · lane] minutes
    private readonly double[] _material;     // [material · lane] factor on the work
    private readonly double[] _depth;        // [depth · lane] factor on the work
    private readonly double[] _normal = new double[Lanes];
    private readonly double[] _start;
    private readonly double[] _end;
    private readonly int[] _bound;           // arc that bound each work; −1 = none
    private readonly double[] _asked;        // [arc source · law] minute last asked about, and the work done by then
    private readonly double[] _done;

    public SampleBlock(PlanNetwork network, Scatter scatter, ulong seed)
    {
        (_network, _scatter, _seed) = (network, scatter, seed);
        _climate = new ClimateDraw(network.Grid, scatter, seed);
        _labour = new double[network.PartMinutes.Length * Lanes];
        _material = new double[network.Materials.Length * Lanes];
        _depth = new double[network.Depths * Lanes];
        _start = new double[network.Works.Length];
        _end = new double[network.Works.Length];
        _bound = new int[network.Works.Length];
        _asked = new double[(network.Works.Length + 1) * network.Grid.Laws.Length];
        _done = new double[_asked.Length];
        Array.Fill(_asked, double.NaN);
        WorkCritical = new long[network.Works.Length];
        CureCritical = new long[network.Cures.Length];
    }

    public long[] WorkCritical { get; }

    public long[] CureCritical { get; }

    public long Stale { get; private set; }

    /// <summary>Draws one block.</summary>
    /// <param name="block">Number of the block.</param>
    /// <param name="ready">Ready minute of each lane.</param>
    public void Run(uint block, Span<double> ready)
    {
        DrawLabour(block);
        _climate.Run(block);
        DrawMaterial(block);
        for (int lane = 0; lane < Lanes; lane++)
            ready[lane] = Pass(lane);
    }

    // Each dimension has its own range of counters, so that plans with more parts or hours do not shift the others.
    private static uint PartDimension(int part) => 0x1000u + (uint)part;

    private static uint MaterialDimension(int material) => 0x20_0000u + (uint)material;

    private static uint DepthDimension(int depth) => 0x30_0000u + (uint)depth;

    private void DrawLabour(uint block)
    {
        Span<double> car = stackalloc double[Lanes];
        Factors(block, 0, _scatter.WholeCar, 1, car, CauseKind.WholeCar);
        for (int part = 0; part < _network.PartMinutes.Length; part++)
        {
            var mine = _labour.AsSpan(part * Lanes, Lanes);
            Factors(block, PartDimension(part), _scatter.Parts[part], _network.PartMinutes[part], mine, CauseKind.Labour, step: _network.PartKind[part]);
            for (int lane = 0; lane < Lanes; lane++)
                mine[lane] *= car[lane];
        }
    }

    private void DrawMaterial(uint block)
    {
        for (int material = 0; material < _network.Materials.Length; material++)
            Factors(block, MaterialDimension(material), _scatter.Materials[material], 1, _material.AsSpan(material * Lanes, Lanes), CauseKind.Material, material: _network.Materials[material]);

        // The work through a bead grows with the square of its depth.
        for (int depth = 0; depth < _network.Depths; depth++)
            Factors(block, DepthDimension(depth), 2 * _scatter.Depth, 1, _depth.AsSpan(depth * Lanes, Lanes), CauseKind.BeadDepth);
    }

    /// <summary>Median times the exponential of a scaled normal number; exactly the median where nothing scatters.</summary>
    private void Factors(uint block, uint dimension, double spread, double median, Span<double> into, CauseKind kind, StepKind? step = null, MaterialId? material = null)
    {
        if (spread == 0)
        {
            into.Fill(median);
            return;
        }
        var redrawn = _scatter.Redrawn;
        bool other = redrawn?.Kind == kind && redrawn.Step == step && redrawn.Material == material;
        Normals.Fill(other ? ~_seed : _seed, block, dimension, _normal);
        ref double z = ref MemoryMarshal.GetArrayDataReference(_normal);
        ref double to = ref MemoryMarshal.GetReference(into);
        for (nuint i = 0; i < Lanes; i += (nuint)Vector256<double>.Count)
            (median * Vector256.Exp(spread * Vector256.LoadUnsafe(ref z, i))).StoreUnsafe(ref to, i);
    }

    private double Pass(int lane)
    {
        var network = _network;
        int works = network.Works.Length;
        for (int work = 0; work < works; work++)
        {
            double earliest = Earliest(work, network.Floor[work], lane, out _bound[work]);
            double start = network.Open[work].Start(earliest);
            double minutes = network.Fixed[work];
            for (int part = network.PartFrom[work]; part < network.PartFrom[work + 1]; part++)
                minutes += _labour[(part * Lanes) + lane];
            _start[work] = start;
            _end[work] = network.Open[work].End(start, minutes);
        }

        double ready = Earliest(works, 0, lane, out int last);
        while (last >= 0)
        {
            if (network.ArcCure[last] >= 0)
                CureCritical[network.ArcCure[last]]++;
            int source = network.ArcSource[last];
            if (source < 0)
                break;
            WorkCritical[source]++;
            last = _bound[source];
        }
        foreach (var metal in network.Fresh)
        {
            if (_start[metal.Covered] - _end[metal.Bared] > metal.Minutes + 1e-6)
            {
                Stale++;
                break;
            }
        }
        return ready;
    }

    /// <summary>When everything that a work, or the ready moment, waits for has happened, and the arc that came last.</summary>
    private double Earliest(int into, double floor, int lane, out int bound)
    {
        var network = _network;
        double earliest = floor;
        bound = -1;
        for (int arc = network.ArcFrom[into]; arc < network.ArcFrom[into + 1]; arc++)
        {
            int source = network.ArcSource[arc];
            double time = network.ArcMinutes[arc];
            if (source >= 0)
                time += network.ArcAtEnd[arc] ? _end[source] : _start[source];
            int index = network.ArcCure[arc];
            if (index >= 0)
                time = Cured(network.Cures[index], source, time, lane, earliest);
            if (time > earliest)
            {
                earliest = time;
                bound = arc;
            }
        }
        return earliest;
    }

    /// <summary>A cure is over at a whole minute, as in the plan.</summary>
    private double Cured(in CureWait cure, int source, double start, int lane, double early)
    {
        double hours = cure.Hours;
        if (cure.Material >= 0)
            hours *= _material[(cure.Material * Lanes) + lane];
        if (cure.Depth >= 0)
            hours *= _depth[(cure.Depth * Lanes) + lane];

        // Several beads of a session ask about the same end.
        int memo = ((source + 1) * _network.Grid.Laws.Length) + cure.Law;
        if (_asked[memo] != start)
            (_asked[memo], _done[memo]) = (start, _network.Grid.DoneBy(cure.Law, start));
        return Math.Ceiling(_network.Grid.Finish(cure.Law, start, _done[memo], hours, _climate.Answers, lane, early) - 1e-6);
    }
}
