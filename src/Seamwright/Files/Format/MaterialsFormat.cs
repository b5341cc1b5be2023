using Seamwright.Files.Values;
using Seamwright.Materials;
using Seamwright.Repairs;
using static Seamwright.Files.Format.Key;
using static Seamwright.Files.Format.Kinds;

namespace Seamwright.Files.Format;

/// <summary>How a milestone depends on the air.</summary>
internal enum LawWord
{
    /// <summary>Arrhenius law.</summary>
    TwoPart,

    /// <summary>Vapour pressure law.</summary>
    Moisture,

    /// <summary>Film drying, temperature only.</summary>
    Drying,

    /// <summary>Film drying, temperature and humidity.</summary>
    WaterborneDrying,

    /// <summary>The clock.</summary>
    Clock,
}

/// <summary>The materials file.</summary>
internal static class MaterialsFormat
{
    /// <summary>Version line.</summary>
    public const string Line = "materials/1";

    private const string TimesExample = "90 min";

    public static Section Reference { get; } = new("reference", "Air for which a sheet states its times.",
    [
        Must("temperature", Of(Measures.AirTemperature), "Temperature of air and panel.", "23 °C"),
        Must("humidity", Of(Measures.Humidity), "Relative humidity.", "50 %"),
    ]);

    public static Section Point { get; } = new("point", "One line of a sheet: it took this long at this air.",
    [
        Must("time", Of(Measures.SomeDuration), "How long.", "90 min"),
        May("at", Of(Measures.PanelTemperature), "the reference temperature", "Temperature of air and panel.", "15 °C"),
        May("humidity", Of(Measures.Humidity), "the reference humidity", "Relative humidity.", "65 %"),
    ]);

    public static Section Step { get; } = new("step", "A time that holds from a temperature on; below the first one nothing happens.",
    [
        Must("from", Of(Measures.PanelTemperature), "Panel temperature from which it holds.", "15.6 °C"),
        Must("time", Of(Measures.SomeDuration), "How long.", "24 h"),
    ]);

    public static Section Milestone { get; } = new("milestone",
        "When the material becomes able to do something, in full. Exactly one of time, points and steps.",
    [
        May("time", Of(Measures.Duration), "none", "How long at the reference air.", TimesExample),
        May("points", Maps(Point), "none", "Several lines of the sheet; two or more temperatures determine the law.", "[{time: 90 min, at: 23 °C}, {time: 3 h, at: 15 °C}]"),
        May("steps", Maps(Step), "none", "Only times at temperatures, no law between them.", "[{from: 15.6 °C, time: 24 h}, {from: 38 °C, time: 30 min}]"),
        May("energy", Of(Measures.Energy), "the sheet's; else fitted; else the class default, flagged", "Activation energy of this milestone.", "50 kJ/mol"),
        May("law", Word<LawWord>(), "from chemistry and use", "Law on which the work is counted.", "clock"),
    ]);

    private static readonly Kind Time = new Kind.Either(
        new Kind.Quantity(Measures.Duration), new Kind.MapList(Point), new Kind.Map(Milestone));

    public static Section Limits { get; } = new("limits", "Limits at application.",
    [
        May("panel_from", Of(Measures.PanelTemperature), "not stated", "Coldest panel.", "15 °C"),
        May("panel_to", Of(Measures.PanelTemperature), "not stated", "Warmest panel.", "35 °C"),
        May("humidity_from", Of(Measures.Humidity), "not stated", "Least relative humidity.", "30 %"),
        May("humidity_to", Of(Measures.Humidity), "not stated", "Greatest relative humidity.", "85 %"),
        May("least_water", Of(Measures.Water), "not stated", "Water in the air below which a moisture cure must not be relied on.", "3.5 g/kg"),
        May("dew_point_margin", Of(Measures.Margin), "3 K", "Panel above the dew point until touch-dry.", "3 K"),
    ]);

