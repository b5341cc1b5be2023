using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Suitability;
using Seamwright.Units;

namespace Seamwright.SuitabilityTests;

/// <summary>The invented sheets and shop of the scenarios, and small cases built on them.</summary>
internal static class Invented
{
    internal static readonly DateTimeZone Berlin = DateTimeZoneProviders.Tzdb["Europe/Berlin"];

    private const SurfaceKind Steel = SurfaceKind.BareSteel;
    private const SurfaceKind Aluminium = SurfaceKind.BareAluminium;
    private const SurfaceKind Etch = SurfaceKind.EtchPrimer;
    private const SurfaceKind Epoxy = SurfaceKind.EpoxyPrimer;

    internal static readonly DataSheet PU1 = Moisture("PU1", Chemistry.OnePartPolyurethane, 300, 14, 360, 72, 3.0, (Steel, false), (Aluminium, false), (Etch, true)) with
    {
        Looks = [Profile.Round, Profile.HalfRound, Profile.Brushed, Profile.SkipBrushed, Profile.Fillet],
        SagVertical = Mm(6),
        SagOverhead = Mm(4),
        PaintNeedsCuredThrough = true,
        Hazards = [Hazard.Isocyanate],
        Trainings = ["diisocyanates"],
        Limits = new ApplicationLimits { PanelFrom = C(5), PanelTo = C(35), LeastWater = HumidityRatio.FromGramsPerKilogram(3.5) },
    };

    internal static readonly DataSheet MS1 = Moisture("MS1", Chemistry.OnePartSilaneModified, 290, 18, 30, 24, 3.0, (Steel, true), (Aluminium, false), (Etch, true)) with
    {
        Looks = [Profile.Round, Profile.HalfRound, Profile.Brushed, Profile.SkipBrushed, Profile.Fillet],
        SagVertical = Mm(8),
        SagOverhead = Mm(5),
    };

    internal static readonly DataSheet MSS = Moisture("MSS", Chemistry.OnePartSilaneModified, 290, 21, 45, 48, 2.5, (Steel, false), (Aluminium, false), (Etch, true)) with
    {
        Looks = [Profile.Brushed, Profile.SkipBrushed, Profile.Sprayed],
        SagVertical = Mm(3),
        SagOverhead = Mm(3),
    };

    internal static readonly DataSheet E2S = TwoPart("E2S", Chemistry.TwoPartEpoxy, 200, 34, 90, 24, new MixRatio(2, 1), (Steel, true), (Aluminium, false), (Etch, false)) with
    {
        Looks = [Profile.Round, Profile.HalfRound, Profile.Brushed, Profile.Strip, Profile.Fillet, Profile.Dab],
        SagVertical = Mm(10),
        SagOverhead = Mm(6),
        Limits = new ApplicationLimits { PanelFrom = C(15), PanelTo = C(35) },
        Hazards = [Hazard.Epoxy],
    };

    internal static readonly DataSheet E2F = WithOpenedLife(
        TwoPart("E2F", Chemistry.TwoPartPolyurethane, 220, 38, 30, 8, new MixRatio(1, 1), (Steel, true), (Aluminium, false), (Etch, false)) with
        {
            Looks = [Profile.HalfRound, Profile.Brushed, Profile.Strip, Profile.Fillet],
            SagVertical = Mm(8),
            SagOverhead = Mm(5),
            Limits = new ApplicationLimits { PanelFrom = C(10), PanelTo = C(35) },
        },
        60);

    internal static readonly DataSheet SL2 = TwoPart("SL2", Chemistry.TwoPartEpoxy, 200, 36, 60, 24, new MixRatio(1, 1), (Steel, false), (Aluminium, false), (Etch, false)) with
    {
        Looks = [Profile.Ditch],
        LevelOnly = true,
        MaximumTilt = Angle.FromDegrees(3),
    };

    internal static readonly DataSheet TP = new()
    {
        Id = new MaterialId("TP"),
        Name = "seam strip 10 × 0.9 mm",
        Use = MaterialUse.SeamTape,
        Chemistry = Chemistry.Strip,
        Method = ApplicationMethod.Strip,
        Source = "invented",
        Milestones = [At(MilestoneKind.Paint, 0, new CureLaw.Clock())],
        NextLayerWithin = new MaximumWindow(Duration.FromHours(72), null),
        Surfaces = Surfaces((Steel, false), (Aluminium, false), (Etch, false)),
        Looks = [Profile.Strip],
        MinimumRadius = Mm(120),
        Limits = new ApplicationLimits { PanelFrom = C(15) },
        Pack = new Packaging { StripLength = Length.FromMetres(9), Price = Price(24) },
    };

