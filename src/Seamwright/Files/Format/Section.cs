using System.Collections.Immutable;

namespace Seamwright.Files.Format;

/// <summary>A key of a section.</summary>
/// <param name="Name">As written.</param>
/// <param name="Kind">What may stand after it.</param>
/// <param name="Required">Must be there.</param>
/// <param name="Default">What holds where it is left out; empty for required keys.</param>
/// <param name="Meaning">One sentence.</param>
/// <param name="Example">A value.</param>
internal sealed record Key(string Name, Kind Kind, bool Required, string Default, string Meaning, string Example)
{
    /// <summary>A key that must be there.</summary>
    public static Key Must(string name, Kind kind, string meaning, string example) => new(name, kind, true, "", meaning, example);

    /// <summary>A key that may be left out.</summary>
    public static Key May(string name, Kind kind, string fallback, string meaning, string example) =>
        new(name, kind, false, fallback, meaning, example);
}

/// <summary>A group of keys: a whole file, or a part of one.</summary>
/// <param name="Name">Unique in its file, also the heading in the documentation.</param>
/// <param name="Meaning">One sentence.</param>
/// <param name="Keys">Keys in reading order.</param>
internal sealed record Section(string Name, string Meaning, ImmutableArray<Key> Keys)
{
    /// <summary>The key of a name; a name the format does not know is a slip of the program, not of the file.</summary>
    public Key Find(string name)
    {
        foreach (var key in Keys)
        {
            if (key.Name == name)
                return key;
        }

        throw new ArgumentException($"The format of {Name} has no key {name}.", nameof(name));
    }
}

/// <summary>Kinds with short names, so that the tables of keys read as tables.</summary>
internal static class Kinds
{
    public static Kind Text { get; } = new Kind.Text();

    public static Kind Id { get; } = new Kind.Id();

    public static Kind Ids { get; } = new Kind.IdList();

    public static Kind Flag { get; } = new Kind.Flag();

    public static Kind Amount { get; } = new Kind.Amount();

    public static Kind Moment { get; } = new Kind.Moment();

    public static Kind Clock { get; } = new Kind.Clock();

    public static Kind Days { get; } = new Kind.Days();

    public static Kind File { get; } = new Kind.File();

    public static Kind Of(Values.Measure measure) => new Kind.Quantity(measure);

    public static Kind Word<T>()
        where T : struct, Enum => new Kind.Word(typeof(T));

    public static Kind WordList<T>()
        where T : struct, Enum => new Kind.WordList(typeof(T));

    public static Kind Count(int least = 0, int most = 10_000) => new Kind.Whole(least, most);

    public static Kind Map(Section section) => new Kind.Map(section);

    public static Kind Maps(Section section) => new Kind.MapList(section);

    public static Kind FileOr(Section section) => new Kind.Either(new Kind.File(), new Kind.Map(section));

    /// <summary>The keys with which every file begins.</summary>
    public static ImmutableArray<Key> Header(string line) =>
    [
        Key.Must("seamwright", new Kind.Header(line), "Kind and version of the file.", line),
        Key.May("invented", Flag, "no", "True where the data is made up for demonstration.", "true"),
        Key.May("note", Text, "none", "A remark for the reader; not used.", "after the spring stock-take"),
    ];
}
