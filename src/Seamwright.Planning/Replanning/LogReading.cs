using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Planning.Mapping;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Replanning;

/// <summary>
/// The entries of a log folded, one after the other, into where every piece of work stands. Entries that cannot be are told and left out.
/// </summary>
internal sealed class LogReading
{
    private readonly RepairInput _input;
    private readonly AnnouncedPlan _plan;
    private readonly List<LoggedWork> _works = [];
    private readonly List<Reason> _problems = [];

    private LogReading(RepairInput input, AnnouncedPlan plan, Instant now) => (_input, _plan, Now) = (input, plan, now);

    /// <summary>The moment from which is planned.</summary>
    public Instant Now { get; }

    /// <summary>Work by start.</summary>
    public IReadOnlyList<LoggedWork> Works => _works;

    public IReadOnlyList<Reason> Problems => _problems;

    public static LogReading Of(RepairInput input, AnnouncedPlan plan, IReadOnlyCollection<LogEntry> entries, Instant now)
    {
        var reading = new LogReading(input, plan, now);
        foreach (var entry in entries)
            reading.Take(entry);
        for (int i = 0; i < reading._works.Count; i++)
        {
            // Work that should have ended ends at any moment.
            if (reading._works[i] is { IsOpen: true } open && open.Step.End < now)
                reading._works[i] = open with { Step = open.Step with { End = now, Labour = open.Step.Person is null ? Duration.Zero : now - open.Step.Start } };
        }
        reading._works.Sort((a, b) => a.Step.Start != b.Step.Start ? a.Step.Start.CompareTo(b.Step.Start) : a.Step.End.CompareTo(b.Step.End));
        return reading;
    }

    private void Take(LogEntry entry)
    {
        if (entry.At > Now && entry is LogEntry.Started or LogEntry.Ended or LogEntry.Failed)
            Tell("log-after-now", entry, Now);
        else if (entry is LogEntry.Started started)
            Start(started);
        else if (entry is LogEntry.Ended ended)
            End(ended);
        else if (entry is LogEntry.AsAnnounced)
            AsAnnounced(entry.At);
        else if (entry is LogEntry.Failed failed)
            Fail(failed);
    }

    private void Start(LogEntry.Started entry)
    {
        if (!IsKnown(entry, entry.Work, entry.Person, entry.Material))
            return;
        if (_works.Exists(work => work.IsOpen && work.Speaks(entry.Work)))
        {
            Tell("log-started-twice", entry, entry.Work.Kind);
            return;
        }
        var announced = Announced(entry.Work);
        if (Describe(entry, entry.Work, announced, entry.Person, entry.Material) is not { } step)
            return;
        var length = announced is null ? Duration.FromMinutes(15) : announced.End - announced.Start;
        _works.Add(new LoggedWork(step with { Start = entry.At, End = Instant.Max(entry.At + length, Now), Labour = length }, announced, entry.Id) { IsOpen = true });
    }

    private void End(LogEntry.Ended entry)
    {
        if (!IsKnown(entry, entry.Work, entry.Person, entry.Material))
            return;
        var open = _works.Find(work => work.IsOpen && work.Speaks(entry.Work));
        var announced = open?.Announced ?? Announced(entry.Work);
        if (Describe(entry, entry.Work, announced ?? open?.Step, entry.Person ?? open?.Step.Person, entry.Material ?? open?.Step.Material) is not { } step)
            return;
        var start = entry.Start ?? open?.Step.Start ?? entry.At - (announced is null ? Duration.FromMinutes(5) : announced.End - announced.Start);
        if (start > entry.At)
        {
            Tell("log-ended-before-start", entry, start);
            return;
        }
        if (open is not null)
            _works.Remove(open);
        _works.Add(new LoggedWork(step with { Start = start, End = entry.At, Labour = step.Person is null ? Duration.Zero : entry.At - start }, announced, entry.Id) { Packs = entry.Packs });
    }

    /// <summary>Announced work that no entry speaks of: done where it ends by then, under way where it has begun.</summary>
    private void AsAnnounced(Instant until)
    {
        foreach (var step in _plan.Steps.Where(step => step.Start < until && step.Kind is not (StepKind.PrimerCure or StepKind.BondCure or StepKind.SealerCure)))
        {
            int went = _works.FindIndex(work => work.IsOpen && work.Entry.Length == 0 && work.Announced == step);
            if (went >= 0)
                _works[went] = _works[went] with { IsOpen = step.End > until };
            if (_works.Exists(work => work.Announced == step || (!work.IsLost && work.Speaks(new WorkOn(step.Kind, step.Places)))))
                continue;
            bool runs = step.End > until;
            _works.Add(new LoggedWork(step with { Labour = step.Person is null ? Duration.Zero : step.End - step.Start }, step, "") { IsOpen = runs });
        }
    }

