using Seamwright.Files.Values;

namespace Seamwright.Files.Format;

/// <summary>What may stand after a key. Reader, schema and documentation are all driven by it, so they cannot drift apart.</summary>
internal abstract record Kind
{
    private Kind()
    {
    }

    /// <summary>A number with its unit.</summary>
    internal sealed record Quantity(Measure Measure) : Kind;

    /// <summary>One word of a closed set.</summary>
    internal sealed record Word(Type Set) : Kind;

    /// <summary>Words of a closed set: a list, or one word.</summary>
    internal sealed record WordList(Type Set) : Kind;

    /// <summary>Free text.</summary>
    internal sealed record Text : Kind;

    /// <summary>A short name.</summary>
    internal sealed record Id : Kind;

    /// <summary>Short names: a list, or one.</summary>
    internal sealed record IdList : Kind;

    /// <summary>Yes or no.</summary>
    internal sealed record Flag : Kind;

    /// <summary>A whole number.</summary>
    internal sealed record Whole(int Least, int Most) : Kind;

    /// <summary>A plain number.</summary>
    internal sealed record Number(double Least, double Most) : Kind;

    /// <summary>A plain decimal number in the shop's currency.</summary>
    internal sealed record Amount : Kind;

    /// <summary>A local time of the shop.</summary>
    internal sealed record Moment : Kind;

    /// <summary>Local times of the shop: a list, or one.</summary>
    internal sealed record MomentList : Kind;

    /// <summary>A calendar day.</summary>
    internal sealed record Date : Kind;

    /// <summary>Calendar days: a list, or one.</summary>
    internal sealed record DateList : Kind;

    /// <summary>A calendar day or a month, which means its last day.</summary>
    internal sealed record Expiry : Kind;

    /// <summary>A time of day.</summary>
    internal sealed record Clock : Kind;

    /// <summary>Weekdays.</summary>
    internal sealed record Days : Kind;

    /// <summary>Breaks: a list, or one.</summary>
    internal sealed record Breaks : Kind;

    /// <summary>A mix ratio.</summary>
    internal sealed record Ratio : Kind;

    /// <summary>Path of a file, relative to the file it is written in.</summary>
    internal sealed record File : Kind;

    /// <summary>The version line of a file.</summary>
    internal sealed record Header(string Line) : Kind;

    /// <summary>Keys of a section.</summary>
    internal sealed record Map(Section Section) : Kind;

    /// <summary>A list of sections.</summary>
    internal sealed record MapList(Section Section) : Kind;

    /// <summary>Files of one kind, or their contents: a list, or one.</summary>
    internal sealed record FileList(Section Section) : Kind;

    /// <summary>Words of a closed set as keys.</summary>
    internal sealed record WordTable(Type Set, Kind Value) : Kind;

    /// <summary>Free names as keys.</summary>
    internal sealed record NameTable(Kind Value) : Kind;

    /// <summary>One of several forms.</summary>
    internal sealed record Either(params Kind[] Forms) : Kind;
}
