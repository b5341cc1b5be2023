using System.Text;
using Seamwright.Files;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Files;

public sealed class BadInputTests
{
    [Fact]
    public void The_small_repair_of_these_tests_is_sound()
    {
        using var folder = new Folder();

        Assert.Empty(folder.Read().Problems.Select(Repository.Shown));
    }

    [Theory]
    // keys and words
    [InlineData("repair.yaml", "position: overhead", "positon: overhead", "key.unknown-near", "joints[J1].positon", 13)]
    [InlineData("repair.yaml", "position: overhead", "zzzzzzzz: overhead", "key.unknown", "joints[J1].zzzzzzzz", 13)]
    [InlineData("repair.yaml", "position: overhead", "type: lap", "file.duplicate-key", "", 13)]
    [InlineData("repair.yaml", "position: overhead", "position:", "value.nothing", "joints[J1].position", 13)]
    [InlineData("repair.yaml", "position: overhead", "position: [overhead]", "value.list-not-one", "joints[J1].position", 13)]
    [InlineData("repair.yaml", "position: overhead", "position: overhed", "value.unknown-word-near", "joints[J1].position", 13)]
    [InlineData("repair.yaml", "position: overhead", "position: sideways-up", "value.unknown-word", "joints[J1].position", 13)]
    [InlineData("repair.yaml", "profile: sprayed", "profile: Sprayed", "value.unknown-word-near", "joints[J1].look.profile", 14)]
    [InlineData("repair.yaml", "now: 2027-01-12T15:10\n", "", "key.missing", "", 1)]
    [InlineData("repair.yaml", "count: 3", "count: 3.5", "value.not-a-whole-number", "joints[J2].count", 18)]
    [InlineData("repair.yaml", "count: 3", "count: 99999999999999999999", "value.not-a-whole-number", "joints[J2].count", 18)]
    [InlineData("repair.yaml", "id: J2", "id: J1", "reference.twice", "joints[J1].id", 16)]
    // units and numbers
    [InlineData("repair.yaml", "length: 1.2 m\n", "length: 1.2\n", "value.unit-missing", "joints[J1].length", 12)]
    [InlineData("repair.yaml", "length: 1.2 m\n", "length: 1.2 ml\n", "value.unit-wrong", "joints[J1].length", 12)]
    [InlineData("repair.yaml", "length: 1.2 m\n", "length: 1.2 furlongs\n", "value.unit-unknown", "joints[J1].length", 12)]
    [InlineData("repair.yaml", "length: 1.2 m\n", "length: 1,2 m\n", "value.decimal-comma", "joints[J1].length", 12)]
    [InlineData("repair.yaml", "length: 1.2 m\n", "length: -1.2 m\n", "value.out-of-range", "joints[J1].length", 12)]
    [InlineData("repair.yaml", "length: 1.2 m\n", "length: 0 m\n", "value.out-of-range", "joints[J1].length", 12)]
    [InlineData("repair.yaml", "length: 1.2 m\n", "length: 1e999 m\n", "value.number-too-large", "joints[J1].length", 12)]
    [InlineData("repair.yaml", "length: 1.2 m\n", "length: NaN m\n", "value.not-a-quantity", "joints[J1].length", 12)]
    [InlineData("repair.yaml", "length: 1.2 m\n", "length: Infinity m\n", "value.not-a-quantity", "joints[J1].length", 12)]
    [InlineData("repair.yaml", "length: 1.2 m\n", "length: about 1.2 m\n", "value.not-a-quantity", "joints[J1].length", 12)]
    [InlineData("repair.yaml", "    length: 1.2 m\n", "", "repair.length-needed", "joints[J1]", 10)]
    [InlineData("repair.yaml", "humidity: 28 %", "humidity: 140 %", "value.out-of-range", "climate.humidity", 5)]
    [InlineData("repair.yaml", "humidity: 28 %", "humidity: 28", "value.unit-missing", "climate.humidity", 5)]
    [InlineData("repair.yaml", "temperature: 20 °C", "temperature: -300 °C", "value.below-absolute-zero", "climate.temperature", 5)]
    [InlineData("repair.yaml", "temperature: 20 °C", "temperature: -500 °F", "value.below-absolute-zero", "climate.temperature", 5)]
    [InlineData("repair.yaml", "temperature: 20 °C", "temperature: 200 °C", "value.out-of-range", "climate.temperature", 5)]
    [InlineData("repair.yaml", "{temperature: 20 °C, humidity: 28 %}", "{}", "climate.one-of", "climate", 5)]
    [InlineData("shop.yaml", "per_hour: 66.00", "per_hour: -66.00", "value.not-money", "people[technician].per_hour", 6)]
    [InlineData("shop.yaml", "per_hour: 66.00", "per_hour: 66 EUR", "value.not-money", "people[technician].per_hour", 6)]
    // times
    [InlineData("repair.yaml", "now: 2027-01-12T15:10", "now: tomorrow", "time.not-a-time", "now", 6)]
    [InlineData("repair.yaml", "now: 2027-01-12T15:10", "now: 2027-02-30T15:10", "time.not-a-time", "now", 6)]
    [InlineData("repair.yaml", "now: 2027-01-12T15:10", "now: 0027-01-12T15:10", "time.year", "now", 6)]
    [InlineData("repair.yaml", "2027-01-13T13:00]", "2027-03-28T02:30]", "time.skipped", "slots[2]", 8)]
    [InlineData("repair.yaml", "2027-01-13T13:00]", "2027-10-31T02:30]", "time.doubled", "slots[2]", 8)]
    [InlineData("repair.yaml", "[2027-01-12T18:00", "[2027-01-12T14:00", "repair.slot-before-now", "slots[1]", 8)]
    [InlineData("repair.yaml", "2027-01-13T13:00]", "2027-01-12T17:00]", "repair.slots-not-ascending", "slots[2]", 8)]
    [InlineData("repair.yaml", "promise: 2027-01-13T16:00", "promise: 2027-01-11T16:00", "repair.promise-before-now", "promise", 7)]
    [InlineData("repair.yaml", "applied: 2027-01-12T14:30", "applied: 2027-01-12T16:30", "repair.applied-in-future", "joints[J1].beneath.applied", 15)]
    [InlineData("shop.yaml", "to: 18:00", "to: 06:00", "time.end-before-start", "hours[1].to", 5)]
    [InlineData("shop.yaml", "to: 18:00", "to: 25:00", "time.not-a-clock", "hours[1].to", 5)]
    [InlineData("shop.yaml", "12:30-13:00", "13:00-12:30", "time.end-before-start", "hours[1].breaks[1]", 5)]
    [InlineData("shop.yaml", "12:30-13:00", "06:30-07:00", "shop.break-outside-hours", "hours[1].breaks", 5)]
    [InlineData("shop.yaml", "days: Mon-Fri", "days: Monday", "time.not-weekdays", "hours[1].days", 5)]
    [InlineData("shop.yaml", "zone: Europe/Vienna", "zone: Europe/Atlantis", "time.zone-unknown", "zone", 3)]
    [InlineData("shop.yaml", "currency: CU", "currency: CU\nculture: xx-nowhere-9", "shop.culture-unknown", "culture", 5)]
    // sheets
    [InlineData("materials.yaml", "paint_within: 24 h", "paint_within: 1 h", "material.window-below-minimum", "sheets[E2S].paint_within", 10)]
    [InlineData("materials.yaml", "panel_to: 35 °C", "panel_to: 5 °C", "value.below-its-lower-bound", "sheets[E2S].limits.panel_to", 11)]
    [InlineData("materials.yaml", "energy: 55 kJ/mol\n    times: {work: 25 min, paint: 90 min}", "times: {paint: [{time: 90 min, at: 23 °C}, {time: 3 h, at: 40 °C}]}", "material.warmer-is-slower", "sheets[E2S].times.paint", 8)]
    [InlineData("materials.yaml", "ratio: 2:1", "ratio: two to one", "value.not-a-ratio", "sheets[E2S].pack.ratio", 13)]
    [InlineData("materials.yaml", "ratio: 2:1", "ratio: 0:1", "value.not-a-ratio", "sheets[E2S].pack.ratio", 13)]
    [InlineData("materials.yaml", "content: 200 ml, ratio", "ratio", "material.content-or-strip", "sheets[E2S].pack", 13)]
    [InlineData("materials.yaml", "energy: 55 kJ/mol", "depth_in_first_day: 3 mm", "material.depth-without-moisture-cure", "sheets[E2S].depth_in_first_day", 8)]
    [InlineData("materials.yaml", "- {id: P-EP,", "- {id: E2S,", "reference.twice", "sheets[E2S].id", 14)]
    // stock
    [InlineData("stock.yaml", "left: 120 ml", "left: 250 ml", "stock.left-above-content", "packs[A].left", 3)]
    [InlineData("stock.yaml", "left: 120 ml", "left: 2 m", "value.unit-wrong", "packs[A].left", 3)]
    [InlineData("stock.yaml", "expires: 2027-06", "expires: 2026-06", "stock.expired-before-opening", "packs[A].expires", 3)]
    [InlineData("stock.yaml", "opened: 2027-01-04", "opened: 2027-01-14", "stock.opened-in-future", "packs[A].opened", 3)]
    [InlineData("stock.yaml", "expires: 2027-06", "expires: June", "time.not-an-expiry", "packs[A].expires", 3)]
    [InlineData("stock.yaml", "material: E2S", "material: E2X", "reference.material", "packs[A].material", 3)]
    [InlineData("stock.yaml", "material: E2S", "material: e2s", "reference.material-near", "packs[A].material", 3)]
    // references
    [InlineData("repair.yaml", "coat: P-EP", "coat: P-XX", "reference.coat", "joints[J1].beneath.coat", 15)]
    [InlineData("repair.yaml", "coat: P-EP", "coat: E2S", "repair.no-coat", "joints[J1].beneath.coat", 15)]
    [InlineData("repair.yaml", "adhesive: AD-E", "adhesive: E2S", "repair.no-adhesive", "bonds[B1].adhesive", 21)]
    [InlineData("repair.yaml", "after: [B1]", "after: [X]", "reference.place", "operations[O1].after[1]", 23)]
    [InlineData("repair.yaml", "after: [B1]", "after: [J1]", "reference.wrong-kind", "operations[O1].after[1]", 23)]
    [InlineData("repair.yaml", "after: [B1]", "after: [O1]", "repair.circle", "operations[O1].after", 23)]
    [InlineData("repair.yaml", "fit_time: 30 min", "fit_time: 30 min, after: [O1]", "repair.circle", "operations[O1].after", 23)]
    // paths
    [InlineData("repair.yaml", "shop: shop.yaml", "shop: nowhere.yaml", "file.named-missing", "shop", 2)]
    [InlineData("repair.yaml", "shop: shop.yaml", "shop: /etc/passwd", "file.path-not-relative", "shop", 2)]
    [InlineData("repair.yaml", "shop: shop.yaml", "shop: stock.yaml", "file.other-kind", "seamwright", 1)]
    [InlineData("repair.yaml", "seamwright: repair/1", "seamwright: repair/9", "file.other-kind", "seamwright", 1)]
    [InlineData("repair.yaml", "seamwright: repair/1\n", "", "file.no-version-line", "", 1)]
    // what YAML could do beyond values
    [InlineData("repair.yaml", "position: overhead", "position: &x overhead", "file.anchor", "", 13)]
    [InlineData("repair.yaml", "position: overhead", "position: !x overhead", "file.tag", "", 13)]
    [InlineData("repair.yaml", "seamwright: repair/1", "seamwright: repair/1\n---\na: b", "file.several-documents", "", 2)]
    [InlineData("repair.yaml", "position: overhead", "position: 'overhead", "file.yaml", "", -1)]
    [InlineData("repair.yaml", "position: overhead", "{a: b}: overhead", "file.key-not-text", "", 13)]
    [InlineData("repair.yaml", "position: overhead", "position: over\u0001head", "file.control-character", "", 13)]
    public void What_is_wrong_is_told_with_its_place(string file, string text, string other, string key, string field, int line)
    {
        using var folder = new Folder();
        folder.Spoil(file, text, other);

        var reading = folder.Read();

        Assert.True(reading.Input is null);
        var told = reading.Problems.Where(problem => problem.Key == key && problem.Field == field && (line < 0 || problem.Line == line));
        Assert.True(told.Any(), $"Told instead:\n{string.Join('\n', reading.Problems.Select(Repository.Shown))}");
        Assert.All(reading.Problems, problem => Assert.Matches(@"^[^{}]*[.?]$", Repository.Sentence(problem).Replace("'{a: b}'", "", StringComparison.Ordinal)));
    }

