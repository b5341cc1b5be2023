using System.Collections.Immutable;
using Seamwright.Repairs;
using Seamwright.Units;

namespace Seamwright.Documents.Sections;

/// <summary>What a film is, as far as its look in a drawing goes.</summary>
public enum LayerKind
{
    /// <summary>Weld-through primer between sheets.</summary>
    WeldThrough,

    /// <summary>Adhesive between sheets.</summary>
    Adhesive,

    /// <summary>Acid etch primer.</summary>
    Etch,

    /// <summary>Epoxy primer.</summary>
    Epoxy,

    /// <summary>Factory electrocoat.</summary>
    Electrocoat,

    /// <summary>Paint that was there before.</summary>
    OldPaint,

    /// <summary>Surfacer.</summary>
    Surfacer,

    /// <summary>Colour coat.</summary>
    Colour,

    /// <summary>Clear coat.</summary>
    Clear,

    /// <summary>Stone-chip coating.</summary>
    StoneChip,

    /// <summary>Wax.</summary>
    Wax,
}

/// <summary>A film over or between sheets.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Name">In words, with the material's short name where it is known.</param>
/// <param name="Thickness">Dry thickness that is drawn.</param>
public sealed record Film(LayerKind Kind, string Name, Length Thickness);

/// <summary>Everything that a cut through a seam meets, from the metal up.</summary>
public sealed record BuildUp
{
    /// <summary>How the panels meet.</summary>
    public required JointType Type { get; init; }

    /// <summary>Metals that meet, one or two; the first is the upper or outer sheet.</summary>
    public required ImmutableArray<Metal> Metals { get; init; }

    /// <summary>Factory look.</summary>
    public required Look Look { get; init; }

    /// <summary>Depth from the open face to the root; null = the look's own height.</summary>
    public Length? Depth { get; init; }

    /// <summary>Between the sheets; null = nothing known.</summary>
    public Film? Between { get; init; }

    /// <summary>Under the bead, from the metal up.</summary>
    public ImmutableArray<Film> Ground { get; init; } = [];

    /// <summary>The bead in words; null = the joint gets none.</summary>
    public string? Bead { get; init; }

    /// <summary>Over the bead, in the order applied.</summary>
    public ImmutableArray<Film> Above { get; init; } = [];
}
