using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Units;

namespace Seamwright.Shops;

/// <summary>What a person can do.</summary>
public enum Skill
{
    /// <summary>Cleans, abrades, strips coatings.</summary>
    Clean,

    /// <summary>Masks.</summary>
    Mask,

    /// <summary>Applies primer.</summary>
    Prime,

    /// <summary>Applies sealer, strip, adhesive, anti-flutter and foam.</summary>
    Seal,

    /// <summary>Welds, rivets, fits panels.</summary>
    Weld,

    /// <summary>Waxes closed sections.</summary>
    Wax,

    /// <summary>Refits trim.</summary>
    Refit,

    /// <summary>Records looks, checks drains and the finished work.</summary>
    Check,

    /// <summary>Sprays coatings and paint, runs the booth.</summary>
    Paint,
}

/// <summary>A person of the shop.</summary>
/// <param name="Id">Short name, unique in the shop.</param>
/// <param name="Role">Role in words, for example <c>technician</c>.</param>
/// <param name="Skills">What the person can do.</param>
/// <param name="PerHour">Labour cost per hour.</param>
/// <param name="Shifts">Own working hours; empty = the shop's hours.</param>
/// <param name="Trainings">Certificates and the last day they are valid; null = the shop keeps no training list for this person.</param>
public sealed record Person(
    string Id,
    string Role,
    ImmutableHashSet<Skill> Skills,
    Money PerHour,
    ImmutableArray<Shift> Shifts,
    ImmutableDictionary<string, LocalDate>? Trainings)
{
    /// <summary>When the person is not there, ascending; empty = always there in the working hours.</summary>
    public ImmutableArray<Interval> Absences { get; init; } = [];

    /// <summary>True where the person is away at some moment from <paramref name="from"/> to <paramref name="to"/>.</summary>
    public bool IsAway(Instant from, Instant to) => Absences.Any(away => away.Start < to && from < away.End);
}

/// <summary>Hours on some weekdays.</summary>
/// <param name="Days">Weekdays.</param>
/// <param name="From">Start.</param>
/// <param name="To">End, after the start on the same day.</param>
/// <param name="Breaks">Breaks inside, ascending.</param>
public sealed record Shift(ImmutableHashSet<IsoDayOfWeek> Days, LocalTime From, LocalTime To, ImmutableArray<Break> Breaks);

/// <summary>A break inside a shift.</summary>
/// <param name="From">Start.</param>
/// <param name="To">End.</param>
public readonly record struct Break(LocalTime From, LocalTime To);

/// <summary>Infrared lamps of the shop.</summary>
/// <param name="Count">How many.</param>
/// <param name="PerStartedHour">Cost of a started hour.</param>
/// <param name="SetUp">Work to set one up.</param>
/// <param name="Ramps">Targets offered: panel temperature and how long it takes to get there; ascending.</param>
/// <param name="Cooling">Time until the panel is back at its own temperature.</param>
/// <param name="BusyUntil">The lamp is not free before this; null = free.</param>
/// <param name="FreeUntil">The lamp is needed elsewhere from this on; null = stays free.</param>
public sealed record LampPark(
    int Count,
    Money PerStartedHour,
    Duration SetUp,
    ImmutableArray<LampRamp> Ramps,
    Duration Cooling,
    Instant? BusyUntil,
    Instant? FreeUntil);

/// <summary>A lamp setting.</summary>
/// <param name="Target">Panel temperature held.</param>
/// <param name="Ramp">Time to reach it.</param>
public readonly record struct LampRamp(Temperature Target, Duration Ramp);

/// <summary>The booth outside a paint slot.</summary>
/// <param name="PerStartedHour">Cost of a started hour.</param>
/// <param name="PanelTemperature">Panel temperature reached.</param>
/// <param name="Ramp">Time to reach it.</param>
/// <param name="From">Earliest hour of the day at which the painter uses it.</param>
/// <param name="To">Latest hour of the day.</param>
public sealed record Booth(Money PerStartedHour, Temperature PanelTemperature, Duration Ramp, LocalTime From, LocalTime To);

/// <summary>The supplier that can be reached at short notice.</summary>
/// <param name="PerOrder">Delivery cost of one order.</param>
/// <param name="DeliveryTime">From order to arrival.</param>
/// <param name="Days">Weekdays on which it delivers.</param>
/// <param name="From">Opening.</param>
/// <param name="To">Last order.</param>
/// <param name="Lacks">Materials it cannot deliver, by name.</param>
public sealed record Supplier(
    Money PerOrder,
    Duration DeliveryTime,
    ImmutableHashSet<IsoDayOfWeek> Days,
    LocalTime From,
    LocalTime To,
    ImmutableHashSet<string> Lacks)
{
    /// <summary>No order is taken before this; null = whenever it is open.</summary>
    public Instant? ClosedUntil { get; init; }
}

