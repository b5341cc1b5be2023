using NodaTime;

namespace Seamwright.Storage.Rows;

/// <summary>A setting that differs from its default.</summary>
internal sealed class SettingRow
{
    public required string Key { get; init; }

    public string Value { get; set; } = "";

    public long Version { get; set; }

    public Instant Changed { get; set; }

    public string ChangedBy { get; set; } = "";
}
