using Seamwright.Materials;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Units;

namespace Seamwright.Planning.Mapping;

/// <summary>How much foam goes into a cavity.</summary>
internal static class FoamAmount
{
    /// <summary>By the cavity's volume or the sheet's amount for a place; a cavity that is filled from one pack gets what its nozzle lets out.</summary>
    public static Volume Of(DataSheet sheet, Cavity cavity, Amounts amounts)
    {
        var needed = Coatings.Foam(sheet, cavity);
        var room = sheet.Pack.Content - Nozzles.Waste(amounts);
        return needed > room && needed <= sheet.Pack.Content ? room : needed;
    }
}
