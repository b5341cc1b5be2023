using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Units;

namespace Seamwright.Quantities;

/// <summary>What one session needs of one material.</summary>
public sealed record PackDemand
{
    /// <summary>Name of the session.</summary>
    public required string Id { get; init; }

    /// <summary>Material.</summary>
    public required MaterialId Material { get; init; }

    /// <summary>When it is used.</summary>
    public required Instant PlannedUse { get; init; }

    /// <summary>Paste, paint, wax or foam on the car, loss and gap fill counted, nozzle waste not; zero for a strip.</summary>
    public Volume Volume { get; init; }

    /// <summary>Pieces of strip, end allowances counted; each must come off one roll. Empty for everything else.</summary>
    public ImmutableArray<Length> Pieces { get; init; } = [];

    /// <summary>Fresh nozzles the work itself needs (<see cref="Nozzles.Runs"/>); each pack used needs one besides. [≥ 1]</summary>
    public int Runs { get; init; } = 1;
}

/// <summary>A pack that is on its way.</summary>
/// <param name="Pack">Pack, with a name of its own.</param>
/// <param name="Arrives">When it is there.</param>
public sealed record OrderedPack(Pack Pack, Instant Arrives);

/// <summary>What a demand takes from one pack.</summary>
/// <param name="Demand">The demand.</param>
/// <param name="Material">Material.</param>
/// <param name="Pack">Pack.</param>
/// <param name="Lot">Its lot; empty = unknown.</param>
/// <param name="Volume">All that leaves the pack: what goes on the car and what its nozzles hold back and purge; zero for a strip.</param>
/// <param name="NozzleWaste">The nozzles' part of it.</param>
/// <param name="Pieces">Pieces of strip cut from it.</param>
/// <param name="NozzleCount">Fresh nozzles put on this pack.</param>
/// <param name="Opens">True where this take opens a sealed pack.</param>
public sealed record PackTake(
    string Demand,
    MaterialId Material,
    PackId Pack,
    string Lot,
    Volume Volume,
    Volume NozzleWaste,
    ImmutableArray<Length> Pieces,
    int NozzleCount,
    bool Opens)
{
    /// <summary>Paste on the car.</summary>
    public Volume OnTheCar => Volume - NozzleWaste;

    /// <summary>Strip taken, all pieces together.</summary>
    public Length Strip => Pieces.Aggregate(Length.Zero, (sum, piece) => sum + piece);
}

/// <summary>Nozzles that a demand takes.</summary>
/// <param name="Demand">The demand.</param>
/// <param name="FromPack">Pack with which they lay; null = from the drawer.</param>
/// <param name="Ratio">Ratio they are made for; null = any.</param>
/// <param name="Count">How many.</param>
public sealed record NozzleTake(string Demand, PackId? FromPack, string? Ratio, int Count);

/// <summary>A pack after everything planned has been taken from it.</summary>
/// <param name="Before">As it was.</param>
/// <param name="After">As it will be: what is left, opened or activated at its first planned use.</param>
/// <param name="Usable">Until when the rest may be used.</param>
/// <param name="LastDay">The last day of that in the shop's zone; null = no end.</param>
/// <param name="Touched">True where something was taken.</param>
/// <param name="RestIsWaste">True where the rest of a single-use pack is thrown away.</param>
public sealed record PackRest(Pack Before, Pack After, UsableTime Usable, LocalDate? LastDay, bool Touched, bool RestIsWaste);

/// <summary>What the shelf cannot give.</summary>
/// <param name="Demand">The demand.</param>
/// <param name="Material">Material.</param>
/// <param name="NeededAt">When it is needed.</param>
/// <param name="Volume">Missing volume, waste of its nozzles counted; zero for a strip.</param>
/// <param name="Pieces">Pieces of strip that fit on no roll.</param>
/// <param name="PacksToOrder">New packs that close the gap; null = no pack of this size can (a piece longer than a roll, or no content stated).</param>
public sealed record PackShortage(
    string Demand,
    MaterialId Material,
    Instant NeededAt,
    Volume Volume,
    ImmutableArray<Length> Pieces,
    int? PacksToOrder);

/// <summary>Nozzles that are missing.</summary>
/// <param name="Demand">The demand.</param>
/// <param name="Material">Material.</param>
/// <param name="NeededAt">When they are needed.</param>
/// <param name="Ratio">Ratio they must fit; null = not stated.</param>
/// <param name="Count">How many.</param>
public sealed record NozzleShortage(string Demand, MaterialId Material, Instant NeededAt, string? Ratio, int Count);