    [Fact]
    public void All_problems_of_all_files_are_told_at_once()
    {
        using var folder = new Folder();
        folder.Spoil("repair.yaml", "1.2 m", "1.2");
        folder.Spoil("repair.yaml", "position: overhead", "position: up");
        folder.Spoil("shop.yaml", "66.00", "many");
        folder.Spoil("materials.yaml", "55 kJ/mol", "55");
        folder.Spoil("stock.yaml", "120 ml", "300 ml");

        var problems = folder.Read().Problems;

        Assert.Equal(5, problems.Length);
        Assert.Equal(["shop.yaml", "materials.yaml", "stock.yaml", "repair.yaml", "repair.yaml"], problems.Select(problem => Path.GetFileName(problem.File)));
    }

    [Fact]
    public void A_missing_materials_file_is_one_problem_not_one_for_every_name()
    {
        using var folder = new Folder();
        File.Delete(folder.At("materials.yaml"));

        var problem = Assert.Single(folder.Read().Problems);

        Assert.Equal("file.named-missing", problem.Key);
    }

    [Theory]
    [InlineData("", "file.empty")]
    [InlineData("\n \n# nothing\n", "file.empty")]
    [InlineData("just words", "file.no-keys")]
    [InlineData("- 1\n- 2", "file.no-keys")]
    [InlineData("a: [", "file.yaml")]
    [InlineData("*x", "file.alias")]
    [InlineData("a: b: c", "file.yaml")]
    public void A_file_that_is_no_repair_is_told_so(string text, string key)
    {
        using var folder = new Folder();
        folder.Write("repair.yaml", text);

        Assert.Contains(key, folder.Read().Problems.Select(problem => problem.Key));
    }

