namespace Seamwright.Scheduling.Solving;

/// <summary>Interchangeable batches are used in order, so that the search does not meet each plan in many disguises.</summary>
internal static class SymmetryConstraints
{
    public static void Add(ProjectModel model)
    {
        foreach (List<Batch> group in SymmetryClaims.Groups(model.Project))
        {
            for (int i = 1; i < group.Count; i++)
                InOrder(model, model.Batches[group[i - 1].Id], model.Batches[group[i].Id]);
        }
    }

    private static void InOrder(ProjectModel model, BatchVariables earlier, BatchVariables later)
    {
        model.Model.AddImplication(later.Used, earlier.Used);
        if (ShareOneUnit(model.Project, earlier.Data))
            model.Model.Add(later.Start.Minutes >= earlier.End.Minutes).OnlyEnforceIf(later.Used);
        else
            model.Model.Add(later.Start.Minutes >= earlier.Start.Minutes).OnlyEnforceIf(later.Used);
    }

    /// <summary>Do all crews need the same single unit? Then such batches follow one another.</summary>
    private static bool ShareOneUnit(Project project, Batch batch) =>
        project.Resources.Any(r => r.Capacity == 1 && !batch.Crews.IsEmpty && batch.Crews.All(c => c.Demands.Any(d => d.Resource == r.Id)));
}
