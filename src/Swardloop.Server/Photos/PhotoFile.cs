using SkiaSharp;

namespace Swardloop.Server.Photos;

/// <summary>A photo that was handed in, drawn anew: nothing but the picture is left of the file. The same file gives the same bytes.</summary>
/// <param name="Bytes">A JPEG of it, upright, large enough to read a display.</param>
/// <param name="Small">A small JPEG of it, upright.</param>
internal sealed record PhotoFile(byte[] Bytes, byte[] Small)
{
    /// <summary>Media type of both.</summary>
    public const string MediaType = "image/jpeg";

    private const int LargePixels = 2400, SmallPixels = 320, MostPixels = 60_000_000, Quality = 82;

    /// <summary>Reads it; null when it is no photo of a kind that every browser shows, or too large to be opened.</summary>
    public static PhotoFile? Read(byte[] bytes)
    {
        using SKMemoryStream stream = new(bytes);
        using SKCodec? codec = SKCodec.Create(stream);
        if (codec is null || codec.EncodedFormat is not (SKEncodedImageFormat.Jpeg or SKEncodedImageFormat.Png or SKEncodedImageFormat.Webp)
            || (long)codec.Info.Width * codec.Info.Height > MostPixels)
        {
            return null;
        }

        using SKBitmap? whole = SKBitmap.Decode(codec);
        if (whole is null)
        {
            return null;
        }

        return new(Encode(whole, LargePixels, codec.EncodedOrigin), Encode(whole, SmallPixels, codec.EncodedOrigin));
    }

    private static byte[] Encode(SKBitmap whole, int mostPixels, SKEncodedOrigin origin)
    {
        double scale = Math.Min(1, (double)mostPixels / Math.Max(whole.Width, whole.Height));
        SKImageInfo size = new(Math.Max(1, (int)(whole.Width * scale)), Math.Max(1, (int)(whole.Height * scale)));
        using SKBitmap sized = whole.Resize(size, new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        using SKBitmap upright = Upright(sized, origin);
        using SKData data = upright.Encode(SKEncodedImageFormat.Jpeg, Quality);
        return data.ToArray();
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
