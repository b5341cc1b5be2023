using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Units;

namespace Seamwright.Suitability;

/// <summary>A material thought of on a joint, with everything the rules look at. Immutable.</summary>
public sealed record JointCase
{
    /// <summary>The joint.</summary>
    public required Joint Joint { get; init; }

    /// <summary>The material thought of.</summary>
    public required DataSheet Sheet { get; init; }

    /// <summary>What the material will lie on after the preparation.</summary>
    public required Surface Beneath { get; init; }

    /// <summary>Sheet of the coat beneath; null = bare metal, factory coat or not known.</summary>
    public DataSheet? BeneathSheet { get; init; }

    /// <summary>What is done to the surface first.</summary>
    public Preparation Preparation { get; init; } = Preparation.AsIs;

    /// <summary>The repair: procedure, sign-offs, hot work, tilt.</summary>
    public required Repair Repair { get; init; }

    /// <summary>The shop: work minutes for remedies, bake temperature.</summary>
    public required Shop Shop { get; init; }

    /// <summary>The joint as it lies now, no preparation.</summary>
    public static JointCase AsItLies(Joint joint, DataSheet sheet, DataSheet? beneathSheet, Repair repair, Shop shop) =>
        new() { Joint = joint, Sheet = sheet, Beneath = joint.Surface, BeneathSheet = beneathSheet, Repair = repair, Shop = shop };

    /// <summary>The same thought after a preparation.</summary>
    public JointCase After(PreparationRoute route) =>
        this with { Beneath = route.Result, BeneathSheet = route.ResultSheet, Preparation = route.Preparation };

    /// <summary>Sealer, strip or anti-flutter material: something a seam or place can be made of.</summary>
    internal bool IsSeamMaterial => Sheet.Use is MaterialUse.SeamSealer or MaterialUse.SeamTape or MaterialUse.AntiFlutter;

    /// <summary>Metal temperature of the bake that follows.</summary>
    internal Temperature Bake => Repair.BakeTemperature ?? Shop.BakeTemperature;
}
