namespace Seamwright.Program.Commands;

/// <summary>Writes a file whole or not at all: whoever reads it meanwhile sees the old one or the new one.</summary>
internal static class WholeFile
{
    public static void Write(string path, ReadOnlySpan<byte> content)
    {
        string full = Path.GetFullPath(path);
        string beside = $"{full}.{Environment.ProcessId.ToString(System.Globalization.CultureInfo.InvariantCulture)}.part";
        try
        {
            using (var file = new FileStream(beside, FileMode.Create, FileAccess.Write, FileShare.None))
            {
                file.Write(content);
                file.Flush(flushToDisk: true);
            }
            File.Move(beside, full, overwrite: true);
        }
        finally
        {
            File.Delete(beside);
        }
    }
}
