namespace Swardloop.Client.Wording;

/// <summary>Languages the program speaks.</summary>
public enum Tongue
{
    English,
    German,
}
