using Seamwright.Planning.Tradeoffs;
using Seamwright.Program.Texts;
using Seamwright.Work;

namespace Seamwright.Program.Printing.Json;

/// <summary>Writes the trade-off curve as JSON, version <c>curve/1</c> (docs/formats/curve.schema.json).</summary>
public static class CurveJson
{
    /// <summary>Version line of the document.</summary>
    public const string Version = "curve/1";

    /// <summary>The document, UTF-8 with a newline at its end.</summary>
    public static byte[] Write(RepairInput input, TradeoffCurve curve, Formatter format) => Document.Of(json =>
    {
        var to = new JsonTo(json, format, input.Shop.Zone);
        json.WriteString("seamwright", Version);
        json.WriteString("repair", input.Repair.Id);
        json.WriteString("input_sha256", input.ContentHash);
        json.WriteBoolean("exact", curve.IsExact);
        if (curve.RecommendedAt is { } at)
            json.WriteNumber("recommended_at", at);
        else
            json.WriteNull("recommended_at");
        json.WriteStartArray("points");
        foreach (var point in curve.Points)
        {
            json.WriteStartObject();
            to.Moment("ready_for_paint", point.Plan.ReadyForPaint);
            to.Sum("spent", point.Plan.Cost.Spent);
            to.Sum("total", point.Plan.Cost.Total);
            new DifferencePart(json, to).Write("from_before", point.FromBefore);
            new PlanPart(json, to).Write("plan", point.Plan);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        if (curve.Recommended is { } plan)
            new PlanPart(json, to).Write("recommended", plan);
        else
            json.WriteNull("recommended");
        Document.Conflicts(json, to, curve.Conflicts);
    });
}
