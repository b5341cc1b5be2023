using NodaTime;
using Seamwright.Storage;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Databases;

// KillMe FOLDER STEP: opens the store, prints each step of bringing it up to date, and waits at one to be killed.
if (args is [var aged, var last])
{
    using var upgraded = await ShopStore.Open(new DataFolder(aged), Environment.GetEnvironmentVariable("SEAMWRIGHT_DATABASE"), SystemClock.Instance, new Steps(last), default);
    return;
}

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

internal sealed class Steps(string last) : IProgress<UpgradeStep>
{
    public void Report(UpgradeStep value)
    {
        Console.Out.WriteLine(value.Key);
        Console.Out.Flush();
        // The last one is not waited at: the kill meets it in the middle.
        if (value.Key == last && value.Key != "upgrade.writing")
            Thread.Sleep(Timeout.Infinite);
    }
}
