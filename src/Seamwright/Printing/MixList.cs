using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>Components to mix in a pot, by volume and by weight.</summary>
internal static class MixList
{
    public static void Write(Page page, Plan plan)
    {
        if (plan.Mixes.IsEmpty)
            return;
        page.Title(page.Say("print.mixes"));
        foreach (var mix in plan.Mixes)
        {
            string text = page.Say("print.mix", mix.StepId, mix.Material, mix.Total, mix.Base, mix.Hardener);
            if (mix.BaseMass is { } baseMass && mix.HardenerMass is { } hardenerMass)
                text += page.Say("print.mix-weight", baseMass, hardenerMass);
            if (mix.UseBy is { } useBy)
                text += page.Say("print.mix-use-by", useBy);
            page.Bullet(text);
        }
    }
}