    internal static readonly DataSheet AF1 = WithOpenedLife(
        TwoPart("AF1", Chemistry.TwoPartEpoxy, 220, 32, 0, 0, new MixRatio(1, 1), (Steel, true), (Aluminium, true)) with
        {
            Use = MaterialUse.AntiFlutter,
            Milestones = [],
            NextLayerWithin = null,
            Looks = [Profile.Dab],
            SagVertical = Mm(10),
            SagOverhead = Mm(8),
        },
        60);

    internal static readonly DataSheet ADE = TwoPart("AD-E", Chemistry.TwoPartEpoxy, 200, 46, 0, 0, new MixRatio(2, 1), (Steel, true)) with
    {
        Use = MaterialUse.PanelAdhesive,
        Milestones = [],
        NextLayerWithin = null,
        Coverage = new Coverage.PerMetre(Ml(33)),
    };

    internal static readonly DataSheet PEP = TwoPart("P-EP", Chemistry.TwoPartEpoxy, 1000, 60, 0, 72, new MixRatio(4, 1), (Steel, true), (Aluminium, true), (Etch, false)) with
    {
        Use = MaterialUse.Primer,
        Method = ApplicationMethod.SprayGun,
        Coverage = new Coverage.PerMetre(Ml(40)),
    };

    internal static readonly DataSheet PET = PEP with
    {
        Id = new MaterialId("P-ET"),
        Name = "etch primer",
        Use = MaterialUse.EtchPrimer,
        Chemistry = Chemistry.AcidEtch,
        Method = ApplicationMethod.Aerosol,
        NextLayerWithin = new MaximumWindow(Duration.FromHours(24), null),
        Surfaces = Surfaces((Steel, true), (Aluminium, true)),
        Pack = new Packaging { Content = Ml(400), Price = Price(12) },
    };

    internal static readonly DataSheet PWT = PET with
    {
        Id = new MaterialId("P-WT"),
        Name = "zinc weld-through",
        Use = MaterialUse.WeldThroughPrimer,
        Chemistry = Chemistry.ZincRich,
        Surfaces = Surfaces((Steel, true), (Aluminium, false)),
        Pack = new Packaging { Content = Ml(400), Price = Price(19) },
    };

    internal static readonly DataSheet FFX = TwoPart("F-FX", Chemistry.TwoPartPolyurethane, 200, 36, 0, 0, new MixRatio(1, 1)) with
    {
        Use = MaterialUse.FlexibleFoam,
        Milestones = [],
        NextLayerWithin = null,
        StandsHeatUpTo = C(70),
        Pack = new Packaging { Content = Ml(200), Price = Price(36), Ratio = new MixRatio(1, 1), SingleUse = true },
    };

    internal static readonly ImmutableDictionary<MaterialId, DataSheet> Sheets =
        new[] { PU1, MS1, MSS, E2S, E2F, SL2, TP, AF1, ADE, PEP, PET, PWT, FFX }.ToImmutableDictionary(sheet => sheet.Id);

    internal static readonly Shop PlainShop = new()
    {
        Name = "invented",
        Zone = Berlin,
        Currency = "units",
        Hours = [],
        People = [],
        Times = new WorkTimes { PerMetre = ImmutableDictionary<Profile, Duration>.Empty },
        Amounts = new Amounts { Dab = Ml(2), NozzlePrice = new Money(2.20m, "units") },
        TimeValue = new TimeValue(Price(240), [], Price(40), Price(300)),
    };

    /// <summary>A plain lap that every gun sealer may close: primed steel, level, brushed 20 × 2, hidden, painted.</summary>
    internal static Joint PlainLap => new()
    {
        Id = new PlaceId("J1"),
        Name = "lap",
        Type = JointType.Lap,
        Length = Length.FromMetres(1),
        Metals = [Metal.Steel],
        Position = Position.Level,
        Look = LookOf(Profile.Brushed, 20, 2),
        Surface = new Surface(SurfaceKind.EpoxyPrimer, PEP.Id, null),
    };