    public static Section Sag { get; } = new("sag", "Greatest bead height that stays put.",
    [
        May("vertical", Of(Measures.BeadSize), "not stated", "On a vertical surface.", "6 mm"),
        May("overhead", Of(Measures.BeadSize), "not stated", "Overhead.", "4 mm"),
    ]);

    public static Section Heat { get; } = new("heat", "Heat by lamp or booth that the sheet allows after application.",
    [
        Must("up_to", Of(Measures.PanelTemperature), "Greatest panel temperature.", "60 °C"),
        May("hold", Of(Measures.Duration), "not stated", "Shortest time at temperature.", "30 min"),
    ]);

    public static Section Coverage { get; } = new("coverage", "How much is used. Exactly one key.",
    [
        May("per_metre", Of(Measures.SomeVolume), "", "For one metre of joint or bond line.", "33 ml"),
        May("per_square_metre", Of(Measures.SomeVolume), "", "For one square metre, losses included.", "1.0 l"),
        May("per_place", Of(Measures.SomeVolume), "", "For one cavity or place.", "60 ml"),
        May("expansion", new Kind.Number(1.01, 200), "", "Foam: expanded volume per mixed volume.", "10"),
    ]);

    public static Section Film { get; } = new("film", "Film build of a primer or coating.",
    [
        Must("dry_thickness", Of(Measures.FilmThickness), "Dry film thickness of all coats together.", "60 µm"),
        Must("volume_solids", Of(Measures.SomeShare), "Solids by volume, ready to spray.", "50 %"),
        May("transfer_efficiency", Of(Measures.SomeShare), "60 % (common practice)", "Share of the sprayed solids that stays on the part.", "60 %"),
    ]);

    public static Section Pack { get; } = new("packaging", "The pack it comes in. Either content or strip_length.",
    [
        May("content", Of(Measures.SomeVolume), "", "Usable content, both components together.", "290 ml"),
        May("strip_length", Of(Measures.SeamLength), "", "Length of a strip on its roll.", "9 m"),
        May("ratio", new Kind.Ratio(), "one-part", "Mix ratio by volume, base : hardener.", "2:1"),
        May("base_density", Of(Measures.Density), "not stated", "Density of the base, for weighing.", "1.40 g/ml"),
        May("hardener_density", Of(Measures.Density), "not stated", "Density of the hardener, for weighing.", "1.02 g/ml"),
        Must("price", Amount, "Price of a full pack.", "18.00"),
        May("nozzles", Count(0, 100), "0", "Mixing nozzles that come with a new pack; they fit this pack's ratio only.", "2"),
        May("opened_life", Of(Measures.SomeDuration), "until the date on the pack", "Whole days usable after opening, the opening day not counted.", "14 d"),
        May("activated_life", Of(Measures.SomeDuration), "by pot life", "Usable time after activation or mixing, by the clock.", "48 h"),
        May("single_use", Flag, "no", "The rest cannot be kept.", "true"),
    ]);

    public static Section Times { get; } = new("times",
        "Milestones, each a time at the reference air, a list of points, or in full.",
    [
        May("skin", Time, "not stated", "A skin has formed.", "45 min"),
        May("work", Time, "not stated", "End of tooling, work time or pot life.", "30 min"),
        May("tack_free", Time, "not stated", "Tack-free.", "60 min"),
        May("touch_dry", Time, "not stated", "Dew no longer harms the film.", "90 min"),
        May("next_layer", Time, "not stated", "The next sealing or priming layer may go on.", "60 min"),
        May("paint", Time, "not stated", "Paint may go on.", TimesExample),
        May("handling", Time, "not stated", "Handling strength: clamps may come off.", "240 min"),
        May("full", Time, "not stated", "Fully cured.", "24 h"),
    ]);

