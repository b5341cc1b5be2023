using System.Globalization;
using System.Text;
using System.Xml;

namespace Seamwright.Documents.Drawing;

/// <summary>Writes drawings as SVG. The only place where text is escaped and numbers become digits.</summary>
public sealed class SvgCanvas : ICanvas
{
    private readonly StringBuilder _marks = new();
    private readonly XmlWriter _writer;
    private readonly HashSet<string> _classes = new(StringComparer.Ordinal);
    private readonly Stack<bool> _links = new();
    private bool _hasLinks;

    private SvgCanvas() =>
        _writer = XmlWriter.Create(_marks, new XmlWriterSettings { ConformanceLevel = ConformanceLevel.Fragment, Indent = true, IndentChars = " ", NewLineChars = "\n" });

    /// <summary>A file of its own: with its style sheet, right by itself in a light or a dark viewer.</summary>
    public static string File(IDrawing drawing) => Write(drawing, "drawing", standAlone: true);

    /// <summary>An element to be put into a page that carries <see cref="StyleSheet.ForPage"/>.</summary>
    /// <param name="drawing">The drawing.</param>
    /// <param name="look">Classes beside <c>drawing</c>, for example for one size of screen; empty = none.</param>
    public static string Element(IDrawing drawing, string look = "") => Write(drawing, $"drawing {look}".TrimEnd(), standAlone: false);

    /// <inheritdoc/>
    public void Open(Mark mark)
    {
        ArgumentNullException.ThrowIfNull(mark);
        if (mark.Link is { } link)
        {
            _hasLinks = true;
            _writer.WriteStartElement("a");
            Attribute("href", link);
            // A link is named by its own title (SVG-AAM 1.0, 8.1), and what is written on it stays part of what can be said to open it (WCAG 2.2, 2.5.3).
            _writer.WriteElementString("title", Clean(mark.Title));
        }
        _links.Push(mark.Link is not null);
        _writer.WriteStartElement("g");
        Look(mark.Look);
        if (mark.Name is { } name)
            Attribute("data-name", name);
        if (mark.Link is null)
            _writer.WriteElementString("title", Clean(mark.Title));
    }

    /// <inheritdoc/>
    public void Close()
    {
        _writer.WriteEndElement();
        if (_links.Pop())
            _writer.WriteEndElement();
    }

    /// <inheritdoc/>
    public void Line(string look, params ReadOnlySpan<Spot> spots) => Path(look, spots, closed: false);

    /// <inheritdoc/>
    public void Area(string look, params ReadOnlySpan<Spot> corners) => Path(look, corners, closed: true);

    /// <inheritdoc/>
    public void Rectangle(string look, Box box, double rounding = 0)
    {
        _writer.WriteStartElement("rect");
        Look(look);
        Attribute("x", box.Left);
        Attribute("y", box.Top);
        Attribute("width", box.Width);
        Attribute("height", box.Height);
        if (rounding > 0)
            Attribute("rx", rounding);
        _writer.WriteEndElement();
    }

    /// <inheritdoc/>
    public void Disc(string look, Spot centre, double radius)
    {
        _writer.WriteStartElement("circle");
        Look(look);
        Attribute("cx", centre.X);
        Attribute("cy", centre.Y);
        Attribute("r", radius);
        _writer.WriteEndElement();
    }

    /// <inheritdoc/>
    public void Text(string look, Spot at, string text, Align align = Align.Start)
    {
        _writer.WriteStartElement("text");
        Look(look);
        Attribute("x", at.X);
        Attribute("y", at.Y);
        if (align != Align.Start)
            Attribute("text-anchor", align == Align.Middle ? "middle" : "end");
        _writer.WriteString(Clean(text));
        _writer.WriteEndElement();
    }

    private static string Write(IDrawing drawing, string look, bool standAlone)
    {
        ArgumentNullException.ThrowIfNull(drawing);
        var canvas = new SvgCanvas();
        canvas._writer.WriteStartElement("rect");
        canvas.Look("sheet");
        canvas.Attribute("width", drawing.Width);
        canvas.Attribute("height", drawing.Height);
        canvas._writer.WriteEndElement();
        drawing.Draw(canvas);
        canvas._writer.Flush();

        var text = new StringBuilder();
        using (var writer = XmlWriter.Create(text, new XmlWriterSettings { OmitXmlDeclaration = true, ConformanceLevel = ConformanceLevel.Fragment, NewLineChars = "\n" }))
        {
            writer.WriteStartElement("svg", "http://www.w3.org/2000/svg");
            writer.WriteAttributeString("class", look);
            writer.WriteAttributeString("viewBox", $"0 0 {Number(drawing.Width)} {Number(drawing.Height)}");
            writer.WriteAttributeString("width", Number(drawing.Width));
            writer.WriteAttributeString("height", Number(drawing.Height));
            // An image has no parts for a screen reader: a drawing with something to choose is a group.
            writer.WriteAttributeString("role", canvas._hasLinks ? "group" : "img");
            writer.WriteAttributeString("aria-label", Clean($"{drawing.Title}. {drawing.Description}"));
            writer.WriteRaw("\n");
            // A title of the whole would pop up over every part of it in a page; the label says the same there.
            if (standAlone)
            {
                writer.WriteElementString("title", Clean(drawing.Title));
                writer.WriteElementString("desc", Clean(drawing.Description));
                writer.WriteElementString("style", "\n" + StyleSheet.ForFile(canvas._classes));
                writer.WriteRaw("\n");
            }
            writer.WriteRaw(canvas._marks.ToString());
            writer.WriteRaw("\n");
            writer.WriteEndElement();
        }
        return text.Append('\n').ToString();
    }

    private void Path(string look, ReadOnlySpan<Spot> spots, bool closed)
    {
        var path = new StringBuilder();
        foreach (var spot in spots)
            path.Append(path.Length == 0 ? 'M' : 'L').Append(Number(spot.X)).Append(' ').Append(Number(spot.Y));
        if (closed)
            path.Append('Z');
        _writer.WriteStartElement("path");
        Look(look);
        Attribute("d", path.ToString());
        _writer.WriteEndElement();
    }

    private void Look(string look)
    {
        foreach (string name in look.Split(' ', StringSplitOptions.RemoveEmptyEntries))
            _classes.Add(name);
        Attribute("class", look);
    }

    private void Attribute(string name, double value) => Attribute(name, Number(value));

    private void Attribute(string name, string value) => _writer.WriteAttributeString(name, Clean(value));

    // Names come from files: what XML cannot hold becomes the sign for an unreadable letter.
    private static string Clean(string text)
    {
        if (text.All(c => XmlConvert.IsXmlChar(c)))
            return text;
        var clean = new StringBuilder(text.Length);
        for (int i = 0; i < text.Length; i++)
        {
            if (i + 1 < text.Length && XmlConvert.IsXmlSurrogatePair(text[i + 1], text[i]))
                clean.Append(text[i]).Append(text[++i]);
            else
                clean.Append(XmlConvert.IsXmlChar(text[i]) ? text[i] : '\uFFFD');
        }
        return clean.ToString();
    }

    // "-0" would be another text for the same place.
    private static string Number(double value)
    {
        double rounded = Math.Round(value, 2, MidpointRounding.AwayFromZero);
        return (rounded == 0 ? 0 : rounded).ToString("0.##", CultureInfo.InvariantCulture);
    }
}
