using Seamwright.Files;
using Seamwright.Work;
using Xunit;

namespace Seamwright.Planning.Tests.Scenarios;

/// <summary>
/// The texts of a repair with its shop, sheets and stock; a twin is the same texts with a fact changed. Every scenario is invented; its
/// numbers are computed from the stated laws. Immutable.
/// </summary>
internal sealed class Scenario
{
    private const string Repair = "case/repair.yaml";
    private const string Stock = "case/stock.yaml";

    private readonly SortedDictionary<string, string> _texts;

    private Scenario(SortedDictionary<string, string> texts) => _texts = texts;

    /// <summary>A folder of the demo examples, read as text.</summary>
    public static Scenario From(string example)
    {
        string examples = Path.Combine(Root, "examples");
        return new(new(StringComparer.Ordinal)
        {
            [Repair] = File.ReadAllText(Path.Combine(examples, example, "repair.yaml")),
            [Stock] = File.ReadAllText(Path.Combine(examples, example, "stock.yaml")),
            ["shop.yaml"] = File.ReadAllText(Path.Combine(examples, "shop.yaml")),
            ["materials.yaml"] = File.ReadAllText(Path.Combine(examples, "materials.yaml")),
        });
    }

    /// <summary>A repair of its own in the demo shop.</summary>
    public static Scenario Of(string repair, string stock)
    {
        const string heads = "shop: ../shop.yaml\nmaterials: ../materials.yaml\nstock: stock.yaml\n";
        var scenario = From("evening-slot");
        scenario._texts[Repair] = "seamwright: repair/1\ninvented: true\n" + heads + repair;
        scenario._texts[Stock] = "seamwright: stock/1\ninvented: true\n" + stock;
        return scenario;
    }

    /// <summary>The twin in which a text reads differently; the text must stand exactly once in all the files.</summary>
    public Scenario With(string text, string instead)
    {
        int found = _texts.Values.Sum(content => content.Split(text).Length - 1);
        Assert.True(found == 1, $"“{text}” stands {found} times in the scenario, and once is needed.");
        return Replaced(text, instead);
    }

    /// <summary>The twin in which a text reads differently wherever it stands.</summary>
    public Scenario WithEvery(string text, string instead)
    {
        Assert.True(_texts.Values.Any(content => content.Contains(text, StringComparison.Ordinal)), $"“{text}” does not stand in the scenario.");
        return Replaced(text, instead);
    }

    /// <summary>The twin in which the repair file has more lines at its end.</summary>
    public Scenario And(string lines) => Edited(Repair, _texts[Repair].TrimEnd() + "\n\n" + lines + "\n");

    /// <summary>What the planner reads.</summary>
    public RepairInput Read()
    {
        string folder = Path.Combine(Path.GetTempPath(), $"seamwright-scenario-{Guid.NewGuid():N}");
        try
        {
            Directory.CreateDirectory(Path.Combine(folder, "case"));
            foreach (var (name, content) in _texts)
                File.WriteAllText(Path.Combine(folder, name), content);
            var reading = RepairReader.Read(Path.Combine(folder, "case"));
            Assert.True(reading.Input is not null, string.Join("\n", reading.Problems));
            return reading.Input;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>The whole answer, other materials and trade-offs included.</summary>
    public PlanAnswer Answer() => RepairPlanner.Answer(Read(), new PlanOptions { Deterministic = true });

    /// <summary>The recommended plan alone, which is quicker; it must exist.</summary>
    public Plan Plan()
    {
        var answer = RepairPlanner.Answer(Read(), new PlanOptions { Deterministic = true, Alternatives = false });
        Assert.True(answer.Recommended is not null, string.Join("\n", answer.Conflicts.SelectMany(conflict => conflict.Facts)));
        return answer.Recommended;
    }

    private static string Root { get; } = FindRoot();

    private static string FindRoot()
    {
        string? folder = AppContext.BaseDirectory;
        while (folder is not null && !File.Exists(Path.Combine(folder, "Seamwright.slnx")))
            folder = Path.GetDirectoryName(folder);
        return folder ?? throw new DirectoryNotFoundException("The tests do not lie inside the checkout.");
    }

    private Scenario Replaced(string text, string instead)
    {
        var texts = new SortedDictionary<string, string>(StringComparer.Ordinal);
        foreach (var (name, content) in _texts)
            texts.Add(name, content.Replace(text, instead, StringComparison.Ordinal));
        return new(texts);
    }

    private Scenario Edited(string file, string content)
    {
        var texts = new SortedDictionary<string, string>(_texts, StringComparer.Ordinal) { [file] = content };
        return new(texts);
    }
}
