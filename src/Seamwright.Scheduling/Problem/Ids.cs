namespace Seamwright.Scheduling;

/// <summary>Names an activity within one project.</summary>
/// <param name="Value">Any non-empty text, unique among the project's activities.</param>
public readonly record struct ActivityId(string Value)
{
    /// <summary>The text itself.</summary>
    public override string ToString() => Value;
}

/// <summary>Names a mode within one activity; two activities may use the same mode id.</summary>
/// <param name="Value">Any non-empty text, unique among the activity's modes.</param>
public readonly record struct ModeId(string Value)
{
    /// <summary>The text itself.</summary>
    public override string ToString() => Value;
}

/// <summary>Names a batch within one project.</summary>
/// <param name="Value">Any non-empty text, unique among the project's batches.</param>
public readonly record struct BatchId(string Value)
{
    /// <summary>The text itself.</summary>
    public override string ToString() => Value;
}

/// <summary>Names a crew within one batch.</summary>
/// <param name="Value">Any non-empty text, unique among the batch's crews.</param>
public readonly record struct CrewId(string Value)
{
    /// <summary>The text itself.</summary>
    public override string ToString() => Value;
}

/// <summary>Names a renewable resource within one project.</summary>
/// <param name="Value">Any non-empty text, unique among the project's resources.</param>
public readonly record struct ResourceId(string Value)
{
    /// <summary>The text itself.</summary>
    public override string ToString() => Value;
}

/// <summary>Names a consumable within one project.</summary>
/// <param name="Value">Any non-empty text, unique among the project's consumables.</param>
public readonly record struct ConsumableId(string Value)
{
    /// <summary>The text itself.</summary>
    public override string ToString() => Value;
}

/// <summary>Names a lot within one project.</summary>
/// <param name="Value">Any non-empty text, unique among the project's lots.</param>
public readonly record struct LotId(string Value)
{
    /// <summary>The text itself.</summary>
    public override string ToString() => Value;
}

/// <summary>Names an unlock (for example one delivery) within one project.</summary>
/// <param name="Value">Any non-empty text, unique among the project's unlocks.</param>
public readonly record struct UnlockId(string Value)
{
    /// <summary>The text itself.</summary>
    public override string ToString() => Value;
}
