using System.Collections.Immutable;

namespace Seamwright.Files;

/// <summary>One thing that keeps a file from being used, or one thing that was assumed while reading it.</summary>
/// <param name="File">Path as the user would type it.</param>
/// <param name="Line">Line, counted from 1; 0 = the file as a whole.</param>
/// <param name="Column">Column, counted from 1; 0 = the line as a whole.</param>
/// <param name="Field">Where in the file, for example <c>joints[J2].look.width</c>; empty = the file as a whole.</param>
/// <param name="Key">Key of the sentence in the text resources.</param>
/// <param name="Args">Values for the sentence's places, in order, ready to print.</param>
public sealed record FileProblem(string File, int Line, int Column, string Field, string Key, ImmutableArray<string> Args);
