using Seamwright.Program.Web.Access;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Doors;

/// <summary>When the program itself fails: closed rather than open, a number to find it by, nothing of its insides (OWASP ASVS 5.0.0, 16.5.1, 16.5.3).</summary>
public class FaultTests
{
    private static readonly string[] Insides = ["Exception", "   at ", "SELECT ", "FROM \"", "sqlite", "no such table", "Seamwright.Storage", ".cs:line"];

    [Theory]
    [InlineData("Repairs", "/repairs")]
    [InlineData("Sheets", "/materials")]
    [InlineData("Accounts", "/accounts")]
    [InlineData("SignIns", "/repairs")]
    public async Task A_store_that_fails_is_told_by_a_number_and_lets_nobody_in(string table, string path)
    {
        await using var shop = await WebShop.Open();
        using var owner = await shop.Signed(Role.Owner);
        using var anybody = shop.Anybody();
        Assert.Equal(200, (await owner.Get(path)).Code);

        await shop.TakeAway(table);
        var known = await owner.Get(path);
        var unknown = await anybody.Get(path);

        Assert.Equal(500, known.Code);
        Assert.Matches("[0-9a-f]{32}|[0-9A-Z]+:[0-9A-F]+", known.Page.QuerySelector("main")?.TextContent ?? "");
        Assert.NotEqual(200, unknown.Code);
        foreach (var answer in new[] { known, unknown })
        {
            Assert.All(Insides, inside => Assert.DoesNotContain(inside, answer.Text, StringComparison.Ordinal));
            Assert.Contains("default-src 'none'", answer.One("Content-Security-Policy"), StringComparison.Ordinal);
            Assert.Contains("no-store", answer.One("Cache-Control"), StringComparison.Ordinal);
        }
    }
}
