using System.Runtime.CompilerServices;

[assembly: InternalsVisibleTo("Seamwright.EndToEnd.Tests")]
[assembly: InternalsVisibleTo("Seamwright.Web.Tests")]
