using System.Globalization;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Suppositions;

/// <summary>One more person with the skills, hours, trainings and rate of somebody in the shop.</summary>
/// <param name="Like">Whom the new person is like.</param>
public sealed record OneMorePerson(string Like) : Supposition
{
    /// <inheritdoc/>
    public override Reason InWords => Reason.Of("suppose-person", Like);

    /// <inheritdoc/>
    public override string Key => $"person {Like}";

    /// <inheritdoc/>
    public override Supposed Apply(RepairInput input)
    {
        var people = input.Shop.People;
        if (people.FirstOrDefault(person => person.Id == Like) is not { } model)
            return Not("suppose-no-person", Like, people.Select(person => person.Id).ToList());
        int number = 2;
        while (people.Any(person => person.Id == Name(number)))
            number++;
        return Fits(input with { Shop = input.Shop with { People = people.Add(model with { Id = Name(number) }) } });
    }

    private string Name(int number) => string.Create(CultureInfo.InvariantCulture, $"{Like} {number}");
}

/// <summary>Somebody is away.</summary>
/// <param name="Who">The person.</param>
public sealed record PersonAway(string Who) : Supposition
{
    /// <inheritdoc/>
    public override Reason InWords => Reason.Of("suppose-away", Who);

    /// <inheritdoc/>
    public override string Key => $"away {Who}";

    /// <inheritdoc/>
    public override Supposed Apply(RepairInput input)
    {
        var people = input.Shop.People;
        var left = people.RemoveAll(person => person.Id == Who);
        return left.Length == people.Length
            ? Not("suppose-no-person", Who, people.Select(person => person.Id).ToList())
            : Fits(input with { Shop = input.Shop with { People = left } });
    }
}

/// <summary>The shop has so many lamps; the last one is needed elsewhere where there are none.</summary>
/// <param name="Count">How many. [0…20]</param>
public sealed record LampsThere(int Count) : Supposition
{
    /// <inheritdoc/>
    public override Reason InWords => Count == 0 ? Reason.Of("suppose-no-lamp") : Reason.Of("suppose-lamps", Count);

    /// <inheritdoc/>
    public override string Key => string.Create(CultureInfo.InvariantCulture, $"lamps {Count}");

    /// <inheritdoc/>
    public override Supposed Apply(RepairInput input)
    {
        if (Count == 0)
            return Fits(input with { Shop = input.Shop with { Lamps = null } });
        return input.Shop.Lamps is { } lamps
            ? Fits(input with { Shop = input.Shop with { Lamps = lamps with { Count = Count } } })
            : Not("suppose-lamps-unknown");
    }
}

/// <summary>Whatever is ordered comes later than the supplier says.</summary>
/// <param name="By">How much later. [&gt; 0]</param>
public sealed record DeliveryLate(Duration By) : Supposition
{
    /// <inheritdoc/>
    public override Reason InWords => Reason.Of("suppose-delivery-late", By);

    /// <inheritdoc/>
    public override string Key => string.Create(CultureInfo.InvariantCulture, $"delivery late {By.TotalSeconds:0} s");

    /// <inheritdoc/>
    public override Supposed Apply(RepairInput input) => input.Shop.Supplier is { } supplier
        ? Fits(input with { Shop = input.Shop with { Supplier = supplier with { DeliveryTime = supplier.DeliveryTime + By } } })
        : Not("suppose-no-supplier");
}

/// <summary>Nothing can be ordered.</summary>
public sealed record NoDelivery : Supposition
{
    /// <inheritdoc/>
    public override Reason InWords => Reason.Of("suppose-no-delivery");

    /// <inheritdoc/>
    public override string Key => "no delivery";

    /// <inheritdoc/>
    public override Supposed Apply(RepairInput input) => Fits(input with { Shop = input.Shop with { Supplier = null } });
}

/// <summary>A pack is not on the shelf.</summary>
/// <param name="Pack">The pack.</param>
public sealed record PackGone(PackId Pack) : Supposition
{
    /// <inheritdoc/>
    public override Reason InWords => Reason.Of("suppose-pack-gone", Pack);

    /// <inheritdoc/>
    public override string Key => $"pack gone {Pack}";

    /// <inheritdoc/>
    public override Supposed Apply(RepairInput input)
    {
        var packs = input.Stock.Packs;
        var left = packs.RemoveAll(pack => pack.Id == Pack);
        return left.Length == packs.Length
            ? Not("suppose-no-pack", Pack, packs.Select(pack => pack.Id).ToList())
            : Fits(input with { Stock = input.Stock with { Packs = left } });
    }
}
