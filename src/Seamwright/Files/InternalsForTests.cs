using System.Runtime.CompilerServices;

[assembly: InternalsVisibleTo("Seamwright.EndToEnd.Tests")]
