using Seamwright.Materials;
using Seamwright.Units;

namespace Seamwright.Quantities;

/// <summary>What the material of a take costs.</summary>
/// <param name="Used">Share of the pack's price, purge and nozzle hold counted; a single-use pack pays all of what it held.</param>
/// <param name="Nozzles">Nozzles.</param>
/// <param name="Wasted">Rest of the pack that nothing planned can use before it ends.</param>
public readonly record struct MaterialCharge(Money Used, Money Nozzles, Money Wasted)
{
    /// <summary>Everything together.</summary>
    public Money Total => Used + Nozzles + Wasted;

    /// <summary>Sum.</summary>
    public static MaterialCharge operator +(MaterialCharge a, MaterialCharge b) => new(a.Used + b.Used, a.Nozzles + b.Nozzles, a.Wasted + b.Wasted);

    /// <summary>Charge of one take.</summary>
    /// <param name="take">Take.</param>
    /// <param name="rest">The pack it came from.</param>
    /// <param name="sheet">Its sheet.</param>
    /// <param name="nozzlePrice">Price of a nozzle.</param>
    /// <param name="restIsLost">True where nothing planned can use the rest; say so for one take of a pack only.</param>
    /// <exception cref="OutsideValidityException">The sheet states no content, so that a share has no meaning.</exception>
    public static MaterialCharge Of(PackTake take, PackRest rest, DataSheet sheet, Money nozzlePrice, bool restIsLost = false)
    {
        var nozzles = nozzlePrice * take.NozzleCount;
        if (sheet.Pack.SingleUse)
            return new MaterialCharge(ShareOfPack(sheet, rest.Before.Left, rest.Before.StripLeft), nozzles, Money.Zero);

        var used = ShareOfPack(sheet, take.Volume, take.Strip);
        return new MaterialCharge(used, nozzles, restIsLost ? ShareOfPack(sheet, rest.After.Left, rest.After.StripLeft) : Money.Zero);
    }

    /// <summary>Price of a part of a pack, unrounded.</summary>
    /// <param name="sheet">Sheet with price and content.</param>
    /// <param name="volume">Part by volume; zero for a strip.</param>
    /// <param name="strip">Part by length; zero for everything else.</param>
    /// <exception cref="OutsideValidityException">The sheet states no content, so that a share has no meaning.</exception>
    public static Money ShareOfPack(DataSheet sheet, Volume volume, Length strip)
    {
        if (volume > Volume.Zero && sheet.Pack.Content <= Volume.Zero)
            throw new OutsideValidityException("Share of a pack", $"{sheet.Id}, content 0 ml", "packs with a stated content");
        if (strip > Length.Zero && sheet.Pack.StripLength <= Length.Zero)
            throw new OutsideValidityException("Share of a roll", $"{sheet.Id}, length 0 m", "rolls with a stated length");

        double share = (volume > Volume.Zero ? volume / sheet.Pack.Content : 0) + (strip > Length.Zero ? strip / sheet.Pack.StripLength : 0);
        return sheet.Pack.Price * (decimal)share;
    }
}
