using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Queries;
using Xunit;

namespace Seamwright.Storage.Tests.Killed;

/// <summary>
/// A process that writes is killed at random moments and started again on the same data: whatever it had acknowledged is there, nothing is
/// half there, and it always starts. SEAMWRIGHT_KILLS sets the number of kills; scripts/kill-rounds does so.
/// </summary>
public class KillTests
{
    private const int Kills = 20;
    private const int Shops = 2;

    [Fact]
    public async Task What_was_acknowledged_survives_every_kill()
    {
        int kills = int.Parse(Environment.GetEnvironmentVariable("SEAMWRIGHT_KILLS") ?? $"{Kills}", CultureInfo.InvariantCulture);

        // Several shops side by side: most of a round is the start of the process.
        var counts = await Task.WhenAll(Enumerable.Range(0, Shops).Select(shop => Task.Run(() => Rounds(shop, (kills + Shops - 1) / Shops))));

        TestContext.Current.SendDiagnosticMessage("{0} kills, {1} entries acknowledged, all there", kills, counts.Sum());
        await File.WriteAllTextAsync(Path.Combine(AppContext.BaseDirectory, "kills.txt"), $"{kills} kills, {counts.Sum()} acknowledged entries, none lost", TestShop.Stop);
        Assert.True(counts.Sum() > kills, "Hardly anything was acknowledged: the test proves nothing.");
    }

    private static async Task<int> Rounds(int seed, int rounds)
    {
        using var folder = new TemporaryFolder();
        var random = new Random(seed);
        var acknowledged = ImmutableHashSet<Guid>.Empty;
        for (int round = 0; round < rounds; round++)
        {
            // Each fifth is killed while it starts, the first of all while it makes the database.
            bool whileStarting = round % 5 == seed % 5;
            acknowledged = acknowledged.Union(await WriteUntilKilled(folder.Data, whileStarting ? null : random.Next(1, 20), random.Next(50, 900)));

            using var store = await ShopStore.Open(folder.Data, null, SystemClock.Instance, TestShop.Stop);
            await using var db = store.Database.Open();
            Assert.Empty(await store.Database.Integrity(db, TestShop.Stop));
            Assert.Null((await store.CheckLog(TestShop.Stop)).FirstBroken);
            var there = await db.WorkLog.Select(row => row.Id).ToListAsync(TestShop.Stop);
            Assert.Empty(acknowledged.Except(there));
        }

        return acknowledged.Count;
    }

    /// <summary>Lines that were whole when the process was killed.</summary>
    private static async Task<IEnumerable<Guid>> WriteUntilKilled(DataFolder folder, int? afterLines, int afterStart)
    {
        using var writer = Process.Start(new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "Seamwright.Killed.dll"), folder.Path])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            Environment = { ["DOTNET_TieredCompilation"] = "1" },
        })!;
        var lines = new List<string>();
        if (afterLines is { } wanted)
        {
            while (lines.Count < wanted && await writer.StandardOutput.ReadLineAsync(TestShop.Stop) is { } line)
                lines.Add(line);
            Assert.True(lines.Count == wanted, lines.Count == wanted ? "" : await writer.StandardError.ReadToEndAsync(TestShop.Stop));
        }
        else
        {
            await Task.Delay(afterStart, TestShop.Stop);
        }

        writer.Kill();
        string rest = await writer.StandardOutput.ReadToEndAsync(TestShop.Stop);
        await writer.WaitForExitAsync(TestShop.Stop);
        // What comes after the last line break was cut off and is no promise.
        lines.AddRange(rest.Split('\n')[..^1]);
        return lines.Select(line => Guid.Parse(line));
    }
}
