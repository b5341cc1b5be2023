using System.Text.Json;
using Seamwright.Planning.Suppositions;
using Seamwright.Program.Texts;
using Seamwright.Work;

namespace Seamwright.Program.Printing.Json;

/// <summary>Writes what would follow from what is supposed as JSON, version <c>suppose/1</c> (docs/formats/suppose.schema.json).</summary>
public static class SupposeJson
{
    /// <summary>Version line of the document.</summary>
    public const string Version = "suppose/1";

    /// <summary>The document, UTF-8 with a newline at its end.</summary>
    public static byte[] Write(RepairInput input, WhatIfAnswer answer, Formatter format) => Document.Of(json =>
    {
        var to = new JsonTo(json, format, input.Shop.Zone);
        json.WriteString("seamwright", Version);
        json.WriteString("repair", input.Repair.Id);
        json.WriteString("input_sha256", input.ContentHash);
        to.Text("supposed_sha256", answer.Input?.ContentHash);
        to.Reasons("supposed", [.. answer.Supposed.Select(supposition => supposition.InWords)]);
        new DifferencePart(json, to).Write("difference", answer.Difference);
        Plan(json, to, "present", answer.Present);
        Plan(json, to, "then", answer.Then);
        json.WriteStartArray("refused");
        foreach (var refusal in answer.Refused)
            Refusal(json, to, refusal);
        json.WriteEndArray();
        Document.Conflicts(json, to, answer.Conflicts);
    });

    private static void Plan(Utf8JsonWriter json, JsonTo to, string name, Plan? plan)
    {
        if (plan is null)
            json.WriteNull(name);
        else
            new PlanPart(json, to).Write(name, plan);
    }

    private static void Refusal(Utf8JsonWriter json, JsonTo to, SupposedRefusal refusal)
    {
        json.WriteStartObject();
        json.WriteString("joint", refusal.Joint.Value);
        json.WriteString("material", refusal.Material.Value);
        json.WriteStartArray("against");
        foreach (var verdict in refusal.Against)
        {
            json.WriteStartObject();
            to.Word("kind", verdict.Kind);
            json.WriteString("rule", verdict.RuleId);
            to.Reason("reason", verdict.Reason);
            json.WriteString("source", verdict.Source);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }
}
