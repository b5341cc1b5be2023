using System.Collections.Immutable;
using Seamwright.Air;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Shops;

namespace Seamwright.Work;

/// <summary>Everything a plan is made from. Immutable.</summary>
/// <param name="Repair">The repair.</param>
/// <param name="Shop">The shop.</param>
/// <param name="Sheets">The shop's data sheets, in file order, names unique.</param>
/// <param name="Stock">Packs and nozzles.</param>
/// <param name="Climate">Air of the shop over the time of the plan.</param>
/// <param name="ContentHash">SHA-256 over the content of every file read, in hexadecimal.</param>
public sealed record RepairInput(
    Repair Repair,
    Shop Shop,
    ImmutableArray<DataSheet> Sheets,
    Stock Stock,
    Climate Climate,
    string ContentHash);
