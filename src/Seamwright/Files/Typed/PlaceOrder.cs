using System.Collections.Immutable;
using Seamwright.Files.Values;

namespace Seamwright.Files.Typed;

/// <summary>Checks that places are named once, that what they name exists, and that the order of work does not run in a circle.</summary>
internal sealed class PlaceOrder
{
    private readonly Dictionary<string, (string Kind, MapReader Map)> _places = [];
    private readonly List<string> _order = [];

    /// <summary>Takes a place; told where its name is taken.</summary>
    public void Add(string kind, MapReader map)
    {
        if (map.Find("id") is not { } field || map.Id("id") is not { } id)
            return;
        if (_places.TryAdd(id, (kind, map)))
            _order.Add(id);
        else
            field.Problem("reference.twice", id);
    }

    /// <summary>Checks what the places name of one another.</summary>
    public void Check()
    {
        foreach (string id in _order)
        {
            var (_, map) = _places[id];
            Point(map, "after", "bonds", "operations");
            if (_places[id].Kind == "operations")
                Point(map, "near", "joints", "bare_areas", "cavities");
        }

        TellCircles();
    }

    /// <summary>Checks a name that may be that of any place.</summary>
    public void Place(MapReader map, string key)
    {
        if (map.Find(key) is { } field && map.Id(key) is { } name)
            Point(field, name, "joints", "bonds", "bare_areas", "cavities", "operations");
    }

    private void Point(MapReader map, string key, params string[] kinds)
    {
        foreach (var (field, name) in map.Ids(key))
            Point(field, name, kinds);
    }

    private void Point(Field field, string name, params string[] kinds)
    {
        if (!_places.TryGetValue(name, out var place))
            References.TellUnknown(field, name, _order.Where(id => kinds.Contains(_places[id].Kind)), "reference.place");
        else if (!kinds.Contains(place.Kind))
            field.Problem("reference.wrong-kind", name, place.Kind, Words.OneOf(kinds));
    }

    private void TellCircles()
    {
        var state = new Dictionary<string, int>();      // 1 = on the way, 2 = done
        foreach (string start in _order)
        {
            var way = new Stack<(string Id, Queue<string> Open)>();
            Enter(start, way, state);
            while (way.Count > 0)
            {
                var (id, open) = way.Peek();
                if (open.Count == 0)
                {
                    state[id] = 2;
                    way.Pop();
                    continue;
                }

                string next = open.Dequeue();
                if (state.GetValueOrDefault(next) == 1)
                {
                    var circle = way.Select(step => step.Id).TakeWhile(step => step != next).Append(next).Reverse();
                    _places[id].Map.Problem("after", "repair.circle", Words.Quote(string.Join(" → ", circle.Append(next))));
                }
                else
                {
                    Enter(next, way, state);
                }
            }
        }
    }

    private void Enter(string id, Stack<(string, Queue<string>)> way, Dictionary<string, int> state)
    {
        if (state.ContainsKey(id) || !_places.TryGetValue(id, out var place))
            return;
        state[id] = 1;
        way.Push((id, new(place.Map.Ids("after").Select(item => item.Name))));
    }
}
