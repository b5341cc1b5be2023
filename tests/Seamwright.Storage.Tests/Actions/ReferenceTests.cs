using NodaTime;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;
using Seamwright.Storage.Reference;
using Xunit;

namespace Seamwright.Storage.Tests.Actions;

/// <summary>The reference shop, a hundredth of it.</summary>
public class ReferenceTests
{
    private static readonly Instant End = Instant.FromUtc(2027, 3, 1, 6, 30);

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task It_is_full_whole_and_the_same_for_the_same_seed(string database)
    {
        await using var shop = await TestShop.Open(database);
        await using var other = await TestShop.Open(On.Sqlite);

        var counts = await shop.Store.FillWithReferenceShop(["PU1", "MS1"], End, 50, 7, TestShop.Stop);
        await other.Store.FillWithReferenceShop(["PU1", "MS1"], End, 50, 7, TestShop.Stop);

        Assert.Equal(new ReferenceCounts(50, 600, 2000, 20, 300, 3153), counts);
        Assert.Equal(new LogCheck(2000, null), await shop.Store.CheckLog(TestShop.Stop));
        Assert.Equal(ReferenceShop.Open, (await shop.Store.RepairPage(new(RepairState.Open), stop: TestShop.Stop)).Total);
        var photo = (await shop.Store.PhotosOf("R00001", TestShop.Stop))[0];
        Assert.True(File.Exists(shop.Folder.PhotoPath(photo.Hash)));
        Assert.Equal((await other.Store.WorkAfter(1999, stop: TestShop.Stop))[0].Hash, (await shop.Store.WorkAfter(1999, stop: TestShop.Stop))[0].Hash);
        Assert.Null(await shop.Store.FillWithReferenceShop(["PU1"], End, 50, 7, TestShop.Stop));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Readings_are_added_once_and_come_back_as_measured(string database)
    {
        await using var shop = await TestShop.Open(database);
        var readings = Enumerable.Range(0, 20).Select(i => new Air.ClimateReading(
            End + Duration.FromMinutes(5 * i), new(Units.Temperature.FromCelsius(20.1 + i / 10.0), Units.RelativeHumidity.FromPercent(41.3)))).ToList();

        Assert.Equal(20, await shop.Store.AddReadings("bay", readings, TestShop.Stop));
        Assert.Equal(0, await shop.Store.AddReadings("bay", readings, TestShop.Stop));
        var back = await shop.Store.ReadingsBetween("bay", End, End + Duration.FromMinutes(10), TestShop.Stop);

        Assert.Equal(readings.Take(3).Select(reading => reading.Time), back.Select(reading => reading.Time));
        Assert.Equal(20.2, back[1].Air.Temperature.Celsius, 1e-9);
        Assert.Equal(readings[19].Time, (await shop.Store.AirSources(TestShop.Stop))["bay"]);
        Assert.Equal(20, await shop.Store.ReplaceForecast(readings, TestShop.Stop));
        Assert.Equal(1, await shop.Store.ReplaceForecast(readings.Take(1), TestShop.Stop));
    }
}
