using NodaTime;
using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>People, lamp and cures over the hours, drawn with block characters.</summary>
internal static class Timeline
{
    private const int MostLabel = 16;

    public static void Write(Page page, RepairInput input, Plan plan)
    {
        if (plan.Steps.IsEmpty)
            return;
        var from = Floor(Instant.Min(input.Repair.Now, plan.Steps.Min(step => step.Start)));
        var to = Instant.Max(plan.ReadyForDelivery, plan.Steps.Max(step => step.End)) + Duration.FromMinutes(1);
        var lanes = Lanes(page, plan).ToList();
        int label = Math.Min(MostLabel, lanes.Max(lane => Letters.Width(page.Fit(lane.Label))));
        var axis = TimeAxis.Over(from, to, Awake(input, plan, from, to), page.Width - label - 3);

        page.Title(page.Say("print.timeline"));
        string margin = new(' ', label + 3);
        foreach (string line in TimeScale.Lines(page.Format, axis))
            page.Line(margin, new Run(line, Tone.Faint));

        var closed = Closed(input, axis);
        foreach (var lane in lanes)
            Write(page, axis, closed, plan, lane, label);

        page.Line();
        page.Paragraph(
            page.Say("print.legend", page.Marks.Work.One, page.Marks.Cure, page.Marks.Ready, page.Marks.Heat, page.Marks.Closed, page.Marks.Slot, plan.Slot, Duration.FromMinutes(axis.Minutes)),
            "   ", Tone.Faint);
    }

    private static void Write(Page page, TimeAxis axis, bool[] closed, Plan plan, Lane lane, int label)
    {
        var cells = new (char Mark, Tone Tone)[axis.Columns];
        for (int c = 0; c < cells.Length; c++)
            cells[c] = closed[c] ? (page.Marks.Closed, Tone.Faint) : lane.People ? (page.Marks.Idle, Tone.Faint) : (' ', Tone.Plain);
        int slot = axis.Span(plan.Slot, plan.Slot).First;
        if (plan.Slot < plan.ReadyForDelivery)
            cells[slot] = (page.Marks.Slot, Tone.Answer);

        bool other = false;
        foreach (var bar in lane.Bars)
        {
            var (first, count) = axis.Span(bar.From, bar.To);
            for (int c = first; c < first + count; c++)
                cells[c] = (bar.Mark ?? (other ? page.Marks.Work.Other : page.Marks.Work.One), bar.Tone);
            if (bar.EndsReady)
                cells[first + count - 1] = (page.Marks.Ready, Tone.Answer);

            // The name is written into the bar where at least one block stays visible beside it.
            string name = page.Fit(bar.Name);
            if (name.Length > 0 && name.Length < count)
            {
                for (int c = 0; c < name.Length; c++)
                    cells[first + c] = (name[c], Tone.Strong);
            }
            other = !other;
        }

        string text = Label(page, lane.Label, label);
        var runs = new List<Run> { new($" {text}{new string(' ', label - Letters.Width(text))}  ", lane.People ? Tone.Strong : Tone.Plain) };
        for (int c = 0; c < cells.Length;)
        {
            int end = c + 1;
            while (end < cells.Length && cells[end].Tone == cells[c].Tone)
                end++;
            runs.Add(new Run(string.Concat(cells[c..end].Select(cell => cell.Mark)), cells[c].Tone));
            c = end;
        }
        page.Line([.. runs]);
    }

    // Cut between words: half a joint's name would be another joint.
    private static string Label(Page page, string name, int width)
    {
        string text = page.Fit(name);
        string more = page.Fit("…");
        string[] words = text.Split(' ');
        for (int kept = words.Length - 1; kept > 0 && Letters.Width(text) > width; kept--)
            text = $"{string.Join(' ', words[..kept])} {more}";
        return Letters.Head(text, width);
    }

    // People first, as long as the plan names them; then heat; then what happens by itself, one row a cure.
    private static IEnumerable<Lane> Lanes(Page page, Plan plan)
    {
        foreach (var steps in plan.Steps.Where(step => step.Person is not null).GroupBy(step => step.Person!))
            yield return new Lane(steps.Key, true, [.. steps.Select(step => new Bar(step.Start, step.End, ShortName(page, step), null, Tone.Plain, false))]);

        var heat = plan.Steps.Where(step => step.Person is null && step.Kind == StepKind.Lamp).ToList();
        if (heat.Count > 0)
            yield return new Lane(page.Format.Word(StepKind.Lamp), false, [.. heat.Select(step => new Bar(step.Start, step.End, "", page.Marks.Heat, Tone.Plain, false))]);

        foreach (var step in plan.Steps.Where(step => step.Person is null && step.Kind != StepKind.Lamp))
        {
            bool cure = step.Kind is StepKind.SealerCure or StepKind.PrimerCure or StepKind.BondCure;
            string places = string.Join(' ', step.Places);
            string name = step.Material is { } material ? $"{material.Value} {places}" : $"{page.Format.Word(step.Kind)} {places}";
            yield return new Lane(name.Trim(), false, [new Bar(step.Start, step.End, "", cure ? page.Marks.Cure : null, Tone.Plain, cure)]);
        }
    }

    private static string ShortName(Page page, Step step) => step.Places.IsEmpty || step.Kind is StepKind.Paint or StepKind.Prime or StepKind.Wax
        ? page.Format.Word(step.Kind)
        : string.Join(' ', step.Places);

    private static IEnumerable<Interval> Awake(RepairInput input, Plan plan, Instant from, Instant to) =>
        OpenHours.Within(input.Shop, from, to).Concat(plan.Steps
            .Where(step => step.Person is not null || step.Kind is StepKind.Paint or StepKind.Lamp)
            .Select(step => new Interval(step.Start, step.End)));

    private static bool[] Closed(RepairInput input, TimeAxis axis)
    {
        bool[] closed = new bool[axis.Columns];
        Array.Fill(closed, true);
        foreach (var open in OpenHours.Within(input.Shop, axis.Pieces[0].From, axis.Pieces[^1].To))
        {
            var (first, count) = axis.Span(open.Start, open.End);
            Array.Fill(closed, false, first, count);
        }
        foreach (var piece in axis.Pieces.Where(piece => piece.Folded))
            Array.Fill(closed, true, piece.First, piece.Columns);
        return closed;
    }

    private static Instant Floor(Instant moment) =>
        Instant.FromUnixTimeSeconds(moment.ToUnixTimeSeconds() / 900 * 900);

    private sealed record Lane(string Label, bool People, List<Bar> Bars);

    private sealed record Bar(Instant From, Instant To, string Name, char? Mark, Tone Tone, bool EndsReady);
}
