using Seamwright.Files.Values;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Shops;
using static Seamwright.Files.Format.Key;
using static Seamwright.Files.Format.Kinds;

namespace Seamwright.Files.Format;

/// <summary>The repair file.</summary>
internal static class RepairFormat
{
    /// <summary>Version line.</summary>
    public const string Line = "repair/1";

    private static readonly Kind After = Ids;

    public static Section Look { get; } = new("look", "The look the seam had from the factory.",
    [
        Must("profile", Word<Profile>(), "Kind of look.", "sprayed"),
        May("width", Of(Measures.BeadSize), "needed unless none or dab", "Width; first leg of a fillet; diameter of a dab.", "40 mm"),
        May("height", Of(Measures.BeadSize), "half-round: half the width; fillet: the width; others: needed unless none, dab or strip", "Height; second leg of a fillet.", "1 mm"),
        May("visible", Flag, "no", "Seen by the customer.", "true"),
        May("strict", Flag, "no", "Must match exactly: no other look may take its place.", "true"),
    ]);

    public static Section Beneath { get; } = new("beneath", "What lies on the metal now. Either bare or coat.",
    [
        May("bare", Word<Metal>(), "", "Bare metal: steel, zinc-coated-steel or aluminium.", "steel"),
        May("coat", Id, "", "Short name of a sheet, or a factory coat: etch-primer, epoxy-primer, urethane-primer, weld-through-primer, electrocoat, sound-paint.", "P-EP"),
        May("applied", Moment, "long ago, or in the factory", "When the coat was applied.", "2027-01-12T14:30"),
    ]);

    public static Section Joint { get; } = new("joint", "Two panels meeting along a length, or a number of like heads or dabs.",
    [
        Must("id", Id, "Name in the repair, unique.", "J1"),
        May("name", Text, "the id", "In words.", "wheelhouse edge"),
        Must("type", Word<JointType>(), "How the panels meet.", "wheelhouse"),
        May("length", Of(Measures.SeamLength), "0; needed unless count is given or the look is none", "Length of one run.", "1.2 m"),
        May("runs", Count(1, 100), "1", "Runs of that length, for example both edges of a lap.", "2"),
        May("count", Count(1, 10_000), "none", "Number of heads or dabs, in place of length and runs.", "14"),
        May("metal", WordList<Metal>(), "steel", "Metals that meet, one or two.", "[aluminium, steel]"),
        May("position", Word<Position>(), "level", "How the seam lies while it is worked.", "overhead"),
        May("tilt", Of(Measures.Tilt), "not stated", "Lean of this seam from level, the vehicle being level.", "2°"),
        Must("look", new Kind.Either(new Kind.Word(typeof(Profile)), new Kind.Map(Look)), "Factory look; the word alone for a look without sizes.", "none"),
        May("depth", Of(Measures.Gap), "the height of the look", "From the nearest open face to the root.", "4 mm"),
        May("gap_fill", Of(Measures.Volume), "0 ml", "Material that fills gaps behind the bead.", "10 ml"),
        May("closed_to_air", Flag, "no", "No face is open to air, so a moisture cure never happens.", "true"),
        May("function", Word<JointFunction>(), "seal", "What the joint is there for.", "anti-flutter"),
        May("masked", Flag, "no", "Masked over before paint.", "true"),
        May("rubbed", Flag, "no", "Rubbed or sanded before paint.", "true"),
        May("torsion", Flag, "no; a roof-ditch always", "Twists in driving, so it is always primed.", "true"),
        May("radius", Of(Measures.Radius), "straight", "Radius the seam follows.", "40 mm"),
        May("drains", Count(), "0", "Drain slots, weep holes or wax holes in its path that stay open.", "3"),
        May("beneath", new Kind.Either(new Kind.Id(), new Kind.Map(Beneath)), "bare, of the first metal", "What lies on it now; a short name alone for a coat.", "electrocoat"),
        May("above", Word<LayerAbove>(), "paint", "What comes over it.", "stone-chip"),
        May("stage", Word<Stage>(), "before-paint", "When it is done.", "before-access-closes"),
        May("zone", Text, "the joint alone", "Part of the car that one lamp covers.", "rear"),
        May("edge", Word<PanelEdge>(), "by type, stage and position", "Where it lies in the drawn seam map: edge of the panel's opening, or inside it.", "top"),
        May("after", After, "none", "Bonds and operations that come first.", "[B1]"),
        May("galvanic_isolation", Flag, "yes where aluminium, magnesium or carbon-fibre meets another metal, else no", "The bead is part of what keeps different metals apart.", "true"),
        May("wanted", Id, "open", "Short name of the material the technician insists on.", "SL2"),
    ]);

