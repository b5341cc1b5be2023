using System.Collections.Immutable;
using NodaTime;
using Seamwright.Documents.SeamMap;
using Seamwright.Files;
using Seamwright.Program.Drawings;
using Seamwright.Program.Texts;
using Seamwright.Program.Web.Desk;
using Seamwright.Program.Web.Forms;
using Seamwright.Repairs;
using Seamwright.Storage;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;
using Seamwright.Stored;

namespace Seamwright.Program.Web.Starting;

/// <summary>Checks a form's document against everything that the shop has, and stores it.</summary>
internal static class RepairSaving
{
    private const double Desktop = 900;
    private const double Phone = 344;

    /// <summary>What the form calls the keys of a file.</summary>
    private static readonly Dictionary<string, string> Labels = new()
    {
        ["name"] = "web.form.title",
        ["promise"] = "web.form.promise",
        ["slots"] = "web.form.slots",
        ["length"] = "web.seam.length",
        ["profile"] = "web.seam.look",
        ["width"] = "web.seam.width",
        ["height"] = "web.seam.height",
        ["joints"] = "web.form.seams",
    };

    /// <summary>The moment from which is planned; null where the data is a demonstration that lives at its own.</summary>
    public static async Task<Instant?> Now(ShopStore store, IClock clock, ShopDesk desk, CancellationToken stop) =>
        (await store.Settings(stop)).ContainsKey(ShopDesk.DemoSetting) ? null : clock.GetCurrentInstant();

    /// <summary>Stores the document where nothing is wrong with it.</summary>
    /// <returns>What is wrong; empty = stored.</returns>
    public static async Task<ImmutableArray<FileProblem>> Save(
        ShopStore store, IClock clock, ShopDesk desk, RepairDraftForm form, string id, long? basedOn, string by, CancellationToken stop)
    {
        var shop = await StoredShop.Load(store, await Now(store, clock, desk, stop), stop);
        var read = Drafts.Repair(shop, id, form.Document.ToJsonString());
        if (read.Draft is not { } draft)
            return read.Problems;
        switch (await store.SaveRepair(draft, basedOn, by, stop))
        {
            case SaveOutcome.Saved:
                desk.Changed();
                return [];
            case SaveOutcome.Overtaken(var stored, _):
                return [new FileProblem("", 0, 0, "", "web.form.overtaken", [stored.ChangedBy])];
            default:
                return [new FileProblem("", 0, 0, "", "web.form.gone", [])];
        }
    }

    /// <summary>Problems as sentences, by the input they belong to.</summary>
    public static IEnumerable<KeyValuePair<string, string>> Sentences(RepairDraftForm form, IEnumerable<FileProblem> problems, Words words) =>
        form.ByInput(problems).Select(item => new KeyValuePair<string, string>(
            item.Key,
            item.Key.Length > 0 || item.Value.Field.Length == 0 ? Sentence(item.Value, words) : $"{item.Value.Field}: {Sentence(item.Value, words)}"));

    private static string Sentence(FileProblem problem, Words words) => !DocumentProblems.IsMissing(problem)
        ? words.Say(problem.Key, [.. problem.Args])
        : words.Say("web.form.missing", Labels.TryGetValue(problem.Args[0], out string? label) ? words[label] : DocumentForm.Label(problem.Args[0]), problem.Args[1]);

    /// <summary>The map of a repair in both widths.</summary>
    public static (SeamMapDrawing Wide, SeamMapDrawing Narrow) Map(Repair repair, Formatter format, Instant at)
    {
        SeamMapDrawing Draw(double width) => new(repair, null, new DrawingWords(format), new MapOptions { Width = width, At = at });
        return (Draw(Desktop), Draw(Phone));
    }
}