/// <summary>Work minutes of the shop; the shop's own figures replace the defaults.</summary>
public sealed record WorkTimes
{
    /// <summary>Applying a look, per metre; a dab, per piece.</summary>
    public required ImmutableDictionary<Repairs.Profile, Duration> PerMetre { get; init; }

    /// <summary>Factor on the minutes by position. [≥ 1; 1 where not listed]</summary>
    public ImmutableDictionary<Repairs.Position, double> PositionFactors { get; init; } = ImmutableDictionary<Repairs.Position, double>.Empty;

    /// <summary>Factor on the minutes of a visible strict look. [≥ 1]</summary>
    public double StrictLookFactor { get; init; } = 1;

    /// <summary>Factor on the minutes where a strip look is drawn in paste: two edges to mask, a notched tool. [≥ 1; 1.5, common practice]</summary>
    public double StripInPasteFactor { get; init; } = 1.5;

    /// <summary>Set-up of a one-part session.</summary>
    public Duration OnePartSetUp { get; init; } = Duration.FromMinutes(3);

    /// <summary>Set-up of a two-part session.</summary>
    public Duration TwoPartSetUp { get; init; } = Duration.FromMinutes(4);

    /// <summary>Fitting and purging one mixing nozzle.</summary>
    public Duration NewNozzle { get; init; } = Duration.FromMinutes(1);

    /// <summary>Mixing, spraying and cleaning the gun, per primer session.</summary>
    public Duration PrimerByGun { get; init; } = Duration.FromMinutes(20);

    /// <summary>Priming by aerosol, per session.</summary>
    public Duration PrimerByAerosol { get; init; } = Duration.FromMinutes(15);

    /// <summary>Priming spots again after cleaning squeeze-out, per session.</summary>
    public Duration SpotRePrime { get; init; } = Duration.FromMinutes(15);

    /// <summary>Taking a wrong coat (etch, old coat) to metal, per metre.</summary>
    public Duration StripPerMetre { get; init; } = Duration.FromMinutes(13);

    /// <summary>Abrading and cleaning after a missed window, per metre.</summary>
    public Duration AbradePerMetre { get; init; } = Duration.FromMinutes(6);

    /// <summary>Abrading and cleaning, per square metre of bare area.</summary>
    public Duration AbradePerSquareMetre { get; init; } = Duration.FromMinutes(15);

    /// <summary>Foaming, per cavity.</summary>
    public Duration FoamPerCavity { get; init; } = Duration.FromMinutes(12);

    /// <summary>Waxing, per cavity.</summary>
    public Duration WaxPerCavity { get; init; } = Duration.FromMinutes(8);

    /// <summary>Least waxing time of a car after paint.</summary>
    public Duration WaxPerCar { get; init; } = Duration.FromMinutes(30);

    /// <summary>Stone-chip: masking and set-up, per session.</summary>
    public Duration StoneChipSetUp { get; init; } = Duration.FromMinutes(5);

    /// <summary>Stone-chip, per square metre.</summary>
    public Duration StoneChipPerSquareMetre { get; init; } = Duration.FromMinutes(15);

    /// <summary>Noting and photographing a look, per joint.</summary>
    public Duration RecordLook { get; init; } = Duration.FromMinutes(3);

    /// <summary>Drain and final check, per car.</summary>
    public Duration FinalCheck { get; init; } = Duration.FromMinutes(15);

    /// <summary>Painting with its bake, from the start of the slot.</summary>
    public Duration Paint { get; init; } = Duration.FromMinutes(120);

    /// <summary>Refitting trim after paint, per car.</summary>
    public Duration Refit { get; init; } = Duration.FromMinutes(90);

    /// <summary>Bringing the vehicle level.</summary>
    public Duration Level { get; init; } = Duration.FromMinutes(5);
}

/// <summary>Amounts and losses of the shop.</summary>
public sealed record Amounts
{
    /// <summary>Loss on beads. [0…1; 0.15 = 15 %]</summary>
    public double BeadLoss { get; init; } = 0.15;

    /// <summary>Volume of one dab or cap; null = from its look.</summary>
    public Volume? Dab { get; init; }

    /// <summary>Strip added at each end of a piece.</summary>
    public Length StripEnd { get; init; } = Length.FromMillimetres(40);

