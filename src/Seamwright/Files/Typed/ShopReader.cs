using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using Seamwright.Files.Format;
using Seamwright.Files.Values;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Units;

namespace Seamwright.Files.Typed;

/// <summary>Reads a shop.</summary>
internal static class ShopReader
{
    private static readonly ImmutableDictionary<Profile, Duration> UsualMinutes = new (Profile, double)[]
    {
        (Profile.Round, 4), (Profile.HalfRound, 4), (Profile.Fillet, 4), (Profile.Strip, 4), (Profile.Brushed, 6),
        (Profile.SkipBrushed, 6), (Profile.Sprayed, 7), (Profile.Ditch, 8), (Profile.Dab, 0.5), (Profile.None, 0),
    }.ToImmutableDictionary(pair => pair.Item1, pair => Duration.FromMinutes(pair.Item2));

    public static Shop Read(MapReader map)
    {
        string currency = map.Text("currency") ?? "?";
        return new Shop
        {
            Name = map.Text("name") ?? "",
            Zone = Zone(map, "zone") ?? DateTimeZone.Utc,
            Currency = currency,
            Units = map.Word<UnitSystem>("units") ?? UnitSystem.Metric,
            Culture = Culture(map),
            Hours = Shifts(map, "hours"),
            Holidays = [.. map.Items("holidays").Select(Times.Date).OfType<LocalDate>()],
            WeekendWithSlot = map.Map("weekend_with_slot") is { } weekend ? Shift(weekend) : null,
            People = People(map, currency),
            Bays = map.Whole("bays"),
            Lamps = map.Map("lamps") is { } lamps ? Lamps(lamps, currency) : null,
            Booth = map.Map("booth") is { } booth ? Booth(booth, currency) : null,
            Supplier = map.Map("supplier") is { } supplier ? Supplier(supplier, currency) : null,
            Times = map.Map("minutes") is { } minutes ? Minutes(minutes) : new WorkTimes { PerMetre = UsualMinutes },
            Amounts = map.Map("amounts") is { } amounts ? Amounts(amounts, currency) : new Amounts { NozzlePrice = Money.Zero },
            TimeValue = TimeValue(map, currency),
            BakeTemperature = map.Temperature("bake") ?? Temperature.FromCelsius(60),
            PanelTimeConstant = map.Duration("panel_time_constant") ?? Duration.FromHours(3),
            UsualPrimer = map.Id("usual_primer") is { } primer ? new MaterialId(primer) : null,
            Spreads = map.Map("uncertainty") is { } uncertainty ? SpreadsReader.Read(uncertainty) : new Spreads(),
        };
    }

    /// <summary>A time zone by its IANA name.</summary>
    public static DateTimeZone? Zone(MapReader map, string key)
    {
        if (map.Text(key) is not { } name)
            return null;
        var zone = DateTimeZoneProviders.Tzdb.GetZoneOrNull(name);
        if (zone is null)
            map.Problem(key, "time.zone-unknown", Words.Quote(name));
        return zone;
    }

    private static Money? Price(MapReader map, string key, string currency) =>
        map.Amount(key) is { } amount ? new Money(amount, currency) : null;

    private static string Culture(MapReader map)
    {
        string name = map.Text("culture") ?? "en-GB";
        try
        {
            return CultureInfo.GetCultureInfo(name, predefinedOnly: true).Name;
        }
        catch (CultureNotFoundException)
        {
            map.Problem("culture", "shop.culture-unknown", Words.Quote(name));
            return "en-GB";
        }
    }

    private static ImmutableArray<Shift> Shifts(MapReader map, string key) =>
        [.. map.Maps(key).Select(Shift).OfType<Shift>().OrderBy(shift => shift.From)];

