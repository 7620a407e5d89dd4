using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;

namespace Swardloop.Model.Tests.Advising;

public sealed class AdviceTextTests
{
    private static string Written(Advice advice, ServiceCase serviceCase)
    {
        using StringWriter text = new() { NewLine = "\n" };
        AdviceText.Write(advice, serviceCase, text);
        return text.ToString();
    }

    [Fact]
    public void The_sheet_reads_as_approved() { File.WriteAllText("/tmp/sheet.txt", Written(SampleAdvice.Advice, SampleAdvice.Case)); }
}
