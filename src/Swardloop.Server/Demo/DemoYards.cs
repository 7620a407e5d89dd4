namespace Swardloop.Server.Demo;

/// <summary>The demo workshop's yards: an invented village, lawns of every shape.</summary>
internal static class DemoYards
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<DemoYard> All { get; } =
    [
        new("Quince Cottage", "Tamsin Pellbrook", "3 Mill Lane, Otterwick", Box(19, 64)) { Bed = (8, 30, 12, 34), Joints = [(42, "gel"), (118.5, "twisted")] },
        new("Otter Holt", "Ivor Thrapwell", "The Weir, Otterwick", Ell(24, 30, 12, 14)) { Joints = [(31, "gel")], OhmsPerYear = 0.3 },
        new("Bramble End", "Maud Ashgarth", "17 Back Hedge, Otterwick", Box(15, 22)) { Joints = [(20, "clamp")], HasFence = true },
        new("Thimble Green", "Crispin Nettleby", "1 Thimble Row, Otterwick", Box(12, 12)),
        new("Teasel House", "Odile Marrack", "9 Teasel Rise, Otterwick", Tee(30, 26)) { Joints = [(55, "gel"), (90, "gel")] },
        new("Heron's Yard", "Bartram Loom", "2 Ford Street, Otterwick", Ell(18, 40, 9, 25)) { Joints = [(60, "twisted")], OhmsPerYear = 20 },
        new("Sallow Bank", "Hester Quill", "40 Sallow Bank, Nether Otterwick", [(0, 0), (34, 0), (28, 18), (4, 22)]) { Joints = [(25, "soldered")] },
        new("Plum Corner", "Godric Fennimore", "12 Plum Corner, Nether Otterwick", Box(16, 16)) { Bed = (6, 6, 9, 9) },
        new("The Old Ropewalk", "Petra Windlass", "The Ropewalk, Otterwick", Box(7, 59)) { AreaMm2 = 0.5, Joints = [(64, "clamp")], OhmsPerYear = 0.8 },
        new("Badger's Rest", "Osmund Tarn", "5 Sett Lane, Upper Otterwick", Cup(28, 24, 8)) { Joints = [(37, "gel"), (80, "gel")] },
        new("Larkspur", "Winifred Oakes", "22 Larkspur Close, Upper Otterwick", Box(18, 25)) { HasFence = true, Joints = [(48, "gel")] },
        new("Moss Hall", "Ambrose Kettle", "Moss Hall, Upper Otterwick", Box(36, 55)) { Bed = (15, 20, 21, 28), AreaMm2 = 1.5, Joints = [(70, "gel"), (150, "gel")] },
        new("Dovecote", "Sabina Rook", "Dovecote Lane, Otterwick", [(0, 0), (22, 0), (30, 12), (22, 24), (0, 24)]) { Joints = [(33, "unknown")] },
        new("Wren's Nook", "Ludo Perrin", "8 Wren Walk, Nether Otterwick", Box(9, 14)),
        new("Copper Beech", "Ottilie Strand", "31 Beech Road, Otterwick", Ell(32, 32, 16, 16)) { Joints = [(64, "twisted"), (100, "gel")], OhmsPerYear = 14 },
        new("Sorrel Bank", "Piers Hollin", "6 Sorrel Bank, Otterwick", Box(24, 18)) { HasFence = true, Joints = [(40, "gel")] },
        new("Pound House", "Edith Varley", "The Pound, Nether Otterwick", Tee(26, 30)) { Joints = [(44, "gel")] },
        new("Mill Race", "Rufus Arkwood", "1 Mill Lane, Otterwick", [(0, 0), (40, 0), (40, 9), (20, 14), (0, 9)]) { Joints = [(58, "clamp")], OhmsPerYear = 5 },
        new("Gorse View", "Nerys Calder", "19 Gorse View, Upper Otterwick", Box(20, 20)) { LaidDaysAgo = 400 },
        new("Hazel Piece", "Tobias Wend", "4 Hazel Piece, Otterwick", Cup(20, 30, 6)) { Joints = [(62, "gel")], LaidDaysAgo = 700 },
    ];

    private static (double, double)[] Box(double width, double depth) => [(0, 0), (width, 0), (width, depth), (0, depth)];

    /// <summary>An L: the north-eastern part is missing.</summary>
    private static (double, double)[] Ell(double width, double depth, double narrow, double low) =>
        [(0, 0), (width, 0), (width, low), (narrow, low), (narrow, depth), (0, depth)];

    /// <summary>A T that stands on its head: broad in the south.</summary>
    private static (double, double)[] Tee(double width, double depth) =>
    [
        (0, 0), (width, 0), (width, depth * 0.4), (width * 0.7, depth * 0.4), (width * 0.7, depth), (width * 0.3, depth), (width * 0.3, depth * 0.4),
        (0, depth * 0.4),
    ];

    /// <summary>A U, open to the north.</summary>
    private static (double, double)[] Cup(double width, double depth, double arm) =>
        [(0, 0), (width, 0), (width, depth), (width - arm, depth), (width - arm, arm), (arm, arm), (arm, depth), (0, depth)];
}
