using System.Security.Cryptography;
using System.Text;

namespace Seamwright.Program.Web.Access;

/// <summary>
/// Stands on the console while nobody has an account, so that only who can read the console becomes the owner. Made anew at each start.
/// </summary>
internal sealed class SetupCode
{
    // Letters and figures that cannot be taken for each other; 12 of 32 are 60 bits.
    private const string Letters = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ";
    private const int Length = 12;
    private const int Group = 4;

    /// <summary>After so many wrong ones the program must be started again.</summary>
    private const int MostGuesses = 20;

    private readonly string _code = RandomNumberGenerator.GetString(Letters, Length);
    private int _wrong;

    /// <summary>In groups, to be read aloud.</summary>
    public string Shown => string.Join('-', _code.Chunk(Group).Select(part => new string(part)));

    /// <summary>Whether this is it; capitals, blanks and hyphens do not matter.</summary>
    public bool Is(string? typed)
    {
        if (Volatile.Read(ref _wrong) >= MostGuesses)
            return false;
        string plain = new([.. (typed ?? "").ToUpperInvariant().Where(char.IsAsciiLetterOrDigit)]);
        bool right = CryptographicOperations.FixedTimeEquals(Encoding.ASCII.GetBytes(plain), Encoding.ASCII.GetBytes(_code));
        if (!right)
            Interlocked.Increment(ref _wrong);
        return right;
    }
}
