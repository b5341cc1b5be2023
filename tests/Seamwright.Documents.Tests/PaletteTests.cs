using System.Globalization;
using Seamwright.Documents.Drawing;
using Xunit;

namespace Seamwright.Documents.Tests;

/// <summary>Letters and signs can be read by day, in the dark, and without colours.</summary>
public class PaletteTests
{
    [Theory]      // WCAG 2.2, success criterion 1.4.3: at least 4.5 : 1 for text
    [InlineData(Ink.Ink, Ink.Paper)]
    [InlineData(Ink.Ink, Ink.Field)]
    [InlineData(Ink.Faint, Ink.Paper)]
    [InlineData(Ink.Faint, Ink.Field)]
    [InlineData(Ink.Late, Ink.Paper)]
    [InlineData(Ink.Ready, Ink.Paper)]
    [InlineData(Ink.Curing, Ink.Paper)]
    [InlineData(Ink.Paper, Ink.Ink)]
    [InlineData(Ink.Paper, Ink.Work)]
    [InlineData(Ink.Paper, Ink.Colour)]
    public void Letters_reach_the_contrast_that_reading_needs(Ink letters, Ink ground)
    {
        Assert.True(Contrast(Palette.Of(letters).Light, Palette.Of(ground).Light) >= 4.5);
        Assert.True(Contrast(Palette.Of(letters).Dark, Palette.Of(ground).Dark) >= 4.5);
    }

    [Theory]      // WCAG 2.2, success criterion 1.4.11: at least 3 : 1 for signs
    [InlineData(Ink.Seam)]
    [InlineData(Ink.Curing)]
    [InlineData(Ink.Ready)]
    [InlineData(Ink.Late)]
    public void Seams_and_signs_stand_out_from_the_sheet_and_from_the_opening(Ink ink)
    {
        foreach (var ground in new[] { Ink.Paper, Ink.Field })
        {
            Assert.True(Contrast(Palette.Of(ink).Light, Palette.Of(ground).Light) >= 3);
            Assert.True(Contrast(Palette.Of(ink).Dark, Palette.Of(ground).Dark) >= 3);
        }
    }

    [Fact]      // the formula's own end points: black on white is 21 : 1
    public void The_contrast_is_measured_as_the_guidelines_define_it()
    {
        Assert.Equal(21, Contrast("#000000", "#ffffff"), 6);
        Assert.Equal(1, Contrast("#123456", "#123456"), 6);
    }

    private static double Contrast(string a, string b)
    {
        double light = Math.Max(Luminance(a), Luminance(b));
        double dark = Math.Min(Luminance(a), Luminance(b));
        return (light + 0.05) / (dark + 0.05);
    }

    private static double Luminance(string shade)
    {
        double[] parts = [.. Enumerable.Range(0, 3).Select(i => int.Parse(shade.AsSpan(1 + 2 * i, 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture) / 255.0)
            .Select(c => c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4))];
        return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2];
    }
}
