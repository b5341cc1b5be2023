using System.Collections.Immutable;
using NodaTime;
using Seamwright.Files.Format;
using Seamwright.Files.Trees;
using Seamwright.Files.Values;
using Seamwright.Units;

namespace Seamwright.Files.Typed;

/// <summary>
/// Reads the values of a section by the table of its keys. A value that is left out or wrong is null; what is wrong has been told,
/// so a caller only has to put a default in place of null.
/// </summary>
internal sealed class MapReader
{
    private readonly Dictionary<string, MapEntry> _entries;
    private readonly Section _section;
    private readonly Field _field;

    private MapReader(Field field, MapNode map, Section section)
    {
        _field = field;
        _section = section;
        _entries = map.Entries.ToDictionary(entry => entry.Key);
    }

    /// <summary>The file.</summary>
    public SourceFile File => _field.File;

    /// <summary>The whole section as a value, to tell what is wrong with it.</summary>
    public Field Self => _field;

    /// <summary>Opens a section and tells unknown and missing keys; null where the value is no map.</summary>
    public static MapReader? Open(Field field, Section section)
    {
        if (field.Node is not MapNode map)
        {
            if (field.Node is ScalarNode { IsNothing: true })
                field.Problem("value.nothing");
            else
                field.Problem("value.not-a-map", section.Name, Words.OneOf(section.Keys.Take(3).Select(key => key.Name)));
            return null;
        }

        var known = section.Keys.Select(key => key.Name).ToImmutableHashSet();
        foreach (var entry in map.Entries)
        {
            if (known.Contains(entry.Key))
                continue;
            string path = Join(field.Path, Words.Quote(entry.Key));
            bool isShown = field.File.Problems.ShowsMoreOf(field.File.Shown);
            if (isShown && Words.Nearest(entry.Key, known.Order(StringComparer.Ordinal)) is { } near)
                field.File.Problem(entry.KeyMark, path, "key.unknown-near", Words.Quote(entry.Key), near);
            else
                field.File.Problem(entry.KeyMark, path, "key.unknown", Words.Quote(entry.Key), string.Join(", ", known.Order(StringComparer.Ordinal)));
        }

        foreach (var key in section.Keys)
        {
            if (key.Required && !map.Entries.Any(entry => entry.Key == key.Name))
                field.File.Problem(map.Mark, field.Path, "key.missing", key.Name, key.Example);
        }

        var reader = new MapReader(field, map, section);
        if (section.Keys.Any(key => key.Kind is Kind.Header))
        {
            // Nobody uses these two, but a slip in them is a slip all the same.
            reader.Flag("invented");
            reader.Text("note");
        }

        return reader;
    }

    /// <summary>Whether the key is written.</summary>
    public bool Has(string key) => Find(key) is not null;

    /// <summary>The value of a key, or null where it is left out.</summary>
    public Field? Find(string key)
    {
        _section.Find(key);
        return _entries.TryGetValue(key, out var entry) ? _field with { Node = entry.Value, Path = Join(_field.Path, key) } : null;
    }

    /// <summary>Tells something at a key, or at the section where the key is left out.</summary>
    public void Problem(string key, string problem, params string[] args) => (Find(key) ?? _field).Problem(problem, args);

    public Length? Length(string key) => Measured(key) is { } metres ? Units.Length.FromMetres(metres) : null;

    public Volume? Volume(string key) => Measured(key) is { } cubicMetres ? Units.Volume.FromCubicMetres(cubicMetres) : null;

    public Area? Area(string key) => Measured(key) is { } squareMetres ? Units.Area.FromSquareMetres(squareMetres) : null;

    public Temperature? Temperature(string key) => Measured(key) is { } kelvin ? Units.Temperature.FromKelvin(kelvin) : null;

    public TemperatureDifference? Difference(string key) =>
        Measured(key) is { } kelvins ? TemperatureDifference.FromKelvins(kelvins) : null;

    public RelativeHumidity? Humidity(string key) => Measured(key) is { } fraction ? RelativeHumidity.FromFraction(fraction) : null;

    public HumidityRatio? Water(string key) => Measured(key) is { } ratio ? HumidityRatio.FromGramsPerKilogram(ratio * 1e3) : null;

    public MolarEnergy? Energy(string key) => Measured(key) is { } joules ? MolarEnergy.FromKilojoulesPerMole(joules / 1e3) : null;

    public Density? Density(string key) => Measured(key) is { } density ? Units.Density.FromGramsPerMillilitre(density / 1e3) : null;

    public Angle? Angle(string key) => Measured(key) is { } degrees ? Units.Angle.FromDegrees(degrees) : null;

