using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;
using Xunit;

namespace Seamwright.Storage.Tests.Actions;

/// <summary>The log that only grows.</summary>
public class WorkLogTests
{
    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task An_entry_comes_back_as_it_was_told(string database)
    {
        await using var shop = await TestShop.Open(database);
        var fact = Fact(1) with { At = Instant.FromUtc(2027, 3, 1, 8, 0).PlusNanoseconds(1_000), Offset = Offset.FromHours(-7) };

        var outcome = await shop.Store.AppendWork(fact, TestShop.Stop);
        var entry = Assert.Single(await shop.Store.WorkOf("r0", stop: TestShop.Stop));

        Assert.Equal(new AppendOutcome.Appended(fact.Id, 1, false), outcome);
        Assert.Equal(fact, entry.Fact);
        Assert.Equal(1, entry.Sequence);
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task An_entry_delivered_again_is_known_and_another_under_its_id_is_refused(string database)
    {
        await using var shop = await TestShop.Open(database);

        await shop.Store.AppendWork(Fact(1), TestShop.Stop);
        var again = await shop.Store.AppendWork(Fact(1), TestShop.Stop);
        var other = await shop.Store.AppendWork([Fact(2), Fact(1) with { Who = "somebody else" }], TestShop.Stop);

        Assert.Equal(new AppendOutcome.Appended(Fact(1).Id, 1, true), again);
        Assert.Equal([new AppendOutcome.OtherWithThisId(Fact(1).Id)], other);
        Assert.Equal(new LogCheck(1, null), await shop.Store.CheckLog(TestShop.Stop));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Many_who_write_at_once_make_one_chain_without_a_gap(string database)
    {
        await using var shop = await TestShop.Open(database);
        using var other = await shop.OpenAgain();

        // Each entry is delivered twice, as a tablet does that heard no answer.
        await Task.WhenAll(Enumerable.Range(0, 40).Select(i => Task.Run(() => (i % 2 == 0 ? shop.Store : other).AppendWork(Fact(i / 2), TestShop.Stop))));
        var entries = await shop.Store.WorkAfter(0, stop: TestShop.Stop);

        Assert.Equal(Enumerable.Range(1, 20).Select(i => (long)i), entries.Select(entry => entry.Sequence));
        Assert.Equal(20, entries.Select(entry => entry.Fact.Id).Distinct().Count());
        Assert.Equal(new LogCheck(20, null), await shop.Store.CheckLog(TestShop.Stop));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task The_database_refuses_to_change_or_delete_what_was_written(string database)
    {
        await using var shop = await TestShop.Open(database);
        await shop.Store.SaveRepair(new("r0", "r", "{}", null, null), null, "a", TestShop.Stop);
        await shop.Store.AppendWork(Fact(1), TestShop.Stop);
        await shop.Store.KeepPlan(new(null, "r0", "", null, "", "{}", null, null, "CU"), "a", TestShop.Stop);
        await shop.Store.NoteAudit("a", "signed-in", "", "console", stop: TestShop.Stop);

        string[] attempts =
        [
            """UPDATE "WorkLog" SET "Who" = 'x'""", """DELETE FROM "WorkLog" """, """UPDATE "Plans" SET "Cost" = 1""", """DELETE FROM "Plans" """,
            """UPDATE "Audit" SET "Who" = 'x'""", """DELETE FROM "Audit" """,
            database == On.Sqlite
                ? """REPLACE INTO "WorkLog" SELECT "Sequence", "Id", "At", "OffsetSeconds", "Recorded", 'x', "Kind", "Repair", "Facts", "Previous", "Hash" FROM "WorkLog" """
                : """TRUNCATE "WorkLog" """,
        ];
        foreach (string attempt in attempts)
        {
            await using var db = shop.Store.Database.Open();
            var refusal = await Assert.ThrowsAnyAsync<System.Data.Common.DbException>(() => db.Database.ExecuteSqlRawAsync(attempt, TestShop.Stop));
            Assert.Contains("append-only", refusal.Message, StringComparison.Ordinal);
        }

        Assert.Equal("technician", Assert.Single(await shop.Store.WorkAfter(0, stop: TestShop.Stop)).Fact.Who);
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task An_entry_changed_behind_the_guards_breaks_the_chain_where_it_stands(string database)
    {
        await using var shop = await TestShop.Open(database);
        for (int i = 0; i < 5; i++)
            await shop.Store.AppendWork(Fact(i), TestShop.Stop);

        await using (var db = shop.Store.Database.Open())
        {
            foreach (string statement in shop.Store.Database.GuardsAway)
                await db.Database.ExecuteSqlRawAsync(statement, TestShop.Stop);
            await db.Database.ExecuteSqlRawAsync("""UPDATE "WorkLog" SET "Facts" = '{{}}' WHERE "Sequence" = 3""", TestShop.Stop);
        }

        Assert.Equal(new LogCheck(2, 3), await shop.Store.CheckLog(TestShop.Stop));
    }

    private static WorkFact Fact(int number) => new(
        new Guid(number, 1, 2, [3, 4, 5, 6, 7, 8, 9, 10]), Instant.FromUtc(2027, 3, 1, 8, 0), Offset.FromHours(1), "technician", "bead-applied", "r0", """{"joint":"J1"}""");
}
