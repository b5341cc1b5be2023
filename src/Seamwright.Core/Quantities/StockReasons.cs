using Seamwright.Suitability;

namespace Seamwright.Quantities;

/// <summary>What an allocation and an order list have to tell, as keys with facts for the program's texts.</summary>
public static class StockReasons
{
    /// <summary>What is missing and what to order.</summary>
    public static Reason Of(PackShortage shortage) => shortage switch
    {
        { Pieces.IsEmpty: false, PacksToOrder: { } rolls } => Reason.Of("strip-missing", shortage.Material, shortage.Pieces.Length, rolls, shortage.NeededAt),
        { Pieces.IsEmpty: false } => Reason.Of("strip-longer-than-roll", shortage.Material, shortage.Pieces.Max()),
        { PacksToOrder: { } packs } => Reason.Of("paste-missing", shortage.Material, shortage.Volume, packs, shortage.NeededAt),
        _ => Reason.Of("paste-missing-no-content", shortage.Material, shortage.Volume),
    };

    /// <summary>Nozzles that are missing.</summary>
    public static Reason Of(NozzleShortage shortage) => shortage.Ratio is { } ratio
        ? Reason.Of("nozzles-missing", shortage.Material, shortage.Count, ratio, shortage.NeededAt)
        : Reason.Of("nozzles-missing-any-ratio", shortage.Material, shortage.Count, shortage.NeededAt);

    /// <summary>What becomes of a pack's rest.</summary>
    public static Reason Of(PackRest rest)
    {
        bool strip = rest.Before.StripLeft > Units.Length.Zero;
        object left = strip ? rest.After.StripLeft : rest.After.Left;
        if (rest.RestIsWaste)
            return Reason.Of("rest-is-waste", rest.After.Id, left);

        return rest.LastDay is { } day ? Reason.Of("rest-until", rest.After.Id, left, day) : Reason.Of("rest-without-end", rest.After.Id, left);
    }

    /// <summary>An order line for packs.</summary>
    public static Reason Of(PackOrder order) => order switch
    {
        { Packs: null } => Reason.Of("order-finds-no-pack", order.Material),
        { LatestOrder: { } latest } => Reason.Of("order-packs-by", order.Packs, order.Material, latest),
        _ => Reason.Of("order-packs-nobody-delivers", order.Packs, order.Material, order.NeededAt),
    };

    /// <summary>An order line for nozzles.</summary>
    public static Reason Of(NozzleOrder order) => (order.Ratio, order.LatestOrder) switch
    {
        ({ } ratio, { } latest) => Reason.Of("order-nozzles-by", order.Count, ratio, latest),
        (null, { } latest) => Reason.Of("order-nozzles-any-ratio-by", order.Count, latest),
        ({ } ratio, null) => Reason.Of("order-nozzles-nobody-delivers", order.Count, ratio, order.NeededAt),
        (null, null) => Reason.Of("order-nozzles-any-ratio-nobody-delivers", order.Count, order.NeededAt),
    };
}
