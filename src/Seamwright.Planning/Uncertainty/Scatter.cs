using Seamwright.Shops;
using Seamwright.Work;

namespace Seamwright.Planning.Uncertainty;

/// <summary>How far everything in a network scatters: one set of numbers for a run; a frozen cause has zeros.</summary>
internal sealed class Scatter
{
    private Scatter()
    {
    }

    /// <summary>Of the whole car's labour. [log]</summary>
    public double WholeCar { get; private init; }

    /// <summary>Of each part. [log]</summary>
    public required double[] Parts { get; init; }

    public double TemperatureOffset { get; private init; }

    public double TemperatureSwing { get; private init; }

    public double HumidityOffset { get; private init; }

    public double HumiditySwing { get; private init; }

    /// <summary>What is left of an error after an hour. [0…1]</summary>
    public double Memory { get; private init; }

    /// <summary>Of each material's cure work. [log]</summary>
    public required double[] Materials { get; init; }

    /// <summary>Of a bead's depth. [log]</summary>
    public double Depth { get; private init; }

    public static Scatter Of(PlanNetwork network, Spreads spreads) => new()
    {
        WholeCar = spreads.WholeCar,
        Parts = network.PartSpread,
        TemperatureOffset = spreads.TemperatureOffset.Kelvins,
        TemperatureSwing = spreads.TemperatureSwing.Kelvins,
        HumidityOffset = spreads.HumidityOffset,
        HumiditySwing = spreads.HumiditySwing,
        Memory = Math.Exp(-CureGrid.CellMinutes / spreads.Correlation.TotalMinutes),
        Materials = [.. network.Materials.Select(_ => spreads.CureSpeed)],
        Depth = spreads.BeadDepth,
    };

    /// <summary>Cause of which other numbers are drawn, everything else kept; null = none.</summary>
    public Cause? Redrawn { get; init; }

    /// <summary>Nothing scatters: every sample takes as long as planned.</summary>
    public static Scatter None(PlanNetwork network) => new() { Parts = new double[network.PartSpread.Length], Materials = new double[network.Materials.Length] };

    /// <summary>The same with other numbers for one cause.</summary>
    public Scatter Redrawing(Cause cause) => new()
    {
        WholeCar = WholeCar,
        Parts = Parts,
        TemperatureOffset = TemperatureOffset,
        TemperatureSwing = TemperatureSwing,
        HumidityOffset = HumidityOffset,
        HumiditySwing = HumiditySwing,
        Memory = Memory,
        Materials = Materials,
        Depth = Depth,
        Redrawn = cause,
    };

    /// <summary>The same with one cause frozen.</summary>
    public Scatter Without(PlanNetwork network, Cause cause)
    {
        bool air = cause.Kind is CauseKind.Temperature, water = cause.Kind is CauseKind.Humidity;
        return new Scatter
        {
            WholeCar = cause.Kind == CauseKind.WholeCar ? 0 : WholeCar,
            Parts = cause.Kind == CauseKind.Labour ? [.. Parts.Select((spread, part) => network.PartKind[part] == cause.Step ? 0 : spread)] : Parts,
            TemperatureOffset = air ? 0 : TemperatureOffset,
            TemperatureSwing = air ? 0 : TemperatureSwing,
            HumidityOffset = water ? 0 : HumidityOffset,
            HumiditySwing = water ? 0 : HumiditySwing,
            Memory = Memory,
            Materials = cause.Kind == CauseKind.Material ? [.. Materials.Select((spread, material) => network.Materials[material] == cause.Material ? 0 : spread)] : Materials,
            Depth = cause.Kind == CauseKind.BeadDepth ? 0 : Depth,
        };
    }

    /// <summary>The causes that a network has, in a fixed order.</summary>
    public IEnumerable<Cause> Causes(PlanNetwork network)
    {
        var kinds = network.PartKind.Zip(Parts).Where(part => part.Second > 0).Select(part => part.First).Distinct().Order();
        foreach (StepKind kind in kinds)
            yield return new Cause(CauseKind.Labour, Step: kind);
        if (WholeCar > 0 && Parts.Length > 0)
            yield return new Cause(CauseKind.WholeCar);
        if (network.Cures.Length == 0)
            yield break;
        if (TemperatureOffset > 0 || TemperatureSwing > 0)
            yield return new Cause(CauseKind.Temperature);
        if (HumidityOffset > 0 || HumiditySwing > 0)
            yield return new Cause(CauseKind.Humidity);
        foreach (var (material, spread) in network.Materials.Zip(Materials))
        {
            if (spread > 0)
                yield return new Cause(CauseKind.Material, Material: material);
        }
        if (Depth > 0 && network.Depths > 0)
            yield return new Cause(CauseKind.BeadDepth);
    }
}
