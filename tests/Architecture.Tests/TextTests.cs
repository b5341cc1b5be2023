using System.Text.Json;
using System.Text.RegularExpressions;
using Seamwright.Program.Texts;
using Seamwright.Work;
using Xunit;

namespace Seamwright.Architecture.Tests;

/// <summary>Sentences and the keys under which code asks for them.</summary>
public partial class TextTests
{
    private static readonly Sentences Texts = Sentences.Load("en");

    // Closed sets that code decides by and nobody reads.
    private static readonly HashSet<string> NeverShown = ["GalvanicNeed", "PackLimit", "CureFitProblemKind"];

    private static readonly string AllCode = string.Concat(Checkout.Sources("src").Concat(Checkout.Pages("src")).Select(Checkout.Code));

    [Fact]
    public void Every_sentence_asked_for_exists()
    {
        var asked = AskedFor().Matches(AllCode).Select(match => match.Groups["key"].Value).Distinct();

        AssertNone(asked.Where(key => Texts.Find(key) is null));
    }

    [Fact]
    public void Every_sentence_is_asked_for_somewhere()
    {
        var written = Literal().Matches(AllCode).Select(match => match.Groups["text"].Value)
            .Concat(AskedFor().Matches(AllCode).Select(match => match.Groups["key"].Value)).ToHashSet();
        // Some keys are put together: a stem and a name, for example a step's kind; or a problem and "-near" where a like name is known.
        var stems = Stem().Matches(AllCode).Select(match => match.Groups["stem"].Value).Where(stem => stem.EndsWith('.')).ToHashSet();
        var members = Enums().SelectMany(type => Enum.GetNames(type).Select(name => $"{type.Name}.{name}")).ToHashSet();

        var unused = Texts.Keys.Where(key => !written.Contains(key) && !written.Contains(key.Replace("-near", "", StringComparison.Ordinal)) && !members.Contains(key) && !stems.Any(stem => key.StartsWith(stem, StringComparison.Ordinal)));

        AssertNone(unused.Order());
    }

    [Fact]
    public void Every_member_of_a_closed_set_has_a_word()
    {
        var members = Enums().Where(type => type.Assembly == typeof(Plan).Assembly && !NeverShown.Contains(type.Name))
            .SelectMany(type => Enum.GetNames(type).Select(name => $"{type.Name}.{name}"));

        AssertNone(members.Where(key => Texts.Find(key) is null));
    }

    [Fact]
    public void No_key_stands_in_two_files()
    {
        string folder = Path.Combine(Checkout.Root, "src/Seamwright/Texts/en");
        var keys = Directory.EnumerateFiles(folder, "*.json").SelectMany(KeysOf);

        Assert.Empty(keys.GroupBy(key => key).Where(group => group.Count() > 1).Select(group => group.Key));
    }

    [Fact]
    public void No_sentence_scolds_or_begs()
    {
        string[] unwanted = ["invalid", "please", "oops", "error occurred"];

        var scolding = Texts.Keys.Where(key => unwanted.Any(word => Texts.Find(key)!.Contains(word, StringComparison.OrdinalIgnoreCase)));

        Assert.Empty(scolding);
    }

    private static void AssertNone(IEnumerable<string> keys)
    {
        string[] found = [.. keys];
        Assert.True(found.Length == 0, string.Join('\n', found));
    }

    private static IEnumerable<string> KeysOf(string file)
    {
        using var document = JsonDocument.Parse(File.ReadAllBytes(file));
        return [.. document.RootElement.EnumerateObject().Select(property => property.Name)];
    }

    private static IEnumerable<Type> Enums() =>
        new[] { typeof(Plan).Assembly, typeof(Sentences).Assembly, typeof(Seamwright.Documents.Charts.OutlookKind).Assembly, typeof(NodaTime.IsoDayOfWeek).Assembly }
            .SelectMany(assembly => assembly.GetTypes())
            .Where(type => type.IsEnum && type.IsPublic);

    [GeneratedRegex(@"(?:Reason\.Of\(|Finding\.(?:Fine|Advice|NeedsSignOff|Refused)\(|\.Say\(|new Reason\(|Words\[)\s*""(?<key>[^""\\]+)""")]
    private static partial Regex AskedFor();

    [GeneratedRegex(@"""(?<text>[^""\n]*)""")]
    private static partial Regex Literal();

    [GeneratedRegex(@"\$""(?<stem>[A-Za-z.\-]+)\{")]
    private static partial Regex Stem();
}
