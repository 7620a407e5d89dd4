namespace Swardloop.Core.Geometry;

/// <summary>Leaves out corners that a line keeps its shape without.</summary>
public static class TrackSimplifier
{
    /// <summary>Corners, both ends among them, such that no corner left out lies farther than a tolerance from the straight piece that takes its place.</summary>
    /// <param name="corners">The line, at least one corner, finite coordinates (m); a ring comes with its first corner again at its end.</param>
    /// <param name="toleranceMetres">How far (m), 0 or more.</param>
    /// <returns>The corners that stay, in order.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The tolerance is not finite or below zero.</exception>
    /// <remarks>Source: Douglas and Peucker, Cartographica 10(2), 112 (1973), doi:10.3138/FM57-6770-U75U-7727, with distances to the piece and not to its
    /// line, so that a track that turns back on itself keeps its end. Work is n·log n for tracks as people walk them, n² at worst.</remarks>
    public static IReadOnlyList<PlanPoint> Simplified(IReadOnlyList<PlanPoint> corners, double toleranceMetres)
    {
        if (!(toleranceMetres >= 0 && double.IsFinite(toleranceMetres)))
        {
            throw new ArgumentOutOfRangeException(nameof(toleranceMetres), toleranceMetres, "Needs 0 m or more.");
        }

        bool[] stays = new bool[corners.Count];
        (stays[0], stays[^1]) = (true, true);
        Stack<(int From, int To)> open = new([(0, corners.Count - 1)]);
        while (open.TryPop(out (int From, int To) piece))
        {
            (int farthest, double most) = (0, toleranceMetres * toleranceMetres);
            for (int i = piece.From + 1; i < piece.To; i++)
            {
                double square = WirePath.NearestOnPiece(corners[piece.From], corners[piece.To], corners[i]).SquaredDistance;
                if (square > most)
                {
                    (farthest, most) = (i, square);
                }
            }

            if (farthest > 0)
            {
                stays[farthest] = true;
                open.Push((piece.From, farthest));
                open.Push((farthest, piece.To));
            }
        }

        return [.. corners.Where((_, i) => stays[i])];
    }
}
