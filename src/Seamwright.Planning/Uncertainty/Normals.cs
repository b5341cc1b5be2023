using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Seamwright.Planning.Uncertainty;

/// <summary>
/// Standard normal numbers by counter: which number a sample gets for a dimension depends on seed, sample and dimension alone, so a cause can be
/// frozen, or threads added, without any other number changing.
/// </summary>
/// <remarks>
/// Uniform: Philox 4×32 with ten rounds (J. K. Salmon et al., "Parallel random numbers: as easy as 1, 2, 3", SC11, 2011), held against the authors' published
/// answers in NormalsTests. Normal: G. E. P. Box and M. E. Muller, Ann. Math. Statist. 29 (1958) 610. 32-bit uniforms bound the numbers to ± 6.8.
/// </remarks>
internal static class Normals
{
    /// <summary>Samples worked on together.</summary>
    public const int Lanes = 128;

    /// <summary>Fills one dimension of a block of samples.</summary>
    /// <param name="seed">Seed.</param>
    /// <param name="block">Block of <see cref="Lanes"/> samples.</param>
    /// <param name="dimension">Dimension.</param>
    /// <param name="into">One number a lane.</param>
    public static void Fill(ulong seed, uint block, uint dimension, Span<double> into)
    {
        const int half = Lanes / 2;
        Span<double> radius = stackalloc double[half];
        Span<double> turn = stackalloc double[half];
        for (uint i = 0; i < half / 2; i++)
        {
            var (a, b, c, d) = Philox(seed, i, dimension, block, 0);
            radius[(int)(2 * i)] = Open(a);
            turn[(int)(2 * i)] = Open(b);
            radius[(int)((2 * i) + 1)] = Open(c);
            turn[(int)((2 * i) + 1)] = Open(d);
        }

        ref double first = ref MemoryMarshal.GetReference(into);
        ref double r0 = ref MemoryMarshal.GetReference(radius);
        ref double t0 = ref MemoryMarshal.GetReference(turn);
        for (nuint i = 0; i < half; i += (nuint)Vector256<double>.Count)
        {
            var r = Vector256.Sqrt(-2.0 * Vector256.Log(Vector256.LoadUnsafe(ref r0, i)));
            var (sin, cos) = Vector256.SinCos(Math.Tau * Vector256.LoadUnsafe(ref t0, i));
            (r * cos).StoreUnsafe(ref first, i);
            (r * sin).StoreUnsafe(ref first, i + half);
        }
    }

    /// <summary>Four 32-bit numbers of a counter of four words.</summary>
    public static (uint A, uint B, uint C, uint D) Philox(ulong key, uint a, uint b, uint c, uint d)
    {
        uint k0 = (uint)key, k1 = (uint)(key >> 32);
        for (int round = 0; round < 10; round++)
        {
            ulong p0 = 0xD2511F53UL * a;
            ulong p1 = 0xCD9E8D57UL * c;
            (a, b, c, d) = ((uint)(p1 >> 32) ^ b ^ k0, (uint)p1, (uint)(p0 >> 32) ^ d ^ k1, (uint)p0);
            k0 += 0x9E3779B9;
            k1 += 0xBB67AE85;
        }
        return (a, b, c, d);
    }

    private static double Open(uint x) => (x + 0.5) * (1.0 / 4294967296.0);
}
