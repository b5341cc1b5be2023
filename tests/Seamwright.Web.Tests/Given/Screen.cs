using Microsoft.Playwright;

namespace Seamwright.Web.Tests.Given;

/// <summary>What somebody looks at: size in CSS pixels, light or dark.</summary>
internal sealed record Screen(string Name, int Width, int Height, ColorScheme Scheme)
{
    public static Screen Desk { get; } = new("desk-light", 1280, 900, ColorScheme.Light);

    public static Screen Phone { get; } = new("phone-light", 360, 740, ColorScheme.Light);

    /// <summary>Phone and desk, light and dark.</summary>
    public static IReadOnlyList<Screen> All { get; } =
        [Phone, Phone with { Name = "phone-dark", Scheme = ColorScheme.Dark }, Desk with { Name = "desk-dark", Scheme = ColorScheme.Dark }, Desk];

    /// <summary>The narrowest on which nothing may be pushed sideways (WCAG 2.2, 1.4.10).</summary>
    public const int Narrowest = 320;
}