    private void Fail(LogEntry.Failed entry)
    {
        var repair = _input.Repair;
        if (!repair.Joints.Any(joint => joint.Id == entry.Place) && !repair.BareAreas.Any(area => area.Id == entry.Place))
        {
            Tell("log-no-such-place", entry, entry.Place);
            return;
        }
        var lost = _works.Where(work => !work.IsLost
            && (work.Step.Places.Contains(Redoing.OperationId(entry.Place)) || (work.Step.Places.Contains(entry.Place) && (work.Step.Kind is StepKind.Seal or StepKind.StoneChip or StepKind.Lamp || (entry.DownTo == TakenOff.Metal && work.Step.Kind is StepKind.Prime)
                || work.Step.Kind is StepKind.Abrade or StepKind.Strip)))).ToList();
        if (!lost.Exists(work => work.Step.Kind is StepKind.Seal or StepKind.StoneChip or StepKind.Prime))
        {
            Tell("log-nothing-to-fail", entry, entry.Place);
            return;
        }
        foreach (var work in lost)
        {
            // Of a session only the seam that failed is lost; the others stay.
            _works.Remove(work);
            var others = work.Step.Places.Remove(entry.Place);
            _works.Add(work with { Step = work.Step with { Places = others.Length > 0 ? [entry.Place] : work.Step.Places }, IsLost = true, IsOpen = false, Shares = others.Length > 0, Packs = others.Length > 0 ? [] : work.Packs });
            if (others.Length > 0)
                _works.Add(work with { Step = work.Step with { Places = others } });
        }
        Failures.Add(entry);
    }

    /// <summary>Checks that failed, by time.</summary>
    public List<LogEntry.Failed> Failures { get; } = [];

    private bool IsKnown(LogEntry entry, WorkOn work, string? person, MaterialId? material)
    {
        int before = _problems.Count;
        if (person is { } name && !_input.Shop.People.Any(known => known.Id == name))
            Tell("log-no-such-person", entry, name);
        if (material is { } id && !_input.Sheets.Any(sheet => sheet.Id == id))
            Tell("log-no-such-material", entry, id);
        foreach (var place in work.Places.Where(place => !Places(work.Kind).Contains(place)))
            Tell("log-no-such-place", entry, place);
        if (work.Places.IsEmpty && Announcement.NeedsPlace(work.Kind))
            Tell("log-needs-place", entry, work.Kind);
        return _problems.Count == before;
    }

    /// <summary>Places on which a kind of work can lie.</summary>
    private IEnumerable<PlaceId> Places(StepKind kind)
    {
        var repair = _input.Repair;
        return kind switch
        {
            StepKind.Seal => repair.Joints.Where(joint => !joint.IsBare).Select(joint => joint.Id),
            StepKind.StoneChip => repair.BareAreas.Where(area => area.StoneChip).Select(area => area.Id),
            StepKind.Bond or StepKind.CleanBond => repair.Bonds.Select(bond => bond.Id),
            StepKind.Operation => repair.Operations.Select(operation => operation.Id).Concat(Failures.Select(failure => Redoing.OperationId(failure.Place))),
            StepKind.Foam or StepKind.Wax => repair.Cavities.Select(cavity => cavity.Id),
            _ => repair.Joints.Select(joint => joint.Id).Concat(repair.BareAreas.Select(area => area.Id)).Concat(repair.Bonds.Select(bond => bond.Id)),
        };
    }

    /// <summary>The announced work, the first that no entry has taken yet.</summary>
    private Step? Announced(WorkOn work) =>
        _plan.Steps.FirstOrDefault(step => step.Kind == work.Kind && !_works.Exists(known => known.Announced == step && known.Speaks(work)) && (work.Places.IsEmpty || step.Places.Intersect(work.Places).Any()));

    /// <summary>The work as far as the entry and the plan tell; null where something is missing, which has been told.</summary>
    private Step? Describe(LogEntry entry, WorkOn work, Step? announced, string? person, MaterialId? material)
    {
        var used = material ?? announced?.Material;
        if (work.Kind is StepKind.Seal or StepKind.Prime or StepKind.Bond or StepKind.Foam or StepKind.StoneChip && used is null)
        {
            Tell("log-no-material", entry, work.Kind);
            return null;
        }
        string? who = person ?? announced?.Person ?? (_input.Shop.People.Any(known => known.Id == entry.By) ? entry.By : null);
        if (who is null && work.Kind is not (StepKind.Lamp or StepKind.Paint))
        {
            Tell("log-no-person", entry, work.Kind);
            return null;
        }
        return new Step
        {
            Id = entry.Id,
            Kind = work.Kind,
            Places = work.Places.IsEmpty && announced is not null ? announced.Places : work.Places,
            Person = who,
            Start = entry.At,
            End = entry.At,
            Material = used,
            HeatTo = announced?.HeatTo,
        };
    }

    private void Tell(string key, LogEntry entry, params ReadOnlySpan<object> facts) => _problems.Add(new Reason(key, [entry.Id, .. facts]));
}

/// <summary>A piece of work in the log.</summary>
/// <param name="Step">As it happened, or is expected to.</param>
/// <param name="Announced">As announced; null = it was not.</param>
/// <param name="Entry">Entry that says so; empty = it went as announced.</param>
internal sealed record LoggedWork(Step Step, Step? Announced, string Entry)
{
    /// <summary>Begun, not ended.</summary>
    public bool IsOpen { get; init; }

    /// <summary>A check failed.</summary>
    public bool IsLost { get; init; }

    /// <summary>Part of a session whose time and material are counted with the other part.</summary>
    public bool Shares { get; init; }

    /// <summary>What was taken; empty = as announced.</summary>
    public ImmutableArray<Taken> Packs { get; init; } = [];

    public bool Speaks(WorkOn work) =>
        Step.Kind == work.Kind && (work.Places.IsEmpty || Step.Places.IsEmpty || Step.Places.Intersect(work.Places).Any());
}
