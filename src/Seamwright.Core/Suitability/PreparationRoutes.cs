using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Units;

namespace Seamwright.Suitability;

/// <summary>One way to get the surface ready, what it takes and what results.</summary>
public sealed record PreparationRoute
{
    /// <summary>What is done.</summary>
    public required Preparation Preparation { get; init; }

    /// <summary>The surface that results; a coat made by the route has no time yet (<see cref="Surface.Applied"/> is null).</summary>
    public required Surface Result { get; init; }

    /// <summary>Sheet of the coat that results; null = bare metal, factory coat or not known.</summary>
    public DataSheet? ResultSheet { get; init; }

    /// <summary>Work of abrading, cleaning or stripping, unrounded; the priming session itself is not in it.</summary>
    public required Duration Work { get; init; }

    /// <summary>Primer that the route sprays; null = none.</summary>
    public DataSheet? Primer { get; init; }

    /// <summary>Primer needed, losses included; null = no primer, or its sheet does not state its coverage.</summary>
    public Volume? PrimerAmount { get; init; }

    /// <summary>
    /// When the window of the coat that lies there now ends by the clock; null = no window, or the coat is not the present one. In the heat
    /// it may end sooner (<see cref="Curing.MaximumWindow.Law"/>).
    /// </summary>
    public Instant? WindowEnds { get; init; }

    /// <summary>What the primer rules say of <see cref="Primer"/> on this metal; empty without primer.</summary>
    public ImmutableArray<Verdict> PrimerVerdicts { get; init; } = [];

    /// <summary>Whether the primer may go there without further consent.</summary>
    public bool PrimerMayGo => Verdicts.MayBeUsed(PrimerVerdicts);
}

/// <summary>The ways to prepare a joint for a material. Which one is taken depends on times and is the planner's choice.</summary>
public static class PreparationRoutes
{
    /// <summary>
    /// The routes open to a joint, least work first: as it is; abrade, where a coat lies on it; prime, where it is bare; strip and prime,
    /// where a coat lies on it. Routes with primer only where a primer is given. Whether the material may lie on the result is for
    /// <see cref="SuitabilityRules.Judge"/>, with <see cref="JointCase.After"/>.
    /// </summary>
    /// <param name="joint">Joint.</param>
    /// <param name="sheet">Material that goes on afterwards.</param>
    /// <param name="coat">Sheet of the coat that lies there now; null = bare, factory coat or not known.</param>
    /// <param name="primer">Primer at hand; null = none.</param>
    /// <param name="times">The shop's minutes.</param>
    public static ImmutableArray<PreparationRoute> For(Joint joint, DataSheet sheet, DataSheet? coat, DataSheet? primer, WorkTimes times)
    {
        var routes = ImmutableArray.CreateBuilder<PreparationRoute>(4);
        routes.Add(AsIs(joint, coat));
        if (joint.Surface.IsBareMetal)
        {
            if (primer is not null)
                routes.Add(Primed(joint, sheet, primer, Preparation.Prime, AbradeTime(joint, times)));
        }
        else
        {
            routes.Add(new PreparationRoute
            {
                Preparation = Preparation.Abrade,
                Result = joint.Surface with { Applied = null },
                ResultSheet = coat,
                Work = AbradeTime(joint, times),
            });
            if (primer is not null)
                routes.Add(Primed(joint, sheet, primer, Preparation.StripAndPrime, StripTime(joint, times)));
        }
        return routes.ToImmutable();
    }

    /// <summary>Length of a joint that is worked on: all runs, or a short length a head where it has none.</summary>
    public static Length WorkedLength(Joint joint) => Coatings.PrimedLength(joint);

    /// <summary>Abrading and cleaning a joint, unrounded.</summary>
    public static Duration AbradeTime(Joint joint, WorkTimes times) => times.AbradePerMetre * WorkedLength(joint).Metres;

    /// <summary>Taking a coat of a joint to metal, unrounded.</summary>
    public static Duration StripTime(Joint joint, WorkTimes times) => times.StripPerMetre * WorkedLength(joint).Metres;

    /// <summary>The bare surface of a joint once its coat is off: aluminium only where all its panels are, else steel.</summary>
    public static SurfaceKind BareSurface(Joint joint) =>
        joint.Metals.All(metal => metal == Metal.Aluminium) && !joint.Metals.IsEmpty ? SurfaceKind.BareAluminium
        : joint.Surface.Kind == SurfaceKind.ZincCoatedSteel ? SurfaceKind.ZincCoatedSteel
        : SurfaceKind.BareSteel;

    private static PreparationRoute AsIs(Joint joint, DataSheet? coat) => new()
    {
        Preparation = Preparation.AsIs,
        Result = joint.Surface,
        ResultSheet = coat,
        Work = Duration.Zero,
        WindowEnds = joint.Surface.Applied is { } applied && coat?.NextLayerWithin is { } window ? applied + window.Clock : null,
    };

    private static PreparationRoute Primed(Joint joint, DataSheet sheet, DataSheet primer, Preparation preparation, Duration work) => new()
    {
        Preparation = preparation,
        Result = new Surface(SurfaceFacts.LeftBy(primer), primer.Id, null),
        ResultSheet = primer,
        Work = work,
        Primer = primer,
        PrimerAmount = Coatings.Primer(primer, WorkedLength(joint), Area.Zero),
        PrimerVerdicts = PrimerRules.Judge(new PrimerCase
        {
            Primer = primer,
            On = BareSurface(joint),
            Metals = joint.Metals,
            Over = sheet,
            Torsion = joint.IsTorsion,
        }),
    };
}
