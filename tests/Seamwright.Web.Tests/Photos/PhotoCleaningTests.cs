using System.Text;
using Seamwright.Program.Web.Photos;
using Seamwright.Web.Tests.Given;
using SkiaSharp;
using Xunit;

namespace Seamwright.Web.Tests.Photos;

/// <summary>What is taken as a photo, and what of it is kept (OWASP ASVS 5.0.0, 5.2.2, 5.2.6, 14.2.8).</summary>
public class PhotoCleaningTests
{
    public static TheoryData<string, byte[]> NoPictures => new()
    {
        { "a Windows program", [.. "MZ\u0090\0\u0003"u8, .. new byte[500]] },
        { "a Linux program", [0x7F, .. "ELF"u8, 2, 1, 1, .. new byte[500]] },
        { "an SVG with a script", Encoding.UTF8.GetBytes("<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>") },
        { "a page", Encoding.UTF8.GetBytes("<!doctype html><script>alert(1)</script>") },
        { "a GIF", [.. "GIF89a"u8, 1, 0, 1, 0, 0, 0, 0, 0x2C, 0, 0, 0, 0, 1, 0, 1, 0, 0, 2, 2, 0x44, 1, 0, 0x3B] },
        { "a ZIP", [.. "PK\u0003\u0004"u8, .. new byte[100]] },
        { "the beginning of a JPEG and then a script", [0xFF, 0xD8, 0xFF, .. "<script>alert(1)</script>"u8] },
        { "the beginning of a PNG alone", [0x89, .. "PNG\r\n\u001A\n"u8] },
        { "the beginning of a WebP alone", [.. "RIFF\u0004\0\0\0WEBP"u8] },
    };

    [Theory]
    [MemberData(nameof(NoPictures))]
    public void What_is_no_picture_is_refused_by_its_content(string what, byte[] bytes)
    {
        var cleaned = PhotoCleaning.Clean(bytes);

        Assert.Null(cleaned.Jpeg);
        Assert.True(cleaned.Fault is PhotoFault.NoPicture or PhotoFault.CutOff, $"{what}: {cleaned.Fault}");
    }

    [Theory]
    [InlineData(SKEncodedImageFormat.Jpeg)]
    [InlineData(SKEncodedImageFormat.Png)]
    [InlineData(SKEncodedImageFormat.Webp)]
    public void Each_kind_of_picture_becomes_a_jpeg_of_the_same_content(SKEncodedImageFormat format)
    {
        var cleaned = PhotoCleaning.Clean(Picture.Packed(200, 100, format));

        Assert.Null(cleaned.Fault);
        AssertColours(cleaned.Jpeg!, 200, 100, (0.25, 0.25, SKColors.Red), (0.75, 0.25, SKColors.Blue), (0.25, 0.75, SKColors.White), (0.75, 0.75, SKColors.Gray));
    }

    [Fact]
    public void Place_and_camera_are_not_carried_over()
    {
        byte[] sent = Picture.FromCamera(Picture.Jpeg(200, 100), orientation: 1);
        Assert.Contains((byte)0xE1, Picture.Segments(sent));
        Assert.Contains("INVENTD", Encoding.Latin1.GetString(sent), StringComparison.Ordinal);

        byte[] kept = PhotoCleaning.Clean(sent).Jpeg!;

        // APP1 holds Exif and XMP, APP13 texts, COM remarks.
        Assert.DoesNotContain(Picture.Segments(kept), marker => marker is 0xE1 or 0xED or 0xFE);
        Assert.DoesNotContain("Exif", Encoding.Latin1.GetString(kept), StringComparison.Ordinal);
        Assert.DoesNotContain("INVENTD", Encoding.Latin1.GetString(kept), StringComparison.Ordinal);
    }

    [Fact]
    public void What_hangs_behind_a_picture_is_not_carried_over()
    {
        byte[] sent = [.. Picture.Jpeg(64, 64), .. "<script>alert(1)</script>PK\u0003\u0004"u8];

        byte[] kept = PhotoCleaning.Clean(sent).Jpeg!;

        Assert.DoesNotContain("<script", Encoding.Latin1.GetString(kept), StringComparison.Ordinal);
        Assert.Equal([0xFF, 0xD9], kept[^2..]);
    }

