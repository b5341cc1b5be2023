namespace Seamwright.Scheduling;

/// <summary>Lower bounds of a project's cost that need no search.</summary>
public static class CostBounds
{
    /// <summary>
    /// The cheapest mode of every activity that is always present, its work in a batch at the batch's cheapest crew, set-ups left out.
    /// No schedule costs less, as long as batches, lots, unlocks and optional activities cost nothing negative.
    /// </summary>
    /// <param name="project">A project without mistakes.</param>
    /// <returns>Lower bound. [whole money units]</returns>
    public static long WithoutTime(Project project)
    {
        var cheapestMinute = project.Batches.ToDictionary(
            batch => batch.Id,
            batch => batch.Crews.IsEmpty ? 0 : batch.Crews.Min(crew => crew.CostPerMinute));
        long bound = 0;
        foreach (Activity activity in project.Activities)
        {
            if (activity.PresentWhen.IsEmpty)
                bound += activity.Modes.Min(mode => mode.Cost + (mode.Batch is { } batch ? mode.Work * cheapestMinute[batch] : 0));
        }

        return bound;
    }
}
