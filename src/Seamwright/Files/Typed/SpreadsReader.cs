using System.Collections.Immutable;
using Seamwright.Files.Values;
using Seamwright.Shops;
using Seamwright.Work;

namespace Seamwright.Files.Typed;

/// <summary>Reads how far a shop's figures scatter.</summary>
internal static class SpreadsReader
{
    public static Spreads Read(MapReader map)
    {
        var usual = new Spreads();
        var labour = ImmutableDictionary<StepKind, double>.Empty;
        foreach (var (kind, value) in map.WordTable<StepKind>("labour"))
        {
            if (QuantityText.Read(value, Measures.Share) is { } share)
                labour = labour.SetItem(kind, share);
        }
        return usual with
        {
            Labour = labour,
            WholeCar = map.Share("whole_car") ?? usual.WholeCar,
            TemperatureOffset = map.Difference("temperature_offset") ?? usual.TemperatureOffset,
            TemperatureSwing = map.Difference("temperature_swing") ?? usual.TemperatureSwing,
            HumidityOffset = map.Share("humidity_offset") ?? usual.HumidityOffset,
            HumiditySwing = map.Share("humidity_swing") ?? usual.HumiditySwing,
            Correlation = map.Duration("correlation") ?? usual.Correlation,
            CureSpeed = map.Share("cure_speed") ?? usual.CureSpeed,
            BeadDepth = map.Share("bead_depth") ?? usual.BeadDepth,
            RunsOver = map.Duration("runs_over") ?? usual.RunsOver,
            Wanted = map.Share("wanted") ?? usual.Wanted,
        };
    }
}
