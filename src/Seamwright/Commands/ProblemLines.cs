using System.Globalization;
using Seamwright.Files;
using Seamwright.Program.Printing;
using Seamwright.Program.Texts;

namespace Seamwright.Program.Commands;

/// <summary>Problems of files, one a line: <c>file:line:column: field: sentence</c>.</summary>
internal static class ProblemLines
{
    public static void Write(TextWriter output, Formatter words, IEnumerable<FileProblem> problems)
    {
        foreach (var problem in problems)
            output.WriteLine(Letters.Harmless(Line(words, problem)));
    }

    public static string Line(Formatter words, FileProblem problem)
    {
        string place = problem.File;
        if (problem.Line > 0)
            place += string.Create(CultureInfo.InvariantCulture, $":{problem.Line}");
        if (problem.Line > 0 && problem.Column > 0)
            place += string.Create(CultureInfo.InvariantCulture, $":{problem.Column}");
        string field = problem.Field.Length > 0 ? $" {problem.Field}:" : "";
        return $"{place}:{field} {Sentence(words, problem)}";
    }

    public static string Sentence(Formatter words, FileProblem problem) => words.Say(problem.Key, [.. problem.Args]);
}
