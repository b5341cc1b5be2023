using NodaTime;
using Seamwright.Units;

namespace Seamwright.Materials;

/// <summary>Name of a pack in stock, unique in the stock file.</summary>
/// <param name="Value">The name as written on its label.</param>
public readonly record struct PackId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value;
}

/// <summary>One container in stock.</summary>
public sealed record Pack
{
    /// <summary>Name on the label.</summary>
    public required PackId Id { get; init; }

    /// <summary>Its data sheet.</summary>
    public required MaterialId Material { get; init; }

    /// <summary>Lot of the maker; empty = unknown.</summary>
    public string Lot { get; init; } = "";

    /// <summary>Last usable day, that day included; null = no date.</summary>
    public LocalDate? Expires { get; init; }

    /// <summary>Day on which it was opened; null = sealed.</summary>
    public LocalDate? Opened { get; init; }

    /// <summary>Moment of activation of a two-part aerosol; null = not activated.</summary>
    public Instant? Activated { get; init; }

    /// <summary>Paste, paint, wax or foam left; zero for a strip.</summary>
    public Volume Left { get; init; }

    /// <summary>Strip left; zero for everything else.</summary>
    public Length StripLeft { get; init; }

    /// <summary>True where the second component is missing (a base without its hardener or the other way round).</summary>
    public bool PartnerMissing { get; init; }

    /// <summary>Nozzles that lie with this pack and fit only its ratio; null = what a new pack of the sheet brings if sealed, else none.</summary>
    public int? Nozzles { get; init; }

    /// <summary>When it comes, where it is ordered and not here yet; null = it is here.</summary>
    public Instant? Arrives { get; init; }

    /// <summary>Set aside: not to be used; the reason, or null.</summary>
    public string? OnHold { get; init; }
}

/// <summary>Loose mixing nozzles.</summary>
/// <param name="Count">How many.</param>
/// <param name="FitsRatio">The ratio they fit, for example <c>2:1</c>; null = any.</param>
public sealed record NozzleStock(int Count, string? FitsRatio)
{
    /// <summary>When they come, where they are ordered and not here yet; null = they are here.</summary>
    public Instant? Arrives { get; init; }
}

/// <summary>What the shop has on its shelves.</summary>
public sealed record Stock
{
    /// <summary>Packs in file order.</summary>
    public System.Collections.Immutable.ImmutableArray<Pack> Packs { get; init; } = [];

    /// <summary>Loose mixing nozzles.</summary>
    public System.Collections.Immutable.ImmutableArray<NozzleStock> Nozzles { get; init; } = [];
}
