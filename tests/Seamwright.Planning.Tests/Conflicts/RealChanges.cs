using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Planning.Mapping;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Tests.Conflicts;

/// <summary>Facts that map simply onto the input, really changed there.</summary>
internal static class RealChanges
{
    /// <summary>The input with the fact as it should be; null = the fact is no single line of the input.</summary>
    public static RepairInput? Of(RepairInput input, Fact fact)
    {
        string kind = fact.Id[(fact.Id.IndexOf('/', StringComparison.Ordinal) + 1)..];
        return fact.Id switch
        {
            FactIds.Slots => LaterSlots(input),
            FactIds.Hours => RoundTheClock(input),
            FactIds.Supplier => AlwaysDelivering(input),
            "nozzle/stock" => input with { Stock = input.Stock with { Nozzles = input.Stock.Nozzles.Add(new NozzleStock(100, null)) } },
            _ when kind == "stock" => MorePacks(input, new MaterialId(fact.Id[..^"/stock".Length])),
            _ when kind == "handling.masked-or-rubbed" => Unmasked(input, fact.Place!.Value),
            _ => null,
        };
    }

    private static RepairInput LaterSlots(RepairInput input)
    {
        var last = input.Repair.PaintSlots.Append(input.Repair.Now).Max();
        return input with { Repair = input.Repair with { PaintSlots = [.. input.Repair.PaintSlots, .. Enumerable.Range(1, 3).Select(day => last + Duration.FromDays(day))] } };
    }

    private static RepairInput RoundTheClock(RepairInput input)
    {
        ImmutableArray<Shift> always = [new Shift([.. Enum.GetValues<IsoDayOfWeek>().Where(day => day != IsoDayOfWeek.None)], LocalTime.Midnight, new LocalTime(23, 59), [])];
        return input with { Shop = input.Shop with { Hours = always, Holidays = [], People = [.. input.Shop.People.Select(person => person with { Shifts = [] })] } };
    }

    private static RepairInput AlwaysDelivering(RepairInput input)
    {
        var days = Enum.GetValues<IsoDayOfWeek>().Where(day => day != IsoDayOfWeek.None).ToImmutableHashSet();
        var supplier = new Supplier(new Money(5, input.Shop.Currency), input.Shop.Supplier?.DeliveryTime ?? Duration.FromMinutes(60), days, LocalTime.Midnight, new LocalTime(23, 59), []);
        return input with { Shop = input.Shop with { Supplier = supplier } };
    }

    private static RepairInput MorePacks(RepairInput input, MaterialId material)
    {
        var sheet = input.Sheets.First(sheet => sheet.Id == material);
        var packs = Enumerable.Range(1, 9).Select(number => new Pack { Id = new PackId($"bought {material} {number}"), Material = material, Left = sheet.Pack.Content, StripLeft = sheet.Pack.StripLength });
        return input with { Stock = input.Stock with { Packs = input.Stock.Packs.AddRange(packs) } };
    }

    private static RepairInput Unmasked(RepairInput input, PlaceId place) => input with
    {
        Repair = input.Repair with { Joints = [.. input.Repair.Joints.Select(joint => joint.Id == place ? joint with { Masked = false, Rubbed = false } : joint)] },
    };
}
