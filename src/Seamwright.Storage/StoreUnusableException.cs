using System.Collections.Immutable;

namespace Seamwright.Storage;

/// <summary>The store cannot be opened as it is. The sentence for it is a text by key.</summary>
public sealed class StoreUnusableException : Exception
{
    /// <summary>Tells why.</summary>
    /// <param name="key">Key of the sentence.</param>
    /// <param name="args">Values for the sentence's places.</param>
    public StoreUnusableException(string key, params string[] args)
        : this(null, key, args)
    {
    }

    /// <summary>Tells why, with what caused it.</summary>
    /// <param name="cause">What the system said.</param>
    /// <param name="key">Key of the sentence.</param>
    /// <param name="args">Values for the sentence's places.</param>
    public StoreUnusableException(Exception? cause, string key, params string[] args)
        : base($"{key}: {string.Join("; ", args)}", cause)
    {
        Key = key;
        Args = [.. args];
    }

    /// <summary>Key of the sentence.</summary>
    public string Key { get; }

    /// <summary>Values for the sentence's places, in order.</summary>
    public ImmutableArray<string> Args { get; }
}
