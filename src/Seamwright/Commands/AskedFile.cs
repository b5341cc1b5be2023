using Seamwright.Program.Texts;

namespace Seamwright.Program.Commands;

/// <summary>Where a document asked for goes: whole into a file, or alone to standard output.</summary>
internal sealed class AskedFile(Terminal terminal, Formatter words, string? file)
{
    /// <summary>Stands for standard output.</summary>
    public const string StandardOutput = "-";

    /// <summary>True where the document takes the place of the page.</summary>
    public bool IsAlone => file == StandardOutput;

    /// <summary>Writes the document where one is asked for.</summary>
    /// <returns>False where it could not be written, which has been told.</returns>
    public bool Write(Func<byte[]> document)
    {
        if (file is null)
            return true;
        if (IsAlone)
        {
            using var output = terminal.RawOutput();
            output.Write(document());
            return true;
        }
        try
        {
            WholeFile.Write(file, document());
            return true;
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            terminal.Error.WriteLine(words.Say("cli.plan.not-written", file, exception.Message));
            return false;
        }
    }
}
