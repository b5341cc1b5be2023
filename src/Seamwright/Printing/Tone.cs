namespace Seamwright.Program.Printing;

/// <summary>The meaning of a piece of text; the page turns it into a style where it may.</summary>
public enum Tone
{
    /// <summary>Ordinary text.</summary>
    Plain,

    /// <summary>Aside: sources, shading, what happens by itself.</summary>
    Faint,

    /// <summary>What is looked for first: names, times.</summary>
    Strong,

    /// <summary>Title of a section.</summary>
    Title,

    /// <summary>The answer: ready, slot.</summary>
    Answer,

    /// <summary>Late, refused, missing. Always said in words too.</summary>
    Alert,
}

/// <summary>A piece of text with one meaning.</summary>
/// <param name="Text">The text, one line.</param>
/// <param name="Tone">Its meaning.</param>
public readonly record struct Run(string Text, Tone Tone = Tone.Plain)
{
    /// <summary>Plain text.</summary>
    public static implicit operator Run(string text) => new(text);

    /// <summary>Plain text.</summary>
    public static Run FromString(string text) => new(text);
}
