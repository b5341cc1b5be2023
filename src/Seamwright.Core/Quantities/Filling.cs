using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Units;

namespace Seamwright.Quantities;

/// <summary>How a volume and its nozzles are spread over packs in a given order. Every pack used has a nozzle; further runs go where most is left.</summary>
/// <param name="Packs">Packs in the order in which they are emptied.</param>
/// <param name="NozzleCounts">Nozzles on each; none where the material is not mixed.</param>
/// <param name="Volumes">What leaves each pack, nozzle waste counted.</param>
/// <param name="WastePerNozzle">Paste that one nozzle costs.</param>
/// <param name="Unplaced">Runs for whose nozzle no pack has enough left.</param>
/// <param name="Missing">Volume that the packs cannot give, with the waste of the unplaced runs.</param>
internal sealed record Filling(
    ImmutableArray<Pack> Packs, ImmutableArray<int> NozzleCounts, ImmutableArray<Volume> Volumes, Volume WastePerNozzle, int Unplaced, Volume Missing)
{
    internal static Filling Of(ImmutableArray<Pack> packs, Volume needed, int runs, Volume wastePerNozzle)
    {
        var counts = new int[packs.Length];
        int unplaced = 0;
        if (wastePerNozzle > Volume.Zero)
        {
            Array.Fill(counts, 1);
            unplaced = Math.Max(0, runs - packs.Length);
            while (unplaced > 0 && Roomiest(packs, counts, wastePerNozzle) is { } at)
            {
                counts[at]++;
                unplaced--;
            }
        }

        var volumes = new Volume[packs.Length];
        var open = needed;
        for (int i = 0; i < volumes.Length; i++)
        {
            var held = wastePerNozzle * counts[i];
            var paste = packs[i].Left - held <= open ? packs[i].Left - held : open;
            volumes[i] = paste + held >= packs[i].Left ? packs[i].Left : paste + held;
            open -= paste;
        }
        return new Filling(packs, [.. counts], [.. volumes], wastePerNozzle, unplaced, open + wastePerNozzle * unplaced);
    }

    internal ImmutableArray<PackTake> Takes(PackDemand demand) =>
    [
        .. Packs.Select((pack, i) => new PackTake(
            demand.Id, pack.Material, pack.Id, pack.Lot, Volumes[i], WastePerNozzle * NozzleCounts[i], [], NozzleCounts[i], !PackUsability.IsBegun(pack))),
    ];

    /// <summary>The pack that has most left besides its nozzles, if that is enough for another one.</summary>
    private static int? Roomiest(ImmutableArray<Pack> packs, int[] counts, Volume waste)
    {
        int best = -1;
        var most = waste;
        for (int i = 0; i < counts.Length; i++)
        {
            var left = packs[i].Left - waste * counts[i];
            if (left > most)
                (best, most) = (i, left);
        }
        return best < 0 ? null : best;
    }
}
