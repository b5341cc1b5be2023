using Seamwright.Program.Texts;
using Seamwright.Work;

namespace Seamwright.Program.Printing.Json;

/// <summary>Writes the plans of all vehicles of a shop as JSON, version <c>shop-plan/1</c> (docs/formats/shop-plan.schema.json).</summary>
public static class ShopPlanJson
{
    /// <summary>Version line of the document.</summary>
    public const string Version = "shop-plan/1";

    /// <summary>The document, UTF-8 with a newline at its end.</summary>
    public static byte[] Write(ShopPlan plan, Formatter format) => Document.Of(json =>
    {
        var first = plan.Vehicles[0].Input;
        var to = new JsonTo(json, format, first.Shop.Zone);
        json.WriteString("seamwright", Version);
        json.WriteStartObject("shop");
        json.WriteString("name", first.Shop.Name);
        json.WriteString("zone", first.Shop.Zone.Id);
        json.WriteString("currency", first.Shop.Currency);
        json.WriteEndObject();
        to.Moment("now", first.Repair.Now);
        to.Sum("total", plan.Total);
        to.Sum("lower_bound", plan.LowerBound);
        json.WriteBoolean("proven", plan.ProvenOptimal);
        json.WriteStartArray("vehicles");
        foreach (var vehicle in plan.Vehicles)
        {
            json.WriteStartObject();
            json.WriteString("repair", vehicle.Input.Repair.Id);
            json.WriteString("name", vehicle.Input.Repair.Name);
            json.WriteString("input_sha256", vehicle.Input.ContentHash);
            to.Moment("promise", vehicle.Input.Repair.Promise);
            json.WriteBoolean("late", vehicle.IsLate);
            if (vehicle.PriceOfSharing is { } price)
                to.Sum("price_of_sharing", price);
            else
                json.WriteNull("price_of_sharing");
            if (vehicle.Plan is { } own)
                new PlanPart(json, to).Write("plan", own);
            else
                json.WriteNull("plan");
            Document.Conflicts(json, to, vehicle.Conflicts);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    });
}
