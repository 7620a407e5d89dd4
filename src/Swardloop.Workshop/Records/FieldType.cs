namespace Swardloop.Workshop.Records;

/// <summary>What a field's value may be.</summary>
public enum FieldType
{
    /// <summary>Text; empty is the same as cleared.</summary>
    Text,

    /// <summary>A number with the field's unit.</summary>
    Number,

    /// <summary>True or false.</summary>
    Flag,

    /// <summary>A calendar day, <c>2026-05-14</c>.</summary>
    Day,

    /// <summary>A moment, RFC 3339 with its offset.</summary>
    Moment,

    /// <summary>One of the field's words.</summary>
    Word,

    /// <summary>The id of another record.</summary>
    Reference,

    /// <summary>A yard file's object, <c>swardloop-yard/1</c>.</summary>
    YardFile,

    /// <summary>A bench file's object, <c>swardloop-bench/1</c>.</summary>
    BenchFile,

    /// <summary>One observation as in a case file: a test with its outcome, or a repair.</summary>
    Observation,

    /// <summary>A case file's <c>can</c>.</summary>
    Capabilities,

    /// <summary>A case file's <c>rates.steps</c>: what steps take and cost in this workshop.</summary>
    StepPace,

    /// <summary>Steps by the contract's names, parted by blanks.</summary>
    Steps,

    /// <summary>Coordinates <c>{latitude, longitude}</c>, degrees.</summary>
    Position,
}