    /// <summary>What a mixing nozzle holds back.</summary>
    public Volume NozzleHeld { get; init; } = Volume.FromMillilitres(4);

    /// <summary>First bead after a fresh nozzle, discarded.</summary>
    public Volume NozzlePurge { get; init; } = Volume.FromMillilitres(4);

    /// <summary>A pack that expires within this many days counts as free: what is not used of it is thrown away. [≥ 0; 30, common practice]</summary>
    public int UseUpDays { get; init; } = 30;

    /// <summary>Price of a mixing nozzle.</summary>
    public required Money NozzlePrice { get; init; }
}

/// <summary>Prices of moves where the shop states none.</summary>
public static class TimeValueDefaults
{
    /// <summary>Announced work that changes its day or its person. [currency units; common practice, no source]</summary>
    public const decimal UsualMovedWork = 10;

    /// <summary>A moved paint slot, or a later day of hand-over. [currency units; common practice, no source]</summary>
    public const decimal UsualMovedPromise = 60;
}

/// <summary>What time is worth to the shop.</summary>
/// <param name="BayDay">Value of each working day by which the paint slot moves.</param>
/// <param name="BayDays">Weekdays that count as working days for that.</param>
/// <param name="LatePerStartedHour">Cost of each started shop hour after the promise.</param>
/// <param name="LateAtMost">Greatest lateness cost of a car.</param>
public sealed record TimeValue(Money BayDay, ImmutableHashSet<IsoDayOfWeek> BayDays, Money LatePerStartedHour, Money LateAtMost)
{
    /// <summary>What it is worth that an announced piece of work keeps its day, and its person. [10, common practice, no source]</summary>
    public Money MovedWork { get; init; }

    /// <summary>What it is worth that an announced paint slot, or day of hand-over, is kept. [60, common practice, no source]</summary>
    public Money MovedPromise { get; init; }
}

/// <summary>Units in which the shop reads.</summary>
public enum UnitSystem
{
    /// <summary>Millimetres, millilitres, °C.</summary>
    Metric,

    /// <summary>Inches, US fluid ounces, °F.</summary>
    UsCustomary,
}

/// <summary>A shop: people, hours, equipment, prices. Immutable.</summary>
public sealed record Shop
{
    /// <summary>Name.</summary>
    public required string Name { get; init; }

    /// <summary>IANA time zone of every local time in the shop's files.</summary>
    public required DateTimeZone Zone { get; init; }

    /// <summary>Currency of every amount.</summary>
    public required string Currency { get; init; }

    /// <summary>Units of everything printed.</summary>
    public UnitSystem Units { get; init; } = UnitSystem.Metric;

    /// <summary>Culture of numbers and dates, for example <c>en-GB</c>.</summary>
    public string Culture { get; init; } = "en-GB";

    /// <summary>Working hours.</summary>
    public required ImmutableArray<Shift> Hours { get; init; }

    /// <summary>Days without work.</summary>
    public ImmutableHashSet<LocalDate> Holidays { get; init; } = [];

    /// <summary>Hours on a weekend day on which a paint slot lies: people finish that car then; null = no weekend work.</summary>
    public Shift? WeekendWithSlot { get; init; }

    /// <summary>People in file order.</summary>
    public required ImmutableArray<Person> People { get; init; }

    /// <summary>Places in which a vehicle can stand while it is worked on; null = enough for all.</summary>
    public int? Bays { get; init; }

    /// <summary>Lamps; null = none.</summary>
    public LampPark? Lamps { get; init; }

    /// <summary>Booth outside paint slots; null = not available.</summary>
    public Booth? Booth { get; init; }

    /// <summary>Supplier at short notice; null = none.</summary>
    public Supplier? Supplier { get; init; }

    /// <summary>Work minutes.</summary>
    public required WorkTimes Times { get; init; }

    /// <summary>Amounts and losses.</summary>
    public required Amounts Amounts { get; init; }

    /// <summary>What time is worth.</summary>
    public required TimeValue TimeValue { get; init; }

    /// <summary>Metal temperature of the usual paint bake.</summary>
    public Temperature BakeTemperature { get; init; } = Temperature.FromCelsius(60);

    /// <summary>Time constant with which a whole cold car follows the air.</summary>
    public Duration PanelTimeConstant { get; init; } = Duration.FromHours(3);

    /// <summary>Sheet of the primer used unless a joint names another; null = the first primer that is allowed and in stock.</summary>
    public Materials.MaterialId? UsualPrimer { get; init; }

    /// <summary>How far the figures above and the climate scatter.</summary>
    public Spreads Spreads { get; init; } = new();
}