    private static Shift? Shift(MapReader map)
    {
        var breaks = map.Items("breaks").Select(Times.Break).OfType<Break>().OrderBy(pause => pause.From).ToImmutableArray();
        if (map.Days("days") is not { } days || map.Clock("from") is not { } from || map.Clock("to") is not { } to)
            return null;
        if (to <= from)
        {
            map.Problem("to", "time.end-before-start", Words.Quote(map.Text("to") ?? ""), Words.Quote(map.Text("from") ?? ""));
            return null;
        }

        if (breaks.Any(pause => pause.From < from || pause.To > to))
            map.Problem("breaks", "shop.break-outside-hours");
        else if (breaks.Zip(breaks.Skip(1)).Any(pair => pair.Second.From < pair.First.To))
            map.Problem("breaks", "shop.breaks-overlap");
        return new(days, from, to, breaks);
    }

    private static ImmutableArray<Person> People(MapReader map, string currency)
    {
        var people = ImmutableArray.CreateBuilder<Person>();
        var names = new HashSet<string>();
        foreach (var person in map.Maps("people"))
        {
            string id = person.Id("id") ?? "";
            if (id.Length > 0 && !names.Add(id))
                person.Problem("id", "reference.twice", Words.Quote(id));
            ImmutableDictionary<string, LocalDate>? trainings = null;
            if (person.Has("trainings"))
            {
                trainings = ImmutableDictionary<string, LocalDate>.Empty;
                foreach (var (name, _, value) in person.Table("trainings"))
                    trainings = Times.Date(value) is { } until ? trainings.SetItem(name, until) : trainings;
            }

            people.Add(new(
                id,
                person.Text("role") ?? id,
                [.. person.WordList<Skill>("skills")],
                Price(person, "per_hour", currency) ?? Money.Zero,
                Shifts(person, "hours"),
                trainings));
        }

        if (map.Has("people") && people.Count == 0)
            map.Problem("people", "shop.nobody");
        return people.ToImmutable();
    }

    private static LampPark Lamps(MapReader map, string currency)
    {
        var ramps = map.Maps("ramps")
            .Select(ramp => (Target: ramp.Temperature("to"), Time: ramp.Duration("in")))
            .Where(ramp => ramp is { Target: not null, Time: not null })
            .Select(ramp => new LampRamp(ramp.Target!.Value, ramp.Time!.Value))
            .OrderBy(ramp => ramp.Target);
        return new(
            map.Whole("count") ?? 1,
            Price(map, "per_started_hour", currency) ?? Money.Zero,
            map.Duration("set_up") ?? Duration.FromMinutes(5),
            [.. ramps],
            map.Duration("cooling") ?? Duration.FromMinutes(20),
            null,
            null);
    }

    private static Booth Booth(MapReader map, string currency)
    {
        var from = map.Clock("from") ?? new LocalTime(6, 0);
        var to = map.Clock("to") ?? new LocalTime(22, 0);
        if (to <= from)
            map.Problem("to", "time.end-before-start", Words.Quote(map.Text("to") ?? "22:00"), Words.Quote(map.Text("from") ?? "06:00"));
        return new(
            Price(map, "per_started_hour", currency) ?? Money.Zero,
            map.Temperature("panel") ?? default,
            map.Duration("ramp") ?? Duration.FromMinutes(20),
            from,
            to);
    }

    private static Supplier Supplier(MapReader map, string currency)
    {
        var (from, to) = (map.Clock("from") ?? default, map.Clock("to") ?? LocalTime.MaxValue);
        if (to <= from)
            map.Problem("to", "time.end-before-start", Words.Quote(map.Text("to") ?? ""), Words.Quote(map.Text("from") ?? ""));
        return new(
            Price(map, "per_order", currency) ?? Money.Zero,
            map.Duration("delivery_time") ?? Duration.Zero,
            map.Days("days") ?? [.. Enumerable.Range(1, 5).Select(day => (IsoDayOfWeek)day)],
            from,
            to,
            [.. map.Ids("lacks").Select(item => item.Name)]);
    }

