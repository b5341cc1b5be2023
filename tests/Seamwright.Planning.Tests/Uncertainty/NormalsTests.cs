using Seamwright.Planning.Uncertainty;
using Xunit;

namespace Seamwright.Planning.Tests.Uncertainty;

/// <summary>The numbers that samples are made of.</summary>
public sealed class NormalsTests
{
    [Theory]      // Known answers of the generator's authors: Random123, file kat_vectors, philox4x32 with 10 rounds (from memory; a wrong digit could not pass).
    [InlineData(0x0000000000000000, 0x00000000u, 0x00000000u, 0x00000000u, 0x00000000u, 0x6627e8d5u, 0xe169c58du, 0xbc57ac4cu, 0x9b00dbd8u)]
    [InlineData(0xffffffffffffffff, 0xffffffffu, 0xffffffffu, 0xffffffffu, 0xffffffffu, 0x408f276du, 0x41c83b0eu, 0xa20bc7c6u, 0x6d5451fdu)]
    [InlineData(0x299f31d0a4093822, 0x243f6a88u, 0x85a308d3u, 0x13198a2eu, 0x03707344u, 0xd16cfe09u, 0x94fdccebu, 0x5001e420u, 0x24126ea1u)]
    public void The_counter_gives_the_published_answers(ulong key, uint a, uint b, uint c, uint d, uint w, uint x, uint y, uint z) =>
        Assert.Equal((w, x, y, z), Normals.Philox(key, a, b, c, d));

    [Fact]
    public void The_numbers_are_standard_normal()
    {
        double[] all = Many(dimension: 7, blocks: 4000);

        // Four standard errors each: 1/√n for the mean, √(2/n) for the variance, √(6/n) for the skewness, √(24/n) for the fourth moment.
        double n = all.Length;
        Assert.InRange(all.Average(), -4 / Math.Sqrt(n), 4 / Math.Sqrt(n));
        Assert.InRange(all.Average(z => z * z), 1 - (4 * Math.Sqrt(2 / n)), 1 + (4 * Math.Sqrt(2 / n)));
        Assert.InRange(all.Average(z => z * z * z), -4 * Math.Sqrt(15 / n), 4 * Math.Sqrt(15 / n));
        Assert.InRange(all.Average(z => z * z * z * z), 3 - (4 * Math.Sqrt(96 / n)), 3 + (4 * Math.Sqrt(96 / n)));
        Assert.InRange(all.Count(z => z < 1.2815515655446004) / n, 0.9 - (4 * Math.Sqrt(0.09 / n)), 0.9 + (4 * Math.Sqrt(0.09 / n)));
    }

    [Fact]
    public void Dimensions_blocks_and_seeds_do_not_repeat_each_other()
    {
        double[] one = Many(dimension: 1, blocks: 800);
        double reach = 4 / Math.Sqrt(one.Length);

        Assert.InRange(one.Zip(Many(dimension: 2, blocks: 800)).Average(pair => pair.First * pair.Second), -reach, reach);
        Assert.InRange(one.Zip(one.Skip(Normals.Lanes)).Average(pair => pair.First * pair.Second), -reach, reach);
        Assert.InRange(one.Zip(Many(dimension: 1, blocks: 800, seed: 2)).Average(pair => pair.First * pair.Second), -reach, reach);
    }

    private static double[] Many(uint dimension, int blocks, ulong seed = 1)
    {
        double[] all = new double[blocks * Normals.Lanes];
        for (int block = 0; block < blocks; block++)
            Normals.Fill(seed, (uint)block, dimension, all.AsSpan(block * Normals.Lanes, Normals.Lanes));
        return all;
    }
}
