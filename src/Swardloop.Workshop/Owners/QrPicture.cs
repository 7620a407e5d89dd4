using System.Collections;
using System.Globalization;
using System.Net;
using System.Text;
using QRCoder;

namespace Swardloop.Workshop.Owners;

/// <summary>An address as a QR code (ISO/IEC 18004) in SVG: for the screen, and for a sticker at the station. Black on white whatever the
/// page's colours are, with the quiet zone that the standard asks for; a fifteenth of it may be dirty (level M).</summary>
public static class QrPicture
{
    /// <summary>Modules of white on every side; ISO/IEC 18004 asks for four.</summary>
    private const int QuietModules = 4;

    /// <summary>Draws it.</summary>
    /// <param name="text">What it says; up to about 2,000 characters.</param>
    /// <param name="title">What the picture is, for those who cannot see it.</param>
    public static string Svg(string text, string title)
    {
        bool[,] dark = Modules(text);
        int size = dark.GetLength(0);
        StringBuilder path = new();
        for (int row = 0; row < size; row++)
        {
            for (int column = 0, run; column < size; column += run)
            {
                run = 1;
                while (column + run < size && dark[row, column + run] == dark[row, column])
                {
                    run++;
                }

                if (dark[row, column])
                {
                    path.Append(CultureInfo.InvariantCulture, $"M{column} {row}h{run}v1h-{run}z");
                }
            }
        }

        return $"""<svg class="qr" role="img" xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {size} {size}" shape-rendering="crispEdges"><title>{WebUtility.HtmlEncode(title)}</title><rect width="{size}" height="{size}" fill="#fff" stroke="none"/><path d="{path}" fill="#000" stroke="none"/></svg>""";
    }

    /// <summary>The code's modules, row by row from the top, quiet zone included; true is dark.</summary>
    public static bool[,] Modules(string text)
    {
        using QRCodeData code = QRCodeGenerator.GenerateQrCode(text, QRCodeGenerator.ECCLevel.M, forceUtf8: true);
        // The library draws a quiet zone of its own; it is cut off, so that ours is the only one.
        List<BitArray> rows = code.ModuleMatrix;
        int first = rows.FindIndex(row => row.HasAnySet());
        int inner = rows.Count - (2 * first);
        bool[,] modules = new bool[inner + (2 * QuietModules), inner + (2 * QuietModules)];
        for (int row = 0; row < inner; row++)
        {
            for (int column = 0; column < inner; column++)
            {
                modules[row + QuietModules, column + QuietModules] = rows[row + first][column + first];
            }
        }

        return modules;
    }
}
