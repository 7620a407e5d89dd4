using System.Buffers.Binary;
using SkiaSharp;
using Swardloop.Server.Photos;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Hardening;

/// <summary>Pictures made to harm.</summary>
public sealed class PhotoTests
{
    [Theory]
    [InlineData(7700)]
    [InlineData(4800)]
    public void A_picture_of_few_bytes_that_claims_many_pixels_is_refused_before_it_is_opened(int side)
    {
        byte[] bytes = Claiming(side);
        long before = GC.GetAllocatedBytesForCurrentThread();
        Assert.Null(PhotoFile.Read(bytes));
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 1 << 20);
    }

    [Theory]
    [InlineData(SKEncodedImageFormat.Jpeg)]
    [InlineData(SKEncodedImageFormat.Png)]
    [InlineData(SKEncodedImageFormat.Webp)]
    public void A_picture_that_breaks_off_is_refused(SKEncodedImageFormat format)
    {
        byte[] whole = Made.Picture(format, 400, 300);
        Assert.NotNull(PhotoFile.Read(whole));
        Assert.Null(PhotoFile.Read(whole[..(whole.Length / 2)]));
    }

    [Fact]
    public void A_large_photo_is_shrunk_to_what_is_kept()
    {
        PhotoFile photo = PhotoFile.Read(Made.Picture(SKEncodedImageFormat.Jpeg, 5000, 3000))!;
        using SKBitmap large = SKBitmap.Decode(photo.Bytes), small = SKBitmap.Decode(photo.Small);
        Assert.Equal((2400, 1440, 320, 192), (large.Width, large.Height, small.Width, small.Height));
    }

    [Fact]
    public async Task A_wrong_media_type_is_answered_as_such_and_not_as_a_role()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await served.AsAsync(Role.Desk);
        Guid photo = Guid.CreateVersion7(), yard = Guid.CreateVersion7();
        await desk.KeepAsync(Made.Yard(yard), Made.Change(RecordKind.Photo, photo, new() { ["of"] = yard.ToString() }));
        using StringContent text = new("no picture", System.Text.Encoding.UTF8, "text/plain");
        Assert.Equal(HttpStatusCode.UnsupportedMediaType, (await desk.PutAsync($"/api/photos/{photo}", text)).StatusCode);
        Assert.Equal(HttpStatusCode.MethodNotAllowed, (await desk.DeleteAsync("/api/bench")).StatusCode);
    }

    /// <summary>A PNG's head and nothing behind it.</summary>
    private static byte[] Claiming(int side)
    {
        byte[] png = Made.Picture(SKEncodedImageFormat.Png, 8, 8);
        BinaryPrimitives.WriteInt32BigEndian(png.AsSpan(16), side);
        BinaryPrimitives.WriteInt32BigEndian(png.AsSpan(20), side);
        uint crc = uint.MaxValue;
        foreach (byte one in png.AsSpan(12, 17))
        {
            crc ^= one;
            for (int bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) != 0 ? 0xedb88320 ^ (crc >> 1) : crc >> 1;
            }
        }

        BinaryPrimitives.WriteUInt32BigEndian(png.AsSpan(29), ~crc);
        return png;
    }
}
