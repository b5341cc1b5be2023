using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace Seamwright.Program.Web.Api;

/// <summary>What a key looks like: a word by which scanners for forgotten secrets find it, and 256 random bits.</summary>
internal static class KeyText
{
    private const string Word = "seamkey_";
    private const int RandomBytes = 32;
    private const int ShownOfIt = 6;

    /// <summary>Letters of a key.</summary>
    public static int Length { get; } = Word.Length + Base64Url.GetEncodedLength(RandomBytes);

    /// <summary>A new one.</summary>
    public static string New() => Word + Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(RandomBytes));

    /// <summary>Whether it could be one; what cannot is not looked for.</summary>
    public static bool CouldBe(string text) => text.Length == Length && text.StartsWith(Word, StringComparison.Ordinal);

    /// <summary>SHA-256, hexadecimal. Of so many random bits nothing can be guessed, so that a slow hash would protect nothing more.</summary>
    public static string Hash(string text) => Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(text)));

    /// <summary>Its first letters, by which people recognise it.</summary>
    public static string Beginning(string text) => text[..(Word.Length + ShownOfIt)];
}
