using System.Xml.Linq;
using Xunit;

namespace Seamwright.Architecture.Tests;

/// <summary>Arrows between projects point inward.</summary>
public class ProjectTests
{
    [Theory]
    [InlineData("Seamwright.Core")]
    [InlineData("Seamwright.Scheduling")]
    [InlineData("Seamwright.Planning", "Seamwright.Core", "Seamwright.Scheduling")]
    [InlineData("Seamwright.Storage", "Seamwright.Core")]
    [InlineData("Seamwright.Documents", "Seamwright.Core")]
    [InlineData("Seamwright", "Seamwright.Documents", "Seamwright.Planning", "Seamwright.Storage")]
    public void A_project_knows_only_those_drawn(string project, params string[] known)
    {
        var file = XDocument.Load(Path.Combine(Checkout.Root, "src", project, $"{project}.csproj"));

        var references = file.Descendants("ProjectReference").Select(reference => Path.GetFileNameWithoutExtension(reference.Attribute("Include")!.Value.Replace('\\', '/')));

        Assert.Equal(known.Order(), references.Order());
    }

    [Fact]
    public void The_solver_is_known_to_the_scheduling_core_alone()
    {
        var users = Checkout.Sources("src").Where(path => Checkout.Code(path).Contains("Google.OrTools", StringComparison.Ordinal)).Select(Checkout.Shown);

        Assert.All(users, path => Assert.StartsWith("src/Seamwright.Scheduling/", path, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("Microsoft.EntityFrameworkCore")]
    [InlineData("Microsoft.Data.Sqlite")]
    [InlineData("Npgsql")]
    public void Databases_are_known_to_storage_alone(string library)
    {
        var users = Checkout.Sources("src").Where(path => Checkout.Code(path).Contains(library, StringComparison.Ordinal)).Select(Checkout.Shown).ToList();

        Assert.NotEmpty(users);
        Assert.All(users, path => Assert.StartsWith("src/Seamwright.Storage/", path, StringComparison.Ordinal));
    }

    [Fact]
    public void Every_project_belongs_to_the_solution()
    {
        string solution = File.ReadAllText(Path.Combine(Checkout.Root, "Seamwright.slnx"));

        var projects = new[] { "src", "tests" }.SelectMany(folder => Directory.EnumerateFiles(Path.Combine(Checkout.Root, folder), "*.csproj", SearchOption.AllDirectories));

        Assert.All(projects, path => Assert.Contains(Checkout.Shown(path), solution, StringComparison.Ordinal));
    }
}
