using Seamwright.Planning.Uncertainty;
using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>How likely the slot is kept: one page with the likelihood, the ready moments, what matters and what would be likelier.</summary>
public static class ChancePage
{
    /// <summary>Causes below this share of the scatter are not worth a line.</summary>
    private const double LeastShare = 0.005;

    private const int MostCritical = 8;
    private const double LeastCritical = 0.02;

    /// <summary>Bared metal that waits too long is told from this share of cases on.</summary>
    private const double LeastStale = 0.01;

    /// <summary>Writes the page.</summary>
    public static void Write(Page page, RepairInput input, ChanceAnswer answer)
    {
        if (answer is not { Plan: { } plan, Chance: { } chance })
        {
            ConflictList.Write(page, input, new PlanAnswer { Conflicts = answer.Conflicts });
            return;
        }

        Headline.Title(page, input);
        page.Gap();
        var p = chance.BySlot;
        page.Paragraph(
            page.Say("chance.by-slot", page.Say(InWords(p.Value)), page.Format.DateAndClock(chance.Slot), Percent(page, p.Value), Percent(page, p.Low), Percent(page, p.High)),
            tone: p.Value < answer.Wanted ? Tone.Alert : Tone.Answer);
        page.Paragraph(page.Say("chance.ready", chance.AsPlanned, Moment(page, chance.Half), Moment(page, chance.NineOfTen)));
        if (chance.Stale.Value >= LeastStale)
            page.Paragraph(page.Say("chance.stale", Percent(page, chance.Stale.Value)));

        Histogram(page, chance);
        Causes(page, chance);
        Critical(page, chance);
        Robust(page, answer, plan);
        page.Gap();
        page.Paragraph(page.Say("chance.samples", chance.Samples, (long)chance.Seed), tone: Tone.Faint);
        page.Paragraph(page.Say("chance.model"), tone: Tone.Faint);
    }

    /// <summary>Key of the words for a likelihood.</summary>
    private static string InWords(double p) => p switch
    {
        >= 0.99 => "chance.certain",
        >= 0.90 => "chance.very-likely",
        >= 0.70 => "chance.likely",
        >= 0.55 => "chance.rather",
        >= 0.45 => "chance.even",
        >= 0.30 => "chance.rather-not",
        >= 0.10 => "chance.unlikely",
        >= 0.01 => "chance.very-unlikely",
        _ => "chance.hardly",
    };

    private static string Percent(Page page, double share) => page.Format.Number(share * 100, 1);

    private static string Moment(Page page, ReadyEstimate ready) =>
        ready.Value is not { } value ? page.Say("chance.not-within")
        : ready is { Low: { } low, High: { } high } && low < high ? page.Say("chance.moment", value, page.Format.Between(low, high))
        : page.Format.Moment(value);

    private static void Histogram(Page page, Chance chance)
    {
        if (chance.Histogram.IsEmpty)
            return;
        page.Title(page.Say("chance.histogram"));
        var labels = chance.Histogram.Select(bar => page.Format.Moment(bar.From)).ToList();
        int label = labels.Max(text => Letters.Width(page.Fit(text)));
        int most = Math.Max(1, chance.Histogram.Max(bar => bar.Count));
        int room = Math.Max(10, page.Width - label - 12);
        bool slotDrawn = false;
        foreach (var (bar, text) in chance.Histogram.Zip(labels))
        {
            // The slot stands where its bar begins; what is below the line is late.
            if (!slotDrawn && chance.Slot < bar.To && chance.Histogram[0].From <= chance.Slot)
            {
                slotDrawn = true;
                if (chance.Slot < chance.Histogram[^1].To)
                    page.Line(new Run($" {new string(page.Marks.Rule, label)} ", Tone.Faint), new Run(page.Say("chance.slot-line", chance.Slot), Tone.Strong));
            }
            string drawn = new(page.Marks.Work.One, (int)Math.Round((double)room * bar.Count / most));
            string share = page.Format.Number(100.0 * bar.Count / chance.Samples, 1);
            page.Line(
                new Run(" " + new string(' ', label - Letters.Width(page.Fit(text))) + text + " ", Tone.Faint),
                new Run(drawn, bar.From > chance.Slot ? Tone.Alert : Tone.Answer),
                new Run(bar.Count > 0 ? $" {share} %" : "", Tone.Faint));
        }
        if (chance.Beyond > 0)
            page.Paragraph(page.Say("chance.beyond", page.Format.Number(100.0 * chance.Beyond / chance.Samples, 1)), " ", Tone.Faint);
    }

