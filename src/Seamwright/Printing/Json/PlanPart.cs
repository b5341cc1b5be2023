using System.Text.Json;
using Seamwright.Costs;
using Seamwright.Work;

namespace Seamwright.Program.Printing.Json;

/// <summary>One plan of the document.</summary>
internal sealed class PlanPart(Utf8JsonWriter json, JsonTo to)
{
    public void Write(string name, Plan plan)
    {
        json.WriteStartObject(name);
        json.WriteString("id", plan.Id);
        to.Text("parent_id", plan.ParentId);
        to.Word("aim", plan.Aim);
        json.WriteNumber("seed", plan.Seed);
        json.WriteString("engine_version", plan.EngineVersion);
        json.WriteBoolean("proven_optimal", plan.ProvenOptimal);
        to.Sum("lower_bound", plan.LowerBound);
        to.Moment("ready_for_paint", plan.ReadyForPaint);
        to.Moment("slot", plan.Slot);
        to.Moment("ready_for_delivery", plan.ReadyForDelivery);
        Cost(plan.Cost);
        Holdups(plan);
        new JointsPart(json, to).Write(plan);
        Steps(plan);
        new StockPart(json, to).Write(plan);
        to.Reasons("warnings", plan.Warnings);
        to.Reasons("cautions", plan.Cautions);
        json.WriteEndObject();
    }

    private void Cost(CostBreakdown cost)
    {
        if (!to.TellsMoney)
            return;
        json.WriteStartObject("cost");
        to.Sum("labour", cost.Labour);
        to.Sum("material", cost.Material);
        to.Sum("saved_from_expiry", cost.SavedFromExpiry);
        to.Sum("wasted", cost.Wasted);
        to.Sum("nozzles", cost.Nozzles);
        to.Sum("delivery", cost.Delivery);
        to.Sum("lamp", cost.Lamp);
        to.Sum("booth", cost.Booth);
        to.Sum("bay_time", cost.BayTime);
        to.Sum("lateness", cost.Lateness);
        to.Sum("spent", cost.Spent);
        to.Sum("total", cost.Total);
        json.WriteEndObject();
    }

    private void Holdups(Plan plan)
    {
        json.WriteStartArray("held_up_by");
        foreach (var holdup in plan.HeldUpBy)
        {
            json.WriteStartObject();
            to.Text("place", holdup.Place?.Value);
            to.Moment("from", holdup.From);
            to.Moment("to", holdup.To);
            to.Reason("reason", holdup.Reason);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private void Steps(Plan plan)
    {
        json.WriteStartArray("steps");
        foreach (var step in plan.Steps)
        {
            json.WriteStartObject();
            json.WriteString("id", step.Id);
            to.Word("kind", step.Kind);
            to.Places("places", step.Places);
            to.Text("person", step.Person);
            to.Moment("start", step.Start);
            to.Moment("end", step.End);
            to.Text("material", step.Material?.Value);
            to.Number("amount_ml", step.Amount.Millilitres);
            to.Number("strip_mm", step.StripLength.Millimetres);
            json.WriteNumber("nozzles", step.Nozzles);
            if (step.HeatTo is { } heat)
                to.Number("heat_to_celsius", heat.Celsius);
            else
                json.WriteNull("heat_to_celsius");
            to.Reasons("notes", step.Notes);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }
}
