using SkiaSharp;

namespace Swardloop.Server.Photos;

/// <summary>A photo that was handed in.</summary>
/// <param name="MediaType">By its content, whatever the sender said.</param>
/// <param name="Small">A small JPEG of it, upright.</param>
internal sealed record PhotoFile(string MediaType, byte[] Small)
{
    /// <summary>Media type of <see cref="Small"/>.</summary>
    public const string SmallMediaType = "image/jpeg";

    private const int SmallPixels = 320, MostPixels = 100_000_000, Quality = 80;

    /// <summary>Reads it; null when it is no photo of a kind that every browser shows, or too large to be opened.</summary>
    public static PhotoFile? Read(byte[] bytes)
    {
        using SKMemoryStream stream = new(bytes);
        using SKCodec? codec = SKCodec.Create(stream);
        string? type = codec?.EncodedFormat switch
        {
            SKEncodedImageFormat.Jpeg => "image/jpeg",
            SKEncodedImageFormat.Png => "image/png",
            SKEncodedImageFormat.Webp => "image/webp",
            _ => null,
        };
        if (codec is null || type is null || (long)codec.Info.Width * codec.Info.Height > MostPixels)
        {
            return null;
        }

        using SKBitmap? whole = SKBitmap.Decode(codec);
        if (whole is null)
        {
            return null;
        }

        double scale = Math.Min(1, (double)SmallPixels / Math.Max(whole.Width, whole.Height));
        SKImageInfo size = new(Math.Max(1, (int)(whole.Width * scale)), Math.Max(1, (int)(whole.Height * scale)));
        using SKBitmap small = whole.Resize(size, new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        using SKBitmap upright = Upright(small, codec.EncodedOrigin);
        using SKData data = upright.Encode(SKEncodedImageFormat.Jpeg, Quality);
        return new(type, data.ToArray());
    }

    private static SKBitmap Upright(SKBitmap bitmap, SKEncodedOrigin origin)
    {
        int degrees = origin switch
        {
            SKEncodedOrigin.RightTop => 90,
            SKEncodedOrigin.BottomRight => 180,
            SKEncodedOrigin.LeftBottom => 270,
            _ => 0,
        };
        bool lies = degrees is 90 or 270;
        SKBitmap upright = new(lies ? bitmap.Height : bitmap.Width, lies ? bitmap.Width : bitmap.Height);
        using SKCanvas canvas = new(upright);
        canvas.Translate(upright.Width / 2f, upright.Height / 2f);
        canvas.RotateDegrees(degrees);
        canvas.Translate(-bitmap.Width / 2f, -bitmap.Height / 2f);
        canvas.DrawBitmap(bitmap, 0, 0, SKSamplingOptions.Default);
        return upright;
    }
}
