using System.Collections.Immutable;
using Seamwright.Work;

namespace Seamwright.Files;

/// <summary>What reading a repair gave.</summary>
/// <param name="Input">The input, with what the repair file says of today laid over the shop; null where there is any problem.</param>
/// <param name="Problems">Every problem of every file, in the order of files and lines; empty where the input can be used.</param>
/// <param name="Notices">What was assumed while reading (an hour that occurs twice, rows without a value); does not keep the input from being used.</param>
public sealed record Reading(RepairInput? Input, ImmutableArray<FileProblem> Problems, ImmutableArray<FileProblem> Notices);
