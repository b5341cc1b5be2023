using System.Text.RegularExpressions;

namespace Seamwright.Architecture.Tests;

/// <summary>The files of the checkout.</summary>
internal static partial class Checkout
{
    public static string Root { get; } = Find();

    /// <summary>C# sources under a folder, generated and built ones left out.</summary>
    public static IEnumerable<string> Sources(string folder) =>
        Directory.EnumerateFiles(Path.Combine(Root, folder), "*.cs", SearchOption.AllDirectories).Where(IsOurs);

    /// <summary>Pages and parts of pages under a folder.</summary>
    public static IEnumerable<string> Pages(string folder) =>
        Directory.EnumerateFiles(Path.Combine(Root, folder), "*.razor", SearchOption.AllDirectories).Where(IsOurs);

    /// <summary>Path from the root, with slashes.</summary>
    public static string Shown(string path) => Path.GetRelativePath(Root, path).Replace('\\', '/');

    /// <summary>A source without comments: what it does, not what it says.</summary>
    public static string Code(string path) => Comments().Replace(File.ReadAllText(path), "");

    private static bool IsOurs(string path) => !Shown(path).Split('/').Any(part => part is "bin" or "obj" or "Migrations");

    private static string Find()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Seamwright.slnx")))
            folder = folder.Parent ?? throw new InvalidOperationException("The checkout was not found.");
        return folder.FullName;
    }

    [GeneratedRegex(@"^\s*//.*$|(?<=[;{}\s])// .*$", RegexOptions.Multiline)]
    private static partial Regex Comments();
}
