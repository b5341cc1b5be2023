using Seamwright.Files.Values;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Work;
using static Seamwright.Files.Format.Key;
using static Seamwright.Files.Format.Kinds;

namespace Seamwright.Files.Format;

/// <summary>The shop file.</summary>
internal static class ShopFormat
{
    /// <summary>Version line.</summary>
    public const string Line = "shop/1";

    private static readonly Kind Work = Of(Measures.Work);

    public static Section Hours { get; } = new("hours", "Working hours on some weekdays.",
    [
        Must("days", Days, "Weekdays.", "Mon-Fri"),
        Must("from", Clock, "Start.", "07:30"),
        Must("to", Clock, "End, later on the same day.", "18:00"),
        May("breaks", new Kind.Breaks(), "none", "Breaks.", "[12:30-13:00]"),
    ]);

    public static Section Person { get; } = new("person", "Somebody who works in the shop.",
    [
        Must("id", Id, "Short name, unique.", "technician"),
        May("role", Text, "the id", "Role in words.", "technician"),
        Must("skills", WordList<Skill>(), "What the person can do.", "[clean, prime, seal]"),
        Must("per_hour", Amount, "Labour cost of an hour.", "66.00"),
        May("hours", Maps(Hours), "the shop's hours", "Own working hours.", "[{days: Mon-Thu, from: 08:00, to: 16:00}]"),
        May("trainings", new Kind.NameTable(new Kind.Date()), "no list kept", "Certificates with the last day they are valid.", "{diisocyanates: 2029-03-31}"),
    ]);

    public static Section Ramp { get; } = new("ramp", "A lamp setting.",
    [
        Must("to", Of(Measures.PanelTemperature), "Panel temperature held.", "45 °C"),
        Must("in", Work, "Time to reach it.", "7 min"),
    ]);

    public static Section Lamps { get; } = new("lamps", "Infrared lamps.",
    [
        May("count", Count(1, 100), "1", "How many.", "1"),
        Must("per_started_hour", Amount, "Cost of a started hour.", "12.00"),
        May("set_up", Work, "5 min", "Work to set one up.", "5 min"),
        Must("ramps", Maps(Ramp), "Settings.", "[{to: 45 °C, in: 7 min}, {to: 60 °C, in: 10 min}]"),
        May("cooling", Work, "20 min", "Time until the panel is back at its own temperature.", "20 min"),
    ]);

    public static Section Booth { get; } = new("booth", "The booth outside a paint slot.",
    [
        Must("per_started_hour", Amount, "Cost of a started hour.", "20.00"),
        Must("panel", Of(Measures.PanelTemperature), "Panel temperature reached.", "38 °C"),
        May("ramp", Work, "20 min", "Time to reach it.", "20 min"),
        May("from", Clock, "06:00", "Earliest hour of the day at which the painter uses it.", "06:00"),
        May("to", Clock, "22:00", "Latest hour of the day.", "22:00"),
    ]);

    public static Section Supplier { get; } = new("supplier", "The supplier that can be reached at short notice.",
    [
        Must("per_order", Amount, "Delivery cost of an order.", "5.00"),
        Must("delivery_time", Work, "From order to arrival.", "60 min"),
        May("days", Days, "Mon-Fri", "Weekdays on which it delivers.", "Mon-Fri"),
        Must("from", Clock, "Opening.", "08:00"),
        Must("to", Clock, "Last order.", "17:00"),
        May("lacks", Ids, "none", "Materials it cannot deliver.", "[SL2]"),
    ]);

