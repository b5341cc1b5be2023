using System.Globalization;
using Seamwright.Scheduling.Benchmarks.Contenders;
using Seamwright.Scheduling.Benchmarks.Instances;
using Seamwright.Scheduling.Benchmarks.Results;

const string Usage = """
    Solves scheduling instances and prints, per folder, how far each solver got.

      scheduling-benchmarks FOLDER... [--best FILE] [--seconds 10] [--workers 2] [--seed 1] [--solvers core,plain,list] [--out FILE]
      scheduling-benchmarks --table FILE...

    FOLDER   holds .sm, .mm, .txt (PSPLIB, MMLIB) or .sch (ProGen/max) files
    --best   table of best known durations; default: best-known.csv beside the folder, if it is there
    --out    results, one line a run, are added to this file; --table prints such files as one table
    """;

try
{
    if (args.Length == 0)
        throw new ArgumentException("Name a folder of instances.");
    if (args[0] == "--table")
    {
        Table.Print(Console.Out, args.Skip(1).SelectMany(file => File.ReadLines(file).Select((line, i) => (line, i)).Where(l => l.line != Run.Head).Select(l => Run.Parse(file, l.i + 1, l.line))));
        return 0;
    }

    return Measure(Options(args));
}
catch (Exception e) when (e is UnreadableInstanceException or ArgumentException or IOException or UnauthorizedAccessException)
{
    Console.Error.WriteLine(e.Message);
    if (e is ArgumentException)
        Console.Error.WriteLine(Usage);
    return 2;
}

static int Measure(Dictionary<string, List<string>> options)
{
    var limits = new Limits(TimeSpan.FromSeconds(Number(options, "--seconds", 10)), (int)Number(options, "--workers", 2), (int)Number(options, "--seed", 1));
    string[] names = options.TryGetValue("--solvers", out var named) ? named[0].Split(',') : [.. Contender.All.Select(c => c.Name)];
    Contender[] contenders = [.. names.Select(n => Contender.All.FirstOrDefault(c => c.Name == n) ?? throw new ArgumentException($"There is no solver \"{n}\"."))];
    string? results = options.GetValueOrDefault("--out")?[0];
    if (results is not null && !File.Exists(results))
        File.WriteAllText(results, Run.Head + "\n");

    var runs = new List<Run>();
    foreach (string folder in options.GetValueOrDefault("") ?? throw new ArgumentException("Name a folder of instances."))
    {
        List<Instance> instances = Instance.Folder(folder);
        var known = Known(options.GetValueOrDefault("--best")?[0], folder);
        foreach (Instance instance in instances)
        {
            // One after the other on the same instance: other load on the machine then hits all alike.
            foreach (Contender contender in contenders)
            {
                Run run = Run.Of(contender, instance, limits, known.GetValueOrDefault((instance.Set, instance.Name)));
                runs.Add(run);
                Console.Error.WriteLine(run.Line());
                if (results is not null)
                    File.AppendAllText(results, run.Line() + "\n");
            }
        }
    }

    Table.Print(Console.Out, runs);
    return runs.Exists(r => r.Fault.Length > 0) ? 1 : 0;
}

static Dictionary<(string Set, string Instance), BestKnown> Known(string? named, string folder)
{
    string file = named ?? Path.Combine(folder, "..", "best-known.csv");
    return named is null && !File.Exists(file) ? [] : BestKnown.Read(Path.GetFileName(file), File.ReadAllLines(file));
}

static Dictionary<string, List<string>> Options(string[] args)
{
    string[] possible = ["--best", "--seconds", "--workers", "--seed", "--solvers", "--out"];
    var options = new Dictionary<string, List<string>>();
    for (int i = 0; i < args.Length; i++)
    {
        bool option = args[i].StartsWith("--", StringComparison.Ordinal);
        if (option && (!possible.Contains(args[i]) || i + 1 == args.Length))
            throw new ArgumentException($"{args[i]} is not an option or has no value.");
        string key = option ? args[i++] : "";
        if (!options.TryGetValue(key, out var values))
            options[key] = values = [];
        values.Add(args[i]);
    }

    return options;
}

static double Number(Dictionary<string, List<string>> options, string name, double otherwise)
{
    if (!options.TryGetValue(name, out var values))
        return otherwise;
    return double.TryParse(values[0], NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && number is > 0 and < 1e6
        ? number
        : throw new ArgumentException($"{name} must be a number above 0.");
}
