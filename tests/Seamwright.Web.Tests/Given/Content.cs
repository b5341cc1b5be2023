using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Seamwright.Storage;
using Seamwright.Storage.Accounts;
using Seamwright.Stored;

namespace Seamwright.Web.Tests.Given;

/// <summary>What a store holds, as one text to compare: every file of its export and everybody's account.</summary>
internal static class Content
{
    public static async Task<string> Of(ShopStore store)
    {
        var folder = Directory.CreateTempSubdirectory("seamwright-content-");
        try
        {
            string export = Path.Combine(folder.FullName, "export");
            await ShopExport.Write(store, export);
            var text = new StringBuilder();
            foreach (string file in Directory.EnumerateFiles(export, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal))
                text.Append(Path.GetRelativePath(export, file)).Append(' ').AppendLine(Convert.ToHexString(SHA256.HashData(await File.ReadAllBytesAsync(file))));
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
