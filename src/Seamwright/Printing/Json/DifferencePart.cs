using System.Text.Json;
using NodaTime;
using Seamwright.Planning.Comparing;

namespace Seamwright.Program.Printing.Json;

/// <summary>What is different in one plan against another.</summary>
internal sealed class DifferencePart(Utf8JsonWriter json, JsonTo to)
{
    public void Write(string name, PlanDifference? difference)
    {
        if (difference is null)
        {
            json.WriteNull(name);
            return;
        }
        json.WriteStartObject(name);
        Minutes("ready_shift_min", difference.ReadyShift);
        Minutes("delivery_shift_min", difference.DeliveryShift);
        to.Sum("cost_shift", difference.CostShift);
        to.Sum("spent_shift", difference.SpentShift);
        to.Sum("slot_moved", difference.SlotMoved);
        to.Moment("slot_before", difference.Before.Slot);
        to.Moment("slot_after", difference.After.Slot);
        json.WriteStartArray("joints");
        foreach (var joint in difference.Joints)
            Joint(joint);
        json.WriteEndArray();
        to.Places("newly_warmed", difference.NewlyWarmed);
        to.Places("no_longer_warmed", difference.NoLongerWarmed);
        json.WriteStartArray("people");
        foreach (var (person, labour) in difference.People)
        {
            json.WriteStartObject();
            json.WriteString("person", person);
            Minutes("labour_shift_min", labour);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private void Joint(JointDifference joint)
    {
        json.WriteStartObject();
        json.WriteString("joint", joint.Joint.Value);
        to.Text("material_before", joint.Before.Material?.Value);
        to.Text("material_after", joint.After.Material?.Value);
        to.Word("preparation_before", joint.Before.Preparation);
        to.Word("preparation_after", joint.After.Preparation);
        to.Moment("applied_from_before", joint.Before.Applied?.Start);
        to.Moment("applied_from_after", joint.After.Applied?.Start);
        to.Moment("ready_before", joint.Before.Ready);
        to.Moment("ready_after", joint.After.Ready);
        json.WriteEndObject();
    }

    private void Minutes(string name, Duration span) => json.WriteNumber(name, (long)Math.Round(span.TotalMinutes));
}
