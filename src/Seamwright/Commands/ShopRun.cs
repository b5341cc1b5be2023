using System.Collections.Immutable;
using NodaTime;
using Seamwright.Files;
using Seamwright.Planning;
using Seamwright.Program.Printing;
using Seamwright.Program.Printing.Json;
using Seamwright.Program.Texts;
using Seamwright.Work;

namespace Seamwright.Program.Commands;

/// <summary>One run of <c>seamwright plan</c> on a folder of repairs: all of them together in one shop.</summary>
internal sealed class ShopRun(Formatter words, Sentences sentences, Terminal terminal)
{
    public required ImmutableArray<string> Repairs { get; init; }

    public int? Seed { get; init; }

    public required int Seconds { get; init; }

    /// <summary>Where the plans go as JSON; null = nowhere, - = standard output.</summary>
    public string? Json { get; init; }

    public Shops.UnitSystem? Units { get; init; }

    public required Screen Screen { get; init; }

    public int Answer()
    {
        var readings = Repairs.Select(RepairReader.Read).ToList();
        var problems = readings.SelectMany(reading => reading.Problems).Distinct().ToImmutableArray();
        if (!problems.IsEmpty)
        {
            ProblemLines.Write(terminal.Error, words, problems);
            terminal.Error.WriteLine(words.Say("cli.problems", problems.Length));
            return ExitCode.WrongUse;
        }
        var inputs = readings.Select(reading => reading.Input!).ToImmutableArray();
        for (int i = 1; i < inputs.Length; i++)
        {
            if (IsInAnotherShop(inputs[i], inputs[0]))
            {
                terminal.Error.WriteLine(words.Say("cli.plan.another-shop", Repairs[i], Repairs[0]));
                return ExitCode.WrongUse;
            }
        }

        using var stop = new CancellationTokenSource();
        ConsoleCancelEventHandler keep = (_, pressed) =>
        {
            // The first time the best plan so far is printed, the second time the program ends.
            pressed.Cancel = !stop.IsCancellationRequested;
            stop.Cancel();
        };
        Console.CancelKeyPress += keep;
        var progress = new ShopProgressLine(terminal.Error, words, Console.IsErrorRedirected);
        ShopPlan plan;
        try
        {
            plan = ShopPlanner.Plan(inputs, new ShopPlanOptions { Seed = Seed ?? 1, TimeLimit = Duration.FromSeconds(Seconds), Progress = progress, Stop = stop.Token });
        }
        finally
        {
            Console.CancelKeyPress -= keep;
            progress.End();
        }
        var format = new Formatter(sentences, Notation.Of(inputs[0].Shop, inputs[0].Repair.Now, Units));
        var document = new AskedFile(terminal, words, Json);
        if (!document.Write(() => ShopPlanJson.Write(plan, format)))
            return ExitCode.WrongUse;
        if (!document.IsAlone)
            ShopPage.Write(new Page(terminal.Output, Screen, format), plan);
        return plan.Vehicles.All(vehicle => vehicle.Plan is not null) ? ExitCode.Done : ExitCode.Refused;
    }

    /// <summary>Vehicles can only be planned together where they share people, shelves and the moment.</summary>
    private static bool IsInAnotherShop(RepairInput one, RepairInput first) =>
        one.Shop.Name != first.Shop.Name || one.Shop.Zone != first.Shop.Zone || one.Repair.Now != first.Repair.Now
        || !one.Stock.Packs.SequenceEqual(first.Stock.Packs) || !one.Shop.People.Select(person => person.Id).SequenceEqual(first.Shop.People.Select(person => person.Id));
}
