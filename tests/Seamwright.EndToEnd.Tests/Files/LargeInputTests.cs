using System.Text;
using Seamwright.Files;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Files;

/// <summary>Files just below the size limit, made to cost as much as they can. Each must be told or read in seconds.</summary>
public sealed class LargeInputTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);      // far above what it takes on a busy machine, far below "hangs"

    public static TheoryData<string> Shapes => ["flow list", "flow maps", "names without end", "one long line", "hints", "json"];

    [Theory]
    [MemberData(nameof(Shapes))]
    public async Task A_file_just_below_the_limit_takes_seconds(string shape)
    {
        using var folder = new Folder();
        string name = shape == "json" ? "repair.json" : "repair.yaml";
        File.Delete(folder.At("repair.yaml"));
        folder.Write(name, Text(shape));

        var reading = await Task.Run(() => RepairReader.Read(folder.At(name)), TestContext.Current.CancellationToken).WaitAsync(Patience, TestContext.Current.CancellationToken);

        Assert.True(reading.Input is null);
        Assert.InRange(reading.Problems.Length, 1, 150);
    }

    [Fact]
    public void A_stock_of_millions_is_refused_before_it_fills_the_memory()
    {
        using var folder = new Folder();
        var packs = new StringBuilder("seamwright: stock/1\npacks:\n");
        for (int i = 0; i < 20_000; i++)
            packs.Append("  - {id: p").Append(i).Append(", material: E2S, count: 1000}\n");
        folder.Write("stock.yaml", packs.ToString());

        Assert.Equal(["stock.too-many"], folder.Read().Problems.Select(problem => problem.Key));
    }

    private static string Text(string shape)
    {
        const int Size = 1_900_000;
        var text = new StringBuilder(shape == "json" ? "" : Folder.Repair + "\n");
        switch (shape)
        {
            case "flow list":
                text.Append("sign_offs: [");
                Fill(text, Size, i => "1,");
                return text.Append("1]").ToString();
            case "flow maps":
                text.Append("sign_offs: [");
                Fill(text, Size, i => "{a: [{b: {}}]},");
                return text.Append("{}]").ToString();
            case "names without end":
                text.Replace("joints:", "joints:\n" + Joints(Size / 2)).Append("  - {id: O2, time: 5 min, after: [");
                Fill(text, Size, i => $"N{i},");
                return text.Append("B1]}\n").ToString();
            case "one long line":
                return text.Append("note: ").Append('x', Size).ToString();
            case "hints":
                Fill(text, Size, i => $"positoin_of_the_long_seam_{i}: 1\n");
                return text.ToString();
            default:
                text.Append("{\"seamwright\":\"repair/1\",\"slots\":[");
                Fill(text, Size, i => "\"µ°\",");
                return text.Append("1]}").ToString();
        }
    }

    private static string Joints(int size)
    {
        var joints = new StringBuilder();
        Fill(joints, size, i => $"  - {{id: L{i}, type: lap, look: none}}\n");
        return joints.ToString();
    }

    private static void Fill(StringBuilder text, int size, Func<int, string> part)
    {
        for (int i = 0; text.Length < size; i++)
            text.Append(part(i));
    }
}
