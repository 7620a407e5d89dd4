namespace Swardloop.Core.Fields;

/// <summary>Runs work that falls into independent rows, on several threads where there are any.</summary>
internal static class RowWork
{
    // A few milliseconds of work: about what the first use of several threads costs a program.
    private const long LargeWork = 2_000_000;

    /// <summary>Calls <paramref name="work"/> once for each row. What each row writes must not depend on the others, so that threads change nothing.</summary>
    /// <param name="rows">Number of rows.</param>
    /// <param name="terms">Terms to sum on all rows together; work that is done sooner than other threads would be there stays on this one.</param>
    /// <param name="work">The work on one row.</param>
    /// <param name="progress">Hears the share done, 0 to 1, after each row; rows may end in any order but the shares only rise.</param>
    /// <param name="cancellation">Ends the work between rows.</param>
    /// <exception cref="OperationCanceledException">Cancelled; the results are incomplete.</exception>
    public static void Run(int rows, long terms, Action<int> work, IProgress<double>? progress, CancellationToken cancellation)
    {
        Lock reporting = new();
        int done = 0;
        void One(int row)
        {
            work(row);
            if (progress is not null)
            {
                lock (reporting)
                {
                    done++;
                    progress.Report((double)done / rows);
                }
            }
        }

        // The browser's runtime has one thread and cannot wait for others.
        if (OperatingSystem.IsBrowser() || Environment.ProcessorCount == 1 || terms < LargeWork)
        {
            for (int row = 0; row < rows; row++)
            {
                cancellation.ThrowIfCancellationRequested();
                One(row);
            }
        }
        else
        {
            OnThreads(rows, One, cancellation);
        }
    }

    private static void OnThreads(int rows, Action<int> one, CancellationToken cancellation) =>
        Parallel.For(0, rows, new ParallelOptions { CancellationToken = cancellation }, one);
}
