using System.Text.Json;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>Passkeys with the browser's virtual authenticator: made, named, signed in with, removed; and not a word of them where there are none.</summary>
[Collection(SecondServedAppGroup.Name)]
public sealed class PasskeyTests(ServedApp app)
{
    [Fact]
    public async Task A_passkey_is_made_named_signed_in_with_and_removed()
    {
        // A passkey belongs to a name, not to a bare address.
        string root = app.Root.Replace("127.0.0.1", "localhost", StringComparison.Ordinal);
        IPage page = await app.DeviceAsync();
        ICDPSession browser = await page.Context.NewCDPSessionAsync(page);
        await browser.SendAsync("WebAuthn.enable");
        JsonElement? authenticator = await browser.SendAsync("WebAuthn.addVirtualAuthenticator", new()
        {
            ["options"] = new Dictionary<string, object>
            {
                ["protocol"] = "ctap2",
                ["transport"] = "internal",
                ["hasResidentKey"] = true,
                ["hasUserVerification"] = true,
                ["isUserVerified"] = true,
                ["automaticPresenceSimulation"] = true,
            },
        });
        Assert.NotNull(authenticator);
        await SignInAsync(page, root);
        await page.GotoAsync($"{root}/workshop");
        ILocator passkeys = page.Locator("ul.passkeys > li");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a passkey" }).ClickAsync();
        await Expect(passkeys).ToHaveCountAsync(1);
        await passkeys.GetByLabel("Name of the passkey").FillAsync("Otter's telephone");
        await passkeys.GetByLabel("Name of the passkey").PressAsync("Tab");
        await Expect(passkeys.GetByRole(AriaRole.Button)).ToContainTextAsync("Otter's telephone");

        await page.GetByRole(AriaRole.Button, new() { Name = "Sign out" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in with a passkey" }).ClickAsync();
        await Expect(page.Locator(".saved-button")).ToContainTextAsync("All at the workshop");

        await page.GotoAsync($"{root}/workshop");
        await Expect(passkeys.GetByLabel("Name of the passkey")).ToHaveValueAsync("Otter's telephone");
        await passkeys.GetByRole(AriaRole.Button).ClickAsync();
        await Expect(page.GetByText("No passkey yet.")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Where_there_are_none_nothing_is_said_of_them()
    {
        IPage page = await app.DeviceAsync();
        await page.Context.AddInitScriptAsync("delete globalThis.PublicKeyCredential");
        string root = app.Root.Replace("127.0.0.1", "localhost", StringComparison.Ordinal);
        await page.GotoAsync(root);
        await Expect(page.Locator(".gate form")).ToBeVisibleAsync();
        await Expect(page.GetByText("passkey")).ToHaveCountAsync(0);
        await SignInAsync(page, root);
        await page.GotoAsync($"{root}/workshop");
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Sign out" })).ToBeVisibleAsync();
        await Expect(page.GetByText("passkey")).ToHaveCountAsync(0);
    }

    private async Task SignInAsync(IPage page, string root)
    {
        await app.GetAsync("api/me"); // makes the first account when no test has yet
        IAPIResponse answer = await page.Context.APIRequest.PostAsync($"{root}/api/sign-in", new() { DataObject = new { email = ServedApp.Email, password = ServedApp.Password } });
        Assert.True(answer.Ok, await answer.TextAsync());
    }
}
