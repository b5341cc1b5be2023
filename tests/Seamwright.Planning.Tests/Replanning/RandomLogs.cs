using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Planning.Checking;
using Seamwright.Program.Texts;
using Seamwright.Repairs;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Tests.Replanning;

/// <summary>Logs by seed: the day up to some moment, and what may come between.</summary>
internal static class RandomLogs
{
    /// <summary>Everything went as announced up to some moment before the last step.</summary>
    public static WorkLog AsAnnounced(RepairInput input, AnnouncedPlan plan, Random random) =>
        new([new LogEntry.AsAnnounced("E1", Moment(input, plan, random), "")]);

    /// <summary>As announced up to some moment, then one to four things that disturb.</summary>
    public static WorkLog Any(RepairInput input, AnnouncedPlan plan, Random random)
    {
        var at = Moment(input, plan, random);
        var entries = new List<LogEntry>();
        if (random.Next(4) > 0)
            entries.Add(new LogEntry.AsAnnounced("E0", at, ""));
        int count = random.Next(1, 5);
        for (int i = 1; i <= count; i++)
        {
            at += Duration.FromMinutes(random.Next(1, 60));
            if (Disturbance($"E{i}", at, input, plan, random) is { } entry)
                entries.Add(entry);
        }
        return new WorkLog([.. entries]);
    }

    /// <summary>What the checker has against an answer, in words; empty where it holds.</summary>
    public static string Against(Replan replan, WorkLog log)
    {
        var words = new Formatter(Sentences.Load("en"), Notation.Of(replan.Input.Shop, replan.Input.Repair.Now));
        return string.Join('\n', ReplanChecker.Check(replan, log).Select(reason => $"{replan.Input.Repair.Id}: {words.Sentence(reason)}"));
    }

    public static string Text(Move move) =>
        $"{move.Kind} {move.Work} {string.Join(',', move.Places)}: {Text(move.Before)} -> {Text(move.After)}";

    private static string Text(Step? step) => step is null ? "-" : $"{step.Person} {step.Start} {step.Material}";

    private static Instant Moment(RepairInput input, AnnouncedPlan plan, Random random)
    {
        var works = plan.Steps.Where(step => step.Person is not null && step.Kind != StepKind.Paint).ToList();
        var latest = random.Next(4) == 0 ? works[^1].Start : works.Where(step => step.End <= plan.Slot).Select(step => step.End).Append(input.Repair.Now).Max();
        return input.Repair.Now + Duration.FromMinutes(random.Next(0, 1 + (int)(latest - input.Repair.Now).TotalMinutes));
    }

    private static LogEntry? Disturbance(string id, Instant at, RepairInput input, AnnouncedPlan plan, Random random)
    {
        var people = input.Shop.People;
        switch (random.Next(9))
        {
            case 0:
                return new LogEntry.Away(id, at, "", people[random.Next(people.Length)].Id, at, at + Duration.FromHours(random.Next(1, 30)));
            case 1:
                var joints = input.Repair.Joints.Where(joint => !joint.IsBare).ToList();
                return joints.Count == 0 ? null : new LogEntry.Failed(id, at, "", joints[random.Next(joints.Count)].Id, (Fault)random.Next(4), (TakenOff)random.Next(2));
            case 2:
                var cold = new AirState(Temperature.FromCelsius(random.Next(6, 18)), RelativeHumidity.FromFraction(random.Next(25, 80) / 100.0));
                return new LogEntry.NewAir(id, at, "", new ConstantClimate(cold));
            case 3:
                return new LogEntry.Slots(id, at, "", [.. plan.Slot is var slot && slot > at ? [slot + Duration.FromMinutes(30 * random.Next(0, 8))] : ImmutableArray<Instant>.Empty, at + Duration.FromDays(1), at + Duration.FromDays(2)]);
            case 4:
                var packs = input.Stock.Packs;
                return packs.IsEmpty ? null : new LogEntry.Gone(id, at, "", packs[random.Next(packs.Length)].Id, "dropped");
            case 5:
                var sheet = input.Sheets[random.Next(input.Sheets.Length)];
                return new LogEntry.Ordered(id, at, "", sheet.Id, 1, at + Duration.FromHours(random.Next(1, 20)));
            case 6:
                var line = plan.Orders.FirstOrDefault(order => order.What is not null);
                return line is null ? null : new LogEntry.Late(id, at, "", line.What!.Value, random.Next(3) == 0 ? null : line.Arrives + Duration.FromHours(random.Next(1, 20)));
            case 7:
                var next = plan.Steps.FirstOrDefault(step => step.Person is not null && step.Kind != StepKind.Paint && step.Start >= at);
                return next is null ? null : new LogEntry.Started(id, at, "", new WorkOn(next.Kind, next.Places), null, null);
            default:
                var done = plan.Steps.FirstOrDefault(step => step.Person is not null && step.Kind != StepKind.Paint && step.End >= at);
                return done is null ? null : new LogEntry.Ended(id, at, "", new WorkOn(done.Kind, done.Places), null, null, null, []);
        }
    }
}
