using System.Collections.Immutable;
using Seamwright.Air;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Shops;

namespace Seamwright.Files;

/// <summary>Everything that planning a repair needs, read and checked. Immutable.</summary>
/// <param name="Repair">The repair.</param>
/// <param name="Shop">The shop, with what the repair file says of today laid over it.</param>
/// <param name="Sheets">Data sheets in file order.</param>
/// <param name="Stock">Packs and nozzles.</param>
/// <param name="Climate">The shop's air.</param>
/// <param name="ContentHash">SHA-256 over the bytes of all files read, lower-case hexadecimal: equal input, equal hash.</param>
public sealed record RepairInput(
    Repair Repair,
    Shop Shop,
    ImmutableArray<DataSheet> Sheets,
    Stock Stock,
    Climate Climate,
    string ContentHash);

/// <summary>What reading a repair gave.</summary>
/// <param name="Input">The input; null where there is any problem.</param>
/// <param name="Problems">Every problem of every file, in the order of files and lines; empty where the input can be used.</param>
/// <param name="Notices">What was assumed while reading (an hour that occurs twice, rows without a value); does not keep the input from being used.</param>
public sealed record Reading(RepairInput? Input, ImmutableArray<FileProblem> Problems, ImmutableArray<FileProblem> Notices);
