using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using Seamwright.Storage;
using Seamwright.Storage.Accounts;
using Seamwright.Stored;

namespace Seamwright.Web.Tests.Given;

/// <summary>What a store holds, as one text to compare: every file of its export and everybody's account.</summary>
internal static class Content
{
    /// <summary>The order of keys says nothing: a form writes them in the order of its description.</summary>
    private static string Hash(string text, string kind) =>
        Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(kind == ".json" ? Ordered(JsonNode.Parse(text))!.ToJsonString() : text)));

    private static JsonNode? Ordered(JsonNode? node) => node switch
    {
        JsonObject map => new JsonObject(map.OrderBy(entry => entry.Key, StringComparer.Ordinal).Select(entry => KeyValuePair.Create(entry.Key, Ordered(entry.Value)))),
        JsonArray list => new JsonArray([.. list.Select(Ordered)]),
        _ => node?.DeepClone(),
    };

    public static async Task<string> Of(ShopStore store)
    {
        var folder = Directory.CreateTempSubdirectory("seamwright-content-");
        try
        {
            string export = Path.Combine(folder.FullName, "export");
            await ShopExport.Write(store, export);
            var text = new StringBuilder();
            foreach (string file in Directory.EnumerateFiles(export, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal))
                text.AppendLine(CultureInfo.InvariantCulture, $"{Path.GetRelativePath(export, file)} {Hash(await File.ReadAllTextAsync(file), Path.GetExtension(file))}");
            foreach (var account in (await store.AllAccounts()).OrderBy(account => account.Name, StringComparer.Ordinal))
                text.AppendLine(CultureInfo.InvariantCulture, $"{account.Name} {string.Join(',', account.Roles)} {account.Closed} {account.PasswordHash}");
            return text.ToString();
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }
}
