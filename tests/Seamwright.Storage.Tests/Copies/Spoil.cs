using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Seamwright.Storage.Copies;
using Seamwright.Storage.Copies.Older;
using Seamwright.Storage.Databases;
using Seamwright.Storage.Sqlite;

namespace Seamwright.Storage.Tests.Copies;

/// <summary>Damages a backup in one way.</summary>
internal static partial class Spoil
{
    [GeneratedRegex("""("schema":\s*")[^"]*(")""")]
    private static partial Regex LastSchema();

    /// <summary>Tables as the first version had them.</summary>
    public static IReadOnlyDictionary<string, TableShape> FirstTables { get; } = First();

    public static async Task With(string file, string defect)
    {
        switch (defect)
        {
            case "cut":
                await using (var stream = new FileStream(file, FileMode.Open))
                    stream.SetLength(stream.Length / 2);
                break;
            case "no archive":
                await File.WriteAllTextAsync(file, "something else");
                break;
            case "not there":
                File.Delete(file);
                break;
            case "row changed":
                Change(file, zip => Put(zip, "tables/WorkLog.jsonl", Get(zip, "tables/WorkLog.jsonl").Replace("technician", "apprentice", StringComparison.Ordinal)));
                break;
            case "table missing":
                Change(file, zip => zip.GetEntry("tables/WorkLog.jsonl")!.Delete());
                break;
            case "stranger":
                Change(file, zip => Put(zip, "../outside.txt", "x"));
                break;
            case "no manifest":
                Change(file, zip => zip.GetEntry("manifest.json")!.Delete());
                break;
            case "newer":
                Change(file, zip => Put(zip, "manifest.json", LastSchema().Replace(Get(zip, "manifest.json"), "$1Later$2")));
                break;
            case "older":
                Change(file, MakeOlder);
                break;
            case "older, row missing":
                Change(file, MakeOlder);
                Change(file, zip => Forge(zip, text => text[..(text.TrimEnd('\n').LastIndexOf('\n') + 1)]));
                break;
            case "entry forged":
                Change(file, zip => Forge(zip, text => text.Replace("technician", "apprentice", StringComparison.Ordinal)));
                break;
            case "row forged away":
                Change(file, zip => Forge(zip, text => text[..(text.TrimEnd('\n').LastIndexOf('\n') + 1)]));
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(defect), defect, "No such defect.");
        }
    }

    // As somebody would who knows how the manifest is made: sizes and hashes are right again.
    private static void Forge(ZipArchive zip, Func<string, string> change)
    {
        const string Name = "tables/WorkLog.jsonl";
        string text = change(Get(zip, Name));
        var manifest = ManifestText.Read(Get(zip, "manifest.json"))!;
        byte[] bytes = Encoding.UTF8.GetBytes(text);
        Put(zip, Name, text);
        Put(zip, "manifest.json", ManifestText.Of(manifest with { Files = manifest.Files.SetItem(Name, new(bytes.Length, Convert.ToHexStringLower(SHA256.HashData(bytes)))) }));
    }

    // As the first version would have written it: only the tables and columns that it had.
    private static void MakeOlder(ZipArchive zip)
    {
        var manifest = ManifestText.Read(Get(zip, "manifest.json"))!;
        foreach (string name in manifest.Tables.Keys)
        {
            string entry = $"tables/{name}.jsonl";
            if (FirstTables.TryGetValue(name, out var table))
            {
                string text = string.Concat(Get(zip, entry).Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => Only(table, line) + "\n"));
                Put(zip, entry, text);
                byte[] bytes = Encoding.UTF8.GetBytes(text);
                manifest = manifest with { Files = manifest.Files.SetItem(entry, new(bytes.Length, Convert.ToHexStringLower(SHA256.HashData(bytes)))) };
            }
            else
            {
                zip.GetEntry(entry)!.Delete();
                manifest = manifest with { Files = manifest.Files.Remove(entry), Tables = manifest.Tables.Remove(name) };
            }
        }

        Put(zip, "manifest.json", ManifestText.Of(manifest with { Schema = "FirstShop" }));
    }

    private static Dictionary<string, TableShape> First()
    {
        using var db = new SqliteShopDbFactory().CreateDbContext([]);
        return OlderBackup.ModelAt(db, db.Database.GetMigrations().First()).GetEntityTypes().Select(type => new TableShape(type)).ToDictionary(table => table.Name);
    }

    private static string Only(TableShape table, string line)
    {
        var row = System.Text.Json.Nodes.JsonNode.Parse(line)!.AsObject();
        foreach (string column in row.Select(value => value.Key).Except(table.Columns.Select(column => column.Name)).ToList())
            row.Remove(column);
        return row.ToJsonString();
    }

    private static void Change(string file, Action<ZipArchive> change)
    {
        using var zip = ZipFile.Open(file, ZipArchiveMode.Update);
        change(zip);
    }

    private static string Get(ZipArchive zip, string name)
    {
        using var reader = new StreamReader(zip.GetEntry(name)!.Open());
        return reader.ReadToEnd();
    }

    private static void Put(ZipArchive zip, string name, string text)
    {
        zip.GetEntry(name)?.Delete();
        using var writer = new StreamWriter(zip.CreateEntry(name).Open());
        writer.Write(text);
    }
}
