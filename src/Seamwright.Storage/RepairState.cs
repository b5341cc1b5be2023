namespace Seamwright.Storage;

/// <summary>Where a repair stands for the shop.</summary>
public enum RepairState
{
    /// <summary>To be planned and worked on.</summary>
    Open,

    /// <summary>Handed over.</summary>
    Delivered,

    /// <summary>Put away: nothing more will happen to it.</summary>
    Closed,
}
