using Seamwright.Costs;
using Seamwright.Program.Texts;
using Seamwright.Units;

namespace Seamwright.Program.Printing;

/// <summary>What a cost is made of, in the order in which it is told.</summary>
internal static class CostParts
{
    /// <summary>Every part with the key of its sentence; zero ones too.</summary>
    public static (string Key, Money Sum)[] Of(CostBreakdown cost) =>
    [
        ("cost.labour", cost.Labour), ("cost.material", cost.Material), ("cost.expiring", cost.SavedFromExpiry), ("cost.wasted", cost.Wasted), ("cost.nozzles", cost.Nozzles),
        ("cost.delivery", cost.Delivery), ("cost.lamp", cost.Lamp), ("cost.booth", cost.Booth), ("cost.bay-time", cost.BayTime),
        ("cost.lateness", cost.Lateness),
    ];

    /// <summary>The parts as a sum: <c>labour 296.80 + material 60.91 − used before it expires 8.29</c>.</summary>
    public static string Sum(Formatter format, CostBreakdown cost)
    {
        var text = new System.Text.StringBuilder();
        foreach (var (key, sum) in Of(cost).Where(part => part.Sum.Rounded.Amount != 0))
        {
            text.Append(text.Length == 0 ? "" : sum.Amount < 0 ? " − " : " + ");
            text.Append(format.Say(key, format.Text(sum.Amount < 0 && text.Length > 0 ? -sum : sum)));
        }
        return text.ToString();
    }

    /// <summary>What two costs differ in, signed: <c>material +9.00</c>.</summary>
    public static IEnumerable<string> Differences(Formatter format, CostBreakdown before, CostBreakdown after) =>
        Of(before).Zip(Of(after))
            .Select(pair => (pair.First.Key, Shift: pair.Second.Sum - pair.First.Sum))
            .Where(part => part.Shift.Rounded.Amount != 0)
            .Select(part => format.Say(part.Key, format.Text(part.Shift, "signed")));
}
