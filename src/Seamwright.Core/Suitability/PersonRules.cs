using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Shops;

namespace Seamwright.Suitability;

/// <summary>A person thought of for a material on a day.</summary>
/// <param name="Person">Person.</param>
/// <param name="Sheet">Material.</param>
/// <param name="Day">Day of the work in the shop's zone.</param>
public sealed record PersonCase(Person Person, DataSheet Sheet, LocalDate Day);

/// <summary>May this person apply it?</summary>
public static class PersonRules
{
    /// <summary>Every rule on people.</summary>
    public static ImmutableArray<Rule<PersonCase>> All { get; } =
    [
        new("person.skill", "the shop's own list", Skilled),
        new("person.training", "data sheet; for diisocyanates Regulation (EU) 2020/1149", Trained),
    ];

    /// <summary>The full list of verdicts, one a rule in the order of <see cref="All"/>.</summary>
    public static ImmutableArray<Verdict> Judge(Person person, DataSheet sheet, LocalDate day)
    {
        var subject = new PersonCase(person, sheet, day);
        return [.. All.Select(rule => rule.Judge(subject))];
    }

    /// <summary>The skill that applying a material takes.</summary>
    public static Skill SkillFor(DataSheet sheet) => sheet.Use switch
    {
        MaterialUse.Primer or MaterialUse.EtchPrimer or MaterialUse.WeldThroughPrimer => Skill.Prime,
        MaterialUse.StoneChip => Skill.Paint,
        MaterialUse.CavityWax => Skill.Wax,
        _ => Skill.Seal,
    };

    private static Finding Skilled(PersonCase subject)
    {
        var skill = SkillFor(subject.Sheet);
        return subject.Person.Skills.Contains(skill)
            ? Finding.Fine("person-has-skill", subject.Person.Id, skill)
            : Finding.Refused("person-lacks-skill", subject.Person.Id, skill, subject.Sheet.Id);
    }

    private static Finding Trained(PersonCase subject)
    {
        if (subject.Sheet.Trainings.IsEmpty)
            return Finding.NotConcerned;
        if (subject.Person.Trainings is not { } trainings)
            return Finding.Advice("training-not-recorded", subject.Person.Id, subject.Sheet.Trainings[0], subject.Sheet.Id);

        foreach (string training in subject.Sheet.Trainings)
        {
            if (!trainings.TryGetValue(training, out var through))
                return Finding.Refused("training-missing", subject.Person.Id, training, subject.Sheet.Id);
            if (subject.Day > through)
                return Finding.Refused("training-lapsed", subject.Person.Id, training, through);
        }
        return Finding.Fine("training-current", subject.Person.Id, subject.Sheet.Trainings[0], trainings[subject.Sheet.Trainings[0]]);
    }
}
