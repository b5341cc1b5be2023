using Microsoft.EntityFrameworkCore.Storage.ValueConversion;
using NodaTime;

namespace Seamwright.Storage.Databases;

/// <summary>An instant as whole microseconds since 1970: a number sorts, and SQLite has no type of its own for it.</summary>
internal sealed class InstantToMicroseconds() : ValueConverter<Instant, long>(
    instant => instant.ToUnixTimeTicks() / 10, number => Instant.FromUnixTimeTicks(number * 10));

/// <summary>An instant as the database's own point in time, always UTC.</summary>
internal sealed class InstantToUtc() : ValueConverter<Instant, DateTime>(
    instant => instant.ToDateTimeUtc(), time => Instant.FromDateTimeUtc(DateTime.SpecifyKind(time, DateTimeKind.Utc)));

/// <summary>A calendar day.</summary>
internal sealed class LocalDateToDate() : ValueConverter<LocalDate, DateOnly>(
    date => date.ToDateOnly(), date => LocalDate.FromDateOnly(date));
