namespace Seamwright.Storage.Copies;

/// <summary>Files that hold everything about customers and people: on Unix only their owner may read them, wherever they are written.</summary>
internal static class PrivateFile
{
    /// <summary>Begins a file; one that is there is replaced.</summary>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It cannot be written.</exception>
    public static FileStream Begin(string path)
    {
        var options = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write, Share = FileShare.None, BufferSize = 64 * 1024, Options = FileOptions.Asynchronous };
        if (!OperatingSystem.IsWindows())
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        return new(path, options);
    }
}