    [Fact]
    public void Text_that_is_not_utf_8_is_told_with_its_line()
    {
        using var folder = new Folder();
        File.WriteAllBytes(folder.At("repair.yaml"), [.. "seamwright: repair/1\nname: "u8, 0xC3, 0x28, .. "\n"u8]);

        var problem = Assert.Single(folder.Read().Problems);

        Assert.Equal(("file.not-utf8", 2), (problem.Key, problem.Line));
    }

    [Fact]
    public void A_file_above_the_limit_is_refused_without_being_read()
    {
        using var folder = new Folder();
        using (var stream = File.Create(folder.At("repair.yaml")))
            stream.SetLength(50_000_000);

        var problem = Assert.Single(folder.Read().Problems);

        Assert.Equal("file.too-large", problem.Key);
    }

    [Theory]
    [InlineData("[", "repair.yaml")]
    [InlineData("{a: ", "repair.yaml")]
    [InlineData("- ", "repair.yaml")]
    [InlineData("[", "repair.json")]
    [InlineData("{\"a\":", "repair.json")]
    public void Deep_nesting_is_refused_and_not_followed(string opening, string name)
    {
        using var folder = new Folder();
        File.Delete(folder.At("repair.yaml"));
        folder.Write(name, string.Concat(Enumerable.Repeat(opening, 100_000)));

        Assert.Equal(["file.too-deep"], folder.Read().Problems.Select(problem => problem.Key));
    }

