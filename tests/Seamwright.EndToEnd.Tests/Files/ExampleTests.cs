using Seamwright.Files;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Files;

public sealed class ExampleTests
{
    public static TheoryData<string> Folders =>
        [.. Directory.GetDirectories(Repository.Examples).Where(folder => File.Exists(Path.Combine(folder, "repair.yaml"))).Select(folder => Path.GetFileName(folder)!)];

    [Theory]
    [MemberData(nameof(Folders))]
    public void Every_example_is_read_without_a_problem(string folder)
    {
        var reading = RepairReader.Read(Path.Combine(Repository.Examples, folder));

        Assert.Empty(reading.Problems.Select(Repository.Shown));
        Assert.True(reading.Input is not null);
    }
}
