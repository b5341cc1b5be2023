using System.Text.Json;
using Seamwright.Planning.Uncertainty;
using Seamwright.Program.Texts;
using Seamwright.Work;

namespace Seamwright.Program.Printing.Json;

/// <summary>Writes how likely the slot is kept as JSON, version <c>chance/1</c>: shares 0…1, sums rounded to two decimals, intervals of 95 %.</summary>
public static class ChanceJson
{
    /// <summary>Version line of the document.</summary>
    public const string Version = "chance/1";

    private static readonly JsonWriterOptions Options = new()
    {
        Indented = true,
        NewLine = "\n",
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>The document, UTF-8 with a newline at its end.</summary>
    public static byte[] Write(RepairInput input, ChanceAnswer answer, Formatter format)
    {
        using var memory = new MemoryStream();
        using (var json = new Utf8JsonWriter(memory, Options))
        {
            var to = new JsonTo(json, format, input.Shop.Zone);
            json.WriteStartObject();
            json.WriteString("seamwright", Version);
            json.WriteString("repair", input.Repair.Id);
            json.WriteString("input_sha256", input.ContentHash);
            Share(json, "wanted", answer.Wanted);
            if (answer.Chance is { } chance)
                Chance(json, to, chance);
            else
                json.WriteNull("chance");
            json.WriteNumber("looked_at", answer.LookedAt);
            Other(json, to, "robust", answer.Robust);
            Other(json, to, "likeliest", answer.Likeliest);
            json.WriteStartArray("conflicts");
            foreach (var conflict in answer.Conflicts)
                json.WriteStringValue(string.Join("; ", conflict.Facts.Select(fact => fact.Id)));
            json.WriteEndArray();
            json.WriteEndObject();
        }
        memory.WriteByte((byte)'\n');
        return memory.ToArray();
    }

    private static void Chance(Utf8JsonWriter json, JsonTo to, Chance chance)
    {
        json.WriteStartObject("chance");
        json.WriteNumber("samples", chance.Samples);
        json.WriteNumber("seed", chance.Seed);
        to.Moment("slot", chance.Slot);
        to.Moment("ready_as_planned", chance.AsPlanned);
        Interval(json, "by_slot", chance.BySlot);
        Ready(json, to, "ready_half", chance.Half);
        Ready(json, to, "ready_nine_of_ten", chance.NineOfTen);
        Interval(json, "stale_metal", chance.Stale);
        json.WriteStartArray("histogram");
        foreach (var bar in chance.Histogram)
        {
            json.WriteStartObject();
            to.Moment("from", bar.From);
            to.Moment("to", bar.To);
            json.WriteNumber("samples", bar.Count);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteNumber("beyond_histogram", chance.Beyond);
        json.WriteStartArray("causes");
        foreach (var cause in chance.Causes)
        {
            json.WriteStartObject();
            to.Word("kind", cause.Cause.Kind);
            to.Text("step", cause.Cause.Step is { } step ? Files.Words.Word(step) : null);
            to.Text("material", cause.Cause.Material?.Value);
            Share(json, "variance_share", cause.VarianceShare);
            Share(json, "by_slot_without", cause.BySlot);
            Interval(json, "gain", cause.Gain);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("critical");
        foreach (var step in chance.Critical)
        {
            json.WriteStartObject();
            to.Text("step", step.Kind is { } kind ? Files.Words.Word(kind) : "cure");
            to.Places("places", step.Places);
            to.Text("person", step.Person);
            to.Text("material", step.Material?.Value);
            Share(json, "share", step.Share);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Other(Utf8JsonWriter json, JsonTo to, string name, RobustPlan? other)
    {
        if (other is null)
        {
            json.WriteNull(name);
            return;
        }
        json.WriteStartObject(name);
        to.Word("origin", other.Origin);
        to.Sum("cost_shift", other.CostShift);
        Interval(json, "by_slot", other.BySlot);
        Ready(json, to, "ready_nine_of_ten", other.NineOfTen);
        json.WriteStartArray("changed");
        foreach (var (joint, material) in other.Changed)
        {
            json.WriteStartObject();
            json.WriteString("joint", joint.Value);
            to.Text("material", material?.Value);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        new PlanPart(json, to).Write("plan", other.Plan);
        json.WriteEndObject();
    }

    private static void Ready(Utf8JsonWriter json, JsonTo to, string name, ReadyEstimate ready)
    {
        json.WriteStartObject(name);
        to.Moment("value", ready.Value);
        to.Moment("low", ready.Low);
        to.Moment("high", ready.High);
        json.WriteEndObject();
    }

    private static void Interval(Utf8JsonWriter json, string name, Estimate estimate)
    {
        json.WriteStartObject(name);
        Share(json, "value", estimate.Value);
        Share(json, "low", estimate.Low);
        Share(json, "high", estimate.High);
        json.WriteEndObject();
    }

    /// <summary>Five decimals: the sampling error of ten million samples.</summary>
    private static void Share(Utf8JsonWriter json, string name, double share) =>
        json.WriteNumber(name, decimal.Round((decimal)share, 5, MidpointRounding.AwayFromZero));
}
