using Seamwright.Scheduling.Makespan.Reducing;

namespace Seamwright.Scheduling.Makespan.Starting;

/// <summary>
/// A genetic search over activity lists, each justified twice. First by priority rules, drawn at random around each rule; then
/// by crossing. Sources: Hartmann (1998), A competitive genetic algorithm for resource-constrained project scheduling, NRL 45, 733-750
/// (two-point crossover of lists); Valls, Ballestín, Quintanilla (2008), A hybrid genetic algorithm for the RCPSP, EJOR 185, 495-508
/// (double justification of every child). Sizes are common practice, no source.
/// </summary>
internal sealed class ListEvolution
{
    private const int PopulationSize = 60;
    private const int RoundsWithoutProgress = 3000;

    private readonly ReducedProblem problem;
    private readonly int[] modes;
    private readonly Random random;
    private readonly SerialScheduler scheduler;
    private readonly Justification justification;
    private readonly double[][] rules;
    private readonly List<Individual> population = [];
    private readonly bool[] taken;
    private int idle;

    /// <param name="problem">With precedences alone.</param>
    /// <param name="modes">One that stays, for each activity.</param>
    /// <param name="random">Seeded.</param>
    public ListEvolution(ReducedProblem problem, int[] modes, Random random)
    {
        (this.problem, this.modes, this.random) = (problem, modes, random);
        scheduler = new SerialScheduler(problem, modes);
        justification = new Justification(scheduler, problem.Count);
        rules = PriorityRules.Of(problem, modes);
        taken = new bool[problem.Count];
    }

    private sealed record Individual(int[] List, int[] Starts, int Makespan);

    /// <summary>The shortest schedule so far.</summary>
    public (int[] Starts, int[] Modes)? Best { get; private set; }

    private int shortest = int.MaxValue;

    /// <summary>One more schedule.</summary>
    /// <returns>True if it is shorter than all before.</returns>
    public bool Step()
    {
        if (idle > RoundsWithoutProgress)
        {
            population.Clear();
            idle = 0;
        }

        bool filling = population.Count < PopulationSize;
        int[] list = filling ? Sampled() : Crossed();
        int[] starts = new int[problem.Count];
        int makespan = scheduler.Forward(list, starts);
        makespan = justification.Improve(list, starts, makespan);
        Join(new Individual(list, starts, makespan));
        idle += filling ? 0 : 1;
        if (makespan >= shortest)
            return false;
        shortest = makespan;
        Best = ([.. starts], modes);
        idle = 0;
        return true;
    }

    /// <summary>The better of the child and the worst member stays, unless the child is there already.</summary>
    private void Join(Individual child)
    {
        if (population.Exists(other => other.Makespan == child.Makespan && other.Starts.AsSpan().SequenceEqual(child.Starts)))
            return;
        if (population.Count < PopulationSize)
        {
            population.Add(child);
            return;
        }

        int worst = 0;
        for (int p = 1; p < population.Count; p++)
        {
            if (population[p].Makespan > population[worst].Makespan)
                worst = p;
        }

        if (child.Makespan <= population[worst].Makespan)
            population[worst] = child;
    }

    /// <summary>Regret-based biased random sampling: an eligible activity is drawn the likelier the higher its priority.</summary>
    private int[] Sampled()
    {
        double[] rule = rules[random.Next(rules.Length)];
        double greed = 10 + (40 * random.NextDouble());
        int[] waiting = [.. Enumerable.Range(0, problem.Count).Select(i => scheduler.Before(i).Length)];
        List<int> eligible = [.. Enumerable.Range(0, problem.Count).Where(i => waiting[i] == 0)];
        var list = new int[problem.Count];
        var weights = new double[problem.Count];
        for (int p = 0; p < list.Length; p++)
        {
            double top = eligible.Max(i => rule[i]);
            double sum = 0;
            for (int e = 0; e < eligible.Count; e++)
                sum += weights[e] = Math.Exp(greed * (rule[eligible[e]] - top));
            double drawn = random.NextDouble() * sum;
            int at = 0;
            while (at < eligible.Count - 1 && (drawn -= weights[at]) > 0)
                at++;
            int next = list[p] = eligible[at];
            eligible.RemoveAt(at);
            foreach ((int activity, _) in scheduler.After(next))
            {
                if (--waiting[activity] == 0)
                    eligible.Add(activity);
            }
        }

        return list;
    }

    /// <summary>The mother's order before and behind two points, the father's between; both orders keep the precedences, so the child does.</summary>
    private int[] Crossed()
    {
        int[] mother = Chosen().List;
        int[] father = Chosen().List;
        int count = problem.Count;
        int length = Math.Max(1, (int)(count * (0.2 + (0.4 * random.NextDouble()))));
        int first = random.Next(count);
        int last = Math.Min(count, first + length);
        Array.Clear(taken);
        var child = new int[count];
        int filled = 0;
        Fill(mother, first);
        Fill(father, last);
        Fill(mother, count);
        for (int p = 1; p < count; p++)
        {
            if (random.Next(20) == 0 && !Array.Exists(scheduler.Before(child[p]), b => b.Activity == child[p - 1]))
                (child[p - 1], child[p]) = (child[p], child[p - 1]);
        }

        return child;

        void Fill(int[] parent, int until)
        {
            for (int q = 0; filled < until; q++)
            {
                if (taken[parent[q]])
                    continue;
                taken[parent[q]] = true;
                child[filled++] = parent[q];
            }
        }
    }

    private Individual Chosen()
    {
        Individual one = population[random.Next(population.Count)];
        Individual other = population[random.Next(population.Count)];
        return one.Makespan <= other.Makespan ? one : other;
    }
}
