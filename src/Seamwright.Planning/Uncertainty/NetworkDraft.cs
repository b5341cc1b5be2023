using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Work;

namespace Seamwright.Planning.Uncertainty;

/// <summary>Collects works and waits in any order and puts the network of what the ready moment depends on together.</summary>
internal sealed class NetworkDraft
{
    /// <summary>The ready moment, as the end of an arc.</summary>
    public const int Ready = int.MaxValue;

    /// <summary>A fixed minute, as the source of an arc.</summary>
    public const int Minute = -1;

    private readonly List<(WorkLabel Label, double Floor, OpenTimes Open, double Fixed, ImmutableArray<Part> Parts)> _works = [];
    private readonly List<Arc> _arcs = [];
    private readonly List<CureWait> _cures = [];
    private readonly List<MaterialId> _materials = [];
    private readonly List<FreshMetal> _fresh = [];
    private int _depths;

    /// <summary>Labour that scatters by itself.</summary>
    /// <param name="Kind">Kind of step.</param>
    /// <param name="Minutes">Planned minutes.</param>
    /// <param name="Spread">Standard deviation of the logarithm.</param>
    public readonly record struct Part(StepKind Kind, double Minutes, double Spread);

    private readonly record struct Arc(int Source, bool AtEnd, int To, double Minutes, int Cure);

    public int AddWork(WorkLabel label, double floor, OpenTimes open, double fixedMinutes, params ImmutableArray<Part> parts)
    {
        _works.Add((label, floor, open, fixedMinutes, parts));
        return _works.Count - 1;
    }

    /// <summary>A work does not begin before a minute.</summary>
    public void NotBefore(int work, double minute) => _works[work] = _works[work] with { Floor = Math.Max(_works[work].Floor, minute) };

    /// <summary>A wait of some minutes after the start or end of a work, or from minute 0.</summary>
    public void AddWait(int source, bool atEnd, int to, double minutes) => _arcs.Add(new(source, atEnd, to, minutes, -1));

    /// <summary>A wait for a cure that begins at the start or end of a work, or at a minute.</summary>
    public void AddCure(int source, bool atEnd, int to, double minute, CureWait cure)
    {
        int index = _cures.IndexOf(cure);
        if (index < 0)
        {
            index = _cures.Count;
            _cures.Add(cure);
        }
        _arcs.Add(new(source, atEnd, to, minute, index));
    }

    /// <summary>A work waits for all that another waits for: they begin together.</summary>
    public void WaitAlike(int work, int other) =>
        _arcs.AddRange([.. _arcs.Where(arc => arc.To == other && arc.Source != work && arc.Source != other).Select(arc => arc with { To = work })]);

    public void AddFresh(FreshMetal metal) => _fresh.Add(metal);

    /// <summary>Place of a material in the network.</summary>
    public int Material(MaterialId material)
    {
        int index = _materials.IndexOf(material);
        if (index >= 0)
            return index;
        _materials.Add(material);
        return _materials.Count - 1;
    }

    /// <summary>Place of a further depth in the network.</summary>
    public int Depth() => _depths++;

    public PlanNetwork Build(CureGrid grid)
    {
        var order = Order();
        var place = order.Select((work, index) => (work, index)).ToDictionary(pair => pair.work, pair => pair.index);
        var parts = order.SelectMany(work => _works[work].Parts).ToList();
        var arcs = order.Append(Ready).Select(Into).ToList();
        var flat = arcs.SelectMany(arc => arc).ToList();
        return new PlanNetwork
        {
            Works = [.. order.Select(work => _works[work].Label)],
            Floor = [.. order.Select(work => _works[work].Floor)],
            Open = [.. order.Select(work => _works[work].Open)],
            Fixed = [.. order.Select(work => _works[work].Fixed)],
            PartFrom = Sums(order.Select(work => _works[work].Parts.Length)),
            PartMinutes = [.. parts.Select(part => part.Minutes)],
            PartSpread = [.. parts.Select(part => part.Spread)],
            PartKind = [.. parts.Select(part => part.Kind)],
            ArcFrom = Sums(arcs.Select(into => into.Count)),
            ArcSource = [.. flat.Select(arc => arc.Source == Minute ? Minute : place[arc.Source])],
            ArcAtEnd = [.. flat.Select(arc => arc.AtEnd)],
            ArcMinutes = [.. flat.Select(arc => arc.Minutes)],
            ArcCure = [.. flat.Select(arc => arc.Cure)],
            Cures = [.. _cures],
            Materials = [.. _materials],
            Depths = _depths,
            Fresh = [.. _fresh.Where(metal => place.ContainsKey(metal.Bared) && place.ContainsKey(metal.Covered)).Select(metal => metal with { Bared = place[metal.Bared], Covered = place[metal.Covered] })],
            Grid = grid,
        };
    }

    /// <summary>Plain waits first, then the longest cures: a sample need not work out a cure that is over before what it already waits for.</summary>
    private List<Arc> Into(int work) =>
        [.. _arcs.Where(arc => arc.To == work).Distinct().OrderBy(arc => arc.Cure >= 0).ThenByDescending(arc => arc.Cure >= 0 ? _cures[arc.Cure].Hours : 0)];

    /// <summary>Everything that the ready moment waits for, directly or not, each after what it waits for.</summary>
    private List<int> Order()
    {
        var into = _arcs.Where(arc => arc.Source != Minute).ToLookup(arc => arc.To, arc => arc.Source);
        var order = new List<int>();
        var state = new Dictionary<int, bool>();     // false while its predecessors are looked at
        foreach (int last in into[Ready])
            Visit(last);
        return order;

        void Visit(int work)
        {
            if (state.TryGetValue(work, out bool done))
            {
                if (!done)
                    throw new InvalidOperationException($"The works of the plan wait for each other in a circle at {_works[work].Label}.");
                return;
            }
            state[work] = false;
            foreach (int before in into[work])
                Visit(before);
            state[work] = true;
            order.Add(work);
        }
    }

    private static int[] Sums(IEnumerable<int> counts)
    {
        var sums = new List<int> { 0 };
        foreach (int count in counts)
            sums.Add(sums[^1] + count);
        return [.. sums];
    }
}