    public static Section Bond { get; } = new("bond", "Panels bonded by adhesive: fit, clamp until handling strength, clean the squeeze-out.",
    [
        Must("id", Id, "Name in the repair, unique.", "B1"),
        May("name", Text, "the id", "In words.", "door skin to frame"),
        Must("adhesive", Id, "Short name of the adhesive that the maker's procedure names.", "AD-E"),
        Must("length", Of(Measures.SeamLength), "Bond line.", "3.4 m"),
        May("metal", WordList<Metal>(), "steel", "Metals bonded, one or two.", "[aluminium, steel]"),
        May("closed", Moment, "still to do", "When it was closed and clamped.", "2027-03-03T09:20"),
        May("fit_time", Of(Measures.Work), "needed unless closed", "Work to apply, fit and clamp.", "60 min"),
        May("clean_time", Of(Measures.Work), "15 min", "Work to take the clamps off and clean the squeeze-out.", "20 min"),
        May("re_prime", Flag, "yes", "The cleaned edge is primed again before its seams.", "false"),
        May("closes_access", Flag, "no", "Closing it ends the access to the inner seams.", "true"),
        May("zone", Text, "the bond alone", "Part of the car that one lamp covers.", "door"),
        May("after", After, "none", "Bonds and operations that come first.", "[O1]"),
    ]);

    public static Section BareArea { get; } = new("bare_area", "Metal to coat beside the seams.",
    [
        Must("id", Id, "Name in the repair, unique.", "A1"),
        May("name", Text, "the id", "In words.", "outside of the wheelhouse"),
        Must("area", Of(Measures.Area), "Size.", "0.6 m²"),
        May("metal", Word<Metal>(), "steel", "Metal.", "zinc-coated-steel"),
        May("beneath", new Kind.Either(new Kind.Id(), new Kind.Map(Beneath)), "bare", "What lies on it now.", "{coat: P-EP, applied: 2027-01-12T14:30}"),
        May("stone_chip", Flag, "no", "Stone-chip coating is sprayed on it in the booth before the paint slot.", "true"),
        May("position", Word<Position>(), "level", "How it lies.", "overhead"),
        May("stage", Word<Stage>(), "before-paint", "When it is done.", "before-paint"),
        May("edge", Word<PanelEdge>(), "by position and stage", "Where it lies in the drawn seam map: edge of the panel's opening, or inside it.", "bottom"),
        May("after", After, "none", "Bonds and operations that come first.", "[O1]"),
    ]);

    public static Section Cavity { get; } = new("cavity", "A closed section to wax or foam.",
    [
        Must("id", Id, "Name in the repair, unique.", "C1"),
        May("name", Text, "the id", "In words.", "sill inside"),
        Must("treatment", Word<CavityTreatment>(), "What it gets.", "wax"),
        May("volume", Of(Measures.SomeVolume), "one place as the sheet covers it", "Volume to fill with foam.", "1.5 l"),
        May("length", Of(Measures.SeamLength), "counts as one place", "Length of the section.", "0.7 m"),
        May("drains", Count(), "0", "Drain and wax holes that stay open.", "2"),
        May("stage", Word<Stage>(), "after-paint-heat", "When it is done.", "after-paint-heat"),
        May("edge", Word<PanelEdge>(), "inside", "Where it lies in the drawn seam map: edge of the panel's opening, or inside it.", "inside"),
        May("after", After, "none", "Bonds and operations that come first.", "[O1]"),
    ]);

    public static Section Operation { get; } = new("operation", "Other work on the car that the seams depend on: fitting, welding, dressing.",
    [
        Must("id", Id, "Name in the repair, unique.", "O1"),
        May("name", Text, "the id", "In words.", "two plug welds with dressing"),
        Must("time", Of(Measures.Work), "Work.", "30 min"),
        May("skill", Word<Skill>(), "weld", "Skill it needs.", "weld"),
        May("hot_work", Flag, "no", "Welding, cutting or brazing: its heat reaches primer, seal, wax and foam near it.", "true"),
        May("closes_access", Flag, "no", "It ends the access to the inner seams.", "true"),
        May("near", Ids, "none", "Joints, bare areas and cavities within 100 mm of its heat.", "[J1, C1]"),
        May("stage", Word<Stage>(), "before-paint", "When it is done.", "before-paint"),
        May("after", After, "none", "Bonds and operations that come first.", "[O1]"),
    ]);

    public static Section Panel { get; } = new("panel", "An infrared reading of the panel.",
    [
        Must("temperature", Of(Measures.PanelTemperature), "What was read.", "11 °C"),
        May("at", Moment, "now", "When it was read.", "2026-11-06T16:45"),
    ]);

    public static Section Vehicle { get; } = new("vehicle", "How the vehicle stands.",
    [
        May("tilt", Of(Measures.Tilt), "level", "How far the vehicle leans now.", "4°"),
        May("can_be_levelled", Flag, "yes", "The vehicle can be brought level, for example let down from the lift.", "false"),
    ]);

