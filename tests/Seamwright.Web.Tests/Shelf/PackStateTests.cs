using NodaTime;
using Seamwright.Materials;
using Seamwright.Program.Web.Shelf;
using Seamwright.Storage;
using Seamwright.Storage.Queries;
using Seamwright.Stored;
using Xunit;

namespace Seamwright.Web.Tests.Shelf;

/// <summary>How a pack stands, one fact at a time; the dates are counted out by hand.</summary>
public class PackStateTests
{
    private static readonly DateTimeZone Zone = DateTimeZoneProviders.Tzdb["Europe/Berlin"];

    // Monday noon in Berlin.
    private static readonly Instant Now = Instant.FromUtc(2027, 3, 1, 11, 0);

    private const string OnePart = """
        {"id":"MS1","name":"invented one-part","use":"seam-sealer","chemistry":"silane-modified","method":"cartridge","source":"invented",
         "pack":{"content":"290 ml","price":18.00,"opened_life":"21 d"}}
        """;

    [Theory]
    [InlineData("""{}""", PackState.Fresh)]
    [InlineData("""{"expires":"2027-03-04"}""", PackState.Fresh)]
    [InlineData("""{"expires":"2027-03-03"}""", PackState.EndsInPlan)]          // the plan ends in the night after it
    [InlineData("""{"expires":"2027-03-01"}""", PackState.EndsInPlan)]          // usable through its day
    [InlineData("""{"expires":"2027-02"}""", PackState.Expired)]                // a month means its last day
    [InlineData("""{"opened":"2027-02-08"}""", PackState.EndsInPlan)]           // 21 days after: today is the last
    [InlineData("""{"opened":"2027-02-07"}""", PackState.OpenTooLong)]
    [InlineData("""{"opened":"2027-03-01"}""", PackState.Fresh)]
    [InlineData("""{"left":"0 ml"}""", PackState.Empty)]
    [InlineData("""{"on_hold":"fell off"}""", PackState.SetAside)]
    [InlineData("""{"expires":"2027-02","left":"0 ml"}""", PackState.Expired)]  // what must not be used first
    [InlineData("""{"left":"900 ml"}""", PackState.Unreadable)]                 // more than a pack holds
    public void A_one_part_pack_stands_as_its_facts_say(string facts, PackState expected) => Assert.Equal(expected, Stand(facts, OnePart).State);

    [Theory]
    [InlineData("""{}""", 0, PackState.NoNozzle)]
    [InlineData("""{}""", 3, PackState.Fresh)]
    [InlineData("""{"nozzles":1}""", 0, PackState.Fresh)]
    [InlineData("""{"partner_missing":true}""", 3, PackState.PartnerMissing)]
    public void A_two_part_cartridge_needs_its_partner_and_a_nozzle(string facts, int loose, PackState expected)
    {
        string twoPart = OnePart.Replace("silane-modified", "epoxy", StringComparison.Ordinal).Replace("\"cartridge\"", "\"cartridge-with-mixer\"", StringComparison.Ordinal)
            .Replace("\"price\"", "\"ratio\":\"2:1\",\"price\"", StringComparison.Ordinal);

        Assert.Equal(expected, Stand(facts, twoPart, loose).State);
    }

    [Fact]
    public void A_pack_for_one_use_is_spent_once_opened()
    {
        string once = OnePart.Replace("\"opened_life\":\"21 d\"", "\"single_use\":true", StringComparison.Ordinal);

        Assert.Equal(PackState.Fresh, Stand("{}", once).State);
        Assert.Equal(PackState.SpentAtOnce, Stand("""{"opened":"2027-03-01"}""", once).State);
    }

    [Fact]
    public void A_pack_of_which_the_shop_has_no_sheet_is_said_to_have_none() => Assert.Equal(PackState.NoSheet, Stand("{}", null).State);

    [Fact]
    public void Without_a_plan_nothing_ends_within_it() =>
        Assert.Equal(PackState.Fresh, Stand("""{"expires":"2027-03-01"}""", OnePart, isPlanned: false).State);

    [Fact]
    public void Everything_that_speaks_against_a_pack_is_told_the_worst_first() =>
        Assert.Equal([PackState.Expired, PackState.OpenTooLong, PackState.Empty], Stand("""{"expires":"2027-02","opened":"2027-01-01","left":"0 ml"}""", OnePart).Against);

    private static ShelfPack Stand(string facts, string? sheetJson, int loose = 0, bool isPlanned = true)
    {
        string json = $$"""{"id":"A","material":"MS1",{{facts.Trim('{', '}')}}}""".Replace(",}", "}", StringComparison.Ordinal);
        var sheet = sheetJson is null ? null : Drafts.SheetOf(sheetJson) ?? throw new InvalidOperationException("The sheet of the test cannot be read.");
        var line = new PackLine(new StoredDocument("A", json, 1, Now, "keeper"), "MS1", "", null, null, null, null);
        // Wednesday to Thursday, an hour after midnight.
        Instant? ends = isPlanned ? Instant.FromUtc(2027, 3, 4, 0, 0) : null;
        return ShelfPack.Of(line, Drafts.PackOf(json, sheet, Zone), sheet, [], new ShelfMoment(Now, Zone, loose > 0 ? [new NozzleStock(loose, "2:1")] : [], ends));
    }
}
