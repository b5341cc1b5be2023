using Seamwright.Repairs;
using Seamwright.Units;

namespace Seamwright.Documents.SeamMap;

/// <summary>What a place of the map says in words.</summary>
internal sealed class MapTitles(IWords words)
{
    public string Of(Joint joint, SeamState state)
    {
        var parts = new List<string> { words.Word(joint.Type) };
        if (joint.Length > Length.Zero)
            parts.Add(joint.Count > 1 ? words.Say("draw.map.runs", joint.Count, joint.Length) : words.Word(joint.Length));
        else if (!joint.IsBare)
            parts.Add(words.Say("draw.map.count", joint.Count));
        parts.Add(words.Word(joint.Look));
        parts.Add(words.Say(joint.Look.Visible ? "draw.map.visible" : "draw.map.hidden"));
        if (joint.Drains > 0)
            parts.Add(words.Say("draw.map.drains", joint.Drains));
        parts.Add(State(state));
        return words.Say("draw.map.place", joint.Id, joint.Name, string.Join(", ", parts));
    }

    public string Of(BareArea area) =>
        words.Say("draw.map.place", area.Id, area.Name, words.Say("draw.map.bare-area", area.Area, area.Metal));

    public string Of(Cavity cavity) =>
        words.Say("draw.map.place", cavity.Id, cavity.Name, cavity.Drains > 0
            ? words.Say("draw.map.cavity-drains", cavity.Treatment, cavity.Drains)
            : words.Say("draw.map.cavity", cavity.Treatment));

    public string State(SeamState state) => words.Say($"draw.state.{state}");
}
