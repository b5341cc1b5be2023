using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using SkiaSharp;

namespace Seamwright.Web.Tests.Given;

/// <summary>Invented pictures, good ones and others; what is added to them is written byte by byte from the standards.</summary>
internal static class Picture
{
    /// <summary>Four quarters: top left red, top right blue, below white and grey.</summary>
    public static byte[] Jpeg(int width, int height) => Packed(width, height, SKEncodedImageFormat.Jpeg);

    public static byte[] Packed(int width, int height, SKEncodedImageFormat format)
    {
        using var surface = SKSurface.Create(new SKImageInfo(width, height));
        surface.Canvas.Clear(SKColors.White);
        Quarter(surface, SKRect.Create(0, 0, width / 2f, height / 2f), SKColors.Red);
        Quarter(surface, SKRect.Create(width / 2f, 0, width / 2f, height / 2f), SKColors.Blue);
        Quarter(surface, SKRect.Create(width / 2f, height / 2f, width / 2f, height / 2f), SKColors.Gray);
        using var image = surface.Snapshot();
        using var packed = image.Encode(format, 95);
        return packed.ToArray();
    }

    /// <summary>A JPEG with the block of a camera in front: how it was held, and where (Exif 2.32, 4.5.4 and 4.6.6: APP1, little endian, tags 0x0112 and 0x8825).</summary>
    public static byte[] FromCamera(byte[] jpeg, int orientation, bool hasPlace = true)
    {
        var tiff = new MemoryStream();
        using var block = new BinaryWriter(tiff, Encoding.ASCII, leaveOpen: true);
        block.Write("II"u8);
        block.Write((ushort)42);
        block.Write(8u);                                // the first directory follows
        block.Write((ushort)(hasPlace ? 3 : 2));
        Entry(block, 0x010F, 2, 8, 100);                // maker of the camera
        Entry(block, 0x0112, 3, 1, (uint)orientation);
        if (hasPlace)
            Entry(block, 0x8825, 4, 1, 120);            // directory of the place
        block.Write(0u);
        Pad(block, 100);
        block.Write("INVENTD\0"u8);
        Pad(block, 120);
        block.Write((ushort)4);
        Entry(block, 0x0001, 2, 2, 'N');
        Entry(block, 0x0002, 5, 3, 200);                // degrees, minutes, seconds
        Entry(block, 0x0003, 2, 2, 'E');
        Entry(block, 0x0004, 5, 3, 224);
        block.Write(0u);
        Pad(block, 200);
        foreach (uint part in (uint[])[12, 34, 56, 65, 43, 21])
        {
            block.Write(part);
            block.Write(1u);
        }
        byte[] exif = [.. "Exif\0\0"u8, .. tiff.ToArray()];
        byte[] length = new byte[2];
        BinaryPrimitives.WriteUInt16BigEndian(length, (ushort)(exif.Length + 2));
        return [0xFF, 0xD8, 0xFF, 0xE1, .. length, .. exif, .. jpeg.AsSpan(2)];
    }

    /// <summary>A PNG of a few bytes that says it is of this size (PNG, third edition, 11.2).</summary>
    public static byte[] PngOfSize(int width, int height)
    {
        byte[] head = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(head, width);
        BinaryPrimitives.WriteInt32BigEndian(head.AsSpan(4), height);
        (head[8], head[9]) = (8, 2);
        var packed = new MemoryStream();
        using (var zip = new ZLibStream(packed, CompressionLevel.Optimal, leaveOpen: true))
            zip.Write(new byte[100_000]);
        return [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A, .. Chunk("IHDR", head), .. Chunk("IDAT", packed.ToArray()), .. Chunk("IEND", [])];
    }

    /// <summary>A JPEG whose frame says that it is of this size (ITU-T T.81, B.2.2).</summary>
    public static byte[] JpegOfSize(ushort width, ushort height)
    {
        byte[] jpeg = Jpeg(16, 16);
        int at = 2;
        while (jpeg[at + 1] is not (0xC0 or 0xC2))
            at += 2 + BinaryPrimitives.ReadUInt16BigEndian(jpeg.AsSpan(at + 2));
        BinaryPrimitives.WriteUInt16BigEndian(jpeg.AsSpan(at + 5), height);
        BinaryPrimitives.WriteUInt16BigEndian(jpeg.AsSpan(at + 7), width);
        return jpeg;
    }

    /// <summary>Markers of the segments of a JPEG before its pixels (ITU-T T.81, B.1.1).</summary>
    public static List<byte> Segments(byte[] jpeg)
    {
        var markers = new List<byte>();
        for (int at = 2; jpeg[at + 1] != 0xDA; at += 2 + BinaryPrimitives.ReadUInt16BigEndian(jpeg.AsSpan(at + 2)))
            markers.Add(jpeg[at + 1]);
        return markers;
    }

    private static void Quarter(SKSurface surface, SKRect rect, SKColor colour)
    {
        using var paint = new SKPaint { Color = colour };
        surface.Canvas.DrawRect(rect, paint);
    }

    private static void Entry(BinaryWriter block, ushort tag, ushort type, uint count, uint value)
    {
        block.Write(tag);
        block.Write(type);
        block.Write(count);
        block.Write(value);
    }

    private static void Pad(BinaryWriter block, int until) => block.Write(new byte[until - (int)block.BaseStream.Position]);

    private static byte[] Chunk(string name, byte[] data)
    {
        byte[] length = new byte[4];
        byte[] check = new byte[4];
        byte[] body = [.. Encoding.ASCII.GetBytes(name), .. data];
        BinaryPrimitives.WriteInt32BigEndian(length, data.Length);
        BinaryPrimitives.WriteUInt32BigEndian(check, Crc(body));
        return [.. length, .. body, .. check];
    }

    // PNG, third edition, annex D.
    private static uint Crc(byte[] body)
    {
        uint crc = uint.MaxValue;
        foreach (byte one in body)
        {
            crc ^= one;
            for (int bit = 0; bit < 8; bit++)
                crc = (crc & 1) == 1 ? (crc >> 1) ^ 0xEDB88320 : crc >> 1;
        }
        return ~crc;
    }
}
