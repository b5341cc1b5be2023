using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using NodaTime;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Reference;

/// <summary>Invented rows, the same for the same seed.</summary>
internal sealed class ReferenceRows(int seed, Instant end, Duration span, int repairs, ImmutableArray<string> materials)
{
    public const int JointsEach = 12;
    public const int EntriesEach = 40;
    public const int PhotosEach = 6;

    private const string By = "seed";

    private static readonly string[] Panels = ["Front rail", "Side outer", "Rear panel", "Roof end", "Floor patch", "Sill", "Wheelhouse", "Apron"];
    private static readonly string[] Looks =
        ["{\"profile\":\"half-round\",\"width\":\"8 mm\",\"height\":\"3 mm\"}", "{\"profile\":\"fillet\",\"width\":\"6 mm\",\"height\":\"6 mm\"}", "{\"profile\":\"brushed\",\"width\":\"20 mm\",\"height\":\"1.5 mm\"}"];
    private static readonly string[] Kinds = ["metal-bared", "primed", "pack-taken", "bead-applied", "look-recorded", "checked", "heat-on", "heat-off"];

    // The smallest picture there is: one grey dot.
    private static readonly byte[] Dot = Convert.FromBase64String("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==");

    private readonly Random _random = new(seed);

    private Instant Start => end - span;

    public IEnumerable<RepairRow> AllRepairs()
    {
        for (int i = 0; i < repairs; i++)
        {
            bool isOpen = i >= repairs - ReferenceShop.Open;
            // A day's entries follow: none of them may lie after the end.
            var arrives = Whole(Start + span * ((double)i / repairs) - Duration.FromHours(12));
            var promised = isOpen ? Whole(end + Duration.FromHours(30 + 8 * (i - (repairs - ReferenceShop.Open)))) : arrives + Duration.FromHours(52);
            string id = string.Create(CultureInfo.InvariantCulture, $"R{i + 1:00000}");
            string title = $"{Panels[i % Panels.Length]}, invented car {i + 1}";
            var row = new RepairRow
            {
                Id = id,
                Created = arrives,
                State = isOpen ? RepairState.Open : i >= repairs - 4 * ReferenceShop.Open ? RepairState.Delivered : RepairState.Closed,
                Document = Document(id, title, isOpen ? end : arrives, promised),
                Version = 1,
                Changed = arrives,
                ChangedBy = By,
            };
            SavingRepairs.Fill(row, new(id, title, row.Document, arrives, promised));
            yield return row;
        }
    }

    public IEnumerable<PackRow> AllPacks()
    {
        int count = Math.Max(1, repairs * 2 / 5);
        for (int i = 0; i < count; i++)
        {
            // The last two hundred are on the shelf, the others were used up long ago.
            string id = string.Create(CultureInfo.InvariantCulture, $"P{i + 1:00000}");
            string material = materials[i % materials.Length];
            string lot = string.Create(CultureInfo.InvariantCulture, $"L-{i / 6:000}");
            var bought = Whole(Start + span * ((double)i / count));
            var expires = bought.InUtc().Date.PlusMonths(14);
            string json = $$"""{"id":"{{id}}","material":"{{material}}","lot":"{{lot}}","expires":"{{expires.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture)}}"}""";
            yield return new PackRow
            {
                Id = id,
                Material = material,
                Lot = lot,
                Expires = expires,
                Gone = i < count - 200 ? bought + Duration.FromDays(40) : null,
                Document = json,
                Version = 1,
                Changed = bought,
                ChangedBy = By,
            };
        }
    }

    public IEnumerable<WorkRow> AllWork(IReadOnlyList<RepairRow> all)
    {
        (long sequence, string hash) = (0, WorkChain.Beginning);
        foreach (var repair in all)
        {
            for (int i = 0; i < EntriesEach; i++)
            {
                var at = Whole(repair.Created + Duration.FromMinutes(11 * i + _random.Next(9)));
                var fact = new WorkFact(Id(at), at, Offset.FromHours(1), i % 3 == 0 ? "helper" : "technician", Kinds[i % Kinds.Length], repair.Id, $$"""{"joint":"J{{i % JointsEach + 1}}","minutes":{{_random.Next(1, 15)}}}""");
                var row = AppendingWork.RowOf(fact, ++sequence, hash, at + Duration.FromSeconds(2));
                hash = row.Hash;
                yield return row;
            }
        }
    }

