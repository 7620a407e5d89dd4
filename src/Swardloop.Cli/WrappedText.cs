namespace Swardloop.Cli;

/// <summary>Lines that fit a phone.</summary>
internal static class WrappedText
{
    /// <summary>Width of a phone's screen in characters.</summary>
    public const int Columns = 60;

    /// <summary>Writes words in lines of at most <see cref="Columns"/>; a longer word stands alone.</summary>
    /// <param name="text">Where to.</param>
    /// <param name="words">What; any run of spaces divides words.</param>
    /// <param name="first">What stands before the first line, such as <c>  1. </c>; further lines are indented by as much.</param>
    public static void WriteWrapped(this TextWriter text, string words, string first = "")
    {
        string start = first;
        int column = 0;
        foreach (string word in words.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (column > 0 && start.Length + column + 1 + word.Length > Columns)
            {
                text.WriteLine();
                (start, column) = (new string(' ', first.Length), 0);
            }

            text.Write(column == 0 ? start : " ");
            text.Write(word);
            column += word.Length + (column == 0 ? 0 : 1);
        }

        if (column == 0)
        {
            text.Write(first.TrimEnd());
        }

        text.WriteLine();
    }
}