    internal static readonly Repair PlainRepair = new()
    {
        Id = "R1",
        Name = "invented",
        Now = Local(2027, 1, 12, 15, 10),
        Promise = Local(2027, 1, 13, 16, 0),
        PaintSlots = [Local(2027, 1, 12, 18, 0)],
    };

    internal static JointCase On(Joint joint, DataSheet sheet, Repair? repair = null) => new()
    {
        Joint = joint,
        Sheet = sheet,
        Beneath = joint.Surface,
        BeneathSheet = joint.Surface.Material is { } coat ? Sheets[coat] : null,
        Repair = repair ?? PlainRepair,
        Shop = PlainShop,
    };

    internal static Verdict VerdictOf(JointCase subject, string ruleId) =>
        SuitabilityRules.Judge(subject).Single(verdict => verdict.RuleId == ruleId);

    internal static Look LookOf(Profile profile, double width, double height, bool visible = false, bool strict = false) =>
        new(profile, Mm(width), Mm(height), visible, strict);

    internal static Surface Bare(SurfaceKind kind) => new(kind, null, null);

    internal static Length Mm(double millimetres) => Length.FromMillimetres(millimetres);

    internal static Volume Ml(double millilitres) => Volume.FromMillilitres(millilitres);

    internal static Temperature C(double celsius) => Temperature.FromCelsius(celsius);

    internal static Money Price(decimal amount) => new(amount, "units");

    internal static Instant Local(int year, int month, int day, int hour, int minute) =>
        new LocalDateTime(year, month, day, hour, minute).InZoneStrictly(Berlin).ToInstant();

    internal static DataSheet WithOpenedLife(DataSheet sheet, int days) => sheet with { Pack = sheet.Pack with { OpenedLifeDays = days } };

    private static DataSheet Moisture(
        string id, Chemistry chemistry, double ml, decimal price, double paintMinutes, double paintHours, double firstDay, params (SurfaceKind, bool)[] surfaces)
    {
        var law = new CureLaw.Moisture(MolarEnergy.Zero, AirState.Standard);
        return new DataSheet
        {
            Id = new MaterialId(id),
            Name = id,
            Use = MaterialUse.SeamSealer,
            Chemistry = chemistry,
            Method = ApplicationMethod.Cartridge,
            Source = "invented",
            Milestones = [At(MilestoneKind.Paint, paintMinutes, law)],
            NextLayerWithin = new MaximumWindow(Duration.FromHours(paintHours), law),
            DepthCure = new DepthCure(Mm(firstDay), law),
            Surfaces = Surfaces(surfaces),
            Limits = new ApplicationLimits { PanelFrom = C(5), PanelTo = C(35) },
            Pack = new Packaging { Content = Ml(ml), Price = Price(price), OpenedLifeDays = id == "MS1" ? 21 : 14 },
        };
    }

    private static DataSheet TwoPart(
        string id, Chemistry chemistry, double ml, decimal price, double paintMinutes, double paintHours, MixRatio ratio, params (SurfaceKind, bool)[] surfaces)
    {
        var law = new CureLaw.TwoPart(MolarEnergy.FromKilojoulesPerMole(55), C(23));
        return new DataSheet
        {
            Id = new MaterialId(id),
            Name = id,
            Use = MaterialUse.SeamSealer,
            Chemistry = chemistry,
            Method = ApplicationMethod.CartridgeWithMixer,
            Source = "invented",
            Milestones = [At(MilestoneKind.Paint, paintMinutes, law)],
            NextLayerWithin = new MaximumWindow(Duration.FromHours(paintHours), law),
            Surfaces = Surfaces(surfaces),
            Pack = new Packaging { Content = Ml(ml), Price = Price(price), Ratio = ratio, NozzlesIncluded = id == "E2S" ? 2 : 0 },
        };
    }

    private static Milestone At(MilestoneKind kind, double minutes, CureLaw law) => new(
        kind,
        law,
        ReferenceTime.FromHours(minutes / 60),
        new MilestoneEvidence([new SheetPoint(AirState.Standard, Duration.FromMinutes((long)minutes))], true, C(23), C(23), 0, "invented"));

    private static ImmutableDictionary<SurfaceKind, bool> Surfaces(params (SurfaceKind Kind, bool Allowed)[] surfaces) =>
        surfaces.ToImmutableDictionary(entry => entry.Kind, entry => entry.Allowed).SetItem(Epoxy, true);
}
