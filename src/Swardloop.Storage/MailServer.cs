namespace Swardloop.Storage;

/// <summary>The workshop's own mail server, by which sheets are sent. One row, or none. It is no record: records are on every device, and its password is on none.</summary>
public sealed class MailServer
{
    /// <summary>The row's only id.</summary>
    public const int TheOne = 1;

    /// <summary>Always <see cref="TheOne"/>.</summary>
    public int Id { get; set; } = TheOne;

    /// <summary>Its name or address.</summary>
    public string Host { get; set; } = "";

    /// <summary>Its port.</summary>
    public int Port { get; set; }

    /// <summary>How the way to it is kept from others, by its name.</summary>
    public string Security { get; set; } = "";

    /// <summary>Who signs in there; null: nobody does.</summary>
    public string? User { get; set; }

    /// <summary>The password, protected by the keys of this database; null for none.</summary>
    public string? Secret { get; set; }

    /// <summary>The address that letters come from.</summary>
    public string From { get; set; } = "";
}
