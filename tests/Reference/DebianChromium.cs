namespace Swardloop.Tests.Reference;

/// <summary>Debian's chromium, which every browser test runs in.</summary>
internal static class DebianChromium
{
    /// <summary>The build without windows of its own, which starts in a sixth of the time and loads pages in three quarters; where it is not to be had,
    /// the whole browser.</summary>
    public static string Path { get; } = File.Exists("/usr/bin/chromium-headless-shell") ? "/usr/bin/chromium-headless-shell" : "/usr/bin/chromium";
}
