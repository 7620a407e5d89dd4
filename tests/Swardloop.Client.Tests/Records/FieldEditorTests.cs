using AngleSharp.Dom;
using Bunit;
using Swardloop.Client.Device;
using Swardloop.Client.Records;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Tests.Records;

/// <summary>Nothing typed into a field is lost, whatever arrives while it is typed.</summary>
public class FieldEditorTests
{
    [Fact]
    public async Task What_arrives_does_not_replace_what_is_being_typed_and_both_are_shown()
    {
        using Scene scene = new();
        (Guid owner, IRenderedComponent<FieldEditor> field) = await OpenAsync(scene);

        await field.OnAsync("input", input => input.InputAsync(new() { Value = "0123 4" }));
        await scene.ChangeAsync(owner, RecordKind.Owner, ("phone", Json.Text("0999")));

        Assert.Equal("0123 4", Input(field).GetAttribute("value"));
        Assert.Contains("0999", field.Find(".typed").TextContent, StringComparison.Ordinal);
        await field.OnAsync("input", input => input.ChangeAsync(new() { Value = "0123 45" })); // left: nothing is decided by that
        Assert.Equal("0999", scene.Device.Replica[owner]!.Text("phone"));

        await field.OnAsync(() => field.FindAll(".typed button")[0], button => button.ClickAsync(new()));
        Assert.Equal("0123 4", scene.Device.Replica[owner]!.Text("phone"));
        Assert.Empty(field.FindAll(".typed"));
        Assert.Empty(scene.Page.Drafts);
    }

    [Fact]
    public async Task Theirs_can_be_taken()
    {
        using Scene scene = new();
        (Guid owner, IRenderedComponent<FieldEditor> field) = await OpenAsync(scene);

        await field.OnAsync("input", input => input.InputAsync(new() { Value = "0123 4" }));
        await scene.ChangeAsync(owner, RecordKind.Owner, ("phone", Json.Text("0999")));
        await field.OnAsync(() => field.FindAll(".typed button")[1], button => button.ClickAsync(new()));

        Assert.Equal("0999", Input(field).GetAttribute("value"));
        Assert.Equal("0999", scene.Device.Replica[owner]!.Text("phone"));
        Assert.Empty(scene.Page.Drafts);
    }

    [Fact]
    public async Task Half_typed_field_survives_a_reload_and_is_kept_when_the_person_says_so()
    {
        using Scene scene = new();
        (Guid owner, IRenderedComponent<FieldEditor> field) = await OpenAsync(scene);
        await field.OnAsync("input", input => input.InputAsync(new() { Value = "0123 4" }));

        IRenderedComponent<FieldEditor> again = Render(scene, owner);

        Assert.Equal("0123 4", Input(again).GetAttribute("value"));
        await again.OnAsync(() => again.FindAll(".typed button")[0], button => button.ClickAsync(new()));
        Assert.Equal("0123 4", scene.Device.Replica[owner]!.Text("phone"));
    }

    [Fact]
    public async Task Field_that_is_left_is_kept_and_asks_nothing()
    {
        using Scene scene = new();
        (Guid owner, IRenderedComponent<FieldEditor> field) = await OpenAsync(scene);

        await field.OnAsync("input", input => input.InputAsync(new() { Value = "0123" }));
        await field.OnAsync("input", input => input.ChangeAsync(new() { Value = "0123" }));

        Assert.Equal("0123", scene.Device.Replica[owner]!.Text("phone"));
        Assert.Empty(field.FindAll(".typed"));
        Assert.Empty(scene.Page.Drafts);
    }

    /// <summary>Random sequences of typing, leaving, loading again, arriving values and choices in one field on one device: what was typed last and
    /// neither kept nor passed over by a person always stands in the field. Another person's value arrives as from another tab; how two tabs of one
    /// browser meet, the browser tests walk.</summary>
    [Fact]
    public async Task Nothing_typed_is_lost_in_a_thousand_random_sequences()
    {
        Random random = new(16);
        using Scene scene = new();
        await scene.StartAsync();
        for (int sequence = 0; sequence < 1000; sequence++)
        {
            Guid owner = Guid.CreateVersion7();
            await scene.ChangeAsync(owner, RecordKind.Owner, ("name", Json.Text("Hazel Thimble")));
            IRenderedComponent<FieldEditor> field = Render(scene, owner);
            string? typed = null;
            for (int i = 0; i < 8; i++)
            {
                switch (random.Next(6))
                {
                    case 0 or 1:
                        typed = $"0{random.Next(1000, 9999)}";
                        await field.OnAsync("input", input => input.InputAsync(new() { Value = typed }));
                        break;
                    case 2:
                        await scene.ChangeAsync(owner, RecordKind.Owner, ("phone", Json.Text($"9{random.Next(1000, 9999)}")));
                        break;
                    case 3: // loaded again, gone back to, or killed and opened: all that is left is what the device keeps
                        field.Instance.Dispose();
                        field = Render(scene, owner);
                        break;
                    case 4 when field.FindAll(".typed button").Count == 2:
                        bool isMine = random.Next(2) == 0;
                        await field.OnAsync(() => field.FindAll(".typed button")[isMine ? 0 : 1], button => button.ClickAsync(new()));
                        typed = null;
                        break;
                    case 5 when typed is not null:
                        await field.OnAsync("input", input => input.ChangeAsync(new() { Value = typed }));
                        break;
                }

                string kept = scene.Device.Replica[owner]!.Text("phone") ?? "";
                typed = typed == kept ? null : typed;
                Assert.Equal(typed ?? kept, Input(field).GetAttribute("value") ?? "");
            }

            field.Instance.Dispose();
        }
    }

    private static async Task<(Guid Owner, IRenderedComponent<FieldEditor> Field)> OpenAsync(Scene scene)
    {
        await scene.StartAsync();
        Guid owner = scene.Device.Replica.NewId(scene.Device.Now);
        await scene.ChangeAsync(owner, RecordKind.Owner, ("name", Json.Text("Hazel Thimble")));
        return (owner, Render(scene, owner));
    }

    private static IRenderedComponent<FieldEditor> Render(Scene scene, Guid owner) => scene.Browser.Render<FieldEditor>(
        parameters => parameters.Add(each => each.Id, owner).Add(each => each.Kind, RecordKind.Owner).Add(each => each.Field, "phone"));

    private static IElement Input(IRenderedComponent<FieldEditor> field) => field.Find("input");
}
