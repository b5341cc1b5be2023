using System.Collections.Immutable;
using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Files;

/// <summary>Reads back what is needed of a plan that this program wrote: <c>plan/1</c>, or a plan made again, <c>replan/1</c>.</summary>
public static class AnnouncedPlanReader
{
    /// <summary>Largest plan read. [bytes]</summary>
    private const long Limit = 50_000_000;

    private static readonly OffsetDateTimePattern Iso = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:sso<+HH:mm>");

    /// <summary>Reads a plan for a repair.</summary>
    /// <param name="path">The file.</param>
    /// <param name="input">The repair it must be of.</param>
    public static (AnnouncedPlan? Plan, ImmutableArray<FileProblem> Problems) Read(string path, RepairInput input)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(input);
        try
        {
            if (!File.Exists(path))
                return Problem("file.missing");
            if (new FileInfo(path).Length > Limit)
                return Problem("announced.not-a-plan");
            using var document = JsonDocument.Parse(File.ReadAllBytes(path));
            var root = document.RootElement;
            string version = root.GetProperty("seamwright").GetString() ?? "";
            if (version is not ("plan/1" or "replan/1"))
                return Problem("announced.other-version", Words.Quote(version));
            string repair = root.GetProperty("repair").GetProperty("id").GetString() ?? "";
            if (repair != input.Repair.Id)
                return Problem("announced.other-repair", Words.Quote(repair), input.Repair.Id);
            var plan = root.GetProperty(version == "plan/1" ? "recommended" : "plan");
            return plan.ValueKind == JsonValueKind.Null
                ? Problem("announced.no-plan")
                : (Plan(root, plan, input, version == "replan/1"), []);
        }
        catch (Exception exception) when (exception is JsonException or KeyNotFoundException or InvalidOperationException or FormatException or UnparsableValueException)
        {
            return Problem("announced.not-a-plan");
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            return Problem("file.unreadable");
        }

        (AnnouncedPlan?, ImmutableArray<FileProblem>) Problem(string key, params string[] args) => (null, [new FileProblem(path, 0, 0, "", key, [.. args])]);
    }

    private static AnnouncedPlan Plan(JsonElement root, JsonElement plan, RepairInput input, bool isAgain)
    {
        string currency = input.Shop.Currency;
        var steps = Items(plan, "steps").Select(Step);
        var uses = Items(plan, "pack_uses").Select(use => Use(use, Text(use, "step")!));
        var orders = Items(plan, "orders").Select(order => Order(order, currency));
        if (isAgain)
        {
            steps = Items(root, "standing").Select(Step).Concat(steps);
            uses = Items(root, "standing").SelectMany(work => Items(work, "packs").Select(use => Use(use, Text(work, "id")!))).Concat(uses);
            orders = Items(root, "orders_placed").Select(order => Order(order, currency)).Concat(orders);
        }
        return new AnnouncedPlan(
            Text(plan, "id")!, input.Repair.Id, isAgain ? "" : Text(root, "input_sha256") ?? "", Moment(plan, "slot")!.Value, Moment(plan, "ready_for_paint")!.Value,
            Moment(plan, "ready_for_delivery")!.Value, new Money(plan.GetProperty("cost").GetProperty("total").GetDecimal() + (isAgain ? root.GetProperty("spent_so_far").GetDecimal() : 0), currency),
            [.. steps], [.. uses], [.. orders]);
    }

    private static JsonElement.ArrayEnumerator Items(JsonElement parent, string name) => parent.GetProperty(name).EnumerateArray();

    private static string? Text(JsonElement parent, string name) => parent.GetProperty(name).GetString();

    private static Instant? Moment(JsonElement parent, string name) => Text(parent, name) is { } text ? Iso.Parse(text).Value.ToInstant() : null;

    private static double Number(JsonElement parent, string name) => parent.GetProperty(name) is { ValueKind: JsonValueKind.Number } number ? number.GetDouble() : 0;

    private static MaterialId? Material(JsonElement parent) => Text(parent, "material") is { } material ? new MaterialId(material) : null;

    private static Step Step(JsonElement step)
    {
        var (start, end) = (Moment(step, "start")!.Value, Moment(step, "end")!.Value);
        string? person = Text(step, "person");
        return new Step
        {
            Id = Text(step, "id")!,
            Kind = (StepKind)Words.Of(typeof(StepKind)).First(word => word.Word == Text(step, "kind")).Value,
            Places = [.. Items(step, "places").Select(place => new PlaceId(place.GetString()!))],
            Person = person,
            Start = start,
            End = end,
            Labour = person is null ? Duration.Zero : end - start,
            Material = Material(step),
            Amount = Volume.FromMillilitres(Number(step, "amount_ml")),
            StripLength = Length.FromMillimetres(Number(step, "strip_mm")),
            Nozzles = step.GetProperty("nozzles").GetInt32(),
            HeatTo = step.GetProperty("heat_to_celsius").ValueKind == JsonValueKind.Number ? Temperature.FromCelsius(Number(step, "heat_to_celsius")) : null,
        };
    }

    private static PackUse Use(JsonElement use, string step) => new(
        step, new PackId(Text(use, "pack")!), use.TryGetProperty("material", out _) ? Material(use) ?? default : default, "", Volume.FromMillilitres(Number(use, "amount_ml")),
        Length.FromMillimetres(Number(use, "strip_mm")), use.GetProperty("nozzles").GetInt32(), Volume.Zero, Length.Zero,
        use.TryGetProperty("ordered", out var ordered) && ordered.GetBoolean(), null);

    private static OrderLine Order(JsonElement order, string currency) => new(
        Text(order, "what") == "nozzles" ? null : Material(order), order.GetProperty("count").GetInt32(), new Money(order.GetProperty("price").GetDecimal(), currency),
        Moment(order, "order_by")!.Value, Moment(order, "arrives")!.Value, [.. Items(order, "for").Select(place => new PlaceId(place.GetString()!))]);
}