    [Fact]
    public void Two_megabytes_of_unknown_keys_are_told_in_a_hundred_lines_and_a_number()
    {
        using var folder = new Folder();
        var text = new StringBuilder(Folder.Repair).Append('\n');
        for (int i = 0; i < 5_000; i++)
            text.Append('k').Append(i).Append(": 1\n");
        folder.Write("repair.yaml", text.ToString());

        var problems = folder.Read().Problems;

        Assert.Equal(101, problems.Length);
        Assert.Equal("file.more-problems", problems[^1].Key);
    }

    [Fact]
    public void A_very_long_value_is_refused_and_quoted_short()
    {
        using var folder = new Folder();
        folder.Spoil("repair.yaml", "overhead", new string('x', 100_000));

        var problem = Assert.Single(folder.Read().Problems);

        Assert.Equal("value.too-long", problem.Key);
        Assert.InRange(Repository.Shown(problem).Length, 1, 400);
    }

    [Fact]
    public void A_folder_a_loop_of_links_or_nothing_in_place_of_a_file_is_told_plainly()
    {
        using var folder = new Folder();
        Directory.CreateDirectory(folder.At("inner"));
        folder.Spoil("repair.yaml", "stock: stock.yaml", "stock: inner");
        Assert.Equal(["file.is-folder"], folder.Read().Problems.Select(problem => problem.Key));

        if (!OperatingSystem.IsWindows())
        {
            folder.Spoil("repair.yaml", "stock: inner", "stock: loop.yaml");
            File.CreateSymbolicLink(folder.At("loop.yaml"), folder.At("pool.yaml"));
            File.CreateSymbolicLink(folder.At("pool.yaml"), folder.At("loop.yaml"));
            Assert.Equal(["file.unreadable"], folder.Read().Problems.Select(problem => problem.Key));
        }

        Assert.Equal(["file.missing"], RepairReader.Read(folder.At("none")).Problems.Select(problem => problem.Key));
        Assert.Equal(["file.no-repair-in-folder"], RepairReader.Read(folder.At("inner")).Problems.Select(problem => problem.Key));
        Assert.Equal(["file.missing"], RepairReader.Read("").Problems.Select(problem => problem.Key));
        Assert.Equal(["file.missing"], RepairReader.Read("a\0b").Problems.Select(problem => problem.Key));
    }

    [Fact]
    public void Spoilt_bytes_never_end_in_an_exception()
    {
        var random = new Random(20270112);
        byte[] sound = Encoding.UTF8.GetBytes(Folder.Repair);
        byte[] likely = Encoding.UTF8.GetBytes("{}[]:-#&*!|>'\"%@`,?\t\n 0.9°");
        using var folder = new Folder();
        for (int round = 0; round < 300; round++)
        {
            byte[] bytes = [.. sound];
            for (int i = random.Next(1, 6); i > 0; i--)
                bytes[random.Next(bytes.Length)] = random.Next(4) == 0 ? (byte)random.Next(256) : likely[random.Next(likely.Length)];
            File.WriteAllBytes(folder.At("repair.yaml"), bytes);

            var reading = folder.Read();

            Assert.True(reading.Input is not null || reading.Problems.Length > 0);
            Assert.All(reading.Problems, problem => Assert.DoesNotContain(problem.Key + ":", Repository.Sentence(problem), StringComparison.Ordinal));
        }
    }
}
