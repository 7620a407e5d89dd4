using Swardloop.Model.Sheets.Acceptance;
using Swardloop.Model.Sheets.Found;
using Swardloop.Model.Sheets.Quote;
using Swardloop.Model.Sheets.Work;

namespace Swardloop.Model.Sheets;

/// <summary>The kinds of sheets by the names that commands and addresses use.</summary>
public static class SheetKinds
{
    private static readonly (SheetKind Kind, string Name, Func<SheetSource, Sheet> Make)[] All =
    [
        (SheetKind.Found, "found", FoundSheet.Make),
        (SheetKind.Acceptance, "acceptance", AcceptanceSheet.Make),
        (SheetKind.Work, "work", WorkSheet.Make),
        (SheetKind.Quote, "quote", QuoteSheet.Make),
    ];

    /// <summary>The names, in order.</summary>
    public static IReadOnlyList<string> Names { get; } = [.. All.Select(one => one.Name)];

    /// <summary>The kind of a name, or null.</summary>
    public static SheetKind? Find(string name) => Array.Find(All, one => one.Name == name) is { Make: not null } found ? found.Kind : null;

    /// <summary>The name of a kind.</summary>
    public static string NameOf(SheetKind kind) => All[(int)kind].Name;

    /// <summary>Makes a sheet.</summary>
    public static Sheet Make(SheetKind kind, SheetSource source) => All[(int)kind].Make(source);
}
