namespace Seamwright.Materials;

/// <summary>What a material is for.</summary>
public enum MaterialUse
{
    /// <summary>Seals a seam against water and air; paste.</summary>
    SeamSealer,

    /// <summary>Preformed strip laid on a hem or straight edge.</summary>
    SeamTape,

    /// <summary>Dab between outer skin and bar against flutter.</summary>
    AntiFlutter,

    /// <summary>Bonds panels.</summary>
    PanelAdhesive,

    /// <summary>Primer that may carry sealer and paint.</summary>
    Primer,

    /// <summary>Acid etch primer, an ordinary primer must follow where two-part materials come.</summary>
    EtchPrimer,

    /// <summary>Zinc or copper primer for mating faces to be spot welded.</summary>
    WeldThroughPrimer,

    /// <summary>Stone-chip or underbody coating.</summary>
    StoneChip,

    /// <summary>Wax for closed sections.</summary>
    CavityWax,

    /// <summary>Flexible foam that blocks noise in a closed section.</summary>
    FlexibleFoam,

    /// <summary>Rigid acoustic foam.</summary>
    RigidFoam,
}

/// <summary>Chemistry, as far as rules and cautions need it.</summary>
public enum Chemistry
{
    /// <summary>One-part moisture-cure polyurethane (isocyanate).</summary>
    OnePartPolyurethane,

    /// <summary>One-part silane-modified polymer.</summary>
    OnePartSilaneModified,

    /// <summary>One-part solvent-based rubber.</summary>
    OnePartSolventRubber,

    /// <summary>Two-part epoxy.</summary>
    TwoPartEpoxy,

    /// <summary>Two-part polyurethane (isocyanate).</summary>
    TwoPartPolyurethane,

    /// <summary>Two-part acrylic (methacrylate).</summary>
    TwoPartAcrylic,

    /// <summary>Acid etch (wash) primer.</summary>
    AcidEtch,

    /// <summary>Zinc-rich primer.</summary>
    ZincRich,

    /// <summary>Water-borne coating.</summary>
    Waterborne,

    /// <summary>Solvent-borne coating.</summary>
    Solventborne,

    /// <summary>Wax.</summary>
    Wax,

    /// <summary>Butyl or similar strip that does not cure.</summary>
    Strip,
}

/// <summary>How a material reaches the car; decides set-up minutes and whether a mixing nozzle is used.</summary>
public enum ApplicationMethod
{
    /// <summary>Cartridge or bag in a gun, no mixing.</summary>
    Cartridge,

    /// <summary>Two-part cartridge through a static mixing nozzle.</summary>
    CartridgeWithMixer,

    /// <summary>Spray gun, mixed in a pot where two-part.</summary>
    SprayGun,

    /// <summary>Aerosol can.</summary>
    Aerosol,

    /// <summary>Strip laid and rolled by hand.</summary>
    Strip,

    /// <summary>Brush from a can.</summary>
    Brush,
}

/// <summary>What a maker of a sheet says about a surface.</summary>
public enum SurfaceKind
{
    /// <summary>Bare steel, zinc removed or never there.</summary>
    BareSteel,

    /// <summary>Sound zinc on steel.</summary>
    ZincCoatedSteel,

    /// <summary>Bare aluminium.</summary>
    BareAluminium,

    /// <summary>Acid etch primer.</summary>
    EtchPrimer,

    /// <summary>Two-part epoxy primer.</summary>
    EpoxyPrimer,

    /// <summary>Urethane primer or surfacer.</summary>
    UrethanePrimer,

    /// <summary>Zinc weld-through primer.</summary>
    WeldThroughPrimer,

    /// <summary>Factory electrocoat, scuffed.</summary>
    ElectroCoat,

    /// <summary>Sound factory or repair paint, scuffed.</summary>
    SoundPaint,
}

/// <summary>A danger that is shown at the step where it matters.</summary>
public enum Hazard
{
    /// <summary>Isocyanates: respiratory and skin sensitiser.</summary>
    Isocyanate,

    /// <summary>Uncured epoxy: skin sensitiser.</summary>
    Epoxy,

    /// <summary>Highly flammable liquid or vapour.</summary>
    Flammable,

    /// <summary>Zinc fume when welded through.</summary>
    ZincFume,

    /// <summary>Acid.</summary>
    Acid,

    /// <summary>Acrylate or methacrylate.</summary>
    Acrylate,

    /// <summary>Solvent vapour.</summary>
    Solvent,
}