    public IEnumerable<ReadingRow> AllReadings()
    {
        int count = (int)(span / Duration.FromMinutes(5));
        for (int i = 0; i < count; i++)
        {
            double day = i / 288.0;
            double outdoors = 10 - 10 * Math.Cos(2 * Math.PI * day / 365) - 4 * Math.Cos(2 * Math.PI * day);
            double indoors = Math.Max(outdoors, day % 1 is > 0.25 and < 0.75 ? 20 : 14);
            yield return new ReadingRow
            {
                Source = AddingReadings.Log,
                At = Whole(Start + Duration.FromMinutes(5 * i)),
                Celsius = Math.Round(indoors + 0.4 * _random.NextDouble(), 2),
                HumidityPercent = Math.Round(45 + 15 * Math.Sin(2 * Math.PI * day / 9) + 4 * _random.NextDouble(), 1),
            };
        }
    }

    public IEnumerable<(byte[] Bytes, Func<string, PhotoRow> Row)> AllPhotos(IReadOnlyList<RepairRow> all)
    {
        foreach (var repair in all)
        {
            for (int i = 0; i < PhotosEach; i++)
            {
                var taken = Whole(repair.Created + Duration.FromMinutes(7 * i));
                byte[] bytes = [.. Dot, .. Encoding.ASCII.GetBytes($"{repair.Id}-{i}")];
                string place = $"J{i + 1}";
                yield return (bytes, hash => new PhotoRow
                {
                    Id = Id(taken),
                    Repair = repair.Id,
                    Place = place,
                    Kind = "look-before",
                    Taken = taken,
                    Recorded = taken,
                    TakenBy = "technician",
                    Hash = hash,
                    Bytes = bytes.Length,
                    Type = "image/png",
                });
            }
        }
    }

    private string Document(string id, string title, Instant now, Instant promised)
    {
        var json = new StringBuilder();
        json.Append(CultureInfo.InvariantCulture, $"{{\"invented\":true,\"id\":\"{id}\",\"name\":\"{title}\",\"now\":\"{Time(now)}\",\"promise\":\"{Time(promised)}\",\"slots\":[");
        var slots = Enumerable.Range(1, 8).Select(i => now + Duration.FromHours(4 * i)).Where(slot => slot < promised).Select(slot => $"\"{Time(slot)}\"");
        json.AppendJoin(',', slots).Append("],\"joints\":[");
        for (int i = 1; i <= JointsEach; i++)
        {
            string position = i % 3 == 0 ? "vertical" : "level";
            json.Append(i == 1 ? "" : ",").Append(CultureInfo.InvariantCulture,
                $"{{\"id\":\"J{i}\",\"type\":\"lap\",\"length\":\"{_random.Next(20, 140) / 100.0} m\",\"position\":\"{position}\",\"look\":{Looks[i % Looks.Length]},\"beneath\":{{\"coat\":\"P-EP\",\"applied\":\"{Time(now - Duration.FromHours(16))}\"}}}}");
        }

        return json.Append("]}").ToString();
    }

    private Guid Id(Instant at)
    {
        // As a UUID of version 7 is made, with a seeded rest.
        Span<byte> bytes = stackalloc byte[16];
        _random.NextBytes(bytes);
        long milliseconds = at.ToUnixTimeMilliseconds();
        for (int i = 5; i >= 0; i--, milliseconds >>= 8)
            bytes[i] = (byte)milliseconds;
        bytes[6] = (byte)(bytes[6] & 0x0F | 0x70);
        bytes[8] = (byte)(bytes[8] & 0x3F | 0x80);
        return new Guid(bytes, bigEndian: true);
    }

    private static string Time(Instant instant) => instant.ToString("uuuu-MM-dd'T'HH:mm'Z'", CultureInfo.InvariantCulture);

    private static Instant Whole(Instant instant) => Instant.FromUnixTimeSeconds(instant.ToUnixTimeSeconds());
}
