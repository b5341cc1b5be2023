using System.Globalization;
using NodaTime;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>Steps in order of time under their day, with person and minutes.</summary>
internal static class StepList
{
    public static void Write(Page page, RepairInput input, Plan plan)
    {
        page.Title(page.Say("print.steps"));
        foreach (var day in plan.Steps.GroupBy(step => step.Start.InZone(page.Format.Notation.Zone).Date))
        {
            var grid = new Grid(page, new Column(""), new Column(""), new Column("", 8), new Column("", Right: true), new Column("", 12));
            foreach (var step in day)
            {
                bool byItself = step.Person is null;
                var tone = byItself ? Tone.Faint : Tone.Plain;
                grid.Row(
                    new Run(step.Id, Tone.Faint), new Run(Clocks(page, step), byItself ? Tone.Faint : Tone.Strong),
                    new Run(step.Person ?? page.Say("print.by-itself"), tone), new Run(page.Format.Text(step.End - step.Start), tone),
                    new Run(What(page, input, step), tone));
                foreach (var note in step.Notes)
                    grid.Under(page.Format.Sentence(note));
            }
            page.Line(new Run($" {page.Format.Day(day.First().Start)}", Tone.Strong));
            grid.Write();
        }
    }

    /// <summary>What is done, for example <c>Seal J1 and J4 with MSS · 70 ml</c>.</summary>
    public static string What(Page page, RepairInput input, Step step)
    {
        string places = step.Places.IsEmpty ? page.Say("print.the-car") : page.Format.List(step.Places.Select(place => (object)place));
        string name = input.Repair.Operations.FirstOrDefault(operation => step.Places.Contains(operation.Id)) is { TakesOff: { } failed } redo
            ? page.Say("replan.takes-off", failed, redo.Name)
            : NameOf(input, step);
        var parts = new List<string> { page.Say($"step.{step.Kind}", places, name.Length > 0 ? name : places) };
        if (step.Material is { } material && step.Kind != StepKind.Operation)
            parts[0] += page.Say(step.Person is null ? "print.of-material" : "print.with-material", material);
        if (step.Amount > Volume.Zero)
            parts.Add(page.Format.Text(step.Amount));
        if (step.StripLength > Length.Zero)
            parts.Add(page.Format.Text(step.StripLength));
        if (step.Nozzles > 0)
            parts.Add(page.Say("print.nozzles", step.Nozzles));
        if (step.HeatTo is { } heat)
            parts.Add(page.Say("print.panel-at", heat));
        return string.Join(" · ", parts);
    }

    // Bonds and operations are known by their names; joints by their short ids.
    private static string NameOf(RepairInput input, Step step)
    {
        if (step.Places.Length != 1)
            return "";
        var id = step.Places[0];
        return input.Repair.Operations.FirstOrDefault(operation => operation.Id == id)?.Name
            ?? input.Repair.Bonds.FirstOrDefault(bond => bond.Id == id)?.Name
            ?? input.Repair.Cavities.FirstOrDefault(cavity => cavity.Id == id)?.Name
            ?? input.Repair.BareAreas.FirstOrDefault(area => area.Id == id)?.Name
            ?? "";
    }

    // Under its day a step needs the clock alone; one that ends on another day says which.
    private static string Clocks(Page page, Step step)
    {
        var zone = page.Format.Notation.Zone;
        bool oneDay = step.Start.InZone(zone).Date == step.End.InZone(zone).Date;
        return string.Create(CultureInfo.InvariantCulture, $"{page.Format.Clock(step.Start)}–{(oneDay ? page.Format.Clock(step.End) : page.Format.DateAndClock(step.End))}");
    }
}
