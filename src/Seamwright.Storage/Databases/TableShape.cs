using System.Collections.Immutable;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;

namespace Seamwright.Storage.Databases;

/// <summary>A table of the model: what its columns are called and how their values get into the database.</summary>
internal sealed class TableShape
{
    /// <summary>Reads it off the model.</summary>
    public TableShape(IEntityType type)
    {
        Type = type;
        Name = type.GetTableName() ?? throw new InvalidOperationException($"{type.Name} has no table.");
        var table = StoreObjectIdentifier.Table(Name, type.GetSchema());
        Columns = [.. type.GetProperties().Select(property => (Property: property, Name: property.GetColumnName(table)!)).OrderBy(column => column.Name, StringComparer.Ordinal)];
    }

    /// <summary>The table's type in the model.</summary>
    public IEntityType Type { get; }

    /// <summary>Name in the database.</summary>
    public string Name { get; }

    /// <summary>Columns by name.</summary>
    public ImmutableArray<(IProperty Property, string Name)> Columns { get; }

    /// <summary>Columns of the key, in the key's order.</summary>
    public IEnumerable<string> KeyColumns => Type.FindPrimaryKey()!.Properties.Select(key => Columns.First(column => column.Property == key).Name);

    /// <summary>Name in quotes, as both databases take it.</summary>
    public static string Quoted(string name) => string.Create(CultureInfo.InvariantCulture, $"\"{name.Replace("\"", "\"\"", StringComparison.Ordinal)}\"");

    /// <summary>A row's values as the database takes them.</summary>
    public object?[] ValuesOf(object row) => [.. Columns.Select(column => ToDatabase(column.Property, column.Property.GetGetter().GetClrValue(row)))];

    /// <summary>A value as the database takes it.</summary>
    public static object? ToDatabase(IProperty property, object? value)
    {
        var converter = property.GetTypeMapping().Converter;
        return value is null || converter is null ? value : converter.ConvertToProvider(value);
    }

    /// <summary>A value of the database as the model has it.</summary>
    public static object? FromDatabase(IProperty property, object? value)
    {
        var converter = property.GetTypeMapping().Converter;
        return value is null || converter is null ? value : converter.ConvertFromProvider(value);
    }
}
