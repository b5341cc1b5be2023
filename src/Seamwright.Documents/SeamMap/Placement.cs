using System.Collections.Immutable;
using Seamwright.Repairs;
using Seamwright.Units;

namespace Seamwright.Documents.SeamMap;

/// <summary>
/// On which edge of the opening a place is drawn: the edge that the repair states, else a guess from what is known of it. The guess is
/// always the same for the same repair and depends on nothing but the repair.
/// </summary>
public static class Placement
{
    /// <summary>Edge of every joint, bare area and cavity.</summary>
    public static ImmutableDictionary<PlaceId, PanelEdge> Of(Repair repair)
    {
        ArgumentNullException.ThrowIfNull(repair);
        var edges = ImmutableDictionary.CreateBuilder<PlaceId, PanelEdge>();
        // Uprights go where less stands so far, so that front and rear come out about equally long.
        var uprights = repair.Joints.Where(joint => joint.Edge is not null).GroupBy(joint => joint.Edge!.Value)
            .ToDictionary(group => group.Key, group => group.Aggregate(Length.Zero, (sum, joint) => sum + joint.Length));
        foreach (var joint in repair.Joints)
        {
            if (joint.Edge is { } stated)
            {
                edges[joint.Id] = stated;
                continue;
            }
            var edge = Guess(joint) ?? (Sum(PanelEdge.Front) <= Sum(PanelEdge.Rear) ? PanelEdge.Front : PanelEdge.Rear);
            edges[joint.Id] = edge;
            uprights[edge] = Sum(edge) + joint.Length;
        }
        foreach (var area in repair.BareAreas)
            edges[area.Id] = area.Edge ?? (area.Position == Position.Overhead ? PanelEdge.Bottom : PanelEdge.Inside);
        foreach (var cavity in repair.Cavities)
            edges[cavity.Id] = cavity.Edge ?? PanelEdge.Inside;
        return edges.ToImmutable();

        Length Sum(PanelEdge edge) => uprights.GetValueOrDefault(edge);
    }

    private static PanelEdge? Guess(Joint joint)
    {
        if (joint.Stage == Stage.BeforeAccessCloses)
            return PanelEdge.Inside;
        return joint.Type switch
        {
            JointType.RoofDitch or JointType.Cowl or JointType.StrutTower or JointType.DripChannel => PanelEdge.Top,
            JointType.PinchWeld => PanelEdge.Bottom,
            JointType.SkinToBar or JointType.ClosedSection or JointType.Butt => PanelEdge.Inside,
            _ => joint.Position switch
            {
                Position.Level or Position.Overhead => PanelEdge.Bottom,
                _ => null,
            },
        };
    }
}
