using System.Collections.Concurrent;
using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Work;

namespace Seamwright.Planning.Mapping;

/// <summary>
/// What several vehicles in the same air have in common: cure clocks and application times, so that each law is integrated once for all of
/// them and not once a vehicle. A clock holds a few hundred kilobytes; a shop of thirty vehicles with their own would need hundreds of megabytes.
/// </summary>
internal sealed class SharedAir
{
    private readonly ConcurrentDictionary<CureLaw, Lazy<CureClock>> _clocks = new();

    private SharedAir(Climate air, IReadOnlyList<RepairInput> vehicles)
    {
        Panel = PanelClimate.FollowingAir(air);
        var longest = new PlanTime(vehicles[0].Repair.Now, vehicles.Max(PlanningCase.End));
        From = vehicles.Min(input => Instant.Min(PlanningCase.EarliestFact(input.Repair), longest.Origin));
        To = Cures.EndOf(longest);
        Application = new ApplicationTimes(new Cures(Panel, longest, From, this), longest);
    }

    /// <summary>What the joints of all of them feel.</summary>
    public PanelClimate Panel { get; }

    /// <summary>Start of every clock.</summary>
    public Instant From { get; }

    /// <summary>End of every clock.</summary>
    public Instant To { get; }

    /// <summary>Application times up to the latest horizon of any of them.</summary>
    public ApplicationTimes Application { get; }

    /// <summary>The clock of a law, built when first asked for. Safe from several threads.</summary>
    public CureClock Clock(CureLaw law) => _clocks.GetOrAdd(law, asked => new(() => CureClock.For(asked, Panel, From, To))).Value;

    /// <summary>For each vehicle what it shares with others; null where its panel is not simply in the shop's air.</summary>
    public static ImmutableArray<SharedAir?> For(ImmutableArray<RepairInput> inputs)
    {
        var shared = inputs.Where(MayShare).GroupBy(Key).ToDictionary(group => group.Key, group => new SharedAir(group.Key.Air, [.. group]));
        return [.. inputs.Select(input => MayShare(input) ? shared[Key(input)] : null)];
    }

    private static bool MayShare(RepairInput input) => input.Repair.Panel is null;

    /// <summary>Climates have no equality of their own: the same object is the same air.</summary>
    private static (Climate Air, Instant Now) Key(RepairInput input) => (input.Climate, input.Repair.Now);
}
