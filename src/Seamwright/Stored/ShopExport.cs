using System.Text;
using System.Text.Json.Nodes;
using Seamwright.Files.Format;
using Seamwright.Storage;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;

namespace Seamwright.Stored;

/// <summary>Writes what the store holds as a folder of our files, from which repairs can be planned and which can be imported again.</summary>
public static class ShopExport
{
    /// <summary>Writes the folder, whole or not at all.</summary>
    /// <returns>How many repairs were written; null where the folder is there already.</returns>
    /// <param name="store">The store.</param>
    /// <param name="folder">The folder; must not be there.</param>
    /// <param name="stop">Ends the waiting.</param>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It cannot be written.</exception>
    public static async Task<int?> Write(ShopStore store, string folder, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(folder);
        string full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        if (Path.Exists(full))
            return null;
        string half = $"{full}.{Environment.ProcessId}.part";
        try
        {
            Directory.CreateDirectory(half);
            int repairs = await WriteInto(store, half, stop);
            Directory.Move(half, full);
            return repairs;
        }
        finally
        {
            if (Directory.Exists(half))
                Directory.Delete(half, recursive: true);
        }
    }

    private static async Task<int> WriteInto(ShopStore store, string folder, CancellationToken stop)
    {
        if (await store.ShopDocumentOf(ShopDocument.Shop, stop) is { } shop)
            await File(folder, "shop.json", StoredShop.WithLine(shop.Json, ShopFormat.Line), stop);
        await File(folder, "materials.json", StoredShop.Materials(await store.Sheets(stop)), stop);
        await File(folder, "stock.json", StoredShop.Stock(await store.ShopDocumentOf(ShopDocument.Shelf, stop), await store.PacksInTheShop(stop)), stop);
        var climate = await ClimateDocuments.Load(store, null, stop);
        foreach (var (name, text) in climate)
            await File(folder, name, text, stop);

        int count = 0;
        for (int number = 1; ; number++)
        {
            var page = await store.RepairPage(new(), number, Page<RepairLine>.MostItems, stop);
            foreach (var line in page.Items)
            {
                if (await store.RepairDocument(line.Id, stop) is not { } repair)
                    continue;
                await WriteRepair(folder, repair, !climate.IsEmpty, stop);
                count++;
            }

            if (number >= page.Parts)
                return count;
        }
    }

    private static async Task WriteRepair(string folder, StoredDocument repair, bool hasClimate, CancellationToken stop)
    {
        var document = NodeJson.ObjectOf(StoredShop.WithLine(repair.Json, RepairFormat.Line)) ?? [];
        document["id"] = repair.Id;
        document["shop"] = "../shop.json";
        document["materials"] = new JsonArray("../materials.json");
        document["stock"] = "../stock.json";
        if (hasClimate)
            document.TryAdd("climate", JsonValue.Create("../" + ClimateDocuments.Name));
        string own = Directory.CreateDirectory(Path.Combine(folder, FolderName(repair.Id))).FullName;
        await File(own, "repair.json", NodeJson.Text(document), stop);
    }

    // A repair may be called what no folder can be called.
    private static string FolderName(string id) =>
        string.Concat(id.Select(c => char.IsLetterOrDigit(c) || c is '-' or '_' or '.' && id != "." && id != ".." ? c : '_'));

    private static Task File(string folder, string name, string text, CancellationToken stop) => System.IO.File.WriteAllTextAsync(
        Path.Combine(folder, name), name.EndsWith(".json", StringComparison.Ordinal) ? NodeJson.IndentedText(JsonNode.Parse(text)) : text, new UTF8Encoding(false), stop);
}
