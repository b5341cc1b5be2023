using System.Text.RegularExpressions;
using Xunit;

namespace Seamwright.Architecture.Tests;

/// <summary>What sources may say and reach for.</summary>
public partial class SourceTests
{
    private const int MostLines = 400;

    // Longer files, each with its reason.
    private static readonly HashSet<string> MayBeLonger =
    [
        "tests/Seamwright.Core.Tests/Suitability/RuleTests.cs",     // a table: for each rule the case it refuses and the nearest it does not
    ];

    [Theory]
    [InlineData("src/Seamwright.Core")]
    [InlineData("src/Seamwright.Scheduling")]
    [InlineData("src/Seamwright.Planning")]
    [InlineData("src/Seamwright.Documents")]
    public void Computations_touch_no_file_network_process_or_environment(string folder)
    {
        string[] outside = ["System.IO", "System.Net", "System.Diagnostics.Process", "File.", "Directory.", "Environment.Get", "Console."];

        foreach (string path in Checkout.Sources(folder))
        {
            string code = Checkout.Code(path);
            Assert.All(outside, word => Assert.False(WholeWord(word).IsMatch(code), $"{Checkout.Shown(path)} reaches for {word}"));
        }
    }

    [Theory]
    [InlineData("src/Seamwright.Core")]
    [InlineData("src/Seamwright.Scheduling")]
    [InlineData("src/Seamwright.Planning")]
    [InlineData("src/Seamwright.Documents")]
    public void Computations_read_no_clock_and_draw_no_unseeded_number(string folder)
    {
        string[] moods = ["DateTime.Now", "DateTime.UtcNow", "DateTimeOffset.Now", "DateTimeOffset.UtcNow", "SystemClock", "new Random()", "Guid.NewGuid"];

        foreach (string path in Checkout.Sources(folder))
        {
            string code = Checkout.Code(path);
            Assert.All(moods, word => Assert.False(code.Contains(word, StringComparison.Ordinal), $"{Checkout.Shown(path)} uses {word}"));
        }
    }

    [Fact]
    public void The_scheduling_core_knows_no_word_of_the_trade()
    {
        foreach (string path in Checkout.Sources("src/Seamwright.Scheduling"))
        {
            // The project's own name is the one place where a seam may stand.
            string text = File.ReadAllText(path).Replace("Seamwright", "", StringComparison.Ordinal);
            var word = TradeWord().Match(text);
            Assert.False(word.Success, $"{Checkout.Shown(path)} says {word.Value}");
        }
    }

    [Fact]
    public void Files_stay_short_enough_to_be_read_at_once()
    {
        var all = Checkout.Sources("src").Concat(Checkout.Sources("tests"));

        Assert.All(
            all.Where(path => !MayBeLonger.Contains(Checkout.Shown(path))),
            path => Assert.True(File.ReadLines(path).Count() <= MostLines, $"{Checkout.Shown(path)} has more than {MostLines} lines"));
    }

    [Fact]
    public void No_file_names_a_folder_of_somebodys_machine()
    {
        string[] folders = ["/ho" + "me/", "/Us" + "ers/", "/ro" + "ot/", "C:\\" + "Users", "/wo" + "rk/"];
        var files = new[] { "src", "tests", "docs", "examples", "scripts", ".ci" }
            .Select(folder => Path.Combine(Checkout.Root, folder))
            .Where(Directory.Exists)
            .SelectMany(folder => Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories))
            .Concat(Directory.EnumerateFiles(Checkout.Root))
            .Where(path => !Checkout.Shown(path).Split('/').Any(part => part is "bin" or "obj" or ".git"));

        foreach (string path in files)
        {
            string text = File.ReadAllText(path);
            Assert.All(folders, folder => Assert.False(text.Contains(folder, StringComparison.Ordinal), $"{Checkout.Shown(path)} names {folder}"));
        }
    }

    private static Regex WholeWord(string word) => new($@"(?<![\w.]){Regex.Escape(word)}", RegexOptions.CultureInvariant);

    [GeneratedRegex(@"\b(seam|sealer|sealing|joint|weld|paint|vehicle|car|primer|shop|booth|lamp|cure|curing)s?\b", RegexOptions.IgnoreCase)]
    private static partial Regex TradeWord();
}
