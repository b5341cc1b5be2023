using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

namespace Seamwright.Storage.Copies.Sealed;

/// <summary>
/// The first bytes of a sealed backup and the key that they and a passphrase make (docs/formats/sealed-backup.md). Key: PBKDF2 with
/// HMAC-SHA-512 (RFC 8018, 5.2); its first half encrypts, its second half proves that header and passphrase belong together.
/// </summary>
internal sealed class SealHeader : IDisposable
{
    /// <summary>Size of the header. [bytes]</summary>
    public const int Size = ProofAt + ProofSize;

    /// <summary>Plain bytes of a chunk, the last one may have fewer. [bytes]</summary>
    public const int ChunkSize = 64 * 1024;

    /// <summary>Size of the mark that authenticates a chunk. [bytes]</summary>
    public const int TagSize = 16;

    /// <summary>Rounds of the key derivation. OWASP Password Storage Cheat Sheet (2023) asks for 210,000 with SHA-512; ours are nearly three times as many.</summary>
    public const int Rounds = 600_000;

    /// <summary>More rounds than this would only keep a machine busy.</summary>
    public const int MostRounds = 20_000_000;

    private const byte Version = 1;
    private const byte Pbkdf2HmacSha512 = 1;
    private const int VersionAt = 16;
    private const int RoundsAt = VersionAt + 2;
    private const int ChunkAt = RoundsAt + 4;
    private const int SaltAt = ChunkAt + 4;
    private const int SaltSize = 16;
    private const int NonceAt = SaltAt + SaltSize;
    private const int NonceSize = 7;
    private const int ProofAt = NonceAt + NonceSize;
    private const int ProofSize = 32;

    private readonly byte[] _bytes;
    private readonly AesGcm _cipher;

    private SealHeader(byte[] bytes, ReadOnlySpan<byte> key)
    {
        _bytes = bytes;
        _cipher = new AesGcm(key, TagSize);
    }

    /// <summary>What every sealed backup begins with.</summary>
    public static ReadOnlySpan<byte> Beginning => "SeamwrightSealed"u8;

    /// <summary>The header as it is written.</summary>
    public ReadOnlySpan<byte> Bytes => _bytes;

    /// <summary>A header with a salt of its own.</summary>
    public static SealHeader Make(string passphrase, int rounds)
    {
        byte[] bytes = new byte[Size];
        Beginning.CopyTo(bytes);
        bytes[VersionAt] = Version;
        bytes[VersionAt + 1] = Pbkdf2HmacSha512;
        BinaryPrimitives.WriteInt32BigEndian(bytes.AsSpan(RoundsAt), rounds);
        BinaryPrimitives.WriteInt32BigEndian(bytes.AsSpan(ChunkAt), ChunkSize);
        RandomNumberGenerator.Fill(bytes.AsSpan(SaltAt, SaltSize + NonceSize));
        byte[] keys = Keys(passphrase, bytes.AsSpan(SaltAt, SaltSize), rounds);
        HMACSHA256.HashData(keys.AsSpan(32), bytes.AsSpan(0, ProofAt), bytes.AsSpan(ProofAt));
        return new(bytes, keys.AsSpan(0, 32));
    }

    /// <summary>Reads a header.</summary>
    /// <returns>The header, or what is wrong with it or the passphrase.</returns>
    public static (SealHeader? Header, BackupFault? Fault) Read(byte[] bytes, string passphrase, int leastRounds)
    {
        if (bytes.Length < Size || !bytes.AsSpan().StartsWith(Beginning))
            return (null, BackupFault.Of("sealed.damaged"));
        int rounds = BinaryPrimitives.ReadInt32BigEndian(bytes.AsSpan(RoundsAt));
        bool isKnown = bytes[VersionAt] == Version && bytes[VersionAt + 1] == Pbkdf2HmacSha512
            && rounds >= leastRounds && rounds <= MostRounds && BinaryPrimitives.ReadInt32BigEndian(bytes.AsSpan(ChunkAt)) == ChunkSize;
        if (!isKnown)
            return (null, BackupFault.Of("sealed.other-version"));
        byte[] keys = Keys(passphrase, bytes.AsSpan(SaltAt, SaltSize), rounds);
        Span<byte> proof = stackalloc byte[ProofSize];
        HMACSHA256.HashData(keys.AsSpan(32), bytes.AsSpan(0, ProofAt), proof);
        return CryptographicOperations.FixedTimeEquals(proof, bytes.AsSpan(ProofAt, ProofSize))
            ? (new(bytes, keys.AsSpan(0, 32)), null)
            : (null, BackupFault.Of("sealed.wrong-passphrase"));
    }

    /// <summary>Encrypts a chunk.</summary>
    public void Encrypt(uint number, bool isLast, ReadOnlySpan<byte> plain, Span<byte> target) =>
        _cipher.Encrypt(Nonce(number, isLast), plain, target[..plain.Length], target.Slice(plain.Length, TagSize), _bytes);

    /// <summary>Decrypts a chunk.</summary>
    /// <returns>False where it is not the one that was written at this place.</returns>
    public bool Decrypt(uint number, bool isLast, ReadOnlySpan<byte> chunk, Span<byte> plain)
    {
        try
        {
            int length = chunk.Length - TagSize;
            if (length < 0)
                return false;
            _cipher.Decrypt(Nonce(number, isLast), chunk[..length], chunk[length..], plain[..length], _bytes);
            return true;
        }
        catch (AuthenticationTagMismatchException)
        {
            return false;
        }
    }

    public void Dispose() => _cipher.Dispose();

    // The same letters typed on another machine may be other code points; NFC makes them equal (RFC 8265, 4.2.1).
    private static byte[] Keys(string passphrase, ReadOnlySpan<byte> salt, int rounds) =>
        Rfc2898DeriveBytes.Pbkdf2(Encoding.UTF8.GetBytes(passphrase.Normalize(NormalizationForm.FormC)), salt, rounds, HashAlgorithmName.SHA512, 64);

    // Place and end are part of the nonce: a chunk that was moved, dropped or added to does not decrypt.
    private byte[] Nonce(uint number, bool isLast)
    {
        byte[] nonce = new byte[12];
        _bytes.AsSpan(NonceAt, NonceSize).CopyTo(nonce);
        BinaryPrimitives.WriteUInt32BigEndian(nonce.AsSpan(NonceSize), number);
        nonce[^1] = isLast ? (byte)1 : (byte)0;
        return nonce;
    }
}
