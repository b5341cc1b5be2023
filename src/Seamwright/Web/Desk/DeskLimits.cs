using NodaTime;

namespace Seamwright.Program.Web.Desk;

/// <summary>How much the desk spends on a plan of the shop before it shows it.</summary>
internal sealed record DeskLimits
{
    /// <summary>Longest search.</summary>
    public Duration LongestSearch { get; init; } = Duration.FromSeconds(6);

    /// <summary>Samples drawn to tell how likely a plan is kept; a number.</summary>
    public int Samples { get; init; } = 20_000;
}
