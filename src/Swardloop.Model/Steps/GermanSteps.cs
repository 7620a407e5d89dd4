using Swardloop.Core.Diagnosis;

namespace Swardloop.Model.Steps;

/// <summary>Steps and cautions in German.</summary>
internal static class GermanSteps
{
    private static readonly Dictionary<Caution, string> Cautions = new()
    {
        [Caution.NoThunder] = "Gewitter da oder im Anzug? Aufhören. Nichts messen und keinen Draht anfassen, bis es vorüber ist.",
        [Caution.MainsStayClosed] =
            "Steckdose, Stecker, Netzteil und Station nie öffnen: darin ist Netzspannung. Ist etwas davon nass oder beschädigt, Hände weg und eine Elektrofachkraft rufen.",
        [Caution.StationUnplugged] = "Station vom Netz trennen, bevor der Draht angefasst wird. Beide Drahtenden sind ab, bevor gemessen wird.",
        [Caution.AllDisconnectedForTestVoltage] =
            "Die Prüfspannung zerstört Elektronik und schlägt: erst Draht, Station und Mäher voneinander trennen, niemand am Draht, danach entladen.",
        [Caution.NoLiveElectricFence] = "Weidezaun nahe am Draht oder am Erdspieß? Erst abschalten lassen. Nie etwas anschließen, solange er unter Spannung steht.",
        [Caution.ExtraLowVoltageOnly] = "Den Draht nur aus einer Batterie bis 12 V oder aus dem Sender speisen. Nie aus einem Ladegerät oder etwas am Netz.",
        [Caution.LocateServices] =
            "Vor dem Graben, Schneiden oder Einschlagen eines Erdspießes: Leitungen im Boden orten lassen, wie es am Ort vorgeschrieben ist. Arbeit daran ist Sache von Fachleuten.",
        [Caution.MowerIsolated] = "Mäher aus, Schlüssel oder Akku heraus, bevor Hände oder Füße in seine Nähe kommen. Die Messer sind auch im Stillstand scharf.",
        [Caution.ClearOfRunningMower] = "Kinder, Tiere und Füße weg vom laufenden Mäher. Erst Stopp drücken, dann hingehen oder anheben.",
    };

    private static readonly string[] CheckAtMidLawn =
    [
        "Station einstecken. Warten, bis ihre Lampe ruhig leuchtet.",
        "Den Mäher mitten auf den Rasen setzen und starten.",
        "Fünf Minuten zusehen, auch dort, wo er vorher versagt hat.",
        "Notieren: läuft, oder wie vorher.",
    ];

    private static readonly string[] ServiceFinish =
    [
        "Schutz und Deckel anbringen, bevor Schlüssel oder Akku hineinkommt.",
        "Auf einer kurzen Prüfschleife versuchen, bevor er auf seinen Rasen zurückkommt.",
    ];

    private const string BackOn = "Die Drahtenden wieder an die Klemmen, von denen sie kamen.";

    /// <summary>The wording.</summary>
    public static StepTexts Make() => new("de", Steps(), Cautions);

