using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>What choices of modes cost when time is left aside.</summary>
internal sealed class ChoicePrices
{
    private readonly Dictionary<BatchId, int> _batches = [];
    private readonly long[] _minute;
    private readonly int[] _work;
    private readonly int[] _load;
    private readonly bool[] _used;

    /// <summary>Per activity and mode the place of its batch; −1 = none.</summary>
    private readonly int[][] _batchOf;

    /// <summary>Per batch the activities that may join it.</summary>
    private readonly List<int>[] _members;

    /// <summary>Per activity what makes it present: an activity in some modes, or a batch; −1 = not that.</summary>
    private readonly (int Activity, ImmutableArray<int> Modes, int Batch)[][] _callers;
    private readonly bool[][] _tooLate;
    private readonly Dictionary<ConsumableId, int> _consumables = [];
    private readonly Dictionary<UnlockId, int> _unlocks = [];

    /// <summary>Per consumable the lots that serve it, those first that need no unlocking.</summary>
    private readonly int[][] _lots;
    private readonly int[] _asked;
    private readonly int[] _taken;
    private readonly bool[] _opened;

    public ChoicePrices(Project project, int spare)
    {
        Project = project;
        for (int i = 0; i < project.Batches.Length; i++)
            _batches.Add(project.Batches[i].Id, i);
        var activities = new Dictionary<ActivityId, int>();
        for (int i = 0; i < project.Activities.Length; i++)
            activities.Add(project.Activities[i].Id, i);
        _minute = [.. project.Batches.Select(batch => batch.Crews.IsEmpty ? 0 : batch.Crews.Min(crew => crew.CostPerMinute))];
        (_work, _load, _used) = (new int[_minute.Length], new int[_minute.Length], new bool[_minute.Length]);
        _batchOf = [.. project.Activities.Select(activity => activity.Modes.Select(mode => mode.Batch is { } batch ? _batches[batch] : -1).ToArray())];
        _members = [.. project.Batches.Select((_, batch) => Enumerable.Range(0, _batchOf.Length).Where(i => _batchOf[i].Contains(batch)).ToList())];
        _callers = [.. project.Activities.Select(activity => activity.PresentWhen.Select(trigger => Caller(trigger, activities)).ToArray())];
        for (int i = 0; i < project.Consumables.Length; i++)
            _consumables.Add(project.Consumables[i].Id, i);
        for (int i = 0; i < project.Unlocks.Length; i++)
            _unlocks.Add(project.Unlocks[i].Id, i);
        _lots =
        [
            .. project.Consumables.Select(consumable => Enumerable.Range(0, project.Lots.Length)
                .Where(lot => project.Lots[lot].Serves.Contains(consumable.Id))
                .OrderBy(lot => project.Lots[lot].Unlock is not null)
                .ToArray()),
        ];
        (_asked, _taken, _opened) = (new int[_consumables.Count], new int[project.Lots.Length], new bool[_unlocks.Count]);
        var late = TooLate.In(project, spare).ToHashSet();
        _tooLate = [.. project.Activities.Select(activity => activity.Modes.Select(mode => late.Contains((activity.Id, mode.Id))).ToArray())];
    }

    private (int, ImmutableArray<int>, int) Caller(Trigger trigger, Dictionary<ActivityId, int> activities)
    {
        switch (trigger)
        {
            case Trigger.InMode(var other, var modes):
                var all = Project.Activities[activities[other]].Modes;
                return (activities[other], [.. modes.Select(id => all.IndexOf(all.First(mode => mode.Id == id)))], -1);
            case Trigger.BatchUsed(var batch):
                return (-1, [], _batches[batch]);
            default:
                throw new ArgumentOutOfRangeException(nameof(trigger));
        }
    }

    public Project Project { get; }

    /// <summary>A mode by itself, the batch that it joins already open.</summary>
    public long Alone(int activity, int mode)
    {
        Mode one = Project.Activities[activity].Modes[mode];
        int batch = _batchOf[activity][mode];
        return one.Cost + (batch >= 0 ? one.Work * _minute[batch] : 0);
    }

