using Swardloop.Workshop.Owners;

namespace Swardloop.Workshop.Tests.Owners;

public class OwnerAddressTests
{
    private static readonly byte[] Secret = [.. Enumerable.Range(1, 16).Select(i => (byte)(i * 13))];

    [Fact]
    public void Address_read_back_opens_what_it_was_made_for()
    {
        Guid link = Guid.CreateVersion7();
        OwnerAddress made = OwnerAddress.Make(link, Secret);

        Assert.True(OwnerAddress.TryRead(made.ToPath(), out OwnerAddress? read));

        Assert.Equal(link, read.Link);
        Assert.Equal(43, made.ToPath().Length);
        Assert.True(read.Opens(made.SecretHash));
    }

    [Fact]
    public void Another_secret_opens_nothing()
    {
        Guid link = Guid.CreateVersion7();
        string kept = OwnerAddress.Make(link, Secret).SecretHash;
        byte[] guessed = [.. Secret];
        guessed[^1] ^= 1;

        Assert.False(OwnerAddress.Make(link, guessed).Opens(kept));
        Assert.False(OwnerAddress.Make(link, Secret).Opens(null));
        Assert.False(OwnerAddress.Make(link, Secret).Opens(""));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("short")]
    [InlineData("===========================================")]
    [InlineData("ÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄÄ")]
    public void Anything_else_is_no_address(string? text) => Assert.False(OwnerAddress.TryRead(text, out _));

    [Fact]
    public void Printing_an_address_keeps_its_secret()
    {
        OwnerAddress address = OwnerAddress.Make(Guid.CreateVersion7(), Secret);

        Assert.DoesNotContain(address.ToPath()[22..], address.ToString(), StringComparison.Ordinal);
    }
}
