using Seamwright.Storage;

namespace Seamwright.Program.Web.Keeping;

/// <summary>Where a passphrase comes from: a file or the environment, never a command line, which everyone on the machine can read.</summary>
internal static class Passphrase
{
    /// <summary>Environment variable with the passphrase itself.</summary>
    public const string Variable = "SEAMWRIGHT_PASSPHRASE";

    /// <summary>Environment variable with a file whose first line is the passphrase.</summary>
    public const string FileVariable = "SEAMWRIGHT_PASSPHRASE_FILE";

    private const int LongestLine = 4096;

    /// <summary>The passphrase of the environment; null where it names none.</summary>
    /// <exception cref="StoreUnusableException">It names a file that cannot be read: what should be sealed must not lie open because of it.</exception>
    public static string? FromEnvironment() =>
        Environment.GetEnvironmentVariable(Variable) is { Length: > 0 } passphrase ? passphrase
        : Environment.GetEnvironmentVariable(FileVariable) is { Length: > 0 } file ? FromFile(file)
        : null;

    /// <summary>First line of a file.</summary>
    /// <exception cref="StoreUnusableException">The file cannot be read, or its first line is empty or no line of text.</exception>
    public static string FromFile(string file)
    {
        try
        {
            using var reader = new StreamReader(file);
            char[] text = new char[LongestLine];
            int length = reader.ReadBlock(text);
            string line = new string(text, 0, length).Split('\n')[0].TrimEnd('\r');
            return line.Length is > 0 and < LongestLine ? line : throw new StoreUnusableException("sealed.empty-file", file);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new StoreUnusableException(e, "sealed.no-file", file, e.Message.TrimEnd('.'));
        }
    }
}
