using System.Text.Json;
using Json.Schema;
using Seamwright.EndToEnd.Tests.Files;
using Seamwright.Program.Printing.Json;
using Seamwright.Work;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Printing;

public class PlanJsonTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Repository.Formats, "plan.schema.json")));

    [Fact]
    public void A_plan_meets_the_published_schema() => AssertSound(Sample.Answer);

    [Fact]
    public void A_repair_without_a_plan_meets_it_too() => AssertSound(Sample.NoPlan);

    [Fact]
    public void The_schema_refuses_what_it_does_not_know()
    {
        string text = System.Text.Encoding.UTF8.GetString(PlanJson.Write(Sample.Input, Sample.Answer, Sample.Format()));
        using var changed = JsonDocument.Parse(text.Replace("\"amount_ml\"", "\"amount\"", StringComparison.Ordinal));

        Assert.False(Schema.Evaluate(changed.RootElement).IsValid);
    }

    [Fact]
    public void Numbers_carry_their_unit_in_their_name_and_times_their_offset()
    {
        using var document = Written(Sample.Answer);
        var plan = document.RootElement.GetProperty("recommended");

        Assert.Equal("plan/1", document.RootElement.GetProperty("seamwright").GetString());
        Assert.Equal("2027-01-12T17:39:00+01:00", plan.GetProperty("ready_for_paint").GetString());
        Assert.Equal(361.01m, plan.GetProperty("cost").GetProperty("total").GetDecimal());
        Assert.Equal(55.2m, plan.GetProperty("joints")[0].GetProperty("amount_ml").GetDecimal());
        Assert.Equal(45m, plan.GetProperty("steps")[2].GetProperty("heat_to_celsius").GetDecimal());
    }

    [Fact]
    public void Equal_answers_give_equal_bytes() =>
        Assert.Equal(PlanJson.Write(Sample.Input, Sample.Answer, Sample.Format()), PlanJson.Write(Sample.Input, Sample.Answer, Sample.Format()));

    private static void AssertSound(PlanAnswer answer)
    {
        using var document = Written(answer);
        var result = Schema.Evaluate(document.RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List });
        Assert.True(result.IsValid, string.Join('\n', (result.Details ?? []).Where(detail => detail.Errors is not null).SelectMany(detail => detail.Errors!.Select(error => $"{detail.InstanceLocation}: {error.Value}"))));
    }

    private static JsonDocument Written(PlanAnswer answer) => JsonDocument.Parse(PlanJson.Write(Sample.Input, answer, Sample.Format()));
}
