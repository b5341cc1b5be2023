using System.Collections.Immutable;
using Seamwright.Planning.Mapping;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Replanning;

/// <summary>A new plan held against what was announced, work by work and place by place.</summary>
internal static class MoveReader
{
    /// <summary>What moves, by the new start, and what stays.</summary>
    public static (ImmutableArray<Move> Moves, ImmutableArray<Step> Stays) Compare(RepairInput input, Announcement announced, Plan plan)
    {
        var shop = input.Shop;
        var moves = new List<Move>();
        var stays = new List<Step>();
        var planned = plan.Steps.Where(step => step.Person is not null && step.Kind != StepKind.Paint).ToList();
        foreach (var after in planned)
        {
            var pairs = (after.Places.IsEmpty ? [(PlaceId?)null] : after.Places.Select(place => (PlaceId?)place)).Select(place => (Place: place, Before: Find(announced, after.Kind, place)));
            var hands = OtherHands(input, announced, after);
            foreach (var alike in pairs.GroupBy(pair => pair.Before))
            {
                ImmutableArray<PlaceId> places = [.. alike.Select(pair => pair.Place).OfType<PlaceId>()];
                if (alike.Key is not { } before)
                    moves.Add(new Move(MoveKind.Added, after.Kind, places, null, after, new Money(0, shop.Currency), []));
                else if (KindOf(shop, before, after) is { } kind)
                {
                    moves.Add(new Move(kind, after.Kind, places, before, after, OtherDays(shop, before, after, IsWholeCar(after.Kind) ? 1 : places.Length) + hands, []));
                    hands = new Money(0, shop.Currency);
                }
                else
                    stays.Add(after with { Places = places });
            }
        }
        foreach (var before in announced.Works)
        {
            ImmutableArray<PlaceId> left = [.. before.Places.Where(place => !planned.Exists(step => step.Kind == before.Kind && step.Places.Contains(place)))];
            if (before.Places.IsEmpty ? !planned.Exists(step => step.Kind == before.Kind) : !left.IsEmpty)
                moves.Add(new Move(MoveKind.Dropped, before.Kind, left, before, null, new Money(0, shop.Currency), []));
        }
        return ([.. moves.OrderBy(move => (move.After ?? move.Before)!.Start)], [.. stays.OrderBy(step => step.Start)]);
    }

    private static Step? Find(Announcement announced, StepKind kind, PlaceId? place) =>
        announced.Works.FirstOrDefault(step => step.Kind == kind && (place is null ? step.Places.IsEmpty : step.Places.Contains(place.Value)));

    private static bool IsWholeCar(StepKind kind) => !Announcement.NeedsPlace(kind);

    private static MoveKind? KindOf(Shop shop, Step before, Step after) =>
        IsOtherDay(shop, before, after) ? MoveKind.OtherDay
        : before.Person != after.Person ? MoveKind.OtherPerson
        : before.Material != after.Material ? MoveKind.OtherMaterial
        : before.Start != after.Start ? MoveKind.OtherTime
        : null;

    private static bool IsOtherDay(Shop shop, Step before, Step after) => before.Start.InZone(shop.Zone).Date != after.Start.InZone(shop.Zone).Date;

    /// <summary>A price for each place on another day.</summary>
    private static Money OtherDays(Shop shop, Step before, Step after, int places) =>
        Announcement.IsPriced(after.Kind) && IsOtherDay(shop, before, after) ? new Money(0, shop.Currency) + (shop.TimeValue.MovedWork * places) : new Money(0, shop.Currency);

    /// <summary>One price for a session, or a single work, in hands that were not announced for it.</summary>
    private static Money OtherHands(RepairInput input, Announcement announced, Step after)
    {
        bool session = after.Kind == StepKind.Seal || (after.Kind == StepKind.Prime && !input.Repair.Bonds.Any(bond => after.Places.Contains(bond.Id)));
        var people = session ? announced.PeopleFor(after.Kind, after.Material)
            : announced.Find(after.Kind, after.Places) is { Person: { } person } ? [person]
            : ImmutableHashSet<string>.Empty;
        bool moved = Announcement.IsPriced(after.Kind) && !people.IsEmpty && !people.Contains(after.Person!);
        return new Money(0, input.Shop.Currency) + (moved ? input.Shop.TimeValue.MovedWork : Money.Zero);
    }
}
