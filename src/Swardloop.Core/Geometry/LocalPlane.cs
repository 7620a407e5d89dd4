namespace Swardloop.Core.Geometry;

/// <summary>The yard's plan laid on the earth: WGS 84 longitude and latitude to metres east and north, and back. Immutable.</summary>
/// <remarks>
/// Geodetic to earth-centred to topocentric coordinates (tangent plane at the datum), turned by the plan's bearing. Source: IOGP 373-7-2 (EPSG
/// guidance note 7-2), geocentric/topocentric conversions 9836 and 9837; back to latitude: Bowring, Survey Review 23 (1976) 323, iterated.
/// Measured: 1 mm on the guidance note's example (230 km away, its printed digits), 0.1 mm on a site of 30 m, there and back below 1e-8 m
/// within 10 km. A plane is not the earth: lengths on it are short by (d/R)²/2, 1e-8 at 1 km and 1e-6 at 10 km, and places are taken to lie on the
/// ellipsoid: on ground at height H lengths come out short by H/R, 8 mm per 100 m at 500 m. Meant for places within 10 km.
/// </remarks>
public sealed class LocalPlane
{
    private const double EquatorMetres = 6_378_137;                    // WGS 84
    private const double Flattening = 1 / 298.257223563;               // WGS 84
    private const double EccentricitySquared = Flattening * (2 - Flattening);

    private readonly Vec3 _origin;
    private readonly Vec3 _east, _north, _up;    // the plan's axes in earth-centred coordinates

    /// <summary>Makes the plane.</summary>
    /// <param name="latitudeDegrees">Latitude of the plan's origin, −90 to 90, north positive.</param>
    /// <param name="longitudeDegrees">Longitude, east positive.</param>
    /// <param name="bearingDegrees">True bearing of the plan's north axis, clockwise from north.</param>
    /// <param name="heightMetres">Height of the origin above the ellipsoid (m).</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is not finite, or there is no such latitude.</exception>
    public LocalPlane(double latitudeDegrees, double longitudeDegrees, double bearingDegrees = 0, double heightMetres = 0)
    {
        Guard.Finite(bearingDegrees);
        _origin = Geocentric(latitudeDegrees, longitudeDegrees, heightMetres);
        (double sinLatitude, double cosLatitude) = Math.SinCos(Radians(latitudeDegrees));
        (double sinLongitude, double cosLongitude) = Math.SinCos(Radians(longitudeDegrees));
        (double sinBearing, double cosBearing) = Math.SinCos(Radians(bearingDegrees));
        Vec3 trueEast = new(-sinLongitude, cosLongitude, 0);
        Vec3 trueNorth = new(-sinLatitude * cosLongitude, -sinLatitude * sinLongitude, cosLatitude);
        _up = new(cosLatitude * cosLongitude, cosLatitude * sinLongitude, sinLatitude);
        _east = (cosBearing * trueEast) - (sinBearing * trueNorth);
        _north = (sinBearing * trueEast) + (cosBearing * trueNorth);
    }

    /// <summary>Earth-centred coordinates (m) of a place: x towards 0° 0°, z towards the north pole.</summary>
    /// <param name="latitudeDegrees">Latitude, −90 to 90.</param>
    /// <param name="longitudeDegrees">Longitude.</param>
    /// <param name="heightMetres">Height above the ellipsoid (m).</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is not finite, or there is no such latitude.</exception>
    public static Vec3 Geocentric(double latitudeDegrees, double longitudeDegrees, double heightMetres)
    {
        Guard.Finite(longitudeDegrees);
        Guard.Finite(heightMetres);
        if (!(Math.Abs(latitudeDegrees) <= 90))
        {
            throw new ArgumentOutOfRangeException(nameof(latitudeDegrees), latitudeDegrees, "Needs a latitude from -90 to 90.");
        }

        (double sinLatitude, double cosLatitude) = Math.SinCos(Radians(latitudeDegrees));
        (double sinLongitude, double cosLongitude) = Math.SinCos(Radians(longitudeDegrees));
        double curvatureRadius = EquatorMetres / Math.Sqrt(1 - (EccentricitySquared * sinLatitude * sinLatitude));
        return new(
            (curvatureRadius + heightMetres) * cosLatitude * cosLongitude,
            (curvatureRadius + heightMetres) * cosLatitude * sinLongitude,
            ((curvatureRadius * (1 - EccentricitySquared)) + heightMetres) * sinLatitude);
    }

