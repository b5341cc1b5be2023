using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using CsCheck;
using NodaTime;
using Seamwright.EndToEnd.Tests.Printing;
using Seamwright.Materials;
using Seamwright.Program.Drawings;
using Seamwright.Program.Texts;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Documents.Tests;

/// <summary>What drawings are made from in tests: the evening slot with its hand-written plan, and random repairs.</summary>
internal static class Given
{
    public static readonly DrawingWords Words = WordsIn(UnitSystem.Metric);

    public static RepairInput Evening => Sample.Input;

    public static Plan EveningPlan => Sample.Plan;

    private static readonly string[] Names =
    [
        "wheelhouse edge", "roof ditch", "side outer to the lamp panel, behind the trim", "x", "Abschlussblechverstärkung", "floor", "inner & outer <skin>", "a b c d e f g h i j k l m n o p q r",
    ];

    public static DrawingWords WordsIn(UnitSystem units) => new(new Formatter(Sample.Texts, Notation.Of(Evening.Shop, Evening.Repair.Now, units)));

    /// <summary>Repairs of up to fourteen joints of every kind with bare areas and cavities: more than a shop meets, nothing it could not.</summary>
    public static Gen<Repair> Repairs { get; } = Gen.Int[0, 1_000_000].Select(seed => Random(new Random(seed)));

    public static Gen<double> Widths { get; } = Gen.Int[0, 7].Select(i => new[] { 320.0, 344.0, 375.0, 559.0, 560.0, 720.0, 900.0, 1280.0 }[i]);

    /// <summary>Looks at random cases, the same ones in every run: a generator's first seed decides its first case only, so each case has its own.</summary>
    public static void Look<T>(this Gen<T> cases, int rounds, Action<T> holds)
    {
        for (uint round = 1; round <= rounds; round++)
            cases.Sample(holds, seed: new PCG(round, 20261125).ToString(), iter: 1, threads: 1);
    }

    private static Repair Random(Random random)
    {
        var joints = Enumerable.Range(1, random.Next(0, 15)).Select(number => Joint(random, number)).ToImmutableArray();
        return Evening.Repair with
        {
            Name = Names[random.Next(Names.Length)],
            Joints = joints,
            BareAreas = [.. Enumerable.Range(1, random.Next(0, 4)).Select(number => new BareArea
            {
                Id = new($"A{number}"),
                Name = Names[random.Next(Names.Length)],
                Area = Area.FromSquareMetres(0.01 + random.NextDouble()),
                Metal = Metal.Steel,
                Surface = new(SurfaceOf(random), null, null),
                Edge = Edge(random),
                Position = (Position)random.Next(4),
            })],
            Cavities = [.. Enumerable.Range(1, random.Next(0, 4)).Select(number => new Cavity
            {
                Id = new($"C{number}"),
                Name = Names[random.Next(Names.Length)],
                Treatment = (CavityTreatment)random.Next(4),
                Length = random.Next(2) == 0 ? null : Length.FromMetres(0.05 + 2 * random.NextDouble()),
                Drains = random.Next(4),
                Edge = Edge(random),
            })],
        };
    }

    public static Joint Joint(Random random, int number)
    {
        var profile = (Profile)random.Next(10);
        bool dabs = profile == Profile.Dab;
        return new Joint
        {
            Id = new(random.Next(12) == 0 ? $"long-name-of-joint-{number}" : $"J{number}"),
            Name = Names[random.Next(Names.Length)],
            Type = (JointType)random.Next(14),
            Length = dabs ? Length.Zero : Length.FromMetres(0.03 + 2.5 * random.NextDouble()),
            Count = dabs ? random.Next(1, 40) : random.Next(5) == 0 ? 2 : 1,
            Metals = random.Next(2) == 0 ? [(Metal)random.Next(6)] : [(Metal)random.Next(6), (Metal)random.Next(6)],
            Position = (Position)random.Next(4),
            Look = new(profile, Length.FromMillimetres(4 + random.Next(40)), Length.FromMillimetres(0.8 + random.Next(8)), random.Next(2) == 0, false),
            Depth = random.Next(4) == 0 ? Length.FromMillimetres(1 + random.Next(8)) : null,
            Surface = new(SurfaceOf(random), null, null),
            Above = (LayerAbove)random.Next(4),
            Stage = (Stage)random.Next(3),
            Drains = random.Next(5) == 0 ? 3 : 0,
            Edge = Edge(random),
        };
    }

    private static SurfaceKind SurfaceOf(Random random) => (SurfaceKind)random.Next(9);

    private static PanelEdge? Edge(Random random) => random.Next(2) == 0 ? null : (PanelEdge)random.Next(5);

    /// <summary>A file beside the tests.</summary>
    public static string Beside(string name, [CallerFilePath] string here = "") => Path.Combine(Path.GetDirectoryName(here)!, name);
}
