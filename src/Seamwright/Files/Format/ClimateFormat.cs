using Seamwright.Files.Values;
using static Seamwright.Files.Format.Key;
using static Seamwright.Files.Format.Kinds;

namespace Seamwright.Files.Format;

/// <summary>The climate file.</summary>
internal static class ClimateFormat
{
    /// <summary>Version line.</summary>
    public const string Line = "climate/1";

    public static Section Hours { get; } = new("heated_hours", "Hours in which the heating is on.",
    [
        May("days", Days, "Mon-Fri", "Weekdays on which it goes on.", "Mon-Fri"),
        Must("from", Clock, "Heating on.", "06:00"),
        Must("to", Clock, "Heating off; at or before from: on the next day.", "18:00"),
    ]);

    public static Section Heating { get; } = new("heating", "When the shop is heated, to what, and how fast it cools.",
    [
        May("hours", Kinds.Maps(Hours), "Mon-Fri 06:00 to 18:00", "Heated hours.", "[{days: Mon-Fri, from: 06:00, to: 17:30}]"),
        May("set_point", Of(Measures.AirTemperature), "the temperature of the reading; needed with a forecast", "Air temperature in heated hours.", "20 °C"),
        May("falls_towards", Of(Measures.AirTemperature), "with a forecast: outdoors; else needed", "Temperature towards which the unheated shop falls.", "11 °C"),
        May("fall", Of(Measures.SomeDuration), "6 h", "Time constant of the building with the heating off.", "6 h"),
        May("rise", Of(Measures.Duration), "0 min: warm at once", "Time constant with the heating on.", "30 min"),
    ]);

    public static Section Table { get; } = new("table", "A table of readings (CSV).",
    [
        Must("file", Kinds.File, "The table, relative to this file.", "shop-log.csv"),
        May("zone", Text, "the shop's zone", "Time zone of times without an offset, by its IANA name.", "Europe/Vienna"),
        May("temperature_unit", Text, "from the column's name", "Unit of the temperature column: °C or °F.", "°F"),
    ]);

    public static Section File { get; } = new("climate",
        "The shop's air. Exactly one of: a reading (temperature and humidity), a log, a forecast.",
    [
        May("seamwright", new Kind.Header(Line), "needed in a file of its own", "Kind and version of the file.", Line),
        May("invented", Flag, "no", "True where the data is made up for demonstration.", "true"),
        May("note", Text, "none", "A remark for the reader; not used.", "hygrometer at the panel bay"),
        May("temperature", Of(Measures.AirTemperature), "none", "Shop air at the reading.", "20 °C"),
        May("humidity", Of(Measures.Humidity), "none", "Relative humidity at the reading.", "28 %"),
        May("at", Moment, "now", "When it was read.", "2027-01-12T15:10"),
        May("heating", Map(Heating), "the air stays as it was read", "Heating with night set-back.", "{falls_towards: 11 °C}"),
        May("log", Map(Table), "none", "Readings of the shop's own air.", "{file: shop-log.csv}"),
        May("forecast", Map(Table), "none", "Outdoor air; needs heating. A temperature (without humidity) is then the indoor air at the reading.", "{file: forecast.csv}"),
    ]);
}
