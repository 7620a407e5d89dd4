using System.Globalization;
using System.Security;
using System.Text;

namespace Swardloop.Model.Pictures;

/// <summary>Draws into an SVG 1.1 document. The same picture gives the same bytes.</summary>
public sealed class SvgPen : IPicturePen
{
    private readonly StringBuilder _body = new(), _definitions = new();
    private readonly Dictionary<string, string> _hatches = [];
    private int _clips;

    /// <inheritdoc/>
    public void Fill(PicturePath area, string colour) => Shape(area, $"fill=\"{colour}\" fill-rule=\"evenodd\"");

    /// <inheritdoc/>
    public void Hatch(PicturePath area, string colour)
    {
        if (!_hatches.TryGetValue(colour, out string? name))
        {
            _hatches[colour] = name = $"hatch{_hatches.Count}";
            _definitions.Append(CultureInfo.InvariantCulture,
                $"<pattern id=\"{name}\" width=\"7\" height=\"7\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(-45)\"><path d=\"M3.5 0V7\" stroke=\"{colour}\" stroke-width=\"1.6\"/></pattern>\n");
        }

        Shape(area, $"fill=\"url(#{name})\" fill-rule=\"evenodd\"");
    }

    /// <inheritdoc/>
    public void Stroke(PicturePath path, string colour, double width, params IReadOnlyList<double> dashes)
    {
        string dash = dashes.Count == 0 ? "" : $" stroke-dasharray=\"{string.Join(' ', dashes.Select(Number))}\"";
        Shape(path, $"fill=\"none\" stroke=\"{colour}\" stroke-width=\"{Number(width)}\" stroke-linecap=\"{(dashes.Count == 0 ? "round" : "butt")}\" stroke-linejoin=\"round\"{dash}");
    }

    /// <inheritdoc/>
    public void Text(double x, double y, string text, double size, string colour, bool centred = false, bool bold = false)
    {
        // What XML cannot hold is left out; the rest is escaped.
        string clean = string.Concat(text.EnumerateRunes().Where(rune => !Rune.IsControl(rune) && rune.Value is not (0xFFFE or 0xFFFF)).Select(rune => rune.ToString()));
        _body.Append(CultureInfo.InvariantCulture,
            $"<text x=\"{Number(x)}\" y=\"{Number(y)}\" font-size=\"{Number(size)}\" fill=\"{colour}\"{(centred ? " text-anchor=\"middle\"" : "")}{(bold ? " font-weight=\"bold\"" : "")}>{SecurityElement.Escape(clean)}</text>\n");
    }

    /// <inheritdoc/>
    public void Within(PicturePath area, Action draw)
    {
        string name = $"clip{_clips++}";
        _definitions.Append(CultureInfo.InvariantCulture, $"<clipPath id=\"{name}\"><path d=\"{Data(area)}\" clip-rule=\"evenodd\"/></clipPath>\n");
        _body.Append(CultureInfo.InvariantCulture, $"<g clip-path=\"url(#{name})\">\n");
        draw();
        _body.Append("</g>\n");
    }

    /// <summary>The document.</summary>
    /// <param name="width">Width of the picture.</param>
    /// <param name="height">Its height.</param>
    /// <param name="description">What it shows, for those who cannot see it.</param>
    public string Document(double width, double height, string description) =>
        $"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{Number(width)}\" height=\"{Number(height)}\" viewBox=\"0 0 {Number(width)} {Number(height)}\" role=\"img\" font-family=\"'DejaVu Sans', Verdana, sans-serif\">\n"
        + $"<title>{SecurityElement.Escape(description)}</title>\n<defs>\n{_definitions}</defs>\n{_body}</svg>\n";

    private void Shape(PicturePath path, string look) => _body.Append(CultureInfo.InvariantCulture, $"<path d=\"{Data(path)}\" {look}/>\n");

    private static string Data(PicturePath path)
    {
        StringBuilder data = new();
        foreach (IReadOnlyList<(double X, double Y)> strand in path.Strands)
        {
            for (int i = 0; i < strand.Count; i++)
            {
                data.Append(i == 0 ? 'M' : i == 1 ? 'L' : ' ').Append(Number(strand[i].X)).Append(' ').Append(Number(strand[i].Y));
            }

            data.Append(path.Closed ? "Z" : "");
        }

        return data.ToString();
    }

    private static string Number(double value) => Math.Round(value, 2).ToString("0.##", CultureInfo.InvariantCulture);
}
