using System.Text.Json;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Program.Printing.Json;

/// <summary>What a plan takes from the shelf, orders and mixes.</summary>
internal sealed class StockPart(Utf8JsonWriter json, JsonTo to)
{
    public void Write(Plan plan)
    {
        json.WriteStartArray("pack_uses");
        foreach (var use in plan.PackUses)
            Use(use);
        json.WriteEndArray();
        json.WriteStartArray("orders");
        foreach (var order in plan.Orders)
            Order(json, to, order);
        json.WriteEndArray();
        json.WriteStartArray("mixes");
        foreach (var mix in plan.Mixes)
            Mix(mix);
        json.WriteEndArray();
    }

    private void Use(PackUse use)
    {
        json.WriteStartObject();
        json.WriteString("step", use.StepId);
        json.WriteString("pack", use.Pack.Value);
        json.WriteString("material", use.Material.Value);
        to.Text("lot", use.Lot);
        to.Number("amount_ml", use.Amount.Millilitres);
        to.Number("strip_mm", use.StripLength.Millimetres);
        json.WriteNumber("nozzles", use.Nozzles);
        to.Number("left_ml", use.Left.Millilitres);
        to.Number("left_strip_mm", use.StripLeft.Millimetres);
        to.Moment("left_usable_until", use.LeftUsableUntil);
        json.WriteBoolean("ordered", use.Ordered);
        json.WriteEndObject();
    }

    public static void Order(Utf8JsonWriter json, JsonTo to, OrderLine order)
    {
        json.WriteStartObject();
        json.WriteString("what", order.What is null ? "nozzles" : "packs");
        to.Text("material", order.What?.Value);
        json.WriteNumber("count", order.Count);
        to.Sum("price", order.Price);
        to.Moment("order_by", order.OrderBy);
        to.Moment("arrives", order.Arrives);
        to.Places("for", order.For);
        json.WriteEndObject();
    }

    private void Mix(Mix mix)
    {
        json.WriteStartObject();
        json.WriteString("step", mix.StepId);
        json.WriteString("material", mix.Material.Value);
        to.Number("total_ml", mix.Total.Millilitres);
        to.Number("base_ml", mix.Base.Millilitres);
        to.Number("hardener_ml", mix.Hardener.Millilitres);
        Grams("base_g", mix.BaseMass);
        Grams("hardener_g", mix.HardenerMass);
        to.Moment("use_by", mix.UseBy);
        json.WriteEndObject();
    }

    private void Grams(string name, Mass? mass)
    {
        if (mass is { } known)
            to.Number(name, known.Grams);
        else
            json.WriteNull(name);
    }
}
