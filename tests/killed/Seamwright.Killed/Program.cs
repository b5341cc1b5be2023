using NodaTime;
using Seamwright.Storage;
using Seamwright.Storage.Actions;

// Writes into a store until it is killed, from several writers at once, and prints the id of each entry only after the store has
// acknowledged it: KillMe FOLDER. A line that was printed is a promise.
using var store = await ShopStore.Open(new DataFolder(args[0]), Environment.GetEnvironmentVariable("SEAMWRIGHT_DATABASE"), SystemClock.Instance);
var turn = new Lock();
await Task.WhenAll(Enumerable.Range(0, 3).Select(writer => Task.Run(async () =>
{
    for (int i = 0; ; i++)
    {
        var fact = new WorkFact(Guid.CreateVersion7(), SystemClock.Instance.GetCurrentInstant(), Offset.FromHours(1), $"writer {writer}", "bead-applied", "r0", $$"""{"joint":"J{{i}}"}""");
        if (await store.AppendWork(fact) is not AppendOutcome.Appended)
            throw new InvalidOperationException("An entry was refused.");
        lock (turn)
        {
            Console.Out.WriteLine(fact.Id);
            Console.Out.Flush();
        }
    }
})));
