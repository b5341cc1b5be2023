using System.Text.Json;
using NodaTime;
using Seamwright.Program.Web.Access;
using Seamwright.Program.Web.Photos;
using Seamwright.Storage;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Photos;

/// <summary>The factory look is noted at the car, stands in the work log, and is shown to those who may see the shop.</summary>
public class RecordingTests(FormShop given) : IClassFixture<FormShop>
{
    private static readonly CancellationToken Stop = TestContext.Current.CancellationToken;

    private WebShop Shop => given.Shop;

    private string Page => $"/repairs/{given.Repair}/look";

    [Fact]
    public async Task Photos_and_a_note_stand_in_the_log_with_who_and_when_and_their_hashes()
    {
        using var technician = await Shop.Signed(Role.Technician);
        string place = await AnyPlace(technician);
        byte[] sent = Picture.FromCamera(Picture.Jpeg(320, 240), orientation: 6);
        var before = Shop.Store.Now;

        var saved = await Send(technician, [("place", place), ("note", "brushed, open at the rear")], ("a.jpg", "image/jpeg", sent), ("b.png", "image/png", Picture.Packed(50, 50, SkiaSharp.SKEncodedImageFormat.Png)));
        var entry = (await Shop.Store.WorkOf(given.Repair, stop: Stop)).Last(entry => entry.Fact.Kind == RecordingLooks.Entry);

        Assert.Equal(302, saved.Code);
        Assert.Equal(Role.Technician, entry.Fact.Who);
        Assert.InRange(entry.Fact.At, before, Shop.Store.Now);
        using var facts = JsonDocument.Parse(entry.Fact.FactsJson);
        Assert.Equal((place, "brushed, open at the rear"), (facts.RootElement.GetProperty("place").GetString(), facts.RootElement.GetProperty("note").GetString()));
        var photos = facts.RootElement.GetProperty("photos").EnumerateArray().ToList();
        Assert.Equal(2, photos.Count);
        Assert.Equal(Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(sent)), photos[0].GetProperty("received").GetString());
        byte[] shown = await technician.Bytes($"/photos/{photos[0].GetProperty("id").GetString()}");
        Assert.Equal(Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(shown)), photos[0].GetProperty("sha256").GetString());
        Assert.DoesNotContain((byte)0xE1, Picture.Segments(shown));
        Assert.Null((await Shop.Store.CheckLog(Stop)).FirstBroken);
    }

    [Fact]
    public async Task What_was_recorded_is_shown_on_its_page_and_beside_its_seam_to_those_who_only_look()
    {
        using var technician = await Shop.Signed(Role.Technician);
        using var painter = await Shop.Signed(Role.Painter);
        string seam = (await Shop.Store.RepairDocument(given.Repair, Stop))!.Json is { } json ? LookPlaces.Of(json)[0].Id : "";
        await Send(technician, [("place", seam), ("note", "half-round, smooth")], ("a.jpg", "image/jpeg", Picture.Jpeg(64, 48)));

        foreach (string path in (string[])[Page, $"/repairs/{given.Repair}?seam={seam}"])
        {
            var page = (await painter.Get(path)).Page;
            var look = page.QuerySelectorAll(".look").Single(item => item.TextContent.Contains("half-round, smooth", StringComparison.Ordinal));
            Assert.Contains(Role.Technician, look.TextContent, StringComparison.Ordinal);
            var picture = look.QuerySelector("img")!;
            Assert.Contains(seam, picture.GetAttribute("alt"), StringComparison.Ordinal);
            Assert.NotEmpty(await painter.Bytes(picture.GetAttribute("src")!));
        }
        Assert.Null((await painter.Get(Page)).FindForm("look"));
    }

    [Fact]
    public async Task Files_that_are_no_photos_are_refused_by_number_and_reason_and_nothing_is_recorded()
    {
        using var technician = await Shop.Signed(Role.Technician);
        string place = await AnyPlace(technician);
        int before = (await Shop.Store.LooksOf(given.Repair, Stop)).Length;
        int files = Kept().Count;
        byte[] good = Picture.Jpeg(90, 33);
        (string, string, byte[], string)[] bad =
        [
            ("holiday.jpg", "image/jpeg", [.. "MZ"u8, .. new byte[2_000]], "no JPEG"),
            ("drawing.png", "image/png", System.Text.Encoding.UTF8.GetBytes("<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>"), "no JPEG"),
            ("huge.png", "image/png", Picture.PngOfSize(30_000, 30_000), "too many pixels"),
            ("half.jpg", "image/jpeg", good[..(good.Length / 2)], "ends too soon"),
            ("empty.jpg", "image/jpeg", [], "empty"),
            ("heavy.jpg", "image/jpeg", [.. good, .. new byte[PhotoCleaning.MostBytes]], "more than 8 MB"),
        ];

        foreach (var (name, type, bytes, reason) in bad)
        {
            var refused = await Send(technician, [("place", place), ("note", "kept")], ("good.jpg", "image/jpeg", good), (name, type, bytes));
            Assert.Equal((name, 422), (name, refused.Code));
            Assert.Equal(["photos"], refused.Marked);
            Assert.Contains(refused.Wrongs, line => line.Contains("Photo 2", StringComparison.Ordinal) && line.Contains(reason, StringComparison.Ordinal));
            Assert.Equal((place, "kept"), (refused.ValueOf("place"), refused.ValueOf("note")));
        }
        Assert.Equal(before, (await Shop.Store.LooksOf(given.Repair, Stop)).Length);
        Assert.Equal(files, Kept().Count);
    }

    [Theory]
    [InlineData("../../../../tmp/evil.jpg")]
    [InlineData("..\\..\\windows\\evil.jpg")]
    [InlineData("/etc/passwd")]
    [InlineData("C:\\evil.aspx")]
    [InlineData("evil.jpg<script>")]
    public async Task The_name_that_a_sender_gives_a_file_is_used_nowhere(string name)
    {
        using var technician = await Shop.Signed(Role.Technician);
        string place = await AnyPlace(technician);

        var saved = await Send(technician, [("place", place)], (name, "text/html", Picture.Jpeg(40 + name.Length, 30)));

        Assert.Equal(302, saved.Code);
        Assert.All(Kept(), file => Assert.Matches("^[0-9a-f]{64}$", Path.GetFileName(file)));
        Assert.DoesNotContain("evil", (await Shop.Store.WorkOf(given.Repair, stop: Stop))[^1].Fact.FactsJson, StringComparison.Ordinal);
        Assert.DoesNotContain("evil", (await technician.Get(Page)).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_photo_comes_as_a_picture_and_nothing_else_and_a_foreign_id_is_not_there()
    {
        using var technician = await Shop.Signed(Role.Technician);
        using var anybody = Shop.Anybody();
        await Send(technician, [("place", await AnyPlace(technician))], ("page.html", "text/html", Picture.Jpeg(70, 70)));
        var photo = (await Shop.Store.PhotosOf(given.Repair, Stop))[^1];

        foreach (string path in (string[])[$"/photos/{photo.Id}", $"/photos/{photo.Id}/small"])
        {
            var answer = await technician.Get(path);
            Assert.Equal((200, "image/jpeg", "nosniff"), (answer.Code, answer.One("Content-Type"), answer.One("X-Content-Type-Options")));
            Assert.Contains("default-src 'none'", answer.One("Content-Security-Policy"), StringComparison.Ordinal);
            Assert.Equal(302, (await anybody.Get(path)).Code);
        }
        foreach (string foreign in (string[])[$"/photos/{Guid.NewGuid()}", $"/photos/{Guid.NewGuid()}/small", $"/photos/{photo.Hash}", "/photos/..%2Fshop.db", "/photos/..%2F..%2Fshop.db/small"])
            Assert.Equal((foreign, 404), (foreign, (await technician.Get(foreign)).Code));
    }

    [Fact]
    public async Task Pressed_twice_it_is_recorded_once_and_the_same_key_for_something_else_is_refused()
    {
        using var technician = await Shop.Signed(Role.Technician);
        string place = await AnyPlace(technician);
        var form = (await technician.Get(Page)).Form("look").With(("place", place), ("note", "once"));
        var other = form.Select(entry => entry.Key == "note" ? new(entry.Key, "otherwise") : entry).ToList();
        int before = (await Shop.Store.LooksOf(given.Repair, Stop)).Length;
        (string, string, byte[]) photo = ("a.jpg", "image/jpeg", Picture.Jpeg(61, 47));

        var first = await technician.PostFiles(Page, form, "photos", photo);
        var again = await technician.PostFiles(Page, form, "photos", photo);
        var changed = await technician.PostFiles(Page, other, "photos", photo);

        Assert.Equal((302, 302, 422), (first.Code, again.Code, changed.Code));
        Assert.Equal(before + 1, (await Shop.Store.LooksOf(given.Repair, Stop)).Length);
    }

    [Fact]
    public async Task Nothing_chosen_a_place_that_is_not_there_and_too_many_at_once_are_told_at_their_fields()
    {
        using var technician = await Shop.Signed(Role.Technician);
        string place = await AnyPlace(technician);
        var photos = Enumerable.Repeat(("a.jpg", "image/jpeg", Picture.Jpeg(20, 20)), 7).ToArray();

        Assert.Equal(["photos"], (await Send(technician, [("place", place)])).Marked);
        Assert.Equal(["place"], (await Send(technician, [("place", "no such place"), ("note", "x")])).Marked);
        Assert.Equal(["photos"], (await Send(technician, [("place", place)], photos)).Marked);
        Assert.Equal(["note"], (await Send(technician, [("place", place), ("note", new string('x', 501))])).Marked);
    }

    [Fact]
    public async Task Who_may_not_change_repairs_cannot_record_and_neither_can_anybody_on_a_repair_that_is_handed_over()
    {
        using var painter = await Shop.Signed(Role.Painter);
        using var technician = await Shop.Signed(Role.Technician);
        await Shop.Store.SaveRepair(new("done", "Handed over", """{"joints":[{"id":"J1"}]}""", null, null), null, "a", Stop);
        await Shop.Store.MoveRepair("done", RepairState.Delivered, 1, "a", Stop);
        var token = (await painter.Get("/me")).Form("password").Entries.Single(entry => entry.Key == "__RequestVerificationToken");

        var sent = await painter.PostFiles(Page, [token, new("_handler", "look"), new("place", "J1"), new("note", "x")], "photos");
        var late = await technician.Get("/repairs/done/look");

        Assert.Equal(400, sent.Code);
        Assert.Equal(200, late.Code);
        Assert.Null(late.FindForm("look"));
    }

    private async Task<Answer> Send(Visitor visitor, (string, string?)[] entries, params (string, string, byte[])[] files) =>
        await visitor.PostFiles(Page, (await visitor.Get(Page)).Form("look").With(entries), "photos", files);

    private async Task<string> AnyPlace(Visitor visitor) =>
        (await visitor.Get(Page)).Page.QuerySelectorAll("select[name=place] option").Select(option => option.GetAttribute("value")!).First(value => value.Length > 0);

    private List<string> Kept() => [.. Directory.EnumerateFiles(Shop.Store.Folder.Photos, "*", SearchOption.AllDirectories)];
}
