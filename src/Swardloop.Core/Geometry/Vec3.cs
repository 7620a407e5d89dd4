namespace Swardloop.Core.Geometry;

/// <summary>A vector in metres (or any one unit): x east, y north, z up.</summary>
/// <param name="X">East component.</param>
/// <param name="Y">North component.</param>
/// <param name="Z">Up component.</param>
public readonly record struct Vec3(double X, double Y, double Z)
{
    /// <summary>The null vector.</summary>
    public static Vec3 Zero => default;

    /// <summary>Euclidean length, in the components' unit.</summary>
    public double Length => Math.Sqrt((X * X) + (Y * Y) + (Z * Z));

    /// <summary>Sum.</summary>
    public static Vec3 operator +(Vec3 a, Vec3 b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);

    /// <summary>Difference.</summary>
    public static Vec3 operator -(Vec3 a, Vec3 b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    /// <summary>Opposite.</summary>
    public static Vec3 operator -(Vec3 a) => new(-a.X, -a.Y, -a.Z);

    /// <summary>Scaled vector.</summary>
    public static Vec3 operator *(double k, Vec3 a) => new(k * a.X, k * a.Y, k * a.Z);

    /// <summary>Scalar product.</summary>
    public static double Dot(Vec3 a, Vec3 b) => (a.X * b.X) + (a.Y * b.Y) + (a.Z * b.Z);

    /// <summary>Vector product, right-handed.</summary>
    public static Vec3 Cross(Vec3 a, Vec3 b) =>
        new((a.Y * b.Z) - (a.Z * b.Y), (a.Z * b.X) - (a.X * b.Z), (a.X * b.Y) - (a.Y * b.X));
}
