using System.Globalization;
using System.Text;
using Xunit;

namespace Seamwright.Published;

/// <summary>A table of published or separately computed values: text beside the tests, with a source in every row.</summary>
public static class PublishedTable
{
    /// <summary>Root of the checkout.</summary>
    public static string Root { get; } = FindRoot();

    /// <summary>Rows of a table, by column name.</summary>
    public static IReadOnlyList<PublishedRow> Rows(string file)
    {
        string[] lines = File.ReadAllLines(Path.Combine(Root, "tests", "Seamwright.Core.Tests", "Published", file));
        var header = Fields(lines[0]);
        return [.. lines.Skip(1).Where(line => line.Length > 0).Select(line => new PublishedRow(header, Fields(line)))];
    }

    /// <summary>One test case a row.</summary>
    public static IEnumerable<TheoryDataRow<PublishedRow>> Cases(string file) =>
        Rows(file).Select(row => new TheoryDataRow<PublishedRow>(row));

    private static List<string> Fields(string line)
    {
        var fields = new List<string>();
        var field = new StringBuilder();
        bool quoted = false;
        foreach (char c in line)
        {
            if (c == '"')
                quoted = !quoted;
            else if (c == ',' && !quoted)
            {
                fields.Add(field.ToString());
                field.Clear();
            }
            else
                field.Append(c);
        }

        fields.Add(field.ToString());
        return fields;
    }

    private static string FindRoot()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Seamwright.slnx")))
                return folder.FullName;
        }

        throw new DirectoryNotFoundException("The tests run from a folder inside the checkout.");
    }
}

/// <summary>One row of a published table.</summary>
public sealed class PublishedRow(IReadOnlyList<string> header, IReadOnlyList<string> fields)
{
    /// <summary>Text in a column.</summary>
    public string this[string column]
    {
        get
        {
            int index = header.ToList().IndexOf(column);
            return index >= 0 ? fields[index] : throw new KeyNotFoundException(column);
        }
    }

    /// <summary>Number in a column.</summary>
    public double Number(string column) => double.Parse(this[column], CultureInfo.InvariantCulture);

    /// <inheritdoc/>
    public override string ToString() => string.Join(' ', fields.Take(fields.Count - 1));
}
