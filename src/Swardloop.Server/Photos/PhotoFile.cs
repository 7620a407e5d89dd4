using SkiaSharp;

namespace Swardloop.Server.Photos;

/// <summary>A photo that was handed in, drawn anew: nothing but the picture is left of the file. The same file gives the same bytes.</summary>
/// <param name="Bytes">A JPEG of it, upright, large enough to read a display.</param>
/// <param name="Small">A small JPEG of it, upright.</param>
internal sealed record PhotoFile(byte[] Bytes, byte[] Small)
{
    /// <summary>Media type of both.</summary>
    public const string MediaType = "image/jpeg";

    /// <summary>Most pixels of an opened photo: 24 million of 4 bytes are 96 MB. A plain JPEG may have more, since it is shrunk while it is opened.</summary>
    public const int MostPixels = 24_000_000;

    private const int LargePixels = 2400, SmallPixels = 320, MostPixelsOfJpeg = 110_000_000, Quality = 82;

    // JPEG's decoder shrinks by eighths.
    private const int Eighths = 8;

    // No compression of JPEG or PNG puts more pixels into a byte: deflate shrinks to 1/1032 at best (zlib, technical details), and a pixel has at least a bit.
    private const int MostPixelsPerByte = 8256;

    /// <summary>Reads it; null when it is no photo of a kind that every browser shows, or too large to be opened.</summary>
    public static PhotoFile? Read(byte[] bytes)
    {
        using SKMemoryStream stream = new(bytes);
        using SKCodec? codec = SKCodec.Create(stream);
        if (codec is null || !IsAllowed(codec, bytes))
        {
            return null;
        }

        int largest = Math.Max(codec.Info.Width, codec.Info.Height);
        SKSizeI size = codec.EncodedFormat == SKEncodedImageFormat.Jpeg && largest > LargePixels
            ? codec.GetScaledDimensions(MathF.Ceiling((float)Eighths * LargePixels / largest) / Eighths)
            : codec.Info.Size;
        using SKBitmap whole = new();
        SKImageInfo info = new(size.Width, size.Height, SKImageInfo.PlatformColorType, codec.Info.AlphaType);
        // A picture that breaks off is no photo: half of it would be shown as if it were all.
        return whole.TryAllocPixels(info) && codec.GetPixels(info, whole.GetPixels()) == SKCodecResult.Success
            ? new(Encode(whole, LargePixels, codec.EncodedOrigin), Encode(whole, SmallPixels, codec.EncodedOrigin))
            : null;
    }

    // By the file's head alone, before anything is opened.
    private static bool IsAllowed(SKCodec codec, byte[] bytes)
    {
        long pixels = (long)codec.Info.Width * codec.Info.Height;
        return codec.EncodedFormat switch
        {
            SKEncodedImageFormat.Jpeg => pixels <= (IsProgressive(bytes) ? MostPixels : MostPixelsOfJpeg) && pixels <= (long)MostPixelsPerByte * bytes.Length,
            SKEncodedImageFormat.Png => pixels <= MostPixels && pixels <= (long)MostPixelsPerByte * bytes.Length,
            SKEncodedImageFormat.Webp => pixels <= MostPixels,
            _ => false,
        };
    }

    /// <summary>Whether a JPEG comes in several passes, for which its decoder keeps all of it in memory. Source: ITU-T T.81, B.1.1.3, marker SOF2.</summary>
    private static bool IsProgressive(ReadOnlySpan<byte> jpeg)
    {
        for (int at = 2; at + 4 <= jpeg.Length && jpeg[at] == 0xff;)
        {
            byte marker = jpeg[at + 1];
            if (marker == 0xff)
            {
                at++; // a fill byte
                continue;
            }

            if (marker is >= 0xc0 and <= 0xcf and not (0xc4 or 0xc8 or 0xcc))
            {
                return marker is not (0xc0 or 0xc1);
            }

            at += 2 + ((jpeg[at + 2] << 8) | jpeg[at + 3]);
        }

        return true; // no head that could be read: the smaller limit
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
