using System.Text.Json;
using Seamwright.Program.Texts;
using Seamwright.Work;

namespace Seamwright.Program.Printing.Json;

/// <summary>Writes a plan made again as JSON, version <c>replan/1</c> (docs/formats/replan.schema.json); it can be given as the plan of the next time.</summary>
public static class ReplanJson
{
    /// <summary>Version line of the document.</summary>
    public const string Version = "replan/1";

    /// <summary>The document, UTF-8 with a newline at its end.</summary>
    public static byte[] Write(Replan replan, Formatter format) =>
        Document.Of(json => new Writer(json, new JsonTo(json, format, replan.Input.Shop.Zone), replan).Write());

    private sealed class Writer(Utf8JsonWriter json, JsonTo to, Replan replan)
    {
        public void Write()
        {
            json.WriteString("seamwright", Version);
            json.WriteStartObject("repair");
            json.WriteString("id", replan.Input.Repair.Id);
            json.WriteString("name", replan.Input.Repair.Name);
            to.Moment("now", replan.Input.Repair.Now);
            to.Moment("promise", replan.Input.Repair.Promise);
            json.WriteEndObject();
            json.WriteString("currency", replan.Input.Shop.Currency);
            json.WriteString("input_sha256", replan.Input.ContentHash);
            json.WriteStartObject("before");
            json.WriteString("id", replan.Before.Id);
            to.Moment("slot", replan.Before.Slot);
            to.Moment("ready_for_paint", replan.Before.ReadyForPaint);
            to.Moment("ready_for_delivery", replan.Before.HandOver);
            to.Sum("total", replan.Before.Total);
            json.WriteEndObject();
            to.Sum("spent_so_far", replan.SpentSoFar);
            to.Sum("price_of_moves", replan.PriceOfMoves);
            List("promises", replan.Promises, Promise);
            List("moves", replan.Moves, Move);
            List("stays", replan.Stays, step => Work(null, step));
            List("standing", replan.Standing, Standing);
            List("orders_placed", replan.Placed, order => StockPart.Order(json, to, order));
            if (replan.Plan is { } plan)
                new PlanPart(json, to).Write("plan", plan);
            else
                json.WriteNull("plan");
            Document.Conflicts(json, to, replan.Conflicts);
            to.Reasons("problems", replan.Problems);
        }

        private void List<T>(string name, IEnumerable<T> items, Action<T> write)
        {
            json.WriteStartArray(name);
            foreach (var item in items)
                write(item);
            json.WriteEndArray();
        }

        private void Promise(PromiseChange promise)
        {
            json.WriteStartObject();
            json.WriteString("what", promise.IsSlot ? "slot" : "hand-over");
            to.Moment("before", promise.Before);
            to.Moment("after", promise.After);
            json.WriteBoolean("kept", promise.Kept);
            to.Sum("price", promise.Price);
            json.WriteEndObject();
        }

        private void Move(Move move)
        {
            json.WriteStartObject();
            to.Word("kind", move.Kind);
            to.Word("work", move.Work);
            to.Places("places", move.Places);
            Work("before", move.Before);
            Work("after", move.After);
            to.Sum("price", move.Price);
            to.Reasons("why", move.Why);
            json.WriteEndObject();
        }

        private void Work(string? name, Step? step)
        {
            if (step is null)
            {
                json.WriteNull(name!);
                return;
            }
            if (name is null)
                json.WriteStartObject();
            else
                json.WriteStartObject(name);
            to.Text("step", step.Id);
            to.Word("kind", step.Kind);
            to.Places("places", step.Places);
            to.Text("person", step.Person);
            to.Moment("start", step.Start);
            to.Moment("end", step.End);
            to.Text("material", step.Material?.Value);
            json.WriteEndObject();
        }

        private void Standing(StandingWork work)
        {
            var step = work.Step;
            json.WriteStartObject();
            json.WriteString("id", step.Id);
            to.Word("state", work.State);
            to.Word("kind", step.Kind);
            to.Places("places", step.Places);
            to.Text("person", step.Person);
            to.Moment("start", step.Start);
            to.Moment("end", step.End);
            to.Moment("announced_start", work.Announced?.Start);
            to.Moment("announced_end", work.Announced?.End);
            to.Text("material", step.Material?.Value);
            to.Number("amount_ml", step.Amount.Millilitres);
            to.Number("strip_mm", step.StripLength.Millimetres);
            json.WriteNumber("nozzles", step.Nozzles);
            if (step.HeatTo is { } heat)
                to.Number("heat_to_celsius", heat.Celsius);
            else
                json.WriteNull("heat_to_celsius");
            List("packs", work.Packs, Packs);
            json.WriteEndObject();
        }

        private void Packs(Taken taken)
        {
            json.WriteStartObject();
            json.WriteString("pack", taken.Pack.Value);
            to.Number("amount_ml", taken.Amount.Millilitres);
            to.Number("strip_mm", taken.Strip.Millimetres);
            json.WriteNumber("nozzles", taken.Nozzles);
            json.WriteEndObject();
        }
    }
}
