using System.Text.Json;
using Swardloop.Core.Geometry;
using Swardloop.Core.Reach;
using Swardloop.Model.Geo;

namespace Swardloop.Model.Pictures;

/// <summary>Lines of equal margin as GeoJSON.</summary>
public static class ReachGeoJson
{
    private static readonly double[] Decibels = [0, 3, 6, 12, 18, 24];

    /// <summary>Writes the lines of 0 (silence), 3, 6, 12, 18 and 24 dB on the lawn, and the weakest place.</summary>
    /// <param name="reach">The map.</param>
    /// <param name="signal">What turns resistance into the field needed.</param>
    /// <param name="loopOhms">Resistance of the loop (Ω), zero or more.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <returns>A feature collection in UTF-8. Each line is a MultiLineString with its <c>marginDb</c>; a level met nowhere has no feature.
    /// Longitude and latitude (RFC 7946) where the yard has a datum; otherwise the plan's metres, marked as in an exported yard.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The resistance is negative or not finite.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static byte[] Write(LoopReach reach, SignalBudget signal, double loopOhms, CancellationToken cancellation = default)
    {
        double required = signal.RequiredFieldPerAmpere(loopOhms);
        IReadOnlyList<IReadOnlyList<IReadOnlyList<PlanPoint>>> levels =
            ReachPicture.LinesOnLawn(reach, Decibels.Select(decibels => required * Math.Pow(10, decibels / 20)), cancellation);
        LocalPlane? plane = reach.Yard.Datum is { } datum ? new(datum.LatitudeDegrees, datum.LongitudeDegrees, datum.BearingDegrees) : null;
        using MemoryStream bytes = new();
        using (Utf8JsonWriter json = new(bytes))
        {
            json.WriteStartObject();
            json.WriteString("type", "FeatureCollection");
            if (plane is null)
            {
                json.WriteString(GeoJsonReader.FrameMember, GeoJsonReader.LocalFrame);
            }

            json.WriteStartArray("features");
            for (int i = 0; i < Decibels.Length; i++)
            {
                if (levels[i].Count > 0)
                {
                    WriteLevel(json, plane, Decibels[i], levels[i]);
                }
            }

            WriteWeakest(json, plane, reach.Weakest, signal.MarginDecibels(reach.Weakest.FieldPerAmpere, loopOhms));
            json.WriteEndArray();
            json.WriteEndObject();
        }

        return bytes.ToArray();
    }

    private static void WriteLevel(Utf8JsonWriter json, LocalPlane? plane, double decibels, IReadOnlyList<IReadOnlyList<PlanPoint>> lines)
    {
        json.WriteStartObject();
        json.WriteString("type", "Feature");
        json.WriteStartObject("properties");
        json.WriteString("kind", decibels == 0 ? "limit-of-reception" : "equal-margin");
        json.WriteNumber("marginDb", decibels);
        json.WriteEndObject();
        json.WriteStartObject("geometry");
        json.WriteString("type", "MultiLineString");
        json.WriteStartArray("coordinates");
        foreach (IReadOnlyList<PlanPoint> line in lines)
        {
            json.WriteStartArray();
            foreach (PlanPoint point in line)
            {
                WritePoint(json, plane, point);
            }

            json.WriteEndArray();
        }

        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static void WriteWeakest(Utf8JsonWriter json, LocalPlane? plane, WeakestPlace weakest, double decibels)
    {
        json.WriteStartObject();
        json.WriteString("type", "Feature");
        json.WriteStartObject("properties");
        json.WriteString("kind", "weakest-place");
        if (double.IsFinite(decibels))
        {
            json.WriteNumber("marginDb", decibels);
        }
        else
        {
            json.WriteNull("marginDb");
        }

        json.WriteEndObject();
        json.WriteStartObject("geometry");
        json.WriteString("type", "Point");
        json.WritePropertyName("coordinates");
        WritePoint(json, plane, weakest.Point);
        json.WriteEndObject();
        json.WriteEndObject();
    }

    // A millimetre, or a hundred-millionth of a degree, is finer than any wire is laid.
    private static void WritePoint(Utf8JsonWriter json, LocalPlane? plane, PlanPoint point)
    {
        (double first, double second, int decimals) = (point.EastMetres, point.NorthMetres, 3);
        if (plane is not null)
        {
            ((second, first), decimals) = (plane.ToGeodetic(point), 8);
        }

        json.WriteStartArray();
        json.WriteNumberValue(Math.Round(first, decimals));
        json.WriteNumberValue(Math.Round(second, decimals));
        json.WriteEndArray();
    }
}
