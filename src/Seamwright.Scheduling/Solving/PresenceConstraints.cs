using Google.OrTools.Sat;

namespace Seamwright.Scheduling.Solving;

/// <summary>An activity with triggers is present exactly when one of them holds.</summary>
internal static class PresenceConstraints
{
    public static void Add(ProjectModel model)
    {
        foreach (ActivityVariables activity in model.Groups)
        {
            if (activity.Present is not { } present)
                continue;
            ILiteral?[] triggers = [.. activity.Data.PresentWhen.SelectMany(t => Literals(model, t))];
            if (triggers.Any(t => t is null))
            {
                model.Model.AddBoolAnd([present]);
                continue;
            }

            foreach (ILiteral? trigger in triggers)
                model.Model.AddImplication(trigger!, present);
            model.Model.AddBoolOr([.. triggers.Select(t => t!), present.Not()]);
        }
    }

    private static ILiteral?[] Literals(ProjectModel model, Trigger trigger)
    {
        switch (trigger)
        {
            case Trigger.BatchUsed used:
                return [model.Batches[used.Batch].Used];
            case Trigger.InMode inMode:
                ActivityVariables other = model.Activities[inMode.Activity];
                int[] modes = other.Numbers(inMode.Activity, inMode.Modes);
                return modes.Length == other.Chosen.Length ? [other.Present] : [.. modes.Select(k => other.Chosen[k])];
            default:
                throw new InvalidOperationException($"Unknown trigger {trigger}.");
        }
    }
}