    public static Section Sheet { get; } = new("sheet", "One material's data sheet, as far as it decides anything.",
    [
        Must("id", Id, "Short name, unique.", "E2S"),
        Must("name", Text, "Generic name in words.", "two-part epoxy, heavy-bodied"),
        Must("use", Word<MaterialUse>(), "What it is for.", "seam-sealer"),
        Must("chemistry", Word<Chemistry>(), "Chemistry.", "two-part-epoxy"),
        May("method", Word<ApplicationMethod>(), "two-part paste or foam: cartridge-with-mixer; strip: strip; primer, wax and stone-chip: aerosol; else cartridge", "How it reaches the car.", "cartridge-with-mixer"),
        Must("source", Text, "Sheet name and revision, or invented.", "invented"),
        May("system", Text, "not stated", "One maker's system this belongs to; mixing systems needs a sign-off.", "system 2"),
        May("reference", Map(Reference), "the file's reference", "Air for which the times are stated.", "{temperature: 20 °C, humidity: 65 %}"),
        May("energy", Of(Measures.Energy), "fitted; else the class default, flagged", "Activation energy of every milestone that states none; for a moisture cure that of the cured layer.", "55 kJ/mol"),
        May("times", Map(Times), "none", "Milestones.", "{work: 25 min, paint: 90 min}"),
        May("paint_within", Of(Measures.SomeDuration), "no limit stated", "Longest wait until paint before abrading again.", "24 h"),
        May("next_layer_within", Of(Measures.SomeDuration), "no limit stated", "The same for a primer, until the next layer; not together with paint_within.", "72 h"),
        May("depth_in_first_day", Of(Measures.BeadSize), "not stated", "Depth cured through in the first 24 h at the reference air; moisture cures only.", "3.0 mm"),
        May("paint_needs_cured_through", Flag, "no", "Paint waits until the bead is cured through its depth.", "true"),
        May("limits", Map(Limits), "none", "Limits at application.", "{panel_from: 15 °C, panel_to: 35 °C}"),
        May("surfaces", new Kind.WordTable(typeof(SurfaceKind), Flag), "not stated", "Surfaces the sheet allows (yes) or refuses (no).", "{bare-steel: yes, etch-primer: no}"),
        May("looks", WordList<Profile>(), "none", "Looks that can be made with it.", "[round, half-round, brushed]"),
        May("sag", Map(Sag), "not stated", "Greatest bead height that stays put.", "{vertical: 10 mm, overhead: 6 mm}"),
        May("level_only", Flag, "no", "Self-levelling: only level.", "true"),
        May("maximum_tilt", Of(Measures.Tilt), "not stated", "Greatest tilt of a self-levelling grade.", "3°"),
        May("minimum_radius", Of(Measures.Radius), "not stated", "Smallest radius a strip can follow.", "120 mm"),
        May("heat", Map(Heat), "none allowed", "Heat that the sheet allows after application.", "{up_to: 60 °C, hold: 30 min}"),
        May("stands_heat_up_to", Of(Measures.PanelTemperature), "not stated", "Greatest temperature the placed material stands later.", "70 °C"),
        May("coverage", Map(Coverage), "by the size of the bead or the film", "How much is used.", "{per_metre: 33 ml}"),
        May("film", Map(Film), "not stated", "Film build of a primer or coating.", "{dry_thickness: 60 µm, volume_solids: 50 %}"),
        Must("pack", Map(Pack), "The pack it comes in.", "{content: 200 ml, ratio: 2:1, price: 34.00}"),
        May("hazards", WordList<Hazard>(), "from the chemistry", "Dangers shown at its steps, in place of those of the chemistry.", "[epoxy]"),
        May("trainings", Kinds.Ids, "none", "Trainings a person needs to apply it.", "[diisocyanates]"),
    ]);

    public static Section File { get; } = new("materials", "Data sheets.",
    [
        May("seamwright", new Kind.Header(Line), "needed in a file of its own", "Kind and version of the file.", Line),
        May("invented", Flag, "no", "True where the data is made up for demonstration.", "true"),
        May("note", Text, "none", "A remark for the reader; not used.", "autumn list"),
        May("reference", Map(Reference), "23 °C, 50 %", "Air for which the sheets of this file state their times.", "{temperature: 23 °C, humidity: 50 %}"),
        Must("sheets", Maps(Sheet), "The sheets.", "see sheet"),
    ]);
}
