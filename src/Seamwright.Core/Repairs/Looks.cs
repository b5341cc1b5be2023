namespace Seamwright.Repairs;

/// <summary>The factory look of a seam, which the repair reproduces.</summary>
public enum Profile
{
    /// <summary>Nothing was there and nothing is added.</summary>
    None,

    /// <summary>Round bead, untooled.</summary>
    Round,

    /// <summary>Half-round or tooled bead.</summary>
    HalfRound,

    /// <summary>Flat, brushed along.</summary>
    Brushed,

    /// <summary>Brushed, with the brush lifted at intervals.</summary>
    SkipBrushed,

    /// <summary>Sprayed, textured band.</summary>
    Sprayed,

    /// <summary>Self-levelled in a ditch.</summary>
    Ditch,

    /// <summary>Flat strip on a hem.</summary>
    Strip,

    /// <summary>Fillet in a corner.</summary>
    Fillet,

    /// <summary>Dab or cap on a head or end.</summary>
    Dab,
}

/// <summary>How two panels meet.</summary>
public enum JointType
{
    /// <summary>One sheet on another, edge free.</summary>
    Lap,

    /// <summary>Two flanges turned the same way, face to face.</summary>
    Coach,

    /// <summary>Edges meet, with a backing or sleeve.</summary>
    Butt,

    /// <summary>Standing flange, layers pressed together.</summary>
    PinchWeld,

    /// <summary>Outer skin folded over the inner.</summary>
    Hem,

    /// <summary>Three layers.</summary>
    Sandwich,

    /// <summary>Channel between roof and side; flexes.</summary>
    RoofDitch,

    /// <summary>Gutter that carries water to a drain.</summary>
    DripChannel,

    /// <summary>Dash panel to cowl.</summary>
    Cowl,

    /// <summary>Tower cap to apron.</summary>
    StrutTower,

    /// <summary>Inner to outer wheelhouse, or to the floor.</summary>
    Wheelhouse,

    /// <summary>Box of sheets without access after closing.</summary>
    ClosedSection,

    /// <summary>Rivet or fastener heads.</summary>
    Fastener,

    /// <summary>Outer skin to reinforcement bar.</summary>
    SkinToBar,
}

/// <summary>How the seam lies while it is being worked.</summary>
public enum Position
{
    /// <summary>Level, from above.</summary>
    Level,

    /// <summary>From below.</summary>
    Overhead,

    /// <summary>Vertical.</summary>
    Vertical,

    /// <summary>Leaning 10° or more from level.</summary>
    Inclined,
}

/// <summary>Metal of a panel.</summary>
public enum Metal
{
    /// <summary>Uncoated carbon steel.</summary>
    Steel,

    /// <summary>Zinc-coated steel.</summary>
    ZincCoatedSteel,

    /// <summary>Aluminium alloy.</summary>
    Aluminium,

    /// <summary>Stainless steel.</summary>
    StainlessSteel,

    /// <summary>Magnesium alloy.</summary>
    Magnesium,

    /// <summary>Carbon-fibre composite.</summary>
    CarbonFibre,
}

/// <summary>What a joint or place is there for.</summary>
public enum JointFunction
{
    /// <summary>Keeps water and air out.</summary>
    Seal,

    /// <summary>Carries load: adhesive or weld by the maker's procedure, never sealer.</summary>
    Structural,

    /// <summary>Matters in a crash: by the maker's procedure only.</summary>
    CrashRelevant,

    /// <summary>Acoustic foam sits here; never sealer.</summary>
    AcousticFoam,

    /// <summary>Keeps a skin from fluttering on its bar.</summary>
    AntiFlutter,
}

/// <summary>What comes over the seam.</summary>
public enum LayerAbove
{
    /// <summary>Paint in the booth slot.</summary>
    Paint,

    /// <summary>Stone-chip coating, then paint.</summary>
    StoneChip,

    /// <summary>Wax only.</summary>
    Wax,

    /// <summary>Nothing, for example under carpet or trim.</summary>
    Nothing,
}

/// <summary>When in the order of work a seam or place is treated.</summary>
public enum Stage
{
    /// <summary>Before the outer panel closes the access.</summary>
    BeforeAccessCloses,

    /// <summary>Before the paint slot.</summary>
    BeforePaint,

    /// <summary>After the heat of the paint bake.</summary>
    AfterPaintHeat,
}

/// <summary>Edge of the replaced panel's opening along which a place lies, the panel seen from outside and unfolded.</summary>
public enum PanelEdge
{
    /// <summary>Towards the front of the vehicle.</summary>
    Front,

    /// <summary>Upper edge.</summary>
    Top,

    /// <summary>Towards the rear of the vehicle.</summary>
    Rear,

    /// <summary>Lower edge.</summary>
    Bottom,

    /// <summary>Not at an edge: inside the opening, behind the panel.</summary>
    Inside,
}
