using System.Text;
using Seamwright.Files;

namespace Seamwright.EndToEnd.Tests.Files;

/// <summary>A throw-away copy of a small sound repair, to be spoilt in one place.</summary>
internal sealed class Folder : IDisposable
{
    public const string Repair = """
        seamwright: repair/1
        shop: shop.yaml
        materials: materials.yaml
        stock: stock.yaml
        climate: {temperature: 20 °C, humidity: 28 %}
        now: 2027-01-12T15:10
        promise: 2027-01-13T16:00
        slots: [2027-01-12T18:00, 2027-01-13T13:00]
        joints:
          - id: J1
            type: wheelhouse
            length: 1.2 m
            position: overhead
            look: {profile: sprayed, width: 40 mm, height: 1 mm}
            beneath: {coat: P-EP, applied: 2027-01-12T14:30}
          - id: J2
            type: fastener
            count: 3
            look: dab
        bonds:
          - {id: B1, adhesive: AD-E, length: 1 m, fit_time: 30 min}
        operations:
          - {id: O1, time: 30 min, after: [B1]}
        """;

    public const string Shop = """
        seamwright: shop/1
        name: Invented shop
        zone: Europe/Vienna
        currency: CU
        hours: [{days: Mon-Fri, from: 07:30, to: 18:00, breaks: [12:30-13:00]}]
        people: [{id: technician, skills: [prime, seal], per_hour: 66.00}]
        amounts: {nozzle_price: 2.20}
        time_value: {bay_day: 240.00}
        """;

    public const string Materials = """
        seamwright: materials/1
        sheets:
          - id: E2S
            name: two-part epoxy
            use: seam-sealer
            chemistry: two-part-epoxy
            source: invented
            energy: 55 kJ/mol
            times: {work: 25 min, paint: 90 min}
            paint_within: 24 h
            limits: {panel_from: 15 °C, panel_to: 35 °C}
            looks: [half-round, dab]
            pack: {content: 200 ml, ratio: 2:1, price: 34.00}
          - {id: P-EP, name: epoxy primer, use: primer, chemistry: two-part-epoxy, source: invented, pack: {content: 1 l, price: 60.00}}
          - {id: AD-E, name: adhesive, use: panel-adhesive, chemistry: two-part-epoxy, source: invented, pack: {content: 200 ml, price: 46.00}}
        """;

    public const string Stock = """
        seamwright: stock/1
        packs:
          - {id: A, material: E2S, expires: 2027-06, opened: 2027-01-04, left: 120 ml}
        nozzles: 4
        """;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("seamwright-");

    public Folder()
    {
        Write("repair.yaml", Repair);
        Write("shop.yaml", Shop);
        Write("materials.yaml", Materials);
        Write("stock.yaml", Stock);
    }

    public string Path => _folder.FullName;

    public string At(string name) => System.IO.Path.Combine(Path, name);

    public void Write(string name, string text)
    {
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(At(name))!);
        File.WriteAllText(At(name), text, new UTF8Encoding(false));
    }

    /// <summary>Puts one text in place of another, which must be there.</summary>
    public void Spoil(string name, string text, string other)
    {
        string content = File.ReadAllText(At(name));
        Xunit.Assert.Contains(text, content, StringComparison.Ordinal);
        Write(name, content.Replace(text, other, StringComparison.Ordinal));
    }

    public Reading Read() => RepairReader.Read(Path);

    public void Dispose() => _folder.Delete(recursive: true);
}
