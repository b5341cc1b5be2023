namespace Seamwright.Storage.Tests;

/// <summary>A data folder for one test.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("seamwright-data-");

    public DataFolder Data => new(Path.Combine(_folder.FullName, "data"));

    public string At(string name) => Path.Combine(_folder.FullName, name);

    public void Dispose() => _folder.Delete(recursive: true);
}
