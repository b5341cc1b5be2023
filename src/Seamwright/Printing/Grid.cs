namespace Seamwright.Program.Printing;

/// <summary>A column of a grid.</summary>
/// <param name="Header">Head, empty = none.</param>
/// <param name="Least">Fewest columns it may be squeezed to; 0 = never squeezed.</param>
/// <param name="Right">Written to the right edge.</param>
public readonly record struct Column(string Header, int Least = 0, bool Right = false);

/// <summary>Rows of cells under each other without lines around them; cells wrap where the page is too narrow.</summary>
public sealed class Grid(Page page, params Column[] columns)
{
    private const int Spacing = 2;

    // Words up to this many columns are not broken by squeezing.
    private const int LongestWordKept = 14;

    private readonly List<Run[]> _rows = [];

    /// <summary>Whether nothing was added.</summary>
    public bool IsEmpty => _rows.Count == 0;

    /// <summary>A row, one run a column.</summary>
    public void Row(params Run[] cells) => _rows.Add([.. cells.Select(cell => cell with { Text = page.Fit(cell.Text) })]);

    /// <summary>A line across all columns under the row before it, indented and wrapped.</summary>
    public void Under(string text, Tone tone = Tone.Faint) => _rows.Add([new Run(page.Fit(text), tone)]);

    /// <summary>Writes it all.</summary>
    /// <param name="indent">Empty columns before the first one.</param>
    public void Write(int indent = 1)
    {
        int[] widths = Widths(page.Width - indent);
        string margin = new(' ', indent);
        if (columns.Any(column => column.Header.Length > 0))
            WriteRow([.. columns.Select(column => new Run(page.Fit(column.Header), Tone.Faint))], widths, margin);
        foreach (var row in _rows)
        {
            // One cell in a grid of several columns is a line across.
            if (row.Length == 1 && columns.Length > 1)
                page.Paragraph(row[0].Text, $"{margin}   {page.Marks.Under}", row[0].Tone, Tone.Faint);
            else
                WriteRow(row, widths, margin);
        }
    }

    private void WriteRow(Run[] cells, int[] widths, string margin)
    {
        var wrapped = new IReadOnlyList<string>[cells.Length];
        int height = 1;
        for (int c = 0; c < cells.Length; c++)
        {
            wrapped[c] = Letters.Wrap(cells[c].Text, widths[c]);
            height = Math.Max(height, wrapped[c].Count);
        }

        var line = new List<Run>(cells.Length * 2 + 1);
        for (int y = 0; y < height; y++)
        {
            line.Clear();
            line.Add(margin);
            for (int c = 0; c < cells.Length; c++)
            {
                string text = y < wrapped[c].Count ? wrapped[c][y] : "";
                string room = new(' ', widths[c] - Letters.Width(text));
                string between = c + 1 < cells.Length ? new string(' ', Spacing) : "";
                line.Add(columns[c].Right ? room : "");
                line.Add(new Run(text, cells[c].Tone));
                line.Add(columns[c].Right ? between : room + between);
            }
            page.Line([.. line]);
        }
    }

    // Natural widths; where they do not fit, the widest column that may be squeezed gives way until they do.
    private int[] Widths(int room)
    {
        int[] widths = new int[columns.Length];
        int[] least = new int[columns.Length];
        for (int c = 0; c < columns.Length; c++)
        {
            widths[c] = Letters.Width(page.Fit(columns[c].Header));
            foreach (var row in _rows)
            {
                if (row.Length == columns.Length)
                {
                    widths[c] = Math.Max(widths[c], Letters.Width(row[c].Text));
                    least[c] = Math.Max(least[c], Math.Min(LongestWordKept, row[c].Text.Split(' ').Max(Letters.Width)));
                }
            }
            widths[c] = Math.Max(widths[c], 1);
        }

        int over = widths.Sum() + Spacing * (columns.Length - 1) - room;
        while (over > 0)
        {
            int widest = -1;
            for (int c = 0; c < columns.Length; c++)
            {
                if (columns[c].Least > 0 && widths[c] > Math.Max(columns[c].Least, least[c]) && (widest < 0 || widths[c] > widths[widest]))
                    widest = c;
            }
            if (widest < 0)
                break;
            widths[widest]--;
            over--;
        }
        return widths;
    }
}
