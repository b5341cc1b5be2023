using System.Text;
using Seamwright.Files.Values;

namespace Seamwright.Files.Format;

/// <summary>Writes the documentation of the files from the same table of keys that the reader uses.</summary>
internal static class FormatReadme
{
    private const string Opening = """
        # Files

        Written by the program from the table of keys that its reader uses; the schemas beside this page come from the same table.

        A repair is a folder with a `repair.yaml`, which names the other files by path. `seamwright check PATH` reads a folder or a single
        file and tells every problem with file, line, column, field, and what would be right.

            seamwright: repair/1                # first line of every file: its kind and version
            shop: ../shop.yaml                  # a path from the folder of this file, or the content itself
            materials: [../materials.yaml]
            stock: stock.yaml
            climate: {temperature: 20 °C, humidity: 28 %}
            now: 2027-01-12T15:10
            promise: 2027-01-13T16:00
            slots: [2027-01-12T18:00, 2027-01-13T13:00]
            joints:
              - id: J1
                type: wheelhouse
                length: 1.2 m
                position: overhead
                look: {profile: sprayed, width: 40 mm, height: 1 mm}
                beneath: {coat: P-EP, applied: 2027-01-12T14:30}

        ## Rules for every file

        - YAML or JSON (`.json`), UTF-8, at most 2 MB (a climate table 50 MB), nested at most 20 deep, one document, no anchors, references or tags.
        - Keys are lower case with underscores, words are lower case with hyphens; their order does not matter; each key stands once.
        - A key that is left out has the default of the table below. A key without a value is a mistake, and so is an unknown key.
        - A quantity is a number with its unit, for example `620 mm`, `72 °F`, `12.5 fl oz`, `1 h 30 min`. The decimal sign is a point.
        - Money is a plain number in the shop's currency, for example `14.50`.
        - A time is the local time of the shop, `2027-01-12T15:10`. An hour that the clock change skips or repeats is refused; a time
          with its offset, `2027-10-31T02:30+01:00`, is always clear. A date is `2027-06-30`; where an expiry is a month, `2027-06`, its last day counts.
        - Weekdays are `Mon-Fri`, `Sat` or a list of such. A span of the day is `12:30-13:00`.
        - Where a list is expected, a single value will do. In YAML, a value with a comma or a colon inside `{…}` or `[…]` needs quotes.
        - A name (`id`) has at most 60 characters and no brackets, commas or slashes. Joints, bonds, bare areas, cavities and operations of
          a repair share their names.
        - A sheet without a second temperature and without `energy` gets the usual activation energy of its class; every answer that rests on it says so.
          An `energy` that the sheet states holds within the limits of the sheet, allowed heat included; one that is fitted, within its points;
          beyond that an answer says that it extrapolates.
        - A maximum window ends at its clock hours or at the same number of reference hours of its milestone, whichever comes first.

        """;

    private const string Tables = """
        ## Climate tables

        A CSV file with a heading; lines that start with `#` are skipped. Columns are found by name: `time` (or timestamp, date),
        `temperature_C` or `temperature_F`, and `humidity` in percent (`humidity_fraction`: 0 to 1); others are ignored. Cells are
        separated by semicolons (a decimal comma is then allowed), tabs or commas. A time is ISO 8601 with its offset, or local time of the declared zone:

            time,temperature_C,relative_humidity_percent
            2027-01-12T15:00+01:00,20.1,28
            2027-01-12 15:10:00,20.0,28.5

        Rows may be irregular, repeated or out of order. A local time without offset in an hour that occurs twice is resolved by the order of
        the rows and told; one in a skipped hour is refused. A row without a value (`-`, `NaN`, empty) is left out and counted.
        Of bad rows the first twenty are shown and the rest counted.

        """;

    /// <summary>The whole page.</summary>
    public static string Write()
    {
        var page = new StringBuilder(Opening).Append('\n');
        page.Append("## Units\n\n| quantity | units | also written |\n| --- | --- | --- |\n");
        foreach (var dimension in Dimensions.All.Append(Dimensions.TemperatureDifference))
        {
            var others = dimension.Units.SelectMany(unit => unit.Spellings.Skip(1));
            page.Append("| ").Append(dimension.Name).Append(" | ").Append(Code(dimension.Units.Select(unit => unit.Spellings[0])))
                .Append(" | ").Append(Code(others)).Append(" |\n");
        }

        var sets = new List<Type>();
        foreach (var kind in FileKind.All)
        {
            page.Append("\n## The ").Append(kind.Root.Name).Append(" file\n");
            foreach (var section in kind.Sections(withInnerFiles: false))
                Write(section, page, sets);
        }

        page.Append('\n').Append(Tables).Append("\n## Words\n");
        foreach (var set in sets)
        {
            page.Append("\n### ").Append(KindText.SetName(set)).Append(" words\n\n")
                .Append(Code(Words.Of(set).Select(pair => pair.Word))).Append('\n');
        }

        return page.ToString();
    }

    private static void Write(Section section, StringBuilder page, List<Type> sets)
    {
        page.Append("\n### ").Append(section.Name).Append("\n\n").Append(section.Meaning)
            .Append("\n\n| key | value | if left out | meaning | example |\n| --- | --- | --- | --- | --- |\n");
        foreach (var key in section.Keys)
        {
            string range = KindText.Range(key.Kind);
            page.Append("| `").Append(key.Name).Append("` | ").Append(KindText.Of(key.Kind)).Append(range.Length > 0 ? ", " + range : "")
                .Append(" | ").Append(key.Required ? "**needed**" : key.Default.Length > 0 ? key.Default : "–")
                .Append(" | ").Append(key.Meaning)
                .Append(" | ").Append(key.Example.StartsWith("see ", StringComparison.Ordinal) ? key.Example : $"`{key.Example}`").Append(" |\n");
            foreach (var set in Sets(key.Kind))
            {
                if (!sets.Contains(set))
                    sets.Add(set);
            }
        }
    }

    private static IEnumerable<Type> Sets(Kind kind) => kind switch
    {
        Kind.Word word => [word.Set],
        Kind.WordList list => [list.Set],
        Kind.WordTable table => [table.Set],
        Kind.Either either => either.Forms.SelectMany(Sets),
        _ => [],
    };

    private static string Code(IEnumerable<string> words) => string.Join(" ", words.Select(word => $"`{word}`"));
}
