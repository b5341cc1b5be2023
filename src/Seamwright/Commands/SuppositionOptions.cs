using System.Collections.Immutable;
using System.CommandLine;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Planning.Suppositions;
using Seamwright.Program.Texts;
using Seamwright.Repairs;
using Seamwright.Work;

namespace Seamwright.Program.Commands;

/// <summary>One option for each thing that may be supposed; several may be given, some more than once.</summary>
internal sealed class SuppositionOptions
{
    private const int MostLamps = 20;

    private readonly Option<string[]> _joint;
    private readonly Option<string> _slot;
    private readonly Option<bool> _heatingOn;
    private readonly Option<string> _setPoint;
    private readonly Option<string> _humidity;
    private readonly Option<string[]> _person;
    private readonly Option<string[]> _away;
    private readonly Option<string[]> _lampOn;
    private readonly Option<string> _lamps;
    private readonly Option<string> _deliveryLate;
    private readonly Option<bool> _noDelivery;
    private readonly Option<string[]> _withoutPack;
    private readonly Option<string> _arrives;
    private readonly Option[] _all;

    public SuppositionOptions(Command command, Formatter words)
    {
        _joint = new Option<string[]>("--joint") { Description = words.Say("cli.suppose.joint"), HelpName = "JOINT=MATERIAL" };
        _slot = new Option<string>("--slot") { Description = words.Say("cli.suppose.slot"), HelpName = "WHEN" };
        _heatingOn = new Option<bool>("--heating-on") { Description = words.Say("cli.suppose.heating-on") };
        _setPoint = new Option<string>("--set-point") { Description = words.Say("cli.suppose.set-point"), HelpName = "TEMPERATURE" };
        _humidity = new Option<string>("--humidity") { Description = words.Say("cli.suppose.humidity"), HelpName = "PERCENT" };
        _person = new Option<string[]>("--one-more") { Description = words.Say("cli.suppose.one-more"), HelpName = "PERSON" };
        _away = new Option<string[]>("--away") { Description = words.Say("cli.suppose.away"), HelpName = "PERSON" };
        _lampOn = new Option<string[]>("--lamp-on") { Description = words.Say("cli.suppose.lamp-on"), HelpName = "PLACE" };
        _lamps = new Option<string>("--lamps") { Description = words.Say("cli.suppose.lamps"), HelpName = "N" };
        _deliveryLate = new Option<string>("--delivery-late") { Description = words.Say("cli.suppose.delivery-late"), HelpName = "TIME" };
        _noDelivery = new Option<bool>("--no-delivery") { Description = words.Say("cli.suppose.no-delivery") };
        _withoutPack = new Option<string[]>("--without-pack") { Description = words.Say("cli.suppose.without-pack"), HelpName = "PACK" };
        _arrives = new Option<string>("--arrives") { Description = words.Say("cli.suppose.arrives"), HelpName = "WHEN" };
        _all = [_joint, _slot, _heatingOn, _setPoint, _humidity, _person, _away, _lampOn, _lamps, _deliveryLate, _noDelivery, _withoutPack, _arrives];
        foreach (var option in _all)
            command.Options.Add(option);
    }

    /// <summary>Whether anything is supposed.</summary>
    public bool AreGiven(ParseResult parsed) => _all.Any(option => parsed.GetResult(option) is { Implicit: false });

    /// <summary>What is supposed, in the order of the options; what cannot be read has been told to <paramref name="typed"/>.</summary>
    public ImmutableArray<Supposition> Read(ParseResult parsed, RepairInput input, TypedValue typed)
    {
        var zone = input.Shop.Zone;
        var supposed = ImmutableArray.CreateBuilder<Supposition>();
        foreach (string text in parsed.GetValue(_joint) ?? [])
            AddIf(Takes(text, typed));
        AddIf(Slot(parsed.GetValue(_slot), input, typed));
        if (parsed.GetValue(_heatingOn))
            supposed.Add(new HeatingLeftOn());
        if (typed.Temperature(_setPoint.Name, parsed.GetValue(_setPoint)) is { } setPoint)
            supposed.Add(new HeatingSetTo(setPoint));
        if (typed.Humidity(_humidity.Name, parsed.GetValue(_humidity)) is { } humidity)
            supposed.Add(new HumidityHeld(humidity));
        supposed.AddRange((parsed.GetValue(_person) ?? []).Select(like => new OneMorePerson(like)));
        supposed.AddRange((parsed.GetValue(_away) ?? []).Select(who => new PersonAway(who)));
        supposed.AddRange((parsed.GetValue(_lampOn) ?? []).Select(place => new LampUsed(new PlaceId(place))));
        AddIf(Lamps(parsed.GetValue(_lamps), typed));
        if (typed.Span(_deliveryLate.Name, parsed.GetValue(_deliveryLate)) is { } late)
            supposed.Add(new DeliveryLate(late));
        if (parsed.GetValue(_noDelivery))
            supposed.Add(new NoDelivery());
        supposed.AddRange((parsed.GetValue(_withoutPack) ?? []).Select(pack => new PackGone(new PackId(pack))));
        if (typed.Moment(_arrives.Name, parsed.GetValue(_arrives), zone) is { } arrives)
            supposed.Add(new VehicleArrives(arrives));
        return supposed.ToImmutable();

        void AddIf(Supposition? one)
        {
            if (one is not null)
                supposed.Add(one);
        }
    }

    private JointTakes? Takes(string text, TypedValue typed)
    {
        var parts = text.Split('=', StringSplitOptions.TrimEntries);
        if (parts is [{ Length: > 0 } joint, { Length: > 0 } material])
            return new JointTakes(new PlaceId(joint), new MaterialId(material));
        typed.Refuse(_joint.Name, "cli.suppose.joint-form", text);
        return null;
    }

    private LampsThere? Lamps(string? text, TypedValue typed)
    {
        if (text is null)
            return null;
        if (int.TryParse(text, System.Globalization.CultureInfo.InvariantCulture, out int count) && count is >= 0 and <= MostLamps)
            return new LampsThere(count);
        typed.Refuse(_lamps.Name, "cli.suppose.lamps-range", text);
        return null;
    }

    /// <summary>The wanted slot goes to a moment, to a time of its own day, or by so much later or earlier.</summary>
    private SlotMoved? Slot(string? text, RepairInput input, TypedValue typed)
    {
        if (text is null)
            return null;
        if (input.Repair.PaintSlots.IsEmpty)
        {
            typed.Refuse(_slot.Name, "cli.suppose.slot-none");
            return null;
        }
        var wanted = input.Repair.PaintSlots[0];
        var zone = input.Shop.Zone;
        Instant? to = text.Trim() switch
        {
            ['+', .. var later] => typed.Span(_slot.Name, later) is { } by ? wanted + by : null,
            ['-' or '−', .. var earlier] => typed.Span(_slot.Name, earlier) is { } by ? wanted - by : null,
            { Length: <= 5 } clock => typed.Clock(_slot.Name, clock) is { } time ? wanted.InZone(zone).Date.At(time).InZoneLeniently(zone).ToInstant() : null,
            var moment => typed.Moment(_slot.Name, moment, zone),
        };
        return to is { } moved ? new SlotMoved(wanted, moved) : null;
    }
}
