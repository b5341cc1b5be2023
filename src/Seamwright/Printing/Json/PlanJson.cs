using System.Text.Json;
using Seamwright.Program.Texts;
using Seamwright.Work;

namespace Seamwright.Program.Printing.Json;

/// <summary>Writes the whole answer as JSON, version <c>plan/1</c> (docs/formats/plan.schema.json). Quantities are metric, sums rounded to two decimals.</summary>
public static class PlanJson
{
    /// <summary>Version line of the document.</summary>
    public const string Version = "plan/1";

    /// <summary>The document, UTF-8 with a newline at its end.</summary>
    /// <param name="input">What was planned from.</param>
    /// <param name="answer">The answer.</param>
    /// <param name="format">Texts.</param>
    /// <param name="tellsMoney">False where whoever reads it may see no money: sums, and reasons that speak of them, are left out.</param>
    public static byte[] Write(RepairInput input, PlanAnswer answer, Formatter format, bool tellsMoney = true) => Document.Of(json =>
    {
        var to = new JsonTo(json, format, input.Shop.Zone, tellsMoney);
        json.WriteString("seamwright", Version);
        json.WriteStartObject("repair");
        json.WriteString("id", input.Repair.Id);
        json.WriteString("name", input.Repair.Name);
        to.Moment("now", input.Repair.Now);
        to.Moment("promise", input.Repair.Promise);
        json.WriteEndObject();
        json.WriteStartObject("shop");
        json.WriteString("name", input.Shop.Name);
        json.WriteString("zone", input.Shop.Zone.Id);
        json.WriteString("currency", input.Shop.Currency);
        json.WriteEndObject();
        json.WriteString("input_sha256", input.ContentHash);
        Plan(json, to, "recommended", answer.Recommended);
        Plan(json, to, "cheapest", answer.Cheapest);
        Plan(json, to, "fastest", answer.Fastest);
        Tradeoffs(json, to, answer);
        Document.Conflicts(json, to, answer.Conflicts);
    });

    private static void Plan(Utf8JsonWriter json, JsonTo to, string name, Plan? plan)
    {
        if (plan is null)
            json.WriteNull(name);
        else
            new PlanPart(json, to).Write(name, plan);
    }

    private static void Tradeoffs(Utf8JsonWriter json, JsonTo to, PlanAnswer answer)
    {
        json.WriteStartArray("tradeoffs");
        foreach (var tradeoff in answer.Tradeoffs)
        {
            json.WriteStartObject();
            to.Word("kind", tradeoff.Kind);
            to.Sum("spent", tradeoff.Spent);
            to.Sum("saved", tradeoff.Saved);
            to.Sum("dearer_without", tradeoff.TotalShift);
            to.Moment("slot_without", tradeoff.SlotWithout);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }
}
