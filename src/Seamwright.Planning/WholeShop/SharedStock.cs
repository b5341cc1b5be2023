using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Quantities;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.WholeShop;

/// <summary>The shelves all vehicles draw from.</summary>
internal sealed class SharedStock(Stock stock, ImmutableDictionary<MaterialId, DataSheet> sheets)
{
    /// <summary>What is left when some vehicles have taken theirs. Packs they only plan to order are their own.</summary>
    public Stock Without(IEnumerable<ImmutableArray<PackUse>> taken)
    {
        var uses = taken.SelectMany(uses => uses).Where(use => !use.Ordered).GroupBy(use => use.Pack).ToDictionary(group => group.Key, group => group.ToList());
        if (uses.Count == 0)
            return stock;
        var loose = stock.Nozzles.ToBuilder();
        var packs = ImmutableArray.CreateBuilder<Pack>(stock.Packs.Length);
        foreach (var pack in stock.Packs)
            packs.Add(uses.TryGetValue(pack.Id, out var from) ? Rest(pack, from, loose) : pack);
        return stock with { Packs = packs.ToImmutable(), Nozzles = [.. loose.Where(nozzles => nozzles.Count > 0)] };
    }

    /// <summary>Whether the shelves hold what a vehicle takes from them.</summary>
    public static bool Holds(Stock left, ImmutableArray<PackUse> uses)
    {
        foreach (var use in uses.Where(use => !use.Ordered).GroupBy(use => use.Pack))
        {
            if (left.Packs.FirstOrDefault(pack => pack.Id == use.Key) is not { } pack)
                return false;
            if (use.Sum(part => part.Amount.Millilitres) > pack.Left.Millilitres + 1e-6 || use.Sum(part => part.StripLength.Millimetres) > pack.StripLeft.Millimetres + 1e-6)
                return false;
        }
        // Nozzles fit by ratio; counting them all together is enough to be told apart from a shelf that has plenty.
        return uses.Sum(use => use.Nozzles) <= left.Nozzles.Sum(nozzles => nozzles.Count);
    }

    private Pack Rest(Pack pack, List<PackUse> uses, ImmutableArray<NozzleStock>.Builder loose)
    {
        var sheet = sheets[pack.Material];
        int own = PackUsability.NozzlesWith(pack, sheet);
        int fitted = uses.Sum(use => use.Nozzles);
        TakeLoose(loose, Nozzles.RatioOf(sheet), fitted - own);
        bool gone = sheet.Pack.SingleUse;
        var left = uses.Aggregate(pack.Left, (rest, use) => rest - use.Amount);
        var strip = uses.Aggregate(pack.StripLeft, (rest, use) => rest - use.StripLength);
        return pack with
        {
            Left = gone || left < Volume.Zero ? Volume.Zero : left,
            StripLeft = gone || strip < Length.Zero ? Length.Zero : strip,
            Nozzles = Math.Max(0, own - fitted),
        };
    }

    /// <summary>Nozzles of the ratio first, those that fit any last.</summary>
    private static void TakeLoose(ImmutableArray<NozzleStock>.Builder loose, string? ratio, int count)
    {
        foreach (string? fits in (ReadOnlySpan<string?>)[ratio, null])
        {
            for (int i = 0; i < loose.Count && count > 0; i++)
            {
                if (loose[i].FitsRatio != fits)
                    continue;
                int taken = Math.Min(count, loose[i].Count);
                loose[i] = loose[i] with { Count = loose[i].Count - taken };
                count -= taken;
            }
        }
    }
}
