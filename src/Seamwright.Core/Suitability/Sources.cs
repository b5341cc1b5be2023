namespace Seamwright.Suitability;

/// <summary>Where rules come from that do not rest on a sheet. Each is one wording, so that the record and the screens agree.</summary>
internal static class Sources
{
    /// <summary>No published source: what shops do.</summary>
    internal const string CommonPractice = "common practice";

    /// <summary>Trade articles and training texts on corrosion protection.</summary>
    internal const string Trade = "trade training texts";

    /// <summary>Vehicle makers' bulletins and manuals, as a rule outranked by the one for the vehicle in hand.</summary>
    internal const string Makers = "vehicle makers' manuals and bulletins";

    /// <summary>The dew point margin of coating work.</summary>
    internal const string DewPoint = "customary margin, ISO 8502-4 as applied";

    /// <summary>Humidity limit of coating work.</summary>
    internal const string Humidity = "customary limit, ISO 12944-7 as applied";

    /// <summary>Moisture cure by diffusion.</summary>
    internal const string MoistureCure = "moisture-cure law, Comyn 1998";

    /// <summary>The table of anodic indices.</summary>
    internal const string AnodicIndex = "public anodic index table; trade training texts";
}
