using System.Text;
using System.Text.Json;
using Json.Schema;
using Seamwright.EndToEnd.Tests.Files;
using Seamwright.Files;
using Seamwright.Planning;
using Seamwright.Program.Commands;
using Seamwright.Program.Printing;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Commands;

/// <summary><c>seamwright plan</c> on a folder of repairs, as a shop calls it.</summary>
public class ShopPlanCommandTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Repository.Formats, "shop-plan.schema.json")));
    private static readonly string BusyWeek = Path.Combine(Repository.Examples, "busy-week");

    [Fact]
    public void The_document_meets_its_published_schema_and_its_sums_agree()
    {
        var run = Run("plan", BusyWeek, "--seconds", "2", "--json", "-");

        Assert.Equal(0, run.Code);
        using var document = JsonDocument.Parse(run.Output);
        var root = document.RootElement;
        var result = Schema.Evaluate(root, new EvaluationOptions { OutputFormat = OutputFormat.List });
        Assert.True(result.IsValid, string.Join('\n', (result.Details ?? []).Where(detail => detail.Errors is not null).SelectMany(detail => detail.Errors!.Select(error => $"{detail.InstanceLocation}: {error.Value}"))));
        var vehicles = root.GetProperty("vehicles").EnumerateArray().ToList();
        Assert.Equal(RepairReader.RepairsBelow(BusyWeek).Length, vehicles.Count);
        decimal sum = vehicles.Sum(vehicle => vehicle.GetProperty("plan").GetProperty("cost").GetProperty("total").GetDecimal());
        decimal total = root.GetProperty("total").GetDecimal();
        // One delivery brings what several vehicles order: what it costs is counted once, so the whole may be less than its parts.
        Assert.InRange(total, root.GetProperty("lower_bound").GetDecimal(), sum + 0.01m * vehicles.Count);
    }

    [Fact]
    public void The_page_and_the_document_are_written_together()
    {
        using var folder = new Folder();
        string file = folder.At("week.json");

        var run = Run("plan", BusyWeek, "--seconds", "1", "--json", file);

        Assert.Equal(0, run.Code);
        Assert.NotEmpty(run.Output);
        using var document = JsonDocument.Parse(File.ReadAllBytes(file));
        Assert.Equal("shop-plan/1", document.RootElement.GetProperty("seamwright").GetString());
    }

    [Fact]
    public void A_shop_file_stands_for_the_repairs_below_that_name_it()
    {
        using var folder = new Folder();
        string shop = folder.At("shop.yaml");
        File.Delete(folder.At("repair.yaml"));
        folder.Write("shop.yaml", File.ReadAllText(Path.Combine(Repository.Examples, "shop.yaml")));
        folder.Write("materials.yaml", File.ReadAllText(Path.Combine(Repository.Examples, "materials.yaml")));
        folder.Write("week/stock.yaml", File.ReadAllText(Path.Combine(BusyWeek, "stock.yaml")));
        foreach (string name in (string[])["roof-end", "floor-patch"])
            folder.Write($"week/{name}/repair.yaml", File.ReadAllText(Path.Combine(BusyWeek, name, "repair.yaml")));
        folder.Write("week/elsewhere/repair.yaml", File.ReadAllText(Path.Combine(BusyWeek, "rear-panel", "repair.yaml")).Replace("shop: ../../shop.yaml", "shop: ../../other-shop.yaml", StringComparison.Ordinal));

        var run = Run("plan", shop, "--seconds", "1", "--json", "-");

        Assert.Equal("", run.Error);
        Assert.Equal(0, run.Code);
        using var document = JsonDocument.Parse(run.Output);
        Assert.Equal(["floor-patch", "roof-end"], document.RootElement.GetProperty("vehicles").EnumerateArray().Select(vehicle => vehicle.GetProperty("repair").GetString()!));
    }

    [Fact]
    public void A_shop_file_that_no_repair_names_says_what_is_missing()
    {
        using var folder = new Folder();
        string shop = folder.At("shop.yaml");
        File.Delete(folder.At("repair.yaml"));

        var run = Run("plan", shop);

        Assert.Equal(2, run.Code);
        Assert.StartsWith($"No repair in a folder beside or below {shop} names this shop", run.Error, StringComparison.Ordinal);
        Assert.Empty(run.Output);
    }

    [Fact]
    public void Explaining_a_joint_asks_for_one_repair()
    {
        var run = Run("plan", BusyWeek, "--explain", "J1");

        Assert.Equal(2, run.Code);
        Assert.Contains("--explain answers for one repair", run.Error, StringComparison.Ordinal);
        Assert.Empty(run.Output);
    }

    private static (int Code, string Output, string Error) Run(params string[] arguments)
    {
        using var output = new StringWriter { NewLine = "\n" };
        using var error = new StringWriter { NewLine = "\n" };
        var raw = new MemoryStream();
        int code = new CommandLine(new Terminal(output, error, Screen.File, () => raw), RepairPlanner.Answer).Run(arguments);
        return (code, output + Encoding.UTF8.GetString(raw.ToArray()), error.ToString());
    }
}