    /// <summary>
    /// The first row of the file is at the side of the picture named first, its first column at the one named second (Exif 2.32, tag 0x0112): 1 top left, 2 top right, 3 bottom right,
    /// 4 bottom left, 5 left top, 6 right top, 7 right bottom, 8 left bottom. Red is the beginning of the first row, blue its end.
    /// </summary>
    [Theory]
    [InlineData(1, "top left", "top right")]
    [InlineData(2, "top right", "top left")]
    [InlineData(3, "bottom right", "bottom left")]
    [InlineData(4, "bottom left", "bottom right")]
    [InlineData(5, "top left", "bottom left")]
    [InlineData(6, "top right", "bottom right")]
    [InlineData(7, "bottom right", "top right")]
    [InlineData(8, "bottom left", "top left")]
    public void However_the_camera_was_held_the_photo_is_upright(int orientation, string red, string blue)
    {
        byte[] sent = Picture.FromCamera(Picture.Jpeg(160, 80), orientation);
        bool isLying = orientation < 5;

        byte[] kept = PhotoCleaning.Clean(sent).Jpeg!;

        AssertColours(kept, isLying ? 160 : 80, isLying ? 80 : 160, At(red, SKColors.Red), At(blue, SKColors.Blue));
    }

    [Fact]
    public void A_large_photo_is_made_as_small_as_a_record_needs()
    {
        byte[] kept = PhotoCleaning.Clean(Picture.Jpeg(4000, 3000)).Jpeg!;

        using var shown = SKBitmap.Decode(kept);
        Assert.InRange(Math.Max(shown.Width, shown.Height), PhotoCleaning.LongestSide * 3 / 4, PhotoCleaning.LongestSide);
        Assert.Equal(4.0 / 3, (double)shown.Width / shown.Height, 0.01);
    }

    public static TheoryData<string, byte[]> TooMany => new()
    {
        { "a PNG of 30,000 × 30,000", Picture.PngOfSize(30_000, 30_000) },
        { "a JPEG of 30,000 × 30,000", Picture.JpegOfSize(30_000, 30_000) },
        { "a PNG that would have to be unpacked whole", Picture.PngOfSize(6_000, 5_000) },
        { "a PNG without end", Picture.PngOfSize(int.MaxValue, 1) },
    };

    [Theory]
    [MemberData(nameof(TooMany))]
    public void Too_many_pixels_are_refused_before_they_are_unpacked(string what, byte[] bytes)
    {
        Assert.InRange(bytes.Length, 1, 10_000);

        var fault = PhotoCleaning.Clean(bytes).Fault;

        Assert.True(fault is PhotoFault.TooManyPixels or PhotoFault.NoPicture, $"{what}: {fault}");
    }

    [Theory]
    [InlineData(SKEncodedImageFormat.Jpeg)]
    [InlineData(SKEncodedImageFormat.Png)]
    [InlineData(SKEncodedImageFormat.Webp)]
    public void A_photo_that_was_cut_off_on_its_way_is_refused(SKEncodedImageFormat format)
    {
        byte[] whole = Picture.Packed(300, 200, format);

        foreach (int share in (int[])[5, 30, 60, 95])
        {
            var cleaned = PhotoCleaning.Clean(whole.AsSpan(0, whole.Length * share / 100));
            Assert.True(cleaned.Fault is PhotoFault.CutOff or PhotoFault.NoPicture, $"{share} % of it: {cleaned.Fault}");
        }
    }

    [Fact]
    public void Random_damage_is_refused_or_shown_and_never_a_fault_of_the_program()
    {
        var random = new Random(20270301);
        foreach (var format in (SKEncodedImageFormat[])[SKEncodedImageFormat.Jpeg, SKEncodedImageFormat.Png, SKEncodedImageFormat.Webp])
        {
            byte[] whole = Picture.Packed(60, 40, format);
            for (int i = 0; i < 200; i++)
            {
                byte[] damaged = [.. whole];
                for (int hit = 0; hit < 3; hit++)
                    damaged[random.Next(damaged.Length)] = (byte)random.Next(256);
                var cleaned = PhotoCleaning.Clean(damaged);
                Assert.True(cleaned.Fault is not null ^ cleaned.Jpeg is not null);
            }
        }
    }

    [Fact]
    public void More_bytes_than_are_taken_are_refused_unread() => Assert.Equal(PhotoFault.TooLarge, PhotoCleaning.Clean(new byte[PhotoCleaning.MostBytes + 1]).Fault);

    private static (double X, double Y, SKColor Colour) At(string corner, SKColor colour) =>
        (corner.EndsWith("left", StringComparison.Ordinal) ? 0.25 : 0.75, corner.StartsWith("top", StringComparison.Ordinal) ? 0.25 : 0.75, colour);

    // Packing changes colours a little; no two of the four are as near as this.
    private static void AssertColours(byte[] jpeg, int width, int height, params (double X, double Y, SKColor Colour)[] expected)
    {
        using var shown = SKBitmap.Decode(jpeg);
        Assert.Equal((width, height), (shown.Width, shown.Height));
        foreach (var (x, y, colour) in expected)
        {
            var there = shown.GetPixel((int)(x * width), (int)(y * height));
            Assert.True(Math.Abs(there.Red - colour.Red) + Math.Abs(there.Green - colour.Green) + Math.Abs(there.Blue - colour.Blue) < 40, $"{there} in place of {colour} at {x}, {y}");
        }
    }
}
