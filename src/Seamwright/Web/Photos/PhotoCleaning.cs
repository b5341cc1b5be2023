using SkiaSharp;

namespace Seamwright.Program.Web.Photos;

/// <summary>Why a photo is not taken.</summary>
internal enum PhotoFault
{
    /// <summary>Nothing was sent.</summary>
    Empty,

    /// <summary>Too many bytes.</summary>
    TooLarge,

    /// <summary>No JPEG, PNG or WebP, whatever it is called.</summary>
    NoPicture,

    /// <summary>Too many pixels to be unpacked.</summary>
    TooManyPixels,

    /// <summary>It ends too soon or is damaged.</summary>
    CutOff,
}

/// <summary>A photo made clean, or why it was not.</summary>
/// <param name="Jpeg">A JPEG of our own making; null = not taken.</param>
/// <param name="Fault">Why not; null = taken.</param>
internal sealed record CleanedPhoto(byte[]? Jpeg, PhotoFault? Fault);

/// <summary>
/// Makes of a picture that somebody sent one of our own: it is unpacked to its pixels, turned upright, made no larger than a record needs, and packed
/// anew. Whatever else was in the file — place, camera, texts, other files behind the picture — is not carried over, because nothing but pixels is
/// (OWASP ASVS 5.0.0, 5.2.2, 5.2.6, 14.2.8).
/// </summary>
internal static class PhotoCleaning
{
    /// <summary>Largest file. [bytes]</summary>
    public const int MostBytes = 8 * 1024 * 1024;

    /// <summary>Most pixels that a file may declare.</summary>
    public const long MostPixels = 50_000_000;

    /// <summary>Most pixels unpacked at once: 96 MB. What cannot be read smaller than it is (PNG) must lie below.</summary>
    public const long MostUnpacked = 24_000_000;

    /// <summary>Longest side kept: shows 0.2 mm on a seam of half a metre. [pixels]</summary>
    public const int LongestSide = 2560;

    private const int Quality = 88;

    /// <summary>Cleans a photo.</summary>
    /// <param name="sent">As it was sent.</param>
    public static CleanedPhoto Clean(ReadOnlySpan<byte> sent)
    {
        if (sent.IsEmpty)
            return new(null, PhotoFault.Empty);
        if (sent.Length > MostBytes)
            return new(null, PhotoFault.TooLarge);
        // Asked before anything is unpacked: the library would also read kinds that nobody needs here.
        if (Storage.Actions.KeepingPhotos.TypeOf(sent) is null)
            return new(null, PhotoFault.NoPicture);
        return Made(sent, LongestSide);
    }

    /// <summary>A small picture of a kept photo, for lists.</summary>
    /// <param name="kept">The photo.</param>
    /// <param name="longestSide">Its longest side. [pixels]</param>
    public static byte[]? Small(ReadOnlySpan<byte> kept, int longestSide) => Made(kept, longestSide).Jpeg;

    private static CleanedPhoto Made(ReadOnlySpan<byte> sent, int longestSide)
    {
        using var stream = new SKMemoryStream(sent.ToArray());
        using var codec = SKCodec.Create(stream, out _);
        if (codec is null || codec.EncodedFormat is not (SKEncodedImageFormat.Jpeg or SKEncodedImageFormat.Png or SKEncodedImageFormat.Webp))
            return new(null, PhotoFault.NoPicture);
        var full = codec.Info;
        if (full.Width <= 0 || full.Height <= 0)
            return new(null, PhotoFault.NoPicture);
        if ((long)full.Width * full.Height > MostPixels)
            return new(null, PhotoFault.TooManyPixels);

        float scale = (float)longestSide / Math.Max(full.Width, full.Height);
        var size = scale < 1 ? codec.GetScaledDimensions(scale) : full.Size;
        if ((long)size.Width * size.Height > MostUnpacked)
            return new(null, PhotoFault.TooManyPixels);
        using var pixels = new SKBitmap(new SKImageInfo(size.Width, size.Height, SKImageInfo.PlatformColorType, SKAlphaType.Premul, SKColorSpace.CreateSrgb()));
        if (codec.GetPixels(pixels.Info, pixels.GetPixels()) != SKCodecResult.Success)
            return new(null, PhotoFault.CutOff);

        // Shared from here on instead of copied: a copy would be as large again.
        pixels.SetImmutable();
        using var image = SKImage.FromBitmap(pixels);
        var (turned, width, height) = Upright(codec.EncodedOrigin, size);
        float fit = Math.Min(1, (float)longestSide / Math.Max(width, height));
        if (turned.IsIdentity && fit == 1 && full.IsOpaque)
            return Packed(image);
        using var surface = SKSurface.Create(new SKImageInfo(Whole(width * fit), Whole(height * fit), SKImageInfo.PlatformColorType, SKAlphaType.Opaque, SKColorSpace.CreateSrgb()));
        surface.Canvas.Clear(SKColors.White);
        surface.Canvas.Scale(fit);
        surface.Canvas.Concat(in turned);
        surface.Canvas.DrawImage(image, 0, 0, fit == 1 ? new SKSamplingOptions(SKFilterMode.Nearest) : new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        using var upright = surface.Snapshot();
        return Packed(upright);
    }

    private static CleanedPhoto Packed(SKImage image)
    {
        using var packed = image.Encode(SKEncodedImageFormat.Jpeg, Quality);
        return new(packed.ToArray(), null);
    }

    private static int Whole(float side) => Math.Max(1, (int)MathF.Round(side));

    // The eight ways in which a camera can lie in the hand (Exif 2.32, tag 0x0112): where each point of the file goes.
    private static (SKMatrix Turned, int Width, int Height) Upright(SKEncodedOrigin origin, SKSizeI size)
    {
        var (w, h) = (size.Width, size.Height);
        return origin switch
        {
            SKEncodedOrigin.TopRight => (new(-1, 0, w, 0, 1, 0, 0, 0, 1), w, h),
            SKEncodedOrigin.BottomRight => (new(-1, 0, w, 0, -1, h, 0, 0, 1), w, h),
            SKEncodedOrigin.BottomLeft => (new(1, 0, 0, 0, -1, h, 0, 0, 1), w, h),
            SKEncodedOrigin.LeftTop => (new(0, 1, 0, 1, 0, 0, 0, 0, 1), h, w),
            SKEncodedOrigin.RightTop => (new(0, -1, h, 1, 0, 0, 0, 0, 1), h, w),
            SKEncodedOrigin.RightBottom => (new(0, -1, h, -1, 0, w, 0, 0, 1), h, w),
            SKEncodedOrigin.LeftBottom => (new(0, 1, 0, -1, 0, w, 0, 0, 1), h, w),
            _ => (SKMatrix.Identity, w, h),
        };
    }
}
