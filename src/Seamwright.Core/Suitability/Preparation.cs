namespace Seamwright.Suitability;

/// <summary>What is done to the surface before the material goes on. Ordered from least to most work.</summary>
public enum Preparation
{
    /// <summary>Nothing: the material goes on what lies there now, inside its window.</summary>
    AsIs,

    /// <summary>Abrade and clean the present coat, because its window was or will be missed.</summary>
    Abrade,

    /// <summary>Abrade and clean bare metal, then prime.</summary>
    Prime,

    /// <summary>Take the present coat off to metal, then prime.</summary>
    StripAndPrime,
}
