using System.Runtime.CompilerServices;
using Seamwright.Files;
using Seamwright.Program.Texts;

namespace Seamwright.EndToEnd.Tests.Files;

/// <summary>Where the checkout lies, and problems in words.</summary>
internal static class Repository
{
    private static readonly Formatter Words = new(Sentences.Load("en"), Notation.Plain);

    public static string Root { get; } = Find();

    public static string Examples => Path.Combine(Root, "examples");

    public static string Formats => Path.Combine(Root, "docs", "formats");

    /// <summary>Place, field, key and sentence of a problem, for the message of a failed assertion.</summary>
    public static string Shown(FileProblem problem) =>
        $"{problem.File}:{problem.Line}:{problem.Column}: {problem.Field}: [{problem.Key}] {Sentence(problem)}";

    public static string Sentence(FileProblem problem) => Words.Say(problem.Key, [.. problem.Args]);

    private static string Find([CallerFilePath] string here = "")
    {
        var folder = new DirectoryInfo(Path.GetDirectoryName(here)!);
        while (!File.Exists(Path.Combine(folder.FullName, "Seamwright.slnx")))
            folder = folder.Parent ?? throw new InvalidOperationException("The checkout was not found.");
        return folder.FullName;
    }
}