    public static Section Minutes { get; } = new("minutes", "Work times; the shop's own figures replace the defaults.",
    [
        May("per_metre", new Kind.WordTable(typeof(Profile), Work), "round, half-round, fillet, strip 4 min; brushed, skip-brushed 6; sprayed 7; ditch 8; dab 0.5 min a piece", "Applying a look, per metre; a dab, per piece. Looks left out keep their default.", "{half-round: 4 min, dab: 0.5 min}"),
        May("position_factors", new Kind.WordTable(typeof(Position), new Kind.Number(1, 10)), "1 each", "Factor by position.", "{overhead: 1.5}"),
        May("strict_look_factor", new Kind.Number(1, 10), "1", "Factor of a visible strict look.", "1.3"),
        May("strip_in_paste_factor", new Kind.Number(1, 10), "1.5", "Factor where a strip look is drawn in paste: two edges to mask, a notched tool.", "1.5"),
        May("one_part_set_up", Work, "3 min", "Set-up of a one-part session.", "3 min"),
        May("two_part_set_up", Work, "4 min", "Set-up of a two-part session.", "4 min"),
        May("new_nozzle", Work, "1 min", "Fitting and purging one mixing nozzle.", "1 min"),
        May("primer_by_gun", Work, "20 min", "Mixing, spraying and cleaning the gun, per primer session.", "20 min"),
        May("primer_by_aerosol", Work, "15 min", "Priming by aerosol, per session.", "15 min"),
        May("spot_re_prime", Work, "15 min", "Priming spots again, per session.", "15 min"),
        May("strip_per_metre", Work, "13 min", "Taking a wrong coat to metal, per metre.", "13 min"),
        May("abrade_per_metre", Work, "6 min", "Abrading and cleaning after a missed window, per metre.", "6 min"),
        May("abrade_per_square_metre", Work, "15 min", "Abrading and cleaning a bare area, per square metre.", "15 min"),
        May("foam_per_cavity", Work, "12 min", "Foaming, per cavity.", "12 min"),
        May("wax_per_cavity", Work, "8 min", "Waxing, per cavity.", "8 min"),
        May("wax_per_car", Work, "30 min", "Least waxing time of a car after paint.", "30 min"),
        May("stone_chip_set_up", Work, "5 min", "Stone-chip: masking and set-up, per session.", "5 min"),
        May("stone_chip_per_square_metre", Work, "15 min", "Stone-chip, per square metre.", "15 min"),
        May("record_look", Work, "3 min", "Noting and photographing a look, per joint.", "3 min"),
        May("final_check", Work, "15 min", "Drain and final check, per car.", "15 min"),
        May("paint", Work, "120 min", "Painting with its bake, from the start of the slot.", "120 min"),
        May("refit", Work, "90 min", "Refitting trim after paint, per car.", "90 min"),
        May("level", Work, "5 min", "Bringing the vehicle level.", "5 min"),
    ]);

    public static Section Amounts { get; } = new("amounts", "Amounts and losses.",
    [
        May("use_up_days", Count(0, 3660), "30", "A pack that expires within this many days counts as free, because its rest would be thrown away.", "30"),
        May("bead_loss", Of(Measures.Share), "15 %", "Loss on beads.", "15 %"),
        May("dab", Of(Measures.SomeVolume), "from its look", "Volume of one dab or cap.", "2 ml"),
        May("strip_end", Of(Measures.Gap), "40 mm", "Strip added at each end of a piece.", "40 mm"),
        May("nozzle_held", Of(Measures.Volume), "4 ml", "What a mixing nozzle holds back.", "4 ml"),
        May("nozzle_purge", Of(Measures.Volume), "4 ml", "First bead after a fresh nozzle, discarded.", "4 ml"),
        Must("nozzle_price", Amount, "Price of a mixing nozzle.", "2.20"),
    ]);

    public static Section TimeValue { get; } = new("time_value", "What time is worth to the shop.",
    [
        Must("bay_day", Amount, "Value of each working day by which the paint slot moves.", "240.00"),
        May("bay_days", Days, "Mon-Sat", "Weekdays that count for that.", "Mon-Sat"),
        May("late_per_started_hour", Amount, "0", "Cost of each started shop hour after the promise.", "40.00"),
        May("late_at_most", Amount, "no limit", "Greatest lateness cost of a car.", "300.00"),
        May("moved_work", Amount, "10", "What it is worth that announced work keeps its day, and its person, when the rest is planned again (common practice, no source).", "10.00"),
        May("moved_promise", Amount, "60", "What it is worth that an announced paint slot, or day of hand-over, is kept then (common practice, no source).", "60.00"),
    ]);

