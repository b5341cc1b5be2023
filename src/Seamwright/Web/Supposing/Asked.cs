using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Seamwright.Files.Trees;
using Seamwright.Files.Values;
using Seamwright.Materials;
using Seamwright.Planning.Suppositions;
using Seamwright.Repairs;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Program.Web.Supposing;

/// <summary>What somebody asks on the page: suppositions read from the address, so that an answer can be shown to others.</summary>
/// <param name="Suppositions">In a fixed order.</param>
/// <param name="Wrong">What could not be read, by the name of its input.</param>
internal sealed record Asked(ImmutableArray<Supposition> Suppositions, List<KeyValuePair<string, string>> Wrong)
{
    private static readonly LocalDateTimePattern Local = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm");

    public static Asked Nothing { get; } = new([], []);

    public bool IsAny => !Suppositions.IsEmpty || Wrong.Count > 0;

    public string? WrongOf(string name) => Wrong.FirstOrDefault(item => item.Key == name).Value;

    public static Asked Read(RepairInput input, IQueryCollection query, Words words)
    {
        var all = ImmutableArray.CreateBuilder<Supposition>();
        var problems = new ProblemList();
        string Of(string name) => query[name].ToString().Trim();
        Field FieldOf(string name) => new(new ScalarNode(default, Of(name), Plain: false), name, new SourceFile(name, problems));

        if (Of("joint") is { Length: > 0 } joint && Of("material") is { Length: > 0 } material)
            all.Add(new JointTakes(new PlaceId(joint), new MaterialId(material)));
        if (Of("slot") is { Length: > 0 } slot && !input.Repair.PaintSlots.IsEmpty)
        {
            if (Local.Parse(slot).TryGetValue(default, out var local))
                all.Add(new SlotMoved(input.Repair.PaintSlots[0], local.InZoneLeniently(input.Shop.Zone).ToInstant()));
            else
                FieldOf("slot").Problem("web.what.slot-wrong");
        }
        if (Of("heat").Length > 0 && QuantityText.Read(FieldOf("heat"), Measures.AirTemperature) is { } kelvin)
        {
            all.Add(new HeatingSetTo(Temperature.FromKelvin(kelvin)));
            all.Add(new HeatingLeftOn());
        }
        if (Of("humid").Length > 0 && QuantityText.Read(FieldOf("humid"), Measures.Humidity) is { } fraction)
            all.Add(new HumidityHeld(RelativeHumidity.FromFraction(fraction)));
        if (Of("person") is { Length: > 1 } person && input.Shop.People.Any(one => one.Id == person[1..]))
            all.Add(person[0] == '-' ? new PersonAway(person[1..]) : new OneMorePerson(person[1..]));
        if (Of("delivery") is "none")
            all.Add(new NoDelivery());
        else if (int.TryParse(Of("delivery"), NumberStyles.None, CultureInfo.InvariantCulture, out int hours) && hours is > 0 and <= 1000)
            all.Add(new DeliveryLate(Duration.FromHours(hours)));
        return new(all.ToImmutable(), [.. problems.Shown().Select(problem => new KeyValuePair<string, string>(problem.File, words.Say(problem.Key, [.. problem.Args])))]);
    }
}