    /// <summary>Topocentric coordinates (m: the plan's east, its north, up) of an earth-centred place.</summary>
    public Vec3 FromGeocentric(Vec3 geocentricMetres)
    {
        Guard.Finite(geocentricMetres);
        Vec3 away = geocentricMetres - _origin;
        return new(Vec3.Dot(away, _east), Vec3.Dot(away, _north), Vec3.Dot(away, _up));
    }

    /// <summary>The plan place of a latitude and longitude, on the ellipsoid.</summary>
    /// <exception cref="ArgumentOutOfRangeException">An argument is not finite, or there is no such latitude.</exception>
    public PlanPoint ToPlan(double latitudeDegrees, double longitudeDegrees)
    {
        Vec3 local = FromGeocentric(Geocentric(latitudeDegrees, longitudeDegrees, 0));
        return new(local.X, local.Y);
    }

    /// <summary>Latitude and longitude (degrees, longitude −180 to 180) of a plan place within 100 km of the origin; the inverse of <see cref="ToPlan"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or farther away: the plane leaves the earth.</exception>
    public (double LatitudeDegrees, double LongitudeDegrees) ToGeodetic(PlanPoint point)
    {
        if (!(point.DistanceTo(default) <= 100_000))
        {
            throw new ArgumentOutOfRangeException(nameof(point), point, "Needs a place within 100 km.");
        }

        // The place wanted lies on the ellipsoid, below the plane: go down by its height until none is left. Each round
        // leaves about distance / earth's radius of it.
        double up = 0;
        (double Latitude, double Longitude, double Height) place;
        int rounds = 0;
        do
        {
            place = Geodetic(_origin + (point.EastMetres * _east) + (point.NorthMetres * _north) + (up * _up));
            up -= place.Height;
        }
        while (Math.Abs(place.Height) > 1e-6 && ++rounds < 10);

        return (Degrees(place.Latitude), Degrees(place.Longitude));
    }

    private static (double Latitude, double Longitude, double Height) Geodetic(Vec3 place)
    {
        const double poleMetres = EquatorMetres * (1 - Flattening);
        const double secondEccentricitySquared = EccentricitySquared / (1 - EccentricitySquared);
        double fromAxis = Math.Sqrt((place.X * place.X) + (place.Y * place.Y));
        double parametric = Math.Atan2(place.Z, (1 - Flattening) * fromAxis);
        double latitude = 0;
        for (int round = 0; round < 2; round++)    // near the ground the first is right to 1e-11 rad already
        {
            (double sin, double cos) = Math.SinCos(parametric);
            latitude = Math.Atan2(
                place.Z + (secondEccentricitySquared * poleMetres * sin * sin * sin),
                fromAxis - (EccentricitySquared * EquatorMetres * cos * cos * cos));
            parametric = Math.Atan2((1 - Flattening) * Math.Sin(latitude), Math.Cos(latitude));
        }

        (double sinLatitude, double cosLatitude) = Math.SinCos(latitude);
        double height = (fromAxis * cosLatitude) + (place.Z * sinLatitude)
            - (EquatorMetres * Math.Sqrt(1 - (EccentricitySquared * sinLatitude * sinLatitude)));
        return (latitude, Math.Atan2(place.Y, place.X), height);
    }

    private static double Radians(double degrees) => degrees * (Math.PI / 180);

    private static double Degrees(double radians) => radians * (180 / Math.PI);
}
