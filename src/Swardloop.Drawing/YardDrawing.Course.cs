using Swardloop.Core.Yards;
using Swardloop.Model.Yards;

namespace Swardloop.Drawing;

/// <content>How it is known where the wire lies.</content>
public sealed partial record YardDrawing
{
    /// <summary>How it is known where the wire lies.</summary>
    public WireCourse Course { get; init; }

    /// <summary>Of a heard course: how far beside the drawing the wire may lie (m).</summary>
    public double CourseToleranceMetres { get; init; }

    /// <summary>How far the wire's length may differ (m); null: as the yard has it.</summary>
    public double? LengthToleranceMetres { get; init; }

    /// <summary>Where the plan lies on the earth; null: as the yard has it.</summary>
    public Datum? Datum { get; init; }

    /// <summary>Takes a heard way as the wire; joints, guide wires and risk spots of the wire before it go.</summary>
    public YardDrawing WithHeardWire(HeardCourse heard) => WithPart(DrawnKind.Wire, [.. heard.Corners]) with
    {
        Course = WireCourse.Heard,
        CourseToleranceMetres = heard.ToleranceMetres,
        LengthToleranceMetres = heard.LengthToleranceMetres,
    };

    /// <summary>Says that the wire lies as it is drawn.</summary>
    public YardDrawing WithCourseDrawn() => Course == WireCourse.Drawn ? this
        : this with { Course = WireCourse.Drawn, CourseToleranceMetres = 0, LengthToleranceMetres = YardLimits.DefaultLengthToleranceMetres };

    private Loop OnCourse(Loop loop) => loop with
    {
        Course = Course,
        CourseToleranceMetres = CourseToleranceMetres,
        LengthToleranceMetres = LengthToleranceMetres ?? loop.LengthToleranceMetres,
    };
}
