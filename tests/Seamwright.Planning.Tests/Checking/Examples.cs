using System.Collections.Concurrent;
using Seamwright.Files;
using Seamwright.Work;

namespace Seamwright.Planning.Tests.Checking;

/// <summary>The example repairs, read and answered once for all tests.</summary>
internal static class Examples
{
    private static readonly ConcurrentDictionary<string, Lazy<PlanAnswer>> Answers = new();
    private static readonly ConcurrentDictionary<string, Lazy<Plan>> Plans = new();

    /// <summary>Folders of repairs for which a plan exists.</summary>
    public static readonly string[] Possible = ["evening-slot", "cold-night", "hem-tape", "aluminium-apron", "roof-skin", "quarter-panel-us"];

    public static string Folder { get; } = Path.Combine(Root(), "examples");

    public static RepairInput Read(string name) =>
        RepairReader.Read(Path.Combine(Folder, name)).Input ?? throw new InvalidOperationException($"The example {name} does not read.");

    /// <summary>The whole answer, without the consequences of other materials.</summary>
    public static PlanAnswer Answer(string name) =>
        Answers.GetOrAdd(name, _ => new(() => RepairPlanner.Answer(Read(name), new PlanOptions { Deterministic = true }))).Value;

    /// <summary>The recommended plan alone.</summary>
    public static Plan Recommended(string name) =>
        Plans.GetOrAdd(name, _ => new(() => RepairPlanner.Answer(Read(name), new PlanOptions { Deterministic = true, Alternatives = false }).Recommended!)).Value;

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Seamwright.slnx")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("The tests run outside the repository.");
    }
}
