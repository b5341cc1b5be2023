namespace Seamwright.Storage.Databases;

/// <summary>Writes many rows of one table fast: ten times as fast as one by one through the model.</summary>
internal interface IBulkWriter : IAsyncDisposable
{
    /// <summary>Writes a row.</summary>
    /// <param name="values">Values as the database takes them, in the order of <see cref="TableShape.Columns"/>; null = none.</param>
    Task Write(object?[] values);

    /// <summary>Ends the writing; without it nothing counts as written.</summary>
    Task Finish();
}