    public static Section Uncertainty { get; } = new("uncertainty", "How far figures scatter, for `seamwright chance`; spreads of labour and material are standard deviations of the logarithm, as a percentage.",
    [
        May("labour", new Kind.WordTable(typeof(StepKind), Of(Measures.Share)), "record-look, strip, foam 32 %; abrade, wax 28; seal, operation 25; stone-chip, final-check 23; prime 21; others 25", "Labour of a kind of step. Kinds left out keep their default.", "{seal: 25 %, abrade: 28 %}"),
        May("whole_car", Of(Measures.Share), "10 %", "How far all labour on one car is off together.", "10 %"),
        May("temperature_offset", Of(Measures.Margin), "1 K", "Constant error of the expected temperature, one standard deviation.", "1 K"),
        May("temperature_swing", Of(Measures.Margin), "1 K", "Error of the expected temperature that comes and goes.", "1 K"),
        May("humidity_offset", Of(Measures.Share), "5 %", "Constant error of the expected relative humidity, in points.", "5 %"),
        May("humidity_swing", Of(Measures.Share), "5 %", "Error of the expected relative humidity that comes and goes, in points.", "5 %"),
        May("correlation", Of(Measures.SomeDuration), "3 h", "After this time an error that comes and goes is forgotten to 1/e.", "3 h"),
        May("cure_speed", Of(Measures.Share), "15 %", "How far a material cures faster or slower than its sheet says.", "15 %"),
        May("bead_depth", Of(Measures.Share), "10 %", "How far the depth of a bead is off.", "10 %"),
        May("runs_over", Work, "15 min", "Work that has begun runs on so far into a break or past the end of a shift.", "15 min"),
        May("wanted", Of(Measures.Share), "80 %", "How likely the paint slot shall be kept.", "80 %"),
    ]);

    public static Section File { get; } = new("shop", "People, hours, equipment and prices of a shop.",
    [
        May("seamwright", new Kind.Header(Line), "needed in a file of its own", "Kind and version of the file.", Line),
        May("invented", Flag, "no", "True where the data is made up for demonstration.", "true"),
        May("note", Text, "none", "A remark for the reader; not used.", "winter hours"),
        Must("name", Text, "Name.", "Invented body shop"),
        Must("zone", Text, "Time zone of every local time, by its IANA name.", "Europe/Vienna"),
        Must("currency", Text, "Currency of every amount.", "EUR"),
        May("units", Word<UnitSystem>(), "metric", "Units of everything printed; files may use either.", "us"),
        May("culture", Text, "en-GB", "Language and region of numbers and dates.", "en-US"),
        Must("hours", Maps(Hours), "Working hours.", "[{days: Mon-Fri, from: 07:30, to: 18:00, breaks: [12:30-13:00]}]"),
        May("holidays", new Kind.DateList(), "none", "Days without work.", "[2027-01-01]"),
        May("weekend_with_slot", Map(Hours), "no weekend work", "Hours on a weekend day on which a paint slot lies.", "{days: Sat, from: 07:00, to: 18:00}"),
        Must("people", Maps(Person), "People.", "see person"),
        May("bays", Count(1, 1000), "enough for all", "Places in which a vehicle can stand while it is worked on.", "10"),
        May("lamps", Map(Lamps), "none", "Infrared lamps.", "see lamps"),
        May("booth", Map(Booth), "not available", "The booth outside a paint slot.", "see booth"),
        May("supplier", Map(Supplier), "none", "The supplier at short notice.", "see supplier"),
        May("minutes", Map(Minutes), "all defaults", "Work times.", "see minutes"),
        Must("amounts", Map(Amounts), "Amounts and losses.", "{nozzle_price: 2.20}"),
        Must("time_value", Map(TimeValue), "What time is worth.", "{bay_day: 240.00}"),
        May("bake", Of(Measures.PanelTemperature), "60 °C", "Metal temperature of the usual paint bake.", "60 °C"),
        May("panel_time_constant", Of(Measures.SomeDuration), "3 h", "Time constant with which a whole cold car follows the air.", "3 h"),
        May("usual_primer", Id, "the first primer that is allowed and in stock", "Sheet of the primer used unless a joint names another.", "P-EP"),
        May("uncertainty", Map(Uncertainty), "all defaults", "How far figures scatter.", "{wanted: 80 %}"),
    ]);
}