    private static void Causes(Page page, Chance chance)
    {
        var causes = chance.Causes.Where(cause => cause.VarianceShare >= LeastShare).ToList();
        if (causes.Count == 0)
            return;
        page.Title(page.Say("chance.causes"));
        var grid = new Grid(page, new Column(page.Say("chance.cause"), 16), new Column(page.Say("chance.share"), 0, Right: true), new Column(page.Say("chance.without"), 0, Right: true), new Column(page.Say("chance.gain"), 0, Right: true));
        foreach (var cause in causes)
        {
            grid.Row(
                new Run(Name(page, cause.Cause), Tone.Strong), $"{page.Format.Number(cause.VarianceShare * 100, 0)} %", $"{Percent(page, cause.BySlot)} %",
                page.Say("chance.points", Signed(page, cause.Gain.Value), page.Format.Number(100 * (cause.Gain.High - cause.Gain.Value), 1)));
        }
        grid.Write();
    }

    private static string Signed(Page page, double share)
    {
        string number = Percent(page, share);
        return share > 0 && number != "0" ? "+" + number : number;
    }

    private static string Name(Page page, Cause cause) => cause.Kind switch
    {
        CauseKind.Labour => page.Say("chance.labour", cause.Step!.Value),
        CauseKind.WholeCar => page.Say("chance.whole-car"),
        CauseKind.Temperature => page.Say("chance.temperature"),
        CauseKind.Humidity => page.Say("chance.humidity"),
        CauseKind.Material => page.Say("chance.material", cause.Material!.Value),
        CauseKind.BeadDepth => page.Say("chance.bead-depth"),
        _ => throw new ArgumentOutOfRangeException(nameof(cause), cause.Kind, "There is no such cause."),
    };

    private static void Critical(Page page, Chance chance)
    {
        var steps = chance.Critical.Where(step => step.Share >= LeastCritical).Take(MostCritical).ToList();
        if (steps.Count == 0)
            return;
        page.Title(page.Say("chance.critical"));
        var grid = new Grid(page, new Column("", 0, Right: true), new Column("", 20));
        foreach (var step in steps)
            grid.Row(new Run($"{page.Format.Number(step.Share * 100, 0)} %", Tone.Strong), Text(page, step));
        grid.Write();
    }

    private static string Text(Page page, CriticalStep step)
    {
        string what = step.Kind is { } kind ? page.Format.Word(kind) : page.Say("chance.cures");
        string places = step.Places.IsEmpty ? "" : " " + page.Format.List(step.Places);
        string material = step.Material is { } id ? page.Say("chance.in", id) : "";
        string person = step.Person is { } name ? page.Say("chance.by", name) : "";
        return what + places + material + person;
    }

    private static void Robust(Page page, ChanceAnswer answer, Plan plan)
    {
        page.Title(page.Say("chance.robust"));
        string wanted = Percent(page, answer.Wanted);
        if (answer.Robust is { } robust)
            page.Bullet(page.Say("chance.robust-found", Other(page, robust, plan), wanted));
        else if (answer.Likeliest is { } likeliest && likeliest.BySlot.Value > answer.Chance!.BySlot.Value)
            page.Bullet(page.Say("chance.robust-none-but", wanted, answer.LookedAt, Other(page, likeliest, plan)), Tone.Alert);
        else if (answer.LookedAt > 0)
            page.Bullet(page.Say("chance.robust-none", wanted, answer.LookedAt), Tone.Alert);
        else if (answer.Chance!.BySlot.Value >= answer.Wanted)
            page.Bullet(page.Say("chance.robust-enough", wanted));
        else
            page.Bullet(page.Say("chance.robust-not-sought", wanted));
    }

    private static string Other(Page page, RobustPlan other, Plan plan)
    {
        var changes = other.Changed.Select(change => page.Say("chance.change", change.Joint, change.Material?.Value ?? page.Say("print.nothing"))).ToList();
        if (other.Plan.Slot != plan.Slot)
            changes.Add(page.Say("chance.change-slot", other.Plan.Slot));
        if (other.Plan.Orders.Length > plan.Orders.Length)
            changes.Add(page.Say("chance.change-order"));
        if (other.Plan.Steps.Count(step => step.Kind == StepKind.Lamp) > plan.Steps.Count(step => step.Kind == StepKind.Lamp))
            changes.Add(page.Say("chance.change-lamp"));
        if (changes.Count == 0)
            changes.Add(page.Say("chance.change-order-of-work"));
        return page.Say("chance.other", string.Join(", ", changes), page.Format.Text(other.CostShift, "signed"), Percent(page, other.BySlot.Value), Moment(page, other.NineOfTen));
    }
}