    private static Amounts Amounts(MapReader map, string currency)
    {
        var usual = new Amounts { NozzlePrice = Price(map, "nozzle_price", currency) ?? Money.Zero };
        return usual with
        {
            UseUpDays = map.Whole("use_up_days") ?? usual.UseUpDays,
            BeadLoss = map.Share("bead_loss") ?? usual.BeadLoss,
            Dab = map.Volume("dab"),
            StripEnd = map.Length("strip_end") ?? usual.StripEnd,
            NozzleHeld = map.Volume("nozzle_held") ?? usual.NozzleHeld,
            NozzlePurge = map.Volume("nozzle_purge") ?? usual.NozzlePurge,
        };
    }

    private static TimeValue TimeValue(MapReader shop, string currency)
    {
        var usualDays = Enumerable.Range(1, 6).Select(day => (IsoDayOfWeek)day).ToImmutableHashSet();
        if (shop.Map("time_value") is not { } map)
            return new(Money.Zero, usualDays, Money.Zero, Money.Zero);
        return new(
            Price(map, "bay_day", currency) ?? Money.Zero,
            map.Days("bay_days") ?? usualDays,
            Price(map, "late_per_started_hour", currency) ?? new Money(0, currency),
            Price(map, "late_at_most", currency) ?? new Money(decimal.MaxValue, currency))
        {
            MovedWork = Price(map, "moved_work", currency) ?? new Money(TimeValueDefaults.UsualMovedWork, currency),
            MovedPromise = Price(map, "moved_promise", currency) ?? new Money(TimeValueDefaults.UsualMovedPromise, currency),
        };
    }

    private static WorkTimes Minutes(MapReader map)
    {
        var usual = new WorkTimes { PerMetre = UsualMinutes };
        Duration Time(string key, Duration fallback) => map.Duration(key) ?? fallback;
        var perMetre = UsualMinutes;
        foreach (var (profile, value) in map.WordTable<Profile>("per_metre"))
        {
            if (QuantityText.Read(value, Measures.Work) is { } seconds)
                perMetre = perMetre.SetItem(profile, Composite.Duration(seconds));
        }

        var factors = ImmutableDictionary<Position, double>.Empty;
        foreach (var (position, value) in map.WordTable<Position>("position_factors"))
        {
            if (Plain.Number(value, 1, 10) is { } factor)
                factors = factors.SetItem(position, factor);
        }

        return new WorkTimes
        {
            PerMetre = perMetre,
            PositionFactors = factors,
            StrictLookFactor = map.Number("strict_look_factor") ?? 1,
            StripInPasteFactor = map.Number("strip_in_paste_factor") ?? 1.5,
            OnePartSetUp = Time("one_part_set_up", usual.OnePartSetUp),
            TwoPartSetUp = Time("two_part_set_up", usual.TwoPartSetUp),
            NewNozzle = Time("new_nozzle", usual.NewNozzle),
            PrimerByGun = Time("primer_by_gun", usual.PrimerByGun),
            PrimerByAerosol = Time("primer_by_aerosol", usual.PrimerByAerosol),
            SpotRePrime = Time("spot_re_prime", usual.SpotRePrime),
            StripPerMetre = Time("strip_per_metre", usual.StripPerMetre),
            AbradePerMetre = Time("abrade_per_metre", usual.AbradePerMetre),
            AbradePerSquareMetre = Time("abrade_per_square_metre", usual.AbradePerSquareMetre),
            FoamPerCavity = Time("foam_per_cavity", usual.FoamPerCavity),
            WaxPerCavity = Time("wax_per_cavity", usual.WaxPerCavity),
            WaxPerCar = Time("wax_per_car", usual.WaxPerCar),
            StoneChipSetUp = Time("stone_chip_set_up", usual.StoneChipSetUp),
            StoneChipPerSquareMetre = Time("stone_chip_per_square_metre", usual.StoneChipPerSquareMetre),
            RecordLook = Time("record_look", usual.RecordLook),
            FinalCheck = Time("final_check", usual.FinalCheck),
            Paint = Time("paint", usual.Paint),
            Refit = Time("refit", usual.Refit),
            Level = Time("level", usual.Level),
        };
    }
}
