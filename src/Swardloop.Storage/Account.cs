using Microsoft.AspNetCore.Identity;
using Swardloop.Workshop.Api;

namespace Swardloop.Storage;

/// <summary>A person of the workshop with the means to sign in. Its <see cref="IdentityUser{TKey}.UserName"/> is the e-mail address.</summary>
public sealed class Account : IdentityUser<Guid>
{
    /// <summary>Name shown, and written beside every value the person brings.</summary>
    public string DisplayName { get; set; } = "";

    /// <summary>What the person may do.</summary>
    public Role Role { get; set; }

    /// <summary>Whether the password was chosen by somebody else and is to be changed.</summary>
    public bool MustChangePassword { get; set; }

    /// <summary>Until when a password chosen by somebody else opens the account, UTC; null for no end.</summary>
    public DateTimeOffset? PasswordUntil { get; set; }
}
