using System.Text.Json;
using Seamwright.Work;

namespace Seamwright.Program.Printing.Json;

/// <summary>Decisions of a plan and what other materials would have meant.</summary>
internal sealed class JointsPart(Utf8JsonWriter json, JsonTo to)
{
    public void Write(Plan plan)
    {
        json.WriteStartArray("joints");
        foreach (var joint in plan.Joints)
        {
            json.WriteStartObject();
            json.WriteString("joint", joint.Joint.Value);
            to.Text("material", joint.Material?.Value);
            to.Word("preparation", joint.Preparation);
            to.Number("amount_ml", joint.Amount.Millilitres);
            to.Number("strip_mm", joint.StripLength.Millimetres);
            to.Moment("applied_from", joint.Applied?.Start);
            to.Moment("applied_to", joint.Applied?.End);
            to.Moment("apply_by", joint.ApplyBy);
            to.Moment("ready", joint.Ready);
            to.Moment("paint_by", joint.PaintBy);
            json.WriteBoolean("heated", joint.Heated);
            json.WriteBoolean("extrapolates", joint.Extrapolates);
            to.Reasons("why", joint.Why);
            to.Text("runner_up", joint.RunnerUp?.Value);
            json.WriteStartArray("answers");
            foreach (var answer in joint.Answers)
                Answer(answer);
            json.WriteEndArray();
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private void Answer(MaterialAnswer answer)
    {
        json.WriteStartObject();
        json.WriteString("material", answer.Material.Value);
        to.Word("overall", answer.Overall);
        to.Word("preparation", answer.Preparation);
        json.WriteStartArray("verdicts");
        foreach (var verdict in answer.Verdicts)
        {
            json.WriteStartObject();
            to.Word("kind", verdict.Kind);
            json.WriteString("rule", verdict.RuleId);
            to.Reason("reason", verdict.Reason);
            json.WriteString("source", verdict.Source);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        if (answer.Consequence is { } consequence)
        {
            json.WriteStartObject("consequence");
            to.Moment("ready_for_paint", consequence.Ready);
            to.Number("ready_shift_min", consequence.ReadyShift.TotalMinutes);
            to.Sum("cost_shift", consequence.CostShift);
            to.Moment("slot", consequence.Slot);
            json.WriteBoolean("planned_again", consequence.Resolved);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("consequence");
        }
        json.WriteEndObject();
    }
}