    public static Section Statement { get; } = new("statement",
        "One statement of the maker's procedure; it outranks every other rule. At least one of materials, chemistries and uses.",
    [
        May("place", Id, "the whole repair", "Joint, bond, bare area, cavity or operation it speaks of.", "J5"),
        Must("says", Word<ProcedureKind>(), "Only what is named, not what is named, or what is named although a rule would refuse it.", "requires"),
        May("materials", Ids, "none", "Sheets it names.", "[E2S]"),
        May("chemistries", WordList<Chemistry>(), "none", "Chemistries it names.", "[two-part-epoxy]"),
        May("uses", WordList<MaterialUse>(), "none", "Uses it names.", "[flexible-foam]"),
        Must("text", Text, "The statement in short, for the reason shown.", "acoustic foam in the pillar"),
    ]);

    public static Section Procedure { get; } = new("procedure", "What the maker's procedure says.",
    [
        May("reference", Text, "not given", "Document and revision.", "body manual, section 4, revision 2"),
        May("statements", Maps(Statement), "none", "Its statements.", "see statement"),
    ]);

    public static Section SignOff { get; } = new("sign_off", "Somebody with the right to do so accepted a deviation; it goes into the record.",
    [
        Must("place", Id, "Joint, bond, bare area or cavity it is for.", "J3"),
        Must("material", Id, "Material it is for.", "MS1"),
        Must("rule", Text, "Rule it sets aside, by the name shown with the verdict.", "look.substitute"),
        Must("role", Text, "Role of the person.", "production manager"),
        Must("by", Text, "Name or initials.", "K. L."),
        Must("reason", Text, "Why.", "hidden under the trim"),
    ]);

    public static Section Today { get; } = new("today", "What is different from the shop file for this repair.",
    [
        May("lamp_busy_until", Moment, "free now", "The lamps are not free before this.", "2027-03-03T10:00"),
        May("lamp_free_until", Moment, "stays free", "The lamps are needed elsewhere from this on.", "2027-03-03T11:00"),
        May("absent", Ids, "none", "People who are not there.", "[helper]"),
        May("supplier_closed", Flag, "no", "The supplier takes no order on the day of the plan; the next day it is open as usual.", "true"),
        May("supplier_lacks", Ids, "none", "Materials the supplier cannot deliver, added to those of the shop file.", "[SL2]"),
    ]);

    public static Section File { get; } = new("repair", "One vehicle's job.",
    [
        .. Header(Line),
        May("id", Id, "name of the folder", "Name of the repair.", "evening-slot"),
        May("name", Text, "the id", "In words.", "Side outer panel over the wheelhouse"),
        Must("shop", FileOr(ShopFormat.File), "Shop file, or the shop itself.", "../shop.yaml"),
        Must("materials", new Kind.FileList(MaterialsFormat.File), "Materials file, several in a list, or the sheets themselves.", "[../materials.yaml]"),
        May("stock", FileOr(StockFormat.File), "empty shelves", "Stock file, or the stock itself.", "stock.yaml"),
        Must("climate", FileOr(ClimateFormat.File), "Climate file, or the climate itself.", "{temperature: 20 °C, humidity: 28 %}"),
        Must("now", Moment, "The moment from which is planned; what is earlier is a fact.", "2027-01-12T15:10"),
        May("arrives", Moment, "the vehicle is here", "When the vehicle comes in: no work on it begins before.", "2027-01-13T08:00"),
        Must("promise", Moment, "When the customer was promised the vehicle.", "2027-01-13T16:00"),
        Must("slots", new Kind.MomentList(), "Paint slots offered, ascending; the first is the wanted one.", "[2027-01-12T18:00, 2027-01-13T13:00]"),
        May("bake", Of(Measures.PanelTemperature), "the shop's bake", "Metal temperature of the paint bake.", "60 °C"),
        May("panel", Map(Panel), "the panel is at shop air", "Reading of the panel's own temperature.", "{temperature: 11 °C}"),
        May("vehicle", Map(Vehicle), "level", "How the vehicle stands.", "{tilt: 4°}"),
        May("looks_recorded", Flag, "yes", "The looks have been noted and photographed already.", "false"),
        May("today", Map(Today), "as in the shop file", "What is different from the shop file.", "{absent: [helper]}"),
        May("procedure", Map(Procedure), "nothing beyond the general order of work", "What the maker's procedure says.", "see procedure"),
        May("joints", Maps(Joint), "none", "Joints.", "see joint"),
        May("bonds", Maps(Bond), "none", "Adhesive bonds.", "see bond"),
        May("bare_areas", Maps(BareArea), "none", "Bare areas.", "see bare_area"),
        May("cavities", Maps(Cavity), "none", "Closed sections.", "see cavity"),
        May("operations", Maps(Operation), "none", "Other work.", "see operation"),
        May("sign_offs", Maps(SignOff), "none", "Sign-offs already given.", "see sign_off"),
    ]);
}
