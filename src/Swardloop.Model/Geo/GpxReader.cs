using System.Globalization;
using System.Xml;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Geo;

/// <summary>Reads the tracks of a GPX 1.1 file. A track's <c>type</c> says its role (loop, lawn, metal, neighbour, guide); the first track
/// without one is the loop. Segments of one track are joined.</summary>
internal static class GpxReader
{
    private const string Namespace = "http://www.topografix.com/GPX/1/1";

    public static Sketch? Read(ReadOnlyMemory<byte> file, ProblemList problems)
    {
        // No document type, no entities, nothing fetched.
        XmlReaderSettings settings = new()
        {
            DtdProcessing = DtdProcessing.Prohibit,
            XmlResolver = null,
            IgnoreComments = true,
            IgnoreProcessingInstructions = true,
            IgnoreWhitespace = true,
        };
        try
        {
            using MemoryStream stream = new(file.ToArray(), writable: false);
            using XmlReader xml = XmlReader.Create(stream, settings);
            return new Reading(xml, problems).Read();
        }
        catch (XmlException e)
        {
            // A document type comes with neither line nor words for a person.
            bool documentType = e.LineNumber == 0;
            string reason = e.Message;
            int position = reason.LastIndexOf(" Line ", StringComparison.Ordinal);
            problems.Add(documentType ? "" : $"line {e.LineNumber}, column {e.LinePosition}",
                documentType ? "a document type declaration is not read" : (position < 0 ? reason : reason[..position]).TrimEnd('.'), "GPX 1.1");
            return null;
        }
    }

    private sealed class Reading(XmlReader xml, ProblemList problems)
    {
        private readonly List<SketchShape> _shapes = [];
        private string? _name;

        public Sketch? Read()
        {
            _ = xml.MoveToContent();
            if (xml.LocalName != "gpx" || xml.NamespaceURI != Namespace)
            {
                problems.Add(Here(), $"got <{JsonText.Shortened(xml.LocalName)}> of \"{JsonText.Shortened(xml.NamespaceURI)}\"", $"<gpx> of \"{Namespace}\"");
                return null;
            }

            while (Next())
            {
                if (xml.NodeType == XmlNodeType.Element && xml.LocalName == "trk" && xml.NamespaceURI == Namespace && !xml.IsEmptyElement)
                {
                    ReadTrack();
                }
            }

            return new Sketch(_shapes, IsGeographic: true) { Name = _name };
        }

        private void ReadTrack()
        {
            string place = Here();
            int depth = xml.Depth;
            List<SketchPoint> points = [];
            string? name = null, type = null;
            bool good = true;
            while (Next() && !(xml.NodeType == XmlNodeType.EndElement && xml.Depth == depth))
            {
                if (xml.NodeType != XmlNodeType.Element || xml.NamespaceURI != Namespace)
                {
                    continue;
                }

                switch (xml.LocalName)
                {
                    case "name" when xml.Depth == depth + 1:
                        name = Content();
                        break;
                    case "type" when xml.Depth == depth + 1:
                        type = Content()?.Trim();
                        break;
                    case "trkpt":
                        good &= ReadPoint(points);
                        break;
                }
            }

            Add(place, points, name, type, good);
        }

        private void Add(string place, List<SketchPoint> points, string? name, string? type, bool good)
        {
            SketchRole role = SketchRole.Loop;
            if (type is not null && SketchReader.Roles.Any(word => word.Key == type && word.Value != SketchRole.Joint))
            {
                role = SketchReader.Roles.First(word => word.Key == type).Value;
            }
            else if (_shapes.Any(shape => shape.Role == SketchRole.Loop))
            {
                problems.Add(place, $"a further track of type {(type is null ? "unknown" : $"\"{JsonText.Shortened(type)}\"")}", "one loop; other tracks of type lawn, metal, neighbour or guide");
                return;
            }

            if (points.Count < 2 || points.Count > YardLimits.TrackPoints)
            {
                problems.Add(place, $"the track has {points.Count} good points", $"2 to {YardLimits.TrackPoints}");
            }
            else if (good)
            {
                _shapes.Add(new(role, place, [[.. points]]) { Wire = role == SketchRole.Guide && name?.Length is > 0 and <= YardLimits.NameCharacters ? name : null });
                _name ??= role == SketchRole.Loop && name?.Length is > 0 and <= YardLimits.TextCharacters ? name : null;
            }
        }

        private bool ReadPoint(List<SketchPoint> points)
        {
            if (TryNumber("lat", SketchReader.LatitudeDegrees, out double latitude) & TryNumber("lon", SketchReader.LongitudeDegrees, out double longitude))
            {
                points.Add(new(longitude, latitude));
                return true;
            }

            return false;
        }

        private bool TryNumber(string attribute, NumberRange range, out double value)
        {
            string? text = xml.GetAttribute(attribute);
            if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && range.Holds(value))
            {
                return true;
            }

            problems.Add($"{Here()}, {attribute}", text is null ? "missing" : $"got \"{JsonText.Shortened(text)}\"", range.ToString());
            return false;
        }

        /// <summary>The reader has no limit of its own on nesting, and keeps something for each level.</summary>
        private bool Next() => xml.Read() && (xml.Depth <= JsonText.MostDepth
            ? true
            : throw new XmlException($"Nested deeper than {JsonText.MostDepth}", null, (xml as IXmlLineInfo)?.LineNumber ?? 0, (xml as IXmlLineInfo)?.LinePosition ?? 0));

        private string? Content()
        {
            return xml.IsEmptyElement || !Next() || xml.NodeType is not (XmlNodeType.Text or XmlNodeType.CDATA) ? null : xml.Value;
        }

        private string Here() => xml is IXmlLineInfo info ? $"line {info.LineNumber}, column {info.LinePosition}" : "";
    }
}
