namespace Seamwright.Program.Web.Shelf;

/// <summary>How a pack stands on the shelf; what needs a hand first.</summary>
public enum PackState
{
    /// <summary>Its date has passed.</summary>
    Expired,

    /// <summary>Open for longer than its sheet allows.</summary>
    OpenTooLong,

    /// <summary>Activated longer ago than its sheet allows.</summary>
    ActivatedTooLong,

    /// <summary>For one use, and opened.</summary>
    SpentAtOnce,

    /// <summary>A component is missing.</summary>
    PartnerMissing,

    /// <summary>Nothing is left.</summary>
    Empty,

    /// <summary>Set aside by the shop.</summary>
    SetAside,

    /// <summary>No mixing nozzle fits it.</summary>
    NoNozzle,

    /// <summary>The shop has no sheet of its material.</summary>
    NoSheet,

    /// <summary>Its document cannot be read.</summary>
    Unreadable,

    /// <summary>Good now, but not until the present plan ends.</summary>
    EndsInPlan,

    /// <summary>Good.</summary>
    Fresh,
}
