namespace Swardloop.Storage;

/// <summary>The bytes of a photo record.</summary>
public sealed class StoredPhoto
{
    /// <summary>The photo record.</summary>
    public Guid Photo { get; set; }

    /// <summary>Media type of <see cref="Bytes"/>: <c>image/jpeg</c>.</summary>
    public string MediaType { get; set; } = "";

    /// <summary>The photo, drawn anew from what was handed in.</summary>
    public byte[] Bytes { get; set; } = [];

    /// <summary>A small JPEG of it, for lists.</summary>
    public byte[] Small { get; set; } = [];
}
