using System.Globalization;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Suppositions;

/// <summary>A joint takes a certain material and no other. Whether it may is still for the rules to say.</summary>
/// <param name="Joint">The joint.</param>
/// <param name="Material">The material.</param>
public sealed record JointTakes(PlaceId Joint, MaterialId Material) : Supposition
{
    /// <inheritdoc/>
    public override Reason InWords => Reason.Of("suppose-joint", Joint, Material);

    /// <inheritdoc/>
    public override string Key => $"joint {Joint}={Material}";

    /// <inheritdoc/>
    public override Supposed Apply(RepairInput input)
    {
        var joints = input.Repair.Joints;
        int at = joints.IndexOf(joints.FirstOrDefault(joint => joint.Id == Joint)!);
        if (at < 0)
            return Not("suppose-no-joint", Joint, joints.Select(joint => joint.Id).ToList());
        if (input.Sheets.All(sheet => sheet.Id != Material))
            return Not("suppose-no-material", Material, input.Sheets.Select(sheet => sheet.Id).ToList());
        return Fits(input with { Repair = input.Repair with { Joints = joints.SetItem(at, joints[at] with { Wanted = Material }) } });
    }
}

/// <summary>A joint or bond is cured under a lamp, whether that pays or not.</summary>
/// <param name="Place">The joint or bond.</param>
public sealed record LampUsed(PlaceId Place) : Supposition
{
    /// <inheritdoc/>
    public override Reason InWords => Reason.Of("suppose-lamp-used", Place);

    /// <inheritdoc/>
    public override string Key => $"lamp on {Place}";

    /// <inheritdoc/>
    public override Supposed Apply(RepairInput input)
    {
        if (input.Shop.Lamps is null)
            return Not("suppose-lamps-unknown");
        var repair = input.Repair;
        if (repair.Joints.Any(joint => joint.Id == Place))
            return Fits(input with { Repair = repair with { Joints = [.. repair.Joints.Select(joint => joint.Id == Place ? joint with { UnderLamp = true } : joint)] } });
        if (repair.Bonds.Any(bond => bond.Id == Place))
            return Fits(input with { Repair = repair with { Bonds = [.. repair.Bonds.Select(bond => bond.Id == Place ? bond with { UnderLamp = true } : bond)] } });
        return Not("suppose-no-lamp-place", Place, repair.Joints.Select(joint => joint.Id).Concat(repair.Bonds.Select(bond => bond.Id)).ToList());
    }
}

/// <summary>A paint slot offered is moved to another time; the others stay.</summary>
/// <param name="From">Slot as offered.</param>
/// <param name="To">Its new time.</param>
public sealed record SlotMoved(Instant From, Instant To) : Supposition
{
    /// <inheritdoc/>
    public override Reason InWords => Reason.Of("suppose-slot", From, To);

    /// <inheritdoc/>
    public override string Key => string.Create(CultureInfo.InvariantCulture, $"slot {From.ToUnixTimeSeconds()}={To.ToUnixTimeSeconds()}");

    /// <inheritdoc/>
    public override Supposed Apply(RepairInput input)
    {
        var slots = input.Repair.PaintSlots;
        return slots.Contains(From)
            ? Fits(input with { Repair = input.Repair with { PaintSlots = [.. slots.Select(slot => slot == From ? To : slot).Distinct().Order()] } })
            : Not("suppose-no-slot", From, slots);
    }
}

/// <summary>The vehicle comes in later: no work begins before.</summary>
/// <param name="At">When it arrives.</param>
public sealed record VehicleArrives(Instant At) : Supposition
{
    /// <inheritdoc/>
    public override Reason InWords => Reason.Of("suppose-arrives", At);

    /// <inheritdoc/>
    public override string Key => string.Create(CultureInfo.InvariantCulture, $"arrives {At.ToUnixTimeSeconds()}");

    /// <inheritdoc/>
    public override Supposed Apply(RepairInput input) => Fits(input with { Repair = input.Repair with { Arrives = At } });
}
