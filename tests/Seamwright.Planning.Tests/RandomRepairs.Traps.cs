using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Tests;

/// <summary>Small repairs with things in the way.</summary>
internal static partial class RandomRepairs
{
    public static readonly ImmutableDictionary<string, Func<RepairInput, RepairInput>> Traps = new Dictionary<string, Func<RepairInput, RepairInput>>
    {
        ["no sealer"] = input => WithoutSupplier(Without(input, MaterialUse.SeamSealer)),
        ["slot too soon"] = input => WithSlots(input, input.Repair.Now + Duration.FromMinutes(40)),
        ["slots past"] = input => WithSlots(input, input.Repair.Now - Duration.FromHours(3)),
        ["no slot"] = input => WithSlots(input),
        ["everybody away"] = input => input with { Shop = input.Shop with { Holidays = [.. Enumerable.Range(-1, 20).Select(input.Repair.Now.InZone(Zone).Date.PlusDays)] } },
        ["all masked"] = input => WithJoints(WithoutSupplier(Without(input, MaterialUse.SeamTape)), joint => joint with { Masked = true }),
        ["procedure asks for what is not there"] = input => WithoutSupplier(input with
        {
            Repair = input.Repair with { Procedure = [new ProcedureStatement(null, ProcedureKind.Requires, [], [Chemistry.TwoPartEpoxy], [], "two-part epoxy only")] },
            Stock = input.Stock with { Packs = [.. input.Stock.Packs.Where(pack => pack.Material.Value is not ("E2S" or "SL2"))] },
        }),
        ["etch and no primer"] = input => WithJoints(
            WithoutSupplier(Without(input, MaterialUse.Primer)),
            joint => joint with { Masked = true, Surface = new Surface(SurfaceKind.EtchPrimer, new MaterialId("P-ET"), input.Repair.Now - Duration.FromHours(3)) }),
        ["cold and no lamp"] = input => input with
        {
            Climate = new ConstantClimate(new AirState(Temperature.FromCelsius(3), RelativeHumidity.FromFraction(0.5))),
            Shop = input.Shop with { Lamps = null },
        },
        ["leaning ditch"] = input => WithJoints(
            input with { Repair = input.Repair with { VehicleTilt = Angle.FromDegrees(4), CanBeLevelled = false } },
            joint => joint with { Type = JointType.RoofDitch, Look = Seam(Profile.Ditch, 12, 4) with { Strict = true, Visible = true } }),
        ["nobody seals"] = input => input with { Shop = input.Shop with { People = [.. input.Shop.People.Select(person => person with { Skills = person.Skills.Remove(Skill.Seal) })] } },
        ["no foam"] = input => WithoutSupplier(Without(input, MaterialUse.FlexibleFoam)) with
        {
            Repair = input.Repair with { Cavities = [new Cavity { Id = new PlaceId("C9"), Name = "pillar", Treatment = CavityTreatment.FlexibleFoam, Volume = Volume.FromMillilitres(700) }] },
        },
        ["slow bond"] = input => WithSlots(input, input.Repair.Now + Duration.FromHours(3)) with
        {
            Repair = input.Repair with
            {
                PaintSlots = [input.Repair.Now + Duration.FromHours(3)],
                Bonds = [new Bond { Id = new PlaceId("B9"), Name = "flange", Adhesive = new MaterialId("AD-E"), Length = Length.FromMetres(1), Metals = [Metal.Steel], Closed = input.Repair.Now, CleanTime = Duration.FromMinutes(10) }],
            },
            Shop = input.Shop with { Lamps = null },
        },
        ["nobody trained"] = input => input with
        {
            Sheets = [.. input.Sheets.Select(sheet => sheet.Use is MaterialUse.SeamSealer or MaterialUse.SeamTape ? sheet with { Trainings = ["sealing"] } : sheet)],
            Shop = input.Shop with { People = [.. input.Shop.People.Select(person => person with { Trainings = ImmutableDictionary<string, LocalDate>.Empty })] },
        },
    }.ToImmutableDictionary();

    /// <summary>A small repair with one to three traps; it may still have a plan.</summary>
    public static RepairInput Trapped(int seed)
    {
        var random = new Random(seed);
        var input = Small(seed);
        var names = Traps.Keys.Order(StringComparer.Ordinal).ToArray();
        for (int traps = random.Next(1, 4); traps > 0; traps--)
            input = Traps[names[random.Next(names.Length)]](input);
        return input;
    }

    public static RepairInput WithSlots(RepairInput input, params ReadOnlySpan<Instant> slots) => input with { Repair = input.Repair with { PaintSlots = [.. slots] } };

    private static RepairInput WithoutSupplier(RepairInput input) => input with { Shop = input.Shop with { Supplier = null } };

    private static RepairInput Without(RepairInput input, MaterialUse use) => input with
    {
        Stock = input.Stock with { Packs = [.. input.Stock.Packs.Where(pack => input.Sheets.First(sheet => sheet.Id == pack.Material).Use != use)] },
    };

    private static RepairInput WithJoints(RepairInput input, Func<Joint, Joint> change) =>
        input with { Repair = input.Repair with { Joints = [.. input.Repair.Joints.Select(change)] } };
}
