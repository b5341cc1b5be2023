using System.Collections.Immutable;
using Seamwright.Air;
using Seamwright.Units;

namespace Seamwright.Curing;

/// <summary>
/// How fast cure work is done, relative to the law's own reference climate (rate 1 there). Each milestone of a sheet has its own law:
/// film drying, pot life and strength of one pack do not share a temperature dependence (docs/formulas.md).
/// </summary>
public abstract record CureLaw
{
    private CureLaw()
    {
    }

    /// <summary>Two-part reaction: rate = exp[−Ea/R·(1/T − 1/Tref)] with the panel's temperature (Arrhenius; equivalent age, ASTM C1074).</summary>
    /// <param name="ActivationEnergy">Ea. [J/mol, ≥ 0]</param>
    /// <param name="Reference">Tref.</param>
    public sealed record TwoPart(MolarEnergy ActivationEnergy, Temperature Reference) : CureLaw;

    /// <summary>One-part moisture cure: rate = pv/pv,ref · exp[−Ep/R·(1/T − 1/Tref)]; pv from the air, T of the panel.</summary>
    /// <param name="PermeabilityEnergy">Ep of the cured layer's permeability. [J/mol, 0 where unknown]</param>
    /// <param name="Reference">Air at which the rate is 1.</param>
    public sealed record Moisture(MolarEnergy PermeabilityEnergy, AirState Reference) : CureLaw;

    /// <summary>A drying film: the temperature law; water-borne also × (1 − RH)/(1 − RHref).</summary>
    /// <param name="ActivationEnergy">Apparent Ea. [J/mol, ≥ 0]</param>
    /// <param name="Reference">Air at which the rate is 1.</param>
    /// <param name="Waterborne">Whether the drying force 1 − RH counts.</param>
    public sealed record Drying(MolarEnergy ActivationEnergy, AirState Reference, bool Waterborne) : CureLaw;

    /// <summary>No law, only the sheet's times at temperatures: below the first step nothing happens, from each step on its rate holds.</summary>
    /// <param name="Steps">(panel temperature from which, rate) ascending in both; the rate at the sheet's reference is 1.</param>
    public sealed record Stepped(ImmutableArray<RateStep> Steps) : CureLaw;

    /// <summary>The clock: rate 1 whatever the air (flash-off by the clock, calendar lives).</summary>
    public sealed record Clock : CureLaw;
}

/// <summary>One step of <see cref="CureLaw.Stepped"/>.</summary>
/// <param name="From">Panel temperature from which the rate holds.</param>
/// <param name="Rate">Rate relative to the sheet's reference. [≥ 0]</param>
public readonly record struct RateStep(Temperature From, double Rate);
