using CsCheck;
using Swardloop.Workshop.Owners;
using ZXing;
using ZXing.Common;

namespace Swardloop.Workshop.Tests.Owners;

/// <summary>Second route: what one library wrote, another one reads (ZXing.Net).</summary>
public class QrPictureTests
{
    private const int PixelsPerModule = 4;

    [Fact]
    public void Address_is_read_back()
    {
        string address = "https://loops.example.org/o/" + OwnerAddress.Make(Guid.CreateVersion7(), new byte[16]).ToPath();

        Assert.Equal(address, Read(QrPicture.Modules(address)));
    }

    [Fact]
    public void Any_text_is_read_back() =>
        Gen.String[Gen.Char["abcXYZ0189 äöüß/:?&-_."], 1, 120].Sample(text => Assert.Equal(text, Read(QrPicture.Modules(text))), iter: 100);

    [Fact]
    public void Picture_has_a_quiet_zone_of_four_modules_and_no_more()
    {
        bool[,] modules = QrPicture.Modules("otter");
        int size = modules.GetLength(0);

        Assert.DoesNotContain(true, Enumerable.Range(0, size).SelectMany(i => new[] { modules[3, i], modules[i, 3], modules[size - 4, i], modules[i, size - 4] }));
        Assert.True(modules[4, 4]);
    }

    private static string? Read(bool[,] modules)
    {
        int size = modules.GetLength(0) * PixelsPerModule;
        byte[] luminance = new byte[size * size];
        for (int y = 0; y < size; y++)
        {
            for (int x = 0; x < size; x++)
            {
                luminance[(y * size) + x] = modules[y / PixelsPerModule, x / PixelsPerModule] ? (byte)0 : (byte)255;
            }
        }

        BarcodeReaderGeneric reader = new() { Options = new DecodingOptions { PossibleFormats = [BarcodeFormat.QR_CODE], CharacterSet = "UTF-8", PureBarcode = true } };
        return reader.Decode(new RGBLuminanceSource(luminance, size, size, RGBLuminanceSource.BitmapFormat.Gray8))?.Text;
    }
}