    public double? Share(string key) => Measured(key);

    public Duration? Duration(string key) => Measured(key) is { } seconds ? Composite.Duration(seconds) : null;

    public string? Text(string key) => Find(key) is { } field ? Plain.Text(field) : null;

    public string? Id(string key) => Find(key) is { } field ? Plain.Id(field) : null;

    public bool? Flag(string key) => Find(key) is { } field ? Plain.Flag(field) : null;

    public decimal? Amount(string key) => Find(key) is { } field ? Plain.Amount(field) : null;

    public int? Whole(string key) =>
        Find(key) is { } field && Form<Kind.Whole>(key) is var kind ? Plain.Whole(field, kind.Least, kind.Most) : null;

    public double? Number(string key) =>
        Find(key) is { } field && Form<Kind.Number>(key) is var kind ? Plain.Number(field, kind.Least, kind.Most) : null;

    public Instant? Moment(string key, DateTimeZone zone) => Find(key) is { } field ? Times.Moment(field, zone) : null;

    public LocalDate? Date(string key) => Find(key) is { } field ? Times.Date(field) : null;

    public LocalTime? Clock(string key) => Find(key) is { } field ? Times.Clock(field) : null;

    public ImmutableHashSet<IsoDayOfWeek>? Days(string key) => Find(key) is { } field ? Times.Days(field) : null;

    public T? Word<T>(string key)
        where T : struct, Enum => Find(key) is { } field ? Plain.Word<T>(field) : null;

    /// <summary>Words of a list, or of the single word; empty where left out.</summary>
    public ImmutableArray<T> WordList<T>(string key)
        where T : struct, Enum => [.. Items(key).Select(Plain.Word<T>).OfType<T>()];

    /// <summary>Names of a list, or the single name, each with its place; empty where left out.</summary>
    public ImmutableArray<(Field Field, string Name)> Ids(string key)
    {
        var names = ImmutableArray.CreateBuilder<(Field, string)>();
        foreach (var item in Items(key))
        {
            if (Plain.Id(item) is { } name)
                names.Add((item, name));
        }

        return names.ToImmutable();
    }

    /// <summary>Items of a list, or the single value; empty where left out.</summary>
    public IEnumerable<Field> Items(string key) => Find(key)?.Items() ?? [];

    /// <summary>The section of a key, or null where left out.</summary>
    public MapReader? Map(string key) => Find(key) is { } field ? Open(field, Form<Kind.Map>(key).Section) : null;

    /// <summary>The sections of a list; a single section counts as a list of one.</summary>
    public IEnumerable<MapReader> Maps(string key)
    {
        var section = Form<Kind.MapList>(key).Section;
        return [.. Items(key).Select(item => Open(item, section)).OfType<MapReader>()];
    }

    /// <summary>A table with words of a closed set as keys.</summary>
    public IEnumerable<(T Word, Field Value)> WordTable<T>(string key)
        where T : struct, Enum
    {
        foreach (var (name, mark, value) in Table(key))
        {
            var word = Plain.Word<T>(value with { Node = new ScalarNode(mark, name, true) });
            if (word is { } known)
                yield return (known, value);
        }
    }

    /// <summary>A table with free names as keys.</summary>
    public IEnumerable<(string Name, Mark Mark, Field Value)> Table(string key)
    {
        if (Find(key) is not { } field)
            yield break;
        if (field.Node is not MapNode map)
        {
            field.Problem("value.not-a-table");
            yield break;
        }

        foreach (var entry in map.Entries)
            yield return (entry.Key, entry.KeyMark, field with { Node = entry.Value, Path = Join(field.Path, Words.Quote(entry.Key)) });
    }

    /// <summary>Tells where two bounds are the wrong way round.</summary>
    public void Ordered<T>(string from, T? low, string to, T? high)
        where T : struct, IComparable<T>
    {
        if (low is { } a && high is { } b && a.CompareTo(b) > 0)
            Problem(to, "value.below-its-lower-bound", to, from);
    }

    /// <summary>The form of a key's value that has this kind.</summary>
    private T Form<T>(string key)
        where T : Kind => _section.Find(key).Kind switch
        {
            T kind => kind,
            Kind.Either either => either.Forms.OfType<T>().First(),
            _ => throw new InvalidOperationException($"The format of {_section.Name}.{key} is no {typeof(T).Name}."),
        };

    private double? Measured(string key) =>
        Find(key) is { } field ? QuantityText.Read(field, Form<Kind.Quantity>(key).Measure) : null;

    private static string Join(string path, string key) => path.Length == 0 ? key : $"{path}.{key}";
}