    /// <summary>False where what follows could not begin in time.</summary>
    public bool MayBeInTime(int activity, int mode) => !_tooLate[activity][mode];

    /// <summary>Which activities are there when those that are take the modes chosen.</summary>
    public bool[] Present(int[] chosen)
    {
        var present = new bool[chosen.Length];
        for (int i = 0; i < chosen.Length; i++)
            present[i] = _callers[i].Length == 0;
        for (bool changed = true; changed;)
        {
            changed = false;
            for (int i = 0; i < chosen.Length; i++)
            {
                if (present[i] || !IsCalled(i, chosen, present))
                    continue;
                present[i] = changed = true;
            }
        }
        return present;
    }

    /// <summary>Money of the choices; null where a batch takes no more, the lots do not hold enough or a mode comes too late.</summary>
    public long? Cost(int[] chosen)
    {
        bool[] present = Present(chosen);
        Array.Clear(_work);
        Array.Clear(_load);
        Array.Clear(_used);
        Array.Clear(_asked);
        long cost = 0;
        for (int i = 0; i < chosen.Length; i++)
        {
            if (!present[i])
                continue;
            Mode mode = Project.Activities[i].Modes[chosen[i]];
            if (!MayBeInTime(i, chosen[i]))
                return null;
            cost += mode.Cost;
            Ask(mode.Consumes);
            int at = _batchOf[i][chosen[i]];
            if (at < 0)
                continue;
            _used[at] = true;
            _work[at] += mode.Work;
            _load[at] += mode.Load;
        }
        for (int i = 0; i < _used.Length; i++)
        {
            Batch batch = Project.Batches[i];
            if (!_used[i])
                continue;
            if (_work[i] > batch.MaxWork || _load[i] > batch.MaxLoad)
                return null;
            cost += batch.Cost + (_minute[i] * (batch.Setup + _work[i]));
            Ask(batch.Consumes);
        }
        return Supply() is { } supply ? cost + supply : null;
    }

    /// <summary>Whether some activity takes a mode of the batch, present or not.</summary>
    public bool IsUsed(BatchId batch, int[] chosen)
    {
        int at = _batches[batch];
        return _members[at].Any(member => _batchOf[member][chosen[member]] == at);
    }

    /// <summary>Whether nobody else takes a mode of the batch that an activity joins.</summary>
    public bool IsLast(int activity, int[] chosen)
    {
        int at = _batchOf[activity][chosen[activity]];
        return at >= 0 && !_members[at].Any(member => member != activity && _batchOf[member][chosen[member]] == at);
    }

    private bool IsCalled(int activity, int[] chosen, bool[] present)
    {
        foreach (var (other, modes, batch) in _callers[activity])
        {
            if (other >= 0 && present[other] && (modes.IsEmpty || modes.Contains(chosen[other])))
                return true;
            if (batch < 0)
                continue;
            foreach (int member in _members[batch])
            {
                if (present[member] && _batchOf[member][chosen[member]] == batch)
                    return true;
            }
        }
        return false;
    }

    private void Ask(ImmutableArray<Consumption> consumes)
    {
        foreach (Consumption consumption in consumes)
            _asked[_consumables[consumption.Consumable]] += consumption.Amount;
    }

    /// <summary>Money for the lots, those first that need no unlocking; null where they do not hold enough.</summary>
    private long? Supply()
    {
        long cost = 0;
        Array.Clear(_taken);
        Array.Clear(_opened);
        for (int consumable = 0; consumable < _asked.Length; consumable++)
        {
            int open = _asked[consumable];
            foreach (int at in _lots[consumable])
            {
                if (open == 0)
                    break;
                Lot lot = Project.Lots[at];
                int part = Math.Min(open, lot.Amount - _taken[at]);
                if (part <= 0)
                    continue;
                if (_taken[at] == 0)
                    cost += lot.Cost;
                _taken[at] += part;
                open -= part;
                if (lot.Unlock is { } unlock && !_opened[_unlocks[unlock]])
                {
                    _opened[_unlocks[unlock]] = true;
                    cost += Project.Unlocks[_unlocks[unlock]].Cost;
                }
            }
            if (open > 0)
                return null;
        }
        return cost;
    }
}
