using Seamwright.Program.Printing;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Printing;

public class GridTests
{
    [Fact]
    public void Text_wraps_at_spaces_and_loses_no_word()
    {
        const string Text = "Take the wrong coat off to metal, then prime it again before the sealer goes on";

        var lines = Letters.Wrap(Text, 21);

        Assert.All(lines, line => Assert.InRange(line.Length, 1, 21));
        Assert.Equal(Text, string.Join(' ', lines));
    }

    [Fact]
    public void A_word_longer_than_the_line_is_broken()
    {
        Assert.Equal(["abcdefghij", "klm no"], Letters.Wrap("abcdefghijklm no", 10));
    }

    [Fact]
    public void Wide_and_combining_letters_count_as_the_terminal_shows_them()
    {
        Assert.Equal(4, Letters.Width("修理"));
        Assert.Equal(1, Letters.Width("e\u0301"));
        Assert.Equal("修", Letters.Head("修理", 3));
    }

    [Fact]
    public void Columns_line_up()
    {
        string[] lines = Sample.Printed(
            page =>
            {
                var grid = new Grid(page, new Column("what"), new Column("price", Right: true));
                grid.Row("pack", "36.00");
                grid.Row("nozzles", "4.40");
                grid.Write();
            },
            Screen.File);

        Assert.Equal([" what     price", " pack     36.00", " nozzles   4.40"], lines);
    }
}