    private static Dictionary<StepKind, StepText> Steps() => new()
    {
        [StepKind.OutletCheck] = new("Steckdose prüfen",
        [
            "Das Netzteil der Station ausstecken.",
            "Ein anderes, sicher gutes Gerät in dieselbe Steckdose stecken.",
            "Notieren: Strom da, wenn es läuft; kein Strom, wenn nicht.",
        ])
        {
            HowForOwner =
            [
                "Ziehen Sie den Stecker der Station aus der Steckdose.",
                "Stecken Sie etwas ein, das sicher geht, zum Beispiel eine Lampe.",
                "Geht es? Dann ist Strom da. Wenn nicht, ist die Steckdose tot.",
                "Stecken Sie die Station wieder ein.",
            ],
        },
        [StepKind.SupplyVoltage] = new("Netzteil messen",
        [
            "Den Kleinspannungsstecker des Netzteils von der Station abziehen. Die Netzseite in Ruhe lassen.",
            "Die Nennspannung auf dem Schild ablesen.",
            "Messgerät auf die Spannungsart des Schildes stellen, Bereich darüber.",
            "Am Kleinspannungsstecker messen.",
            "Unter Last gefragt? Stecker wieder an die Station, an seinen Kontakten messen, mit feinen Spitzen, die sich nicht berühren.",
            "Volt und Nennvolt notieren, und ob die Station daran zog.",
        ]),
        [StepKind.StationLamp] = new("Nach der Lampe der Station sehen",
        [
            "Eine halbe Minute hinsehen. Die Lampe vor der Sonne abschirmen.",
            "Notieren: aus, normal, flackernd oder Alarm. Was die Farben dieses Modells bedeuten, steht in der Liste der Werkstatt.",
        ])
        {
            HowForOwner =
            [
                "Gehen Sie zur Station und schirmen Sie ihre Lampe mit der Hand ab.",
                "Sehen Sie eine halbe Minute hin.",
                "Sagen Sie, was Sie sehen: dunkel, wie immer, unruhig oder Alarm.",
            ],
        },
        [StepKind.MowerStart] = new("Den Mäher starten",
        [
            "Den ausgeschalteten Mäher an den genannten Platz tragen: dicht an den Draht oder mitten auf den Rasen.",
            "Auf das Gras setzen, zurücktreten, starten.",
            "Notieren: läuft, meldet kein Signal, oder glaubt sich draußen.",
        ])
        {
            HowForOwner =
            [
                "Schalten Sie den Mäher aus. Tragen Sie ihn an den genannten Platz: neben den Draht oder mitten auf den Rasen.",
                "Setzen Sie ihn auf das Gras, treten Sie zurück, starten Sie ihn.",
                "Sagen Sie, was er tut: er mäht, er meldet kein Signal, oder er meint, er sei draußen.",
            ],
        },
        [StepKind.MowerReach] = new("Sehen, wie weit vom Draht er läuft",
        [
            "Den Mäher dicht am Draht starten.",
            "Zur Mitte der breitesten Stelle laufen lassen. Mit Abstand folgen.",
            "Wo er umkehrt oder stehen bleibt, ohne dass ein Draht nahe ist: Stopp drücken, Stelle markieren.",
            "Von der Stelle zum nächsten Draht messen.",
            "Meter notieren. Alles gemäht? Den größten Abstand notieren, und: mindestens.",
        ])
        {
            HowForOwner =
            [
                "Starten Sie den Mäher neben dem Draht, wo der Rasen am breitesten ist.",
                "Sehen Sie, wo er umkehrt oder stehen bleibt, obwohl kein Rand nahe ist.",
                "Drücken Sie Stopp. Messen Sie von dort zum nächsten Draht, oder zählen Sie Schritte. Ein großer Schritt ist etwa 0,8 m.",
                "Sagen Sie den Abstand. Wenn er überall gemäht hat, sagen Sie das.",
            ],
        },
        [StepKind.FollowWire] = new("Zusehen, wie er am Draht heimfährt",
        [
            "Den Mäher vom anderen Ende des Rasens heimschicken.",
            "Mit Abstand mitgehen, bis zur Station.",
            "Notieren: ruhig, schwankend oder verloren. Merken, wo.",
        ])
        {
            HowForOwner =
            [
                "Schicken Sie den Mäher heim, wenn er weit von der Station ist.",
                "Gehen Sie mit Abstand mit.",
                "Sagen Sie, wie er fährt: gerade heim, schwankend, oder er verliert den Weg. Merken Sie sich, wo.",
            ],
        },
        [StepKind.WireCrossing] = new("Sehen, ob er den Draht achtet",
        [
            "Den Mäher gerade auf den Draht schicken, wo er überfahren wurde; sonst erst neben Metall, dann fern davon.",
            "Den Daumen auf Stopp.",
            "Notieren: geachtet, wenn er wendet; überfahren, wenn er hinübergeht. Die Stelle notieren, und ob Metall nahe ist.",
        ])
        {
            HowForOwner =
            [
                "Lassen Sie den Mäher auf den Rand zufahren, wo er vorher hinüberfuhr. Bereit sein, Stopp zu drücken.",
                "Wendet er am Draht, oder fährt er hinüber?",
                "Sagen Sie, wo, und ob ein Zaun, Schuppen oder anderes Metall einen Schritt daneben ist.",
            ],
        },
        [StepKind.LoopResistance] = new("Die Schleife messen",
        [
            "Station ausstecken. Beide Drahtenden abnehmen. Blank putzen.",
            "Prüfspitzen zusammenhalten: das sind die Ohm der Leitungen, notieren.",
            "Messgerät im kleinsten Ohmbereich. Je eine Spitze an ein Drahtende, Finger weg vom Metall.",
            "Überlauf? Bereich für Bereich höher stellen: er zählt nur im höchsten.",
            "Warten, bis es ruhig steht. Ohm notieren, oder Überlauf, und die Genauigkeit des Geräts.",
            BackOn,
        ])
        {
            HowForOwner =
            [
                "Ziehen Sie den Stecker der Station aus der Steckdose.",
                "Suchen Sie die zwei dünnen Drähte, die aus dem Boden an zwei Klemmen der Station führen. Ein dritter dünner Draht bleibt, wo er ist.",
                "Merken Sie sich, welcher wo saß: machen Sie ein Foto. Dann nehmen Sie beide ab. Braucht es dazu Werkzeug, überlassen Sie es uns.",
                "Reiben Sie die beiden Enden, bis das Metall glänzt.",
                "Messgerät: schwarze Leitung in COM, rote dorthin, wo Ω steht. Drehen Sie auf Ω, kleinster Bereich, oft 200 genannt.",
                "Halten Sie die beiden Metallspitzen aneinander: die erste Zahl, unter 2. Schon jetzt OL oder 1? Prüfen Sie Leitungen und Drehschalter.",
                "Nun je eine Spitze an jedes Drahtende, egal wie herum. Finger weg vom Metall. Warten, bis die Zahl steht: das ist die zweite Zahl.",
                "Nur OL oder nur eine 1? Drehen Sie auf den nächstgrößeren Ω-Bereich und weiter, bis eine Zahl dasteht. Achten Sie auf k oder M daneben.",
                "Stecken Sie die Enden wieder dorthin, wo sie waren, dann den Stecker.",
            ],
        },
        [StepKind.EarthResistance] = new("Die Schleife gegen Erde messen",
        [
            "Station ausstecken. Beide Drahtenden abnehmen und vom Boden fernhalten.",
            "Einen kurzen Erdspieß handtief in feuchten Boden drücken, zwei Meter oder mehr vom Draht.",
            "Messgerät im größten Ohmbereich: eine Spitze an ein Drahtende, eine an den Spieß.",
            "Spitzen tauschen und noch einmal ablesen. Sind sie verschieden, macht der Boden selbst eine Spannung: das Mittel nehmen.",
            "Ohm notieren, oder Überlauf.",
            BackOn,
        ]),
        [StepKind.Insulation] = new("Die Isolation der Schleife prüfen",
        [
            "Station ausstecken. Beide Drahtenden abnehmen und miteinander verbinden. Den Mäher von der Station nehmen.",
            "Noch einmal prüfen: nur Draht ist angeschlossen. Niemand ist am Draht.",
            "Einen kurzen Erdspieß handtief in feuchten Boden drücken. Prüfgerät zwischen Draht und Spieß.",
            "Eine Minute prüfen. Volt und Megohm notieren.",
            "Den Draht mit dem Prüfgerät entladen, bevor er angefasst wird.",
            "Die Enden trennen. " + BackOn,
        ]),
        [StepKind.EarthRatio] = new("Die Stelle aus dem Spannungsverhältnis zur Erde finden",
        [
            "Station ausstecken. Beide Drahtenden abnehmen. Die Batterie zwischen sie.",
            "Einen kurzen Erdspieß handtief in feuchten Boden drücken, zwei Meter oder mehr vom Draht.",
            "Messgerät im kleinsten Gleichspannungsbereich: von A zum Spieß messen, dann von B zum Spieß.",
            "Batterie umdrehen und beide noch einmal messen, mit Vorzeichen.",
            "Für jedes Ende: der eine Wert minus den anderen, halbiert, ohne Vorzeichen. Die Spannung des Bodens fällt heraus. Beide notieren.",
            "Batterie abnehmen. " + BackOn,
        ]),
        [StepKind.EndCapacitance] = new("Einen Bruch aus der Kapazität finden",
        [
            "Station ausstecken. Beide Drahtenden abnehmen und vom Boden fernhalten.",
            "Einen kurzen Erdspieß handtief in feuchten Boden drücken.",
            "Kapazitätsmesser mit offenen Leitungen auf null stellen, dort, wo sie liegen werden.",
            "Von Ende A zum Spieß messen, dann von Ende B zum Spieß, mit denselben Leitungen an derselben Stelle.",
            "Beide in Nanofarad notieren.",
            BackOn,
        ]),
        [StepKind.SplitResistance] = new("Die Schleife öffnen und beide Seiten messen",
        [
            "Station ausstecken. Beide Drahtenden abnehmen.",
            "Den Verbinder von Hand freilegen, mit stumpfem Werkzeug.",
            "Prüfen, dass es die Schleife ist: das Messgerät zeigt keine Spannung daran.",
            "Den Verbinder öffnen. Beide Seiten blank putzen.",
            "Jede Seite zu ihrem Ende an der Station messen, über die lange Messleitung. Deren Ohm notieren.",
            "Ohm der Seite A und der Seite B notieren; auch ein Überlauf zählt.",
            "Mit einem neuen Gelverbinder schließen. Zudecken. " + BackOn,
        ])
        {
            HowInPlainWire =
            [
                "Station ausstecken. Beide Drahtenden abnehmen.",
                "Eine Handbreit Draht von Hand freilegen, mit stumpfem Werkzeug.",
                "Prüfen, dass es die Schleife ist: keine Spannung daran, und Suchton oder Plan sagen es. Dann schneiden.",
                "Beide Seiten bis aufs blanke Metall abisolieren.",
                "Jede Seite zu ihrem Ende an der Station messen, über die lange Messleitung. Deren Ohm notieren.",
                "Ohm der Seite A und der Seite B notieren; auch ein Überlauf zählt.",
                "Mit neuem Gelverbinder schließen. Seine Stelle in den Plan eintragen. Zudecken. " + BackOn,
            ],
        },
        [StepKind.Bypass] = new("Ein Stück überbrücken",
        [
            "Station ausstecken. Beide Drahtenden abnehmen.",
            "Den Draht an beiden Stellen von Hand freilegen. Verbinder nehmen, wo welche sind; sonst den Draht anstechen.",
            "Den Überbrückungsdraht dazwischen aufs Gras legen und anklemmen.",
            "Die Schleife mit der Überbrückung messen. Ohm notieren, oder Überlauf.",
            "Überbrückung abnehmen. Jede angestochene oder geöffnete Stelle abdichten. " + BackOn,
        ]),
        [StepKind.ToneTrace] = new("Nach dem Suchton hören",
        [
            "Station ausstecken. Beide Drahtenden abnehmen.",
            "Sender an das genannte Ende und einen Erdspieß; das andere Ende bleibt frei.",
            "An der genannten Stelle hören, eine Handbreit über dem Draht. Mit den ersten Metern an der Station vergleichen.",
            "Notieren: stark, schwach oder nichts.",
            "Sender abnehmen. " + BackOn,
        ]),
        [StepKind.Reflection] = new("Das Echo messen",
        [
            "Station ausstecken. Beide Drahtenden abnehmen.",
            "Reflektometer an das genannte Ende, die andere Leitung an einen Erdspieß. Fernes Ende frei.",
            "Die erste klare Stufe suchen. Nach oben: Bruch. Nach unten: Schluss.",
            "Laufzeit hin und zurück in Nanosekunden notieren, und die Art.",
            BackOn,
        ]),
        [StepKind.Look] = new("Das Stück abgehen und hinsehen",
        [
            "Mäher aus und Schlüssel heraus, bevor seine Linie betreten wird.",
            "Das genannte Stück langsam abgehen, die Augen auf der Linie des Drahtes.",
            "Suchen: frisch Gegrabenes, Kantensteine, Pflöcke, blanken oder angenagten Draht, Wurzeln, Gänge, offene Verbinder.",
            "An nichts ziehen. Notieren: Schaden und wo, oder nichts.",
        ])
        {
            HowForOwner =
            [
                "Schalten Sie den Mäher aus und nehmen Sie den Schlüssel heraus.",
                "Gehen Sie langsam, wo wir es gesagt haben, am Draht entlang.",
                "Suchen Sie frische Löcher, Spatenstiche, neue Kantensteine oder Pflöcke, blanken oder angenagten Draht.",
                "Nicht ziehen, nicht graben. Machen Sie ein Foto von dem, was Sie finden. Sagen Sie: Schaden und wo, oder nichts.",
            ],
        },
        [StepKind.SubstituteLoop] = new("Eine kurze Prüfschleife versuchen",
        [
            "Station ausstecken. Beide Drahtenden abnehmen.",
            "Die Prüfschleife aufs Gras legen, 3 m weit oder mehr, ohne Kreuzung. An die Station, Enden gleich herum.",
            "Einstecken. Den Mäher in die Prüfschleife setzen und starten.",
            "Notieren: läuft, oder kein Signal.",
            "Ausstecken. Prüfschleife abnehmen. " + BackOn,
        ]),
        [StepKind.SubstituteMower] = new("Einen anderen Mäher versuchen",
        [
            "Einen sicher guten Mäher desselben Systems nehmen, mit dieser Station gekoppelt.",
            "Dort aufsetzen, wo der andere versagte, und starten.",
            "Notieren: läuft, oder kein Signal.",
        ]),
        [StepKind.NeighbourOff] = new("Die Station des Nachbarn eine Weile abschalten lassen",
        [
            "Den Nachbarn bitten, seine Station auszustecken.",
            "Den Mäher dort starten, wo er versagt, und fünf Minuten zusehen.",
            "Notieren: behoben, oder gleich. Den Nachbarn wieder einstecken lassen.",
        ])
        {
            HowForOwner =
            [
                "Bitten Sie den Nachbarn, die Station seines Mähers für eine Viertelstunde auszustecken.",
                "Starten Sie Ihren Mäher dort, wo es schiefgeht. Sehen Sie fünf Minuten zu.",
                "Sagen Sie: es ist behoben, oder es ist gleich. Dank an den Nachbarn.",
            ],
        },
        [StepKind.MowerCheck] = new("Sehen, ob der Mäher läuft", CheckAtMidLawn)
        {
            HowForOwner =
            [
                "Stecken Sie die Station ein und sehen Sie nach ihrer Lampe.",
                "Starten Sie den Mäher mitten auf dem Rasen, lassen Sie ihn dann dorthin, wo er vorher versagt hat.",
                "Sehen Sie fünf Minuten zu. Sagen Sie: er läuft, oder es ist gleich.",
            ],
        },
        [StepKind.AcRatio] = new("Die Stelle aus dem Verhältnis eines Tons zur Erde finden",
        [
            "Station ausstecken. Beide Drahtenden abnehmen. Den Tonsender zwischen sie, mit 1 kHz oder weniger.",
            "Einen kurzen Erdspieß handtief in feuchten Boden drücken, zwei Meter oder mehr vom Draht.",
            "Messgerät im kleinsten Wechselspannungsbereich. Seine Anleitung muss Werte bei dieser Frequenz versprechen.",
            "Von A zum Spieß messen, dann von B zum Spieß, mit denselben Leitungen an derselben Stelle.",
            "Sender aus: was noch angezeigt wird, ist Netzbrummen. Ein Zehntel der Werte oder mehr? Dann zählen sie nicht.",
            "Beide Spannungen und die Frequenz notieren.",
            "Sender abnehmen. " + BackOn,
        ]),
        [StepKind.GuideResistance] = new("Den Leitdraht messen",
        [
            "Station ausstecken. Beide Drahtenden und den Leitdraht abnehmen. Alle drei blank putzen.",
            "Prüfspitzen zusammenhalten: das sind die Ohm der Leitungen, notieren.",
            "Kleinster Ohmbereich: eine Spitze an den Leitdraht, die andere an A, dann an B. Finger weg vom Metall.",
            "Überlauf? Bereich für Bereich höher stellen: er zählt nur im höchsten.",
            "Beide Werte notieren, und welcher Leitdraht es war.",
            "Den Leitdraht wieder an seine eigene Klemme. " + BackOn,
        ])
        {
            HowForOwner =
            [
                "Ziehen Sie den Stecker der Station aus der Steckdose.",
                "Suchen Sie an der Station die zwei Enden der Schleife und den dritten dünnen Draht: das ist der Leitdraht.",
                "Machen Sie ein Foto davon, was wo saß. Dann nehmen Sie alle drei ab. Braucht es dazu Werkzeug, überlassen Sie es uns.",
                "Reiben Sie die drei Enden, bis das Metall glänzt.",
                "Messgerät: schwarze Leitung in COM, rote dorthin, wo Ω steht. Drehen Sie auf Ω, kleinster Bereich, oft 200 genannt.",
                "Halten Sie die beiden Metallspitzen aneinander: das ist die erste Zahl.",
                "Eine Spitze an den Leitdraht, die andere an Drahtende A. Nicht gezeichnet? Das linke auf Ihrem Foto ist A. Warten: die zweite Zahl.",
                "Die erste Spitze bleibt, die andere kommt an Drahtende B: die dritte Zahl. Nur OL oder 1? Erst die größeren Ω-Bereiche versuchen.",
                "Stecken Sie alle drei wieder dorthin, wo sie waren, dann den Stecker.",
            ],
        },
        [StepKind.JointDrop] = new("Die Spannung über einem Verbinder messen",
        [
            "Station ausstecken. Beide Drahtenden abnehmen.",
            "Den Verbinder von Hand freilegen, stumpfes Werkzeug. Prüfen, dass es die Schleife ist: keine Spannung, Suchton oder Plan sagen es.",
            "Batterie zwischen die Drahtenden, Messgerät dazwischen: mA notieren. Trockenbatterie oder mit Sicherung, nur beim Ablesen dran.",
            "Messgerät heraus, Batterie direkt an. Nadeln in den Draht, fingerbreit vor und hinter dem Verbinder: Millivolt notieren.",
            "Batterie abnehmen. Beide Stiche mit Gel oder Dichtband abdichten. Zudecken. " + BackOn,
        ]),
        [StepKind.PinProbe] = new("Den Draht anstechen und nach beiden Seiten messen",
        [
            "Station ausstecken. Beide Drahtenden abnehmen.",
            "Eine Handbreit Draht von Hand freilegen, mit stumpfem Werkzeug.",
            "Prüfen, dass es die Schleife ist: keine Spannung daran, und Suchton oder Plan sagen es. Erst dann die Nadel hinein.",
            "Von der Nadel zu Ende A an der Station messen, über die lange Messleitung, dann zu Ende B. Deren Ohm notieren.",
            "Die Nadel ruhig halten: ein schlechter Stich misst sich wie ein Fehler. Beide Werte notieren; auch ein Überlauf zählt.",
            "Nadel heraus. Stich mit Gel oder Dichtband abdichten, Stelle notieren, zudecken. " + BackOn,
        ]),
        [StepKind.EarthGradient] = new("Dem Erdschluss mit zwei Erdspießen nachgehen",
        [
            "Station ausstecken. Beide Drahtenden abnehmen und vom Boden fernhalten.",
            "Plus der Batterie an Ende A, Minus an einen Spieß 10 m oder mehr vom Draht. Ende B bleibt frei. Ein Ton geht auch.",
            "Eine Trockenbatterie, oder eine mit Sicherung, nur beim Ablesen angeschlossen.",
            "Zwei Spieße handtief in den Boden über dem Draht, in seiner Richtung: einer nach A hin, einer nach B hin von der Stelle.",
            "Messgerät im kleinsten Gleichspannungsbereich dazwischen, Rot am Spieß nach B hin. Batterie an, dann ab: nur die Änderung zählt.",
            "Plus: die Stelle liegt weiter vorn, nach B hin. Minus: weiter hinten, nach A hin. Wo es wechselt: hier. Keine Änderung: nichts.",
            "Das notieren, die Mikrovolt, und wie weit die Spieße auseinander waren.",
            "Batterie und Spieße wegnehmen. " + BackOn,
        ]),
        [StepKind.TerminalLook] = new("Beide Drahtenden abziehen und ansehen",
        [
            "Station ausstecken. Die Enden fotografieren, wie sie sitzen, dann beide abnehmen.",
            "Enden und Klemmen ansehen: blank oder grün, trocken oder nass. Sanft ziehen: hält Feder oder Schraube noch?",
            "Notieren: gut, locker oder korrodiert.",
            BackOn,
        ])
        {
            HowForOwner =
            [
                "Ziehen Sie den Stecker der Station aus der Steckdose.",
                "Suchen Sie die zwei dünnen Drähte, die aus dem Boden an zwei Klemmen der Station führen. Ein dritter dünner Draht bleibt, wo er ist.",
                "Machen Sie ein Foto davon, was wo saß. Dann nehmen Sie beide ab. Braucht es dazu Werkzeug, überlassen Sie es uns.",
                "Sehen Sie hin: glänzt das Metall? Ist es grün, schwarz oder nass? Saß eines locker?",
                "Stecken Sie die Enden wieder dorthin, wo sie waren, dann den Stecker.",
                "Sagen Sie, was Sie gesehen haben. Ein Foto hilft.",
            ],
        },
        [StepKind.Wiggle] = new("Den Verbinder bewegen und das Messgerät ansehen",
        [
            "Station ausstecken. Beide Drahtenden abnehmen, das Messgerät daran klemmen, kleinster Ohmbereich.",
            "An einem Verbinder: von Hand freilegen, mit stumpfem Werkzeug. Prüfen: keine Spannung daran.",
            "Messgerät im Blick, oder jemand daneben. Den Draht sanft biegen, vor und hinter dem Verbinder. An nichts ziehen.",
            "Notieren: ruhig, oder springt. Mehr als ein halbes Ohm auf und ab, immer wieder, ist ein Sprung.",
            "Messgerät abnehmen. Verbinder zudecken. " + BackOn,
        ]),
        [StepKind.ChargeCheck] = new("Sehen, ob der Mäher lädt",
        [
            "Prüfen, dass die Station Strom hat: ihre Lampe leuchtet.",
            "Mäher aus. Von Hand auf die Station setzen, bis die Kontakte sich berühren, dann einschalten. Hände weg.",
            "Zwei Minuten auf Anzeige und Lampe sehen.",
            "Notieren: lädt, oder lädt nicht.",
        ])
        {
            HowForOwner =
            [
                "Sehen Sie nach, ob die Lampe der Station leuchtet.",
                "Schalten Sie den Mäher aus. Setzen Sie ihn von Hand auf die Station, bis die Kontakte sich berühren. Einschalten, zurücktreten.",
                "Sehen Sie zwei Minuten auf seine Anzeige oder Lampe.",
                "Sagen Sie: er lädt, oder er lädt nicht.",
            ],
        },
        [StepKind.RestoreMains] = new("Den Netzstrom wiederherstellen",
        [
            "In den Verteiler sehen: Sicherung oder Fehlerstromschalter ausgelöst?",
            "Netzteil der Station ausstecken, dann einmal einschalten.",
            "Löst es bei ausgesteckter Station wieder aus: aus lassen; das ist Arbeit für eine Elektrofachkraft.",
            "Hält es: Netzteil einstecken. Löst es jetzt aus, ist das Netzteil der Fehler; ausgesteckt lassen.",
        ])
        {
            HowForOwner =
            [
                "Ziehen Sie den Stecker der Station heraus.",
                "Sehen Sie im Sicherungskasten nach einem gefallenen Schalter. Schalten Sie ihn einmal ein.",
                "Fällt er wieder, lassen Sie ihn aus und rufen Sie eine Elektrofachkraft.",
                "Hält er, stecken Sie die Station wieder ein. Fällt er jetzt, ziehen Sie den Stecker und sagen Sie es uns.",
            ],
        },
        [StepKind.ReplaceSupply] = new("Das Netzteil ersetzen",
        [
            "Altes Netzteil aus der Steckdose ziehen, dann von der Station.",
            "Neues: gleiche Spannung, gleiche Polung, mindestens gleicher Strom, für draußen gemacht. Schilder vergleichen.",
            "An die Station stecken, dann in die Steckdose. Nach der Lampe sehen.",
        ]),
        [StepKind.ReplaceStation] = new("Die Station ersetzen",
        [
            "Netzteil ausstecken. Beide Drahtenden abnehmen und mit A und B zeichnen.",
            "Die Station als Ganzes tauschen; nie öffnen.",
            "Drahtenden an: A an A, B an B. Einstecken. Mäher koppeln.",
        ]),
        [StepKind.RemakeTerminals] = new("Die Anschlüsse neu machen",
        [
            "Station ausstecken. Beide Drahtenden abnehmen.",
            "Jedes Ende bis aufs blanke Metall kürzen. Neue Anschlüsse, gepresst und abgedichtet.",
            "Nach der Seite sehen: glaubte sich der Mäher draußen, die beiden Enden tauschen.",
            "Enden an, einstecken, nach der Lampe sehen.",
        ]),
        [StepKind.RemakeJoint] = new("Den Verbinder neu machen",
        [
            "Station ausstecken. Beide Drahtenden abnehmen.",
            "Den Verbinder von Hand freilegen, mit stumpfem Werkzeug. Prüfen: keine Spannung daran.",
            "Den alten Verbinder herausschneiden, auf beiden Seiten bis zum blanken Metall.",
            "Einen neuen Gelverbinder machen, mit Spiel, dass nichts daran zieht. Zudecken.",
            "Die Schleife messen. " + BackOn,
        ]),
        [StepKind.MendSpan] = new("Das Stück ausgraben und flicken",
        [
            "Station ausstecken. Beide Drahtenden abnehmen.",
            "Beide Enden des Stücks markieren. Den Draht von Hand freilegen, mit stumpfem Werkzeug.",
            "Jeden Zentimeter ansehen: Schnitte, grünes oder schwarzes Kupfer, dünne Stellen.",
            "Das Stück durch neuen Draht gleicher Art ersetzen, ein Gelverbinder an jedem Ende, mit Spiel.",
            "Die Schleife messen, bevor zugedeckt wird. Die neuen Verbinder in den Plan eintragen, und was gefunden wurde.",
            BackOn,
        ]),
        [StepKind.RenewLoop] = new("Eine neue Schleife legen",
        [
            "Station ausstecken. Die Enden des alten Drahtes abnehmen.",
            "Neuen Draht nach dem Plan legen, möglichst aus einem Stück. Gleichmäßig tief.",
            "Die Schleife messen, bevor zugedeckt wird. Länge, Verbinder und Wert notieren.",
            "Enden an die Klemmen, gleich herum wie vorher. Einstecken.",
            "Den alten Draht herausnehmen, oder seine Enden kürzen und notieren, dass er dort liegt.",
        ]),
        [StepKind.RelayLayout] = new("Die Schleife anders legen",
        [
            "Den neuen Weg erst zeichnen und seine Reichweite prüfen: keine Stelle des Rasens zu weit vom Draht.",
            "Station ausstecken. Den neuen Draht legen; Zuleitungen zu einer Insel nebeneinander, alle anderen weit auseinander.",
            "Die Schleife messen, bevor zugedeckt wird. Den neuen Weg und die Verbinder in den Plan eintragen.",
            "Enden an, einstecken, dem Mäher an den vorher stillen Stellen zusehen.",
        ]),
        [StepKind.RecodeStation] = new("Der Station einen anderen Code geben",
        [
            "Fragen, welchen Code die Station des Nachbarn benutzt.",
            "Diese Station auf einen anderen stellen, mit ihren eigenen Tasten.",
            "Den Mäher neu koppeln und ihm neben dem Draht des Nachbarn zusehen.",
        ]),
        [StepKind.ServiceReceiver] = new("Den Empfänger des Mähers instand setzen",
        [
            "Mäher aus, Schlüssel und Akku heraus, auf die Werkbank, Messer geschützt.",
            "Fühler, ihre Stecker und Kabel ansehen. Reinigen, neu stecken, ersetzen.",
            .. ServiceFinish,
        ]),
        [StepKind.ServiceDrive] = new("Den Antrieb des Mähers instand setzen",
        [
            "Mäher aus, Schlüssel und Akku heraus, auf die Werkbank, Messer geschützt.",
            "Räder, Motoren, Getriebe und ihre Kabel ansehen. Reinigen, ersetzen, was schleift oder rutscht.",
            .. ServiceFinish,
        ]),
        [StepKind.SwapEnds] = new("Die beiden Drahtenden tauschen",
        [
            "Station ausstecken. Beide Drahtenden an ihren Klemmen fotografieren.",
            "Beide abnehmen und jedes an die Klemme des anderen. Ein Leitdraht bleibt, wo er ist.",
            "Einstecken und nach der Lampe sehen. In den Plan eintragen, dass A und B getauscht sind.",
        ])
        {
            HowForOwner =
            [
                "Ziehen Sie den Stecker der Station aus der Steckdose.",
                "Suchen Sie die zwei dünnen Drähte, die aus dem Boden an zwei Klemmen der Station führen. Ein dritter dünner Draht bleibt, wo er ist.",
                "Machen Sie ein Foto. Dann stecken Sie jeden der beiden auf die Klemme des anderen. Braucht es Werkzeug, überlassen Sie es uns.",
                "Stecken Sie die Station wieder ein und warten Sie, bis die Lampe ruhig leuchtet.",
            ],
        },
        [StepKind.CleanContacts] = new("Die Ladekontakte reinigen",
        [
            "Station ausstecken. Mäher aus, Schlüssel heraus.",
            "Kontakte an Mäher und Station blank reiben, mit Glasfaserstift oder feinem Schleifpapier. Kein Öl.",
            "Verbogene Federn zurückbiegen. Verbrannte oder gebrochene Kontakte ersetzen.",
            "Einstecken. Den Mäher von Hand auf die Station setzen und sehen, ob er lädt.",
        ])
        {
            HowForOwner =
            [
                "Ziehen Sie den Stecker der Station aus der Steckdose. Schalten Sie den Mäher aus und nehmen Sie den Schlüssel heraus.",
                "Reiben Sie die Metallkontakte von Mäher und Station mit einem trockenen, rauen Tuch, bis sie glänzen. Kein Öl, kein Wasser.",
                "Hände weg von der Unterseite. Verbrannte oder gebrochene Kontakte überlassen Sie uns.",
                "Stecken Sie die Station wieder ein. Setzen Sie den Mäher von Hand auf die Station. Sagen Sie, ob er lädt.",
            ],
        },
        [StepKind.ReplaceBattery] = new("Den Akku des Mähers ersetzen",
        [
            "Mäher aus, Schlüssel heraus, auf die Werkbank, Messer geschützt.",
            "Akku gebläht, heiß oder undicht? Nicht öffnen, nicht laden. Ins Freie damit, weg von allem, was brennt.",
            "Den alten heraus, wie die Anleitung es zeigt. Neuer: der Typ des Herstellers. Schilder vergleichen. Nie einen Akku öffnen.",
            "Dichtungen und Deckel anbringen, bevor der Schlüssel hineinkommt. An der Station laden und zehn Minuten dabeibleiben.",
            "Den alten Akku dort abgeben, wo es am Ort vorgeschrieben ist.",
        ]),
        [StepKind.AskMaker] = new("Den Hersteller fragen",
        [
            "Bereithalten: was wann versagt, alle Messwerte, Typ und Nummer von Station und Mäher.",
            "Den Kundendienst des Herstellers anrufen. Nach bekannten Fehlern des Typs fragen, und nach einem Besuch, wenn der Anruf nicht hilft.",
            "Was sie sagen, nur im Rahmen der Warnungen oben tun. Nichts öffnen, worin Netzspannung ist.",
            "Notieren, was sie gefunden haben und was getan wurde.",
        ])
        {
            HowForOwner =
            [
                "Suchen Sie Typ und Nummer von Mäher und Station auf den Schildern. Den Mäher vorher ausschalten.",
                "Rufen Sie den Kundendienst des Herstellers an. Sagen Sie ihm, was Sie uns gesagt haben.",
                "Öffnen Sie nichts, was auch immer man sagt: überlassen Sie das uns oder ihm.",
                "Sagen Sie uns, was er gesagt oder getan hat.",
            ],
        },
    };
}
