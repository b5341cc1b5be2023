using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Units;

namespace Seamwright.Program.Printing;

/// <summary>Milestones of a material with clock times, and its cure drawn over time.</summary>
public static class CurePage
{
    // After this nobody waits for a seam any more.
    private static readonly Duration Longest = Duration.FromDays(60);

    /// <summary>Writes the page.</summary>
    /// <param name="page">The page.</param>
    /// <param name="sheet">Material.</param>
    /// <param name="panel">What it feels.</param>
    /// <param name="start">When it is applied.</param>
    /// <param name="depth">Depth from the open face, for moisture cure; null = not asked.</param>
    public static void Write(Page page, DataSheet sheet, PanelClimate panel, Instant start, Length? depth)
    {
        page.Line(new Run(page.Say("cure.title", sheet.Id, sheet.Name), Tone.Title));
        page.Paragraph(page.Say("cure.air", page.Format.DateAndClock(start), panel.AirAt(start), panel.TemperatureAt(start)), tone: Tone.Faint);
        page.Gap();

        var goals = Goals(page, sheet, depth).ToList();
        if (goals.Count == 0)
        {
            page.Paragraph(page.Say("cure.nothing"));
            return;
        }

        var grid = new Grid(page,
            new Column(page.Say("cure.milestone"), 12), new Column(page.Say("cure.sheet"), 0, Right: true), new Column(page.Say("cure.here"), 0, Right: true),
            new Column(page.Say("cure.reached"), 10), new Column(""));
        foreach (var goal in goals)
        {
            var clock = CureClock.For(goal.Law, panel, start, start + Longest);
            var finish = ToMinute(clock.Finish(start, goal.Needed), early: goal.IsLimit);
            grid.Row(
                goal.Name, page.Format.Word(goal.Needed), finish is { } end ? page.Format.Text(end - start) : page.Say("cure.not-within", Longest.TotalDays),
                new Run(finish is { } reached ? page.Format.Moment(reached) : "", Tone.Strong), Remark(page, goal, panel, start, finish));
        }
        grid.Write();

        var last = goals[^1];
        var lastClock = CureClock.For(last.Law, panel, start, start + Longest);
        if (last.Needed > ReferenceTime.Zero && lastClock.Finish(start, last.Needed) is { } done)
            CureCurve.Write(page, last.Name, start, done, moment => Share(sheet, last, lastClock.Progress(start, moment)));
    }

    private static IEnumerable<Goal> Goals(Page page, DataSheet sheet, Length? depth)
    {
        foreach (var milestone in sheet.Milestones)
            yield return new Goal(page.Format.Word(milestone.Kind), milestone.Law, milestone.Needed, milestone.Evidence, IsDepth: false, IsLimit: milestone.Kind is MilestoneKind.WorkEnd or MilestoneKind.Skin);
        if (sheet.DepthCure is { } cure && depth is { } deep)
            yield return new Goal(page.Say("cure.through", deep), cure.Law, cure.Needed(deep), null, IsDepth: true, IsLimit: false);
    }

    // Never ready before it is, never workable longer than it is: what ends work is rounded down, everything else up.
    private static Instant? ToMinute(Instant? moment, bool early)
    {
        if (moment is not { } at)
            return null;
        long seconds = at.ToUnixTimeSeconds();
        long down = seconds - seconds % 60;
        return Instant.FromUnixTimeSeconds(early || Instant.FromUnixTimeSeconds(down) == at ? down : down + 60);
    }

    // Depth grows with the root of the work, everything else is drawn as the work itself.
    private static double Share(DataSheet sheet, Goal goal, ReferenceTime progress) => goal.IsDepth && sheet.DepthCure is { } cure
        ? cure.Depth(progress) / cure.Depth(goal.Needed)
        : progress / goal.Needed;

    private static string Remark(Page page, Goal goal, PanelClimate panel, Instant start, Instant? finish)
    {
        if (goal.Evidence is not { } evidence || finish is not { } end || end <= start)
            return "";
        if (Extrapolation.Between(evidence, panel, start, end).Any)
            return evidence.Coldest == evidence.Warmest ? page.Say("cure.one-point", evidence.Coldest) : page.Say("cure.extrapolates", evidence.Coldest, evidence.Warmest);
        return evidence.EnergyIsDefault ? page.Say("cure.default") : "";
    }

    private sealed record Goal(string Name, CureLaw Law, ReferenceTime Needed, MilestoneEvidence? Evidence, bool IsDepth, bool IsLimit);
}
