namespace Seamwright.Documents.Drawing;

/// <summary>
/// What a drawing is put on: an SVG, later a page of a PDF. A look is one or more class names of <see cref="Styles"/>, separated by
/// blanks; what a class means is decided there, never where something is drawn.
/// </summary>
public interface ICanvas
{
    /// <summary>Begins something that has a name of its own; what is drawn until <see cref="Close"/> belongs to it.</summary>
    void Open(Mark mark);

    /// <summary>Ends what was opened last.</summary>
    void Close();

    /// <summary>A line through two or more places.</summary>
    void Line(string look, params ReadOnlySpan<Spot> spots);

    /// <summary>A closed area with three or more corners.</summary>
    void Area(string look, params ReadOnlySpan<Spot> corners);

    /// <summary>A rectangle.</summary>
    void Rectangle(string look, Box box, double rounding = 0);

    /// <summary>A disc.</summary>
    void Disc(string look, Spot centre, double radius);

    /// <summary>One line of text.</summary>
    /// <param name="look">Classes; they decide the size of the letters.</param>
    /// <param name="at">Foot of the letters.</param>
    /// <param name="text">The text as it is to be read; the canvas escapes what its form needs escaped.</param>
    /// <param name="align">Which part of the line stands at that place.</param>
    void Text(string look, Spot at, string text, Align align = Align.Start);
}

/// <summary>Which part of a line of text stands at its place.</summary>
public enum Align
{
    /// <summary>Its beginning.</summary>
    Start,

    /// <summary>Its middle.</summary>
    Middle,

    /// <summary>Its end.</summary>
    End,
}

/// <summary>Something drawn that has a name.</summary>
/// <param name="Look">Classes of the group, for example <c>seam seam--late</c>.</param>
/// <param name="Title">What it is and says, in words: what a pointer or a screen reader gets.</param>
/// <param name="Link">Where choosing it leads; null = it cannot be chosen.</param>
/// <param name="Name">Its name in the data, for example <c>J1</c>; null = none.</param>
public sealed record Mark(string Look, string Title, string? Link = null, string? Name = null);

/// <summary>A drawing laid out: its size, what it shows in words, and how it is put on a canvas.</summary>
public interface IDrawing
{
    /// <summary>Width. [drawing units]</summary>
    double Width { get; }

    /// <summary>Height. [drawing units]</summary>
    double Height { get; }

    /// <summary>Title in words.</summary>
    string Title { get; }

    /// <summary>The same facts in a sentence or two, for whoever does not see it.</summary>
    string Description { get; }

    /// <summary>Puts it on a canvas.</summary>
    void Draw(ICanvas canvas);
}
