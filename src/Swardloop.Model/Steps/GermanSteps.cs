using Swardloop.Core.Diagnosis;

namespace Swardloop.Model.Steps;

/// <summary>Steps and cautions in German. Names of the trade: Erdschluss, Unterbrechung, Spannungsverhältnis, Tongenerator.</summary>
internal static class GermanSteps
{
    private const string EndsBack = "Setzen Sie die Drahtenden wieder an die Klemmen, von denen sie kamen.";

    private const string EndsOff = "Stecken Sie die Station aus. Nehmen Sie alle Drahtenden ab, auch einen Leitdraht; markieren Sie ihre Plätze.";

    private const string LampFirst = "Sehen Sie nach der Lampe der Station. Dunkel oder Alarm? Starten Sie den Mäher nicht: notieren Sie, dass es nicht ging.";

    private const string OwnerLampFirst = "Sehen Sie zuerst nach der Lampe der Station. Ist sie dunkel oder zeigt sie Alarm? Dann starten Sie den Mäher nicht: sagen Sie es uns.";

    private const string ProveWire =
        "Weisen Sie nach: es ist die Schleife. Messgerät erprobt, weder AC noch DC, Durchgang oder Ton vom Stationsende. Im Zweifel nicht schneiden.";

    private const string WalkBehind = "Gehen Sie hinter ihm, mit der Stopptaste in Reichweite.";

    private const string Stake = "Drücken Sie einen kurzen Erdspieß handtief in feuchten Boden, zwei große Schritte oder mehr vom Draht.";

    private static readonly Dictionary<Caution, string> Cautions = new()
    {
        [Caution.NoThunder] = "Gewitter in der Nähe oder im Anzug? Hören Sie auf. Messen Sie nichts und fassen Sie keinen Draht an, bis es vorüber ist.",
        [Caution.MainsStayClosed] =
            "Öffnen Sie nie Steckdose, Stecker, Netzteil oder Station: darin ist Netzspannung, auch wenn alles tot scheint. Nass oder beschädigt? Nicht anfassen, Elektrofachkraft rufen.",
        [Caution.DryHandsAtSwitchboard] =
            "Am Verteiler: trockene Hände, trockener Boden, Abdeckung zu. Riecht er verbrannt, ist er nass oder warm? Nicht anfassen, Elektrofachkraft rufen. Ein FI-Schalter, der wieder auslöst, bleibt aus.",
        [Caution.ProbesStayOutOfOutlets] = "Stecken Sie die Prüfspitzen nie in eine Steckdose oder an einen Netzstecker.",
        [Caution.ProveWireBeforeCutting] =
            "Bevor Sie einen Draht im Boden schneiden, öffnen oder anstechen: Messgerät an einer bekannten Quelle erproben, dann weder Wechsel- noch Gleichspannung daran finden; Durchgang oder Suchton vom Stationsende zeigt, dass es die Schleife ist. Im Zweifel nicht schneiden.",
        [Caution.LocateServices] =
            "Bevor Sie graben, schneiden oder einen Erdspieß setzen: lassen Sie Kabel und Rohre im Boden orten, wie es am Ort vorgeschrieben ist. Arbeit daran ist Sache zugelassener Fachleute.",
        [Caution.NoLiveElectricFence] = "Ist ein Elektrozaun nahe am Draht oder am Erdspieß? Lassen Sie ihn zuerst abschalten. Schließen Sie nichts an, solange er unter Spannung steht.",
        [Caution.AllDisconnectedForTestVoltage] =
            "Die Prüfspannung kann einen schmerzhaften Schlag geben und zerstört Elektronik: alle Drähte von der Station, der Mäher weg von ihr, Menschen und Tiere vom Rasen. Entladen Sie den Draht danach.",
        [Caution.StationUnplugged] = "Stecken Sie die Station aus, bevor Sie den Draht anfassen, und nehmen Sie alle Drahtenden ab, bevor Sie messen oder schneiden.",
        [Caution.RunOnlyInsideLiveLoop] =
            "Lassen Sie den Mäher nur in einer intakten Schleife laufen: nicht bei dunkler Station, Alarm oder unterbrochener Schleife, und nicht, wo hinter dem Draht Straße, Wasser, eine Absturzkante oder Menschen sind.",
        [Caution.ClearOfRunningMower] =
            "Kinder, andere Menschen und Tiere vom Rasen, solange der Mäher läuft. Bleiben Sie hinter ihm, mit der Stopptaste in Reichweite. Drücken Sie Stopp, bevor Hand oder Fuß in seine Nähe kommt.",
        [Caution.MowerIsolated] = "Mäher aus, Schlüssel oder Akku heraus, bevor Hände oder Füße in seine Nähe kommen. Die Messer sind auch im Stillstand scharf.",
        [Caution.CarryBladesAway] = "Tragen Sie den Mäher ausgeschaltet, mit Handschuhen, die Messer von Ihnen weg.",
        [Caution.MowerBatteryOut] =
            "Nehmen Sie den Akku heraus, bevor Sie den Mäher öffnen oder umdrehen. Nie kurzschließen, öffnen oder anstechen; laden Sie keinen, der gebläht, nass oder beschädigt ist.",
        [Caution.ExtraLowVoltageOnly] = "Speisen Sie die Schleife nur aus einer Batterie bis 12 V oder aus dem Tongenerator. Nie aus einem Ladegerät oder etwas am Netz.",
        [Caution.BatteryCurrentLimited] =
            "Nehmen Sie eine Trockenbatterie oder eine mit Sicherung oder Vorwiderstand, nie eine Autobatterie: 12 V an 1 Ω treiben 12 A. Nur anschließen, während Sie ablesen.",
        [Caution.MeterOnVolts] = "Immer wenn Sie Volt messen: rote Messleitung in V, nie in A. Die Spitzen dürfen sich nicht berühren, solange eine Quelle angeschlossen ist.",
        [Caution.SafetyIsolatedSupply] =
            "Das neue Netzteil ist von derselben Art: mit sicherer Trennung, für draußen, wo es draußen hängt, gleiche Spannung, Wechsel- oder Gleichspannung wie vorher. Nichts anderes.",
    };

    private static readonly string[] ServiceFinish =
    [
        "Bringen Sie Schutz und Deckel an, bevor Schlüssel oder Akku hineinkommt.",
        "Tragen Sie ihn in eine kurze Prüfschleife auf ebenem Boden und probieren Sie ihn dort, bevor er auf seinen Rasen zurückkommt.",
    ];

    /// <summary>The wording.</summary>
    public static StepTexts Make() => new("de", Steps(), Cautions);

    private static Dictionary<StepKind, StepText> Steps() => new()
    {
        [StepKind.OutletCheck] = new("Steckdose prüfen",
        [
            "Stecken Sie das Netzteil der Station aus.",
            "Stecken Sie ein anderes, sicher funktionierendes Gerät in dieselbe Steckdose.",
            "Notieren Sie: Strom da, wenn es läuft; kein Strom, wenn nicht. Auch eine tote Steckdose darf man nicht öffnen.",
            "Nehmen Sie das Gerät heraus. Stecken Sie das Netzteil wieder ein.",
        ])
        {
            HowForOwner =
            [
                "Ziehen Sie den Stecker der Station aus der Steckdose.",
                "Stecken Sie etwas ein, das sicher geht, zum Beispiel eine Lampe.",
                "Geht es? Dann ist Strom da. Wenn nicht, ist die Steckdose tot. Öffnen Sie sie nie, tot oder nicht.",
                "Stecken Sie die Station wieder ein.",
            ],
        },
        [StepKind.SupplyVoltage] = new("Netzteil messen",
        [
            "Ziehen Sie den Kleinspannungsstecker des Netzteils von der Station ab. Die Netzseite bleibt, wie sie ist.",
            "Lesen Sie das Schild: wie viel Volt, Wechsel- oder Gleichspannung (AC oder DC).",
            "Messgerät auf diese Spannungsart, Bereich darüber. Schwarze Messleitung in COM, rote in V, nie in A.",
            "Messen Sie am Kleinspannungsstecker. Die beiden Spitzen dürfen sich nicht berühren.",
            "Unter Last gefragt? Stecker wieder an die Station, mit feinen Spitzen, die sich nicht berühren können, an den Kontakten messen.",
            "Notieren Sie die gemessene Spannung, die auf dem Schild, und ob die Station daran hing.",
        ]),
        [StepKind.StationLamp] = new("Nach der Lampe der Station sehen",
        [
            "Sehen Sie eine halbe Minute hin. Schirmen Sie die Lampe gegen die Sonne ab.",
            "Notieren Sie: aus, normal, flackernd oder Alarm. Was die Lampe dieses Modells zeigt, steht in der Anleitung des Herstellers.",
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
            LampFirst,
            "Tragen Sie den Mäher ausgeschaltet, Messer von Ihnen weg, an den genannten Platz: dicht an den Draht oder mitten auf den Rasen.",
            "Setzen Sie ihn auf das Gras, treten Sie hinter ihn zurück, starten Sie ihn.",
            "Notieren Sie: läuft, meldet kein Signal oder meldet, dass er draußen ist.",
        ])
        {
            HowForOwner =
            [
                OwnerLampFirst,
                "Schalten Sie den Mäher aus. Tragen Sie ihn mit Handschuhen an den genannten Platz: neben den Draht oder mitten auf den Rasen.",
                "Setzen Sie ihn auf das Gras, treten Sie hinter ihn zurück, starten Sie ihn.",
                "Sagen Sie, was er tut: er mäht, er meldet kein Signal, oder er meldet, dass er draußen ist.",
            ],
        },
        [StepKind.MowerReach] = new("Sehen, wie weit vom Draht er läuft",
        [
            LampFirst,
            "Starten Sie den Mäher dicht am Draht. " + WalkBehind,
            "Lassen Sie ihn zur Mitte der breitesten Stelle laufen.",
            "Wo er umkehrt oder stehen bleibt, ohne dass ein Draht nahe ist: drücken Sie Stopp, markieren Sie die Stelle.",
            "Messen Sie von der Stelle zum nächsten Draht.",
            "Notieren Sie die Meter. Alles gemäht? Notieren Sie den größten Abstand, und: mindestens.",
        ])
        {
            HowForOwner =
            [
                OwnerLampFirst,
                "Starten Sie den Mäher neben dem Draht, wo der Rasen am breitesten ist. " + WalkBehind,
                "Sehen Sie, wo er umkehrt oder stehen bleibt, obwohl kein Rand nahe ist.",
                "Drücken Sie Stopp. Messen Sie von dort zum nächsten Draht, oder zählen Sie Schritte. Ein großer Schritt ist etwa 0,8 m.",
                "Sagen Sie den Abstand. Wenn er überall gemäht hat, sagen Sie das.",
            ],
        },
        [StepKind.FollowWire] = new("Zusehen, wie er am Draht heimfährt",
        [
            LampFirst,
            "Schicken Sie den Mäher vom fernen Ende des Rasens heim. " + WalkBehind,
            "Bleiben Sie bei ihm bis zur Station.",
            "Notieren Sie: ruhig, schwankend oder verloren. Merken Sie sich, wo.",
        ])
        {
            HowForOwner =
            [
                OwnerLampFirst,
                "Drücken Sie die Heimfahrt-Taste, während der Mäher weit weg von der Station ist.",
                WalkBehind,
                "Sagen Sie, wie er fährt: geradewegs heim, schwankend, oder er verliert den Weg. Merken Sie sich, wo.",
            ],
        },
        [StepKind.WireCrossing] = new("Sehen, ob er am Draht umkehrt",
        [
            LampFirst,
            "Fragen Sie, wo er beim Überfahren gesehen wurde. Ist dort hinter dem Draht Straße, Wasser oder eine Absturzkante? Dann nicht versuchen.",
            "Lassen Sie ihn dort gerade auf den Draht zufahren. Keine Stelle bekannt? Erst neben Metall, dann fern davon.",
            WalkBehind + " Fährt er darüber? Drücken Sie sofort Stopp.",
            "Notieren Sie: beachtet, wenn er umkehrt, überfahren, wenn nicht. Notieren Sie die Stelle und ob Metall nahe ist.",
        ])
        {
            HowForOwner =
            [
                OwnerLampFirst,
                "Ist hinter dem Draht Straße, Wasser oder eine Absturzkante? Dann versuchen Sie es dort nicht: sagen Sie es uns.",
                "Lassen Sie den Mäher auf seinen Rand zufahren, wo er ihn vorher überfuhr. " + WalkBehind,
                "Kehrt er am Draht um, oder fährt er darüber? Fährt er darüber, drücken Sie sofort Stopp.",
                "Sagen Sie, wo Sie es gesehen haben, und ob ein Zaun, ein Schuppen oder anderes Metall einen Schritt weit entfernt ist.",
            ],
        },
        [StepKind.LoopResistance] = new("Die Schleife messen",
        [
            "Stecken Sie die Station aus. Nehmen Sie beide Enden der Schleife ab und putzen Sie sie blank.",
            "Halten Sie die Prüfspitzen zusammen: das sind die Ohm der Messleitungen, notieren.",
            "Messgerät im kleinsten Ohmbereich. Je eine Spitze an ein Drahtende, Finger weg vom Metall.",
            "Über dem Messbereich? Schalten Sie Bereich für Bereich höher: es zählt nur im höchsten.",
            "Warten Sie, bis die Zahl steht. Notieren Sie die Ohm, oder über dem Messbereich, und die Genauigkeit des Geräts.",
            EndsBack,
        ])
        {
            HowForOwner =
            [
                "Ziehen Sie den Stecker der Station aus der Steckdose. Stecken Sie die Prüfspitzen nie in eine Steckdose.",
                "Suchen Sie die zwei dünnen Drähte, die aus dem Boden an zwei Klemmen der Station führen. Ein dritter dünner Draht bleibt, wo er ist.",
                "Merken Sie sich, welcher wo saß: machen Sie ein Foto. Dann nehmen Sie beide ab. Braucht es dazu Werkzeug, überlassen Sie es uns.",
                "Reiben Sie die beiden Enden, bis das Metall glänzt.",
                "Messgerät: schwarze Messleitung in COM, rote dorthin, wo Ω steht. Drehen Sie auf Ω, kleinster Bereich, oft 200 genannt.",
                "Halten Sie die beiden Metallspitzen aneinander: die erste Zahl, unter 2. Schon jetzt OL oder 1? Prüfen Sie Messleitungen und Drehschalter.",
                "Nun je eine Spitze an jedes Drahtende, egal wie herum. Finger weg vom Metall. Warten Sie, bis die Zahl steht: das ist die zweite Zahl.",
                "Nur OL oder nur eine 1? Drehen Sie auf den nächstgrößeren Ω-Bereich und weiter, bis eine Zahl dasteht. Achten Sie auf k oder M daneben.",
                "Stecken Sie die Enden wieder dorthin, wo sie waren, dann den Stecker.",
            ],
        },
        [StepKind.EarthResistance] = new("Die Schleife gegen Erde messen",
        [
            EndsOff + " Weg vom Boden damit.",
            Stake,
            "Messgerät im größten Ohmbereich: eine Spitze an ein Ende der Schleife, eine an den Spieß.",
            "Tauschen Sie die Spitzen und lesen Sie noch einmal ab. Sind sie verschieden, macht der Boden selbst eine Spannung: nehmen Sie das Mittel.",
            "Notieren Sie die Ohm, oder über dem Messbereich.",
            EndsBack,
        ]),
        [StepKind.Insulation] = new("Die Isolation der Schleife prüfen",
        [
            EndsOff,
            "Verbinden Sie die beiden Enden der Schleife miteinander. Tragen Sie den Mäher von der Station weg, Messer von Ihnen weg.",
            "Menschen und Tiere vom Rasen. Prüfen Sie noch einmal: nur Draht ist angeschlossen.",
            "Ein Leitdraht trifft im Boden auf die Schleife: auch sein Ende führt die Prüfspannung. Legen Sie es so, dass niemand es berührt.",
            Stake + " Prüfgerät zwischen Draht und Spieß.",
            "Stellen Sie das Prüfgerät auf 250 V, wenn Ihre Werkstatt nicht weniger festgelegt hat. Prüfen Sie eine Minute lang.",
            "Notieren Sie Volt und Megohm.",
            "Entladen Sie den Draht mit dem Prüfgerät, bevor Sie ihn anfassen.",
            "Trennen Sie die Enden. " + EndsBack,
        ]),
        [StepKind.EarthRatio] = new("Die Stelle aus dem Spannungsverhältnis zur Erde finden",
        [
            EndsOff,
            Stake,
            "Messgerät auf Gleichspannung, kleinster Bereich über der Batteriespannung; schwarze Messleitung an den Spieß.",
            "Trockenbatterie oder eine mit Sicherung oder Vorwiderstand an A und B. Lesen Sie A zum Spieß, dann B zum Spieß ab, mit Vorzeichen.",
            "Drehen Sie die Batterie gleich um und lesen Sie beide noch einmal ab, mit Vorzeichen. Nehmen Sie die Batterie ab.",
            "Tragen Sie alle vier mit Vorzeichen ein: das Formular nimmt je Paar die halbe Differenz, so fällt eine Fremdspannung heraus.",
            EndsBack,
        ]),
        [StepKind.EndCapacitance] = new("Eine Unterbrechung aus der Kapazität finden",
        [
            EndsOff + " Weg vom Boden damit.",
            Stake,
            "Stellen Sie den Kapazitätsmesser mit offenen Messleitungen auf null, dort, wo sie liegen werden.",
            "Messen Sie von Ende A zum Spieß, dann von Ende B zum Spieß, mit denselben Messleitungen an derselben Stelle.",
            "Notieren Sie beide in Nanofarad.",
            EndsBack,
        ]),
        [StepKind.SplitResistance] = new("Die Schleife öffnen und beide Seiten messen",
        [
            EndsOff,
            "Legen Sie den Verbinder von Hand frei, mit stumpfem Werkzeug.",
            ProveWire,
            "Öffnen Sie den Verbinder. Putzen Sie beide Seiten blank.",
            "Messen Sie jede Seite zu ihrem Ende an der Station, über die lange Messleitung. Notieren Sie deren Ohm.",
            "Notieren Sie die Ohm der Seite A und der Seite B; auch über dem Messbereich zählt.",
            "Schließen Sie mit einem neuen Gelverbinder. Messen Sie die Schleife von ihren Enden, dann decken Sie ihn zu.",
            EndsBack,
        ])
        {
            HowInPlainWire =
            [
                EndsOff,
                "Legen Sie eine Handbreit Draht von Hand frei, mit stumpfem Werkzeug.",
                ProveWire,
                "Schneiden Sie ihn durch und isolieren Sie beide Seiten bis aufs blanke Metall ab.",
                "Messen Sie jede Seite zu ihrem Ende an der Station, über die lange Messleitung. Notieren Sie deren Ohm.",
                "Notieren Sie die Ohm der Seite A und der Seite B; auch über dem Messbereich zählt.",
                "Schließen Sie mit einem neuen Gelverbinder. Messen Sie die Schleife von ihren Enden, tragen Sie ihn in den Plan ein, dann decken Sie ihn zu.",
                EndsBack,
            ],
        },
        [StepKind.Bypass] = new("Ein Stück überbrücken",
        [
            EndsOff,
            "Legen Sie den Draht an beiden Stellen von Hand frei, mit stumpfem Werkzeug.",
            ProveWire,
            "Nehmen Sie Verbinder, wo welche sind; sonst stechen Sie den Draht an. Klemmen Sie den Überbrückungsdraht an, aufs Gras gelegt.",
            "Messen Sie die Schleife mit der Überbrückung. Notieren Sie die Ohm, oder über dem Messbereich.",
            "Nehmen Sie die Überbrückung ab. Dichten Sie jede angestochene oder geöffnete Stelle ab und messen Sie die Schleife, bevor Sie zudecken.",
            EndsBack,
        ]),
        [StepKind.ToneTrace] = new("Nach dem Suchton hören",
        [
            EndsOff,
            "Tongenerator zwischen das genannte Ende (A oder B) und einen Erdspieß; das andere Ende bleibt frei.",
            "Hören Sie an der genannten Stelle, eine Handbreit über dem Draht. Vergleichen Sie mit den ersten Metern am gespeisten Ende.",
            "Notieren Sie das gespeiste Ende und den Ton: stark, schwach oder nichts.",
            "Nehmen Sie den Tongenerator ab. " + EndsBack,
        ]),
        [StepKind.Reflection] = new("Das Echo messen",
        [
            EndsOff,
            "Reflektometer an das genannte Ende (A oder B), die andere Leitung an einen Erdspieß. Das andere Ende bleibt frei.",
            "Suchen Sie die erste klare Stufe. Nach oben: Unterbrechung. Nach unten: Kurzschluss.",
            "Notieren Sie das Ende, die Laufzeit hin und zurück in Nanosekunden und die Art.",
            EndsBack,
        ]),
        [StepKind.Look] = new("Das Stück abgehen und hinsehen",
        [
            "Mäher aus und Schlüssel heraus, bevor Sie seine Linie betreten.",
            "Gehen Sie das genannte Stück langsam ab, die Augen auf der Linie des Drahtes.",
            "Suchen Sie: frisch Gegrabenes, Kantensteine, Pflöcke, blanken oder angenagten Draht, Wurzeln, Gänge, offene Verbinder.",
            "Ziehen Sie an nichts. Notieren Sie: Schaden und wo, oder nichts.",
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
            EndsOff,
            "Legen Sie die Prüfschleife auf ebenes Gras, 3 m weit oder mehr, ohne Kreuzung. Schließen Sie sie gleich herum an.",
            "Stecken Sie ein. Lampe dunkel oder Alarm? Starten Sie den Mäher nicht.",
            "Tragen Sie den Mäher in die Prüfschleife, Messer von Ihnen weg. Treten Sie hinter ihn zurück, starten Sie ihn.",
            "Notieren Sie: läuft, oder kein Signal.",
            "Stecken Sie aus. Nehmen Sie die Prüfschleife ab. " + EndsBack,
        ]),
        [StepKind.SubstituteMower] = new("Einen anderen Mäher versuchen",
        [
            LampFirst,
            "Nehmen Sie einen sicher funktionierenden Mäher desselben Systems, mit dieser Station gekoppelt.",
            "Tragen Sie ihn, Messer von Ihnen weg, dorthin, wo der andere versagte. Treten Sie hinter ihn zurück, starten Sie ihn.",
            "Notieren Sie: läuft, oder kein Signal.",
        ]),
        [StepKind.NeighbourOff] = new("Die Station des Nachbarn eine Weile abschalten lassen",
        [
            LampFirst,
            "Bitten Sie den Nachbarn, seinen Mäher anzuhalten und dessen Station auszustecken.",
            "Starten Sie den Mäher dort, wo er versagt, und sehen Sie fünf Minuten zu. " + WalkBehind,
            "Notieren Sie: behoben, oder gleich. Lassen Sie den Nachbarn wieder einstecken.",
        ])
        {
            HowForOwner =
            [
                OwnerLampFirst,
                "Bitten Sie den Nachbarn, seinen Mäher anzuhalten und dessen Station für eine Viertelstunde auszustecken.",
                "Starten Sie Ihren Mäher dort, wo es schiefgeht. " + WalkBehind + " Sehen Sie fünf Minuten zu.",
                "Sagen Sie: es ist behoben, oder es ist gleich. Lassen Sie den Nachbarn wieder einstecken.",
            ],
        },
        [StepKind.MowerCheck] = new("Sehen, ob der Mäher läuft",
        [
            "Stecken Sie die Station ein. Lampe dunkel oder Alarm? Starten Sie den Mäher nicht: notieren Sie, dass es gleich ist.",
            "Tragen Sie den Mäher mitten auf den Rasen, Messer von Ihnen weg. Treten Sie hinter ihn zurück, starten Sie ihn.",
            "Sehen Sie fünf Minuten zu, auch dort, wo er vorher versagt hat. " + WalkBehind,
            "Notieren Sie: läuft, oder wie vorher.",
        ])
        {
            HowForOwner =
            [
                "Stecken Sie die Station ein und sehen Sie nach ihrer Lampe. Dunkel oder Alarm? Starten Sie den Mäher nicht: sagen Sie, es ist gleich.",
                "Starten Sie den Mäher mitten auf dem Rasen, lassen Sie ihn dann dorthin, wo er vorher versagt hat.",
                WalkBehind + " Sehen Sie fünf Minuten zu.",
                "Sagen Sie: er läuft, oder es ist gleich.",
            ],
        },
        [StepKind.AcRatio] = new("Die Stelle aus dem Spannungsverhältnis eines Tons finden",
        [
            EndsOff,
            Stake,
            "Tongenerator an A und B, mit 1 kHz oder weniger.",
            "Messgerät auf Wechselspannung, kleinster Bereich. Seine Anleitung muss Werte bei dieser Frequenz versprechen.",
            "Messen Sie von A zum Spieß, dann von B zum Spieß, mit denselben Messleitungen an derselben Stelle.",
            "Ton aus: was noch angezeigt wird, ist Netzbrummen. Ein Zehntel der Werte oder mehr? Dann zählen sie nicht.",
            "Notieren Sie beide Spannungen und die Frequenz. Nehmen Sie den Tongenerator ab.",
            EndsBack,
        ]),
        [StepKind.GuideResistance] = new("Den Leitdraht messen",
        [
            "Stecken Sie die Station aus. Nehmen Sie alle Drahtenden ab, auch die eines Leitdrahts, und putzen Sie sie blank.",
            "Halten Sie die Prüfspitzen zusammen: das sind die Ohm der Messleitungen, notieren.",
            "Kleinster Ohmbereich: eine Spitze an den Leitdraht, die andere an A, dann an B. Finger weg vom Metall.",
            "Über dem Messbereich? Schalten Sie Bereich für Bereich höher: es zählt nur im höchsten.",
            "Notieren Sie beide Werte, und welcher Leitdraht es war.",
            "Den Leitdraht wieder an seine eigene Klemme. " + EndsBack,
        ])
        {
            HowForOwner =
            [
                "Ziehen Sie den Stecker der Station aus der Steckdose. Stecken Sie die Prüfspitzen nie in eine Steckdose.",
                "Suchen Sie an der Station die zwei Enden der Schleife und den dritten dünnen Draht: das ist der Leitdraht.",
                "Machen Sie ein Foto davon, was wo saß. Dann nehmen Sie alle drei ab. Braucht es dazu Werkzeug, überlassen Sie es uns.",
                "Reiben Sie die drei Enden, bis das Metall glänzt.",
                "Messgerät: schwarze Messleitung in COM, rote dorthin, wo Ω steht. Drehen Sie auf Ω, kleinster Bereich, oft 200 genannt.",
                "Halten Sie die beiden Metallspitzen aneinander: das ist die erste Zahl.",
                "Eine Spitze an den Leitdraht, die andere an Drahtende A. Nicht markiert? Das linke auf Ihrem Foto ist A. Warten: die zweite Zahl.",
                "Die erste Spitze bleibt, die andere kommt an Drahtende B: die dritte Zahl. Nur OL oder 1? Erst die größeren Ω-Bereiche versuchen.",
                "Stecken Sie alle drei wieder dorthin, wo sie waren, dann den Stecker.",
            ],
        },
        [StepKind.JointDrop] = new("Die Spannung über einem Verbinder messen",
        [
            EndsOff,
            "Legen Sie den Verbinder von Hand frei, mit stumpfem Werkzeug.",
            ProveWire,
            "Messgerät auf Strom, größter Bereich zuerst, in Reihe mit Trockenbatterie oder einer mit Sicherung oder Widerstand an A und B: mA notieren.",
            "Batterie ab. Rote Messleitung zurück in V. Batterie allein an A und B; Nadeln fingerbreit vor und hinter dem Verbinder: mV notieren.",
            "Nehmen Sie die Batterie ab. Dichten Sie beide Stiche ab. Messen Sie die Schleife, dann decken Sie den Verbinder zu.",
            EndsBack,
        ]),
        [StepKind.PinProbe] = new("Den Draht anstechen und nach beiden Seiten messen",
        [
            EndsOff,
            "Legen Sie eine Handbreit Draht von Hand frei, mit stumpfem Werkzeug.",
            ProveWire,
            "Stechen Sie die Nadel durch die Isolation, von den Fingern weg.",
            "Messen Sie von der Nadel zu Ende A an der Station, über die lange Messleitung, dann zu Ende B. Notieren Sie deren Ohm.",
            "Halten Sie die Nadel ruhig: ein schlechter Stich misst sich wie ein Fehler. Notieren Sie beide Werte; auch über dem Messbereich zählt.",
            "Nadel heraus. Dichten Sie den Stich ab, notieren Sie die Stelle, messen Sie die Schleife, dann decken Sie den Draht zu.",
            EndsBack,
        ]),
        [StepKind.EarthGradient] = new("Dem Erdschluss mit zwei Erdspießen nachgehen",
        [
            EndsOff + " Weg vom Boden damit.",
            "Plus einer Trockenbatterie oder einer mit Sicherung an Ende A, Minus an einen Spieß 10 m oder mehr vom Draht. Ende B bleibt frei.",
            "Zwei Spieße fingertief in den Boden, eine Handbreit neben dem Draht, damit sie ihn nicht treffen: einer nach A, einer nach B hin.",
            "Messgerät auf Gleichspannung, kleinster Bereich, Rot am Spieß nach B hin. Batterie an, ablesen, ab, ablesen: nur die Änderung zählt.",
            "Plus: der Erdschluss liegt nach B hin. Minus: nach A hin. Wo das Vorzeichen wechselt: hier. Keine Änderung: nichts.",
            "Notieren Sie das, die Mikrovolt, und wie weit die Spieße auseinander waren.",
            "Nehmen Sie Batterie und Spieße weg.",
            EndsBack,
        ]),
        [StepKind.TerminalLook] = new("Beide Drahtenden abziehen und ansehen",
        [
            "Stecken Sie die Station aus. Fotografieren Sie die Enden, wie sie sitzen, dann nehmen Sie beide ab.",
            "Sehen Sie Enden und Klemmen an: blank oder grün, trocken oder nass. Ziehen Sie sanft: hält Feder oder Schraube noch?",
            "Notieren Sie: gut, locker oder korrodiert.",
            EndsBack,
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
            EndsOff,
            "An einem Verbinder: legen Sie ihn von Hand frei, mit stumpfem Werkzeug. An einer Klemme ist nichts zu graben.",
            "Klemmen Sie das Messgerät an die beiden Enden der Schleife, kleinster Ohmbereich.",
            "Messgerät im Blick, oder jemand daneben. Biegen Sie den Draht sanft, vor und hinter dem Verbinder. Ziehen Sie an nichts.",
            "Notieren Sie: ruhig, oder springt. Mehr als ein halbes Ohm auf und ab, immer wieder, ist ein Sprung.",
            "Nehmen Sie das Messgerät ab. Decken Sie den Verbinder zu.",
            EndsBack,
        ]),
        [StepKind.ChargeCheck] = new("Sehen, ob der Mäher lädt",
        [
            "Prüfen Sie, dass die Station Strom hat: ihre Lampe leuchtet.",
            "Mäher aus, Handschuhe an. Setzen Sie ihn auf die Station, Messer von Ihnen weg, bis die Kontakte sich berühren. Einschalten, Hände weg.",
            "Sehen Sie zwei Minuten auf Anzeige und Lampe. Er kann von selbst losfahren: bleiben Sie hinter ihm, Stopptaste in Reichweite.",
            "Notieren Sie: lädt, oder lädt nicht.",
        ])
        {
            HowForOwner =
            [
                "Sehen Sie nach, ob die Lampe der Station leuchtet.",
                "Schalten Sie den Mäher aus. Setzen Sie ihn mit Handschuhen auf die Station, bis die Kontakte sich berühren. Einschalten, zurücktreten.",
                "Er kann von selbst losfahren: niemand in seiner Nähe. Sehen Sie zwei Minuten auf seine Anzeige oder Lampe.",
                "Sagen Sie: er lädt, oder er lädt nicht.",
            ],
        },
        [StepKind.RestoreMains] = new("Den Netzstrom wiederherstellen",
        [
            "Trockene Hände, Abdeckung zu. Riecht es verbrannt, ist es nass? Dann ist es Arbeit für eine Elektrofachkraft.",
            "Sehen Sie in den Verteiler: Sicherung oder FI-Schalter ausgelöst?",
            "Stecken Sie das Netzteil der Station aus, dann schalten Sie einmal ein.",
            "Löst es bei ausgesteckter Station wieder aus: lassen Sie es aus; das ist Arbeit für eine Elektrofachkraft.",
            "Hält es: stecken Sie das Netzteil ein. Löst es jetzt aus, ist das Netzteil defekt; lassen Sie es ausgesteckt.",
        ])
        {
            HowForOwner =
            [
                "Ziehen Sie den Stecker der Station heraus.",
                "Trockene Hände. Riecht der Sicherungskasten verbrannt, oder ist er nass? Dann nicht anfassen: rufen Sie eine Elektrofachkraft.",
                "Sehen Sie im Sicherungskasten nach einem gefallenen Schalter. Schalten Sie ihn einmal ein.",
                "Fällt er wieder, lassen Sie ihn aus und rufen Sie eine Elektrofachkraft.",
                "Hält er, stecken Sie die Station wieder ein. Fällt er jetzt, ziehen Sie den Stecker und sagen Sie es uns.",
            ],
        },
        [StepKind.ReplaceSupply] = new("Das Netzteil ersetzen",
        [
            "Ziehen Sie das alte Netzteil aus der Steckdose, dann von der Station.",
            "Das neue: von derselben Art, mit sicherer Trennung, für draußen gemacht. Vergleichen Sie die Schilder.",
            "Gleiche Spannung, Wechsel- oder Gleichspannung wie vorher, gleiche Polung, mindestens gleicher Strom.",
            "Stecken Sie es an die Station, dann in die Steckdose. Sehen Sie nach der Lampe.",
        ]),
        [StepKind.ReplaceStation] = new("Die Station ersetzen",
        [
            "Stecken Sie das Netzteil aus. Nehmen Sie alle Drahtenden ab und markieren Sie A, B und Leitdraht.",
            "Tauschen Sie die Station als Ganzes; öffnen Sie sie nie.",
            "Drahtenden an: A an A, B an B, Leitdraht an Leitdraht. Stecken Sie ein. Koppeln Sie den Mäher.",
        ]),
        [StepKind.RemakeTerminals] = new("Die Anschlüsse neu machen",
        [
            EndsOff,
            "Kürzen Sie jedes Ende bis aufs blanke Metall. Setzen Sie neue Anschlüsse, gepresst und abgedichtet.",
            "Messen Sie die Schleife von den neuen Anschlüssen. Notieren Sie die Ohm.",
            "Meldete der Mäher, dass er draußen ist? Dann tauschen Sie die beiden Enden.",
            "Enden an, einstecken, nach der Lampe sehen.",
        ]),
        [StepKind.RemakeJoint] = new("Den Verbinder neu machen",
        [
            EndsOff,
            "Legen Sie den Verbinder von Hand frei, mit stumpfem Werkzeug.",
            ProveWire,
            "Schneiden Sie den alten Verbinder heraus, auf beiden Seiten bis zum blanken Metall.",
            "Machen Sie einen neuen Gelverbinder, mit Spiel, sodass nichts daran zieht.",
            "Messen Sie die Schleife, bevor Sie den Verbinder zudecken. " + EndsBack,
        ]),
        [StepKind.MendSpan] = new("Das Stück ausgraben und instand setzen",
        [
            EndsOff,
            "Markieren Sie beide Enden des Stücks. Legen Sie den Draht von Hand frei, mit stumpfem Werkzeug.",
            ProveWire,
            "Sehen Sie jeden Zentimeter an: Schnitte, grünes oder schwarzes Kupfer, dünne Stellen.",
            "Ersetzen Sie das Stück durch neuen Draht gleicher Art, ein Gelverbinder an jedem Ende, mit Spiel.",
            "Messen Sie die Schleife, bevor Sie zudecken. Tragen Sie die neuen Verbinder in den Plan ein, und was Sie gefunden haben.",
            EndsBack,
        ]),
        [StepKind.RenewLoop] = new("Eine neue Schleife legen",
        [
            EndsOff,
            "Legen Sie neuen Draht nach dem Plan, möglichst aus einem Stück. Gleichmäßig tief.",
            "Messen Sie die Schleife, bevor Sie zudecken. Notieren Sie Länge, Verbinder und Wert.",
            "Enden an die Klemmen, gleich herum wie vorher. Stecken Sie ein.",
            "Nehmen Sie den alten Draht heraus, oder notieren Sie seine Lage. Bevor Sie ihn schneiden: weisen Sie nach, dass es die alte Schleife ist.",
        ]),
        [StepKind.RelayLayout] = new("Die Schleife anders legen",
        [
            "Zeichnen Sie zuerst den neuen Weg und prüfen Sie die Signalreserve: keine Stelle des Rasens zu weit vom Draht.",
            EndsOff,
            "Legen Sie den neuen Draht; nur zu einer Insel nebeneinander. Bevor Sie alten Draht schneiden: weisen Sie nach, dass es die Schleife ist.",
            "Messen Sie die Schleife, bevor Sie zudecken. Tragen Sie den neuen Weg und die Verbinder in den Plan ein.",
            "Enden an, einstecken. Lampe normal? Starten Sie den Mäher und sehen Sie dort zu, wo er vorher nicht hinkam. Gehen Sie hinter ihm.",
        ]),
        [StepKind.RecodeStation] = new("Der Station einen anderen Code geben",
        [
            "Fragen Sie, welchen Code die Station des Nachbarn benutzt.",
            "Mäher aus, Schlüssel heraus. Stellen Sie diese Station auf einen anderen Code, mit ihren eigenen Tasten.",
            "Koppeln Sie den Mäher neu. Sehen Sie ihm neben dem Draht des Nachbarn zu. " + WalkBehind,
        ]),
        [StepKind.ServiceReceiver] = new("Den Empfänger des Mähers instand setzen",
        [
            "Mäher aus, Schlüssel und Akku heraus, auf die Werkbank, Handschuhe an, Messer geschützt.",
            "Sehen Sie Fühler, ihre Stecker und Kabel an. Reinigen, neu stecken, ersetzen.",
            .. ServiceFinish,
        ]),
        [StepKind.ServiceDrive] = new("Den Antrieb des Mähers instand setzen",
        [
            "Mäher aus, Schlüssel und Akku heraus, auf die Werkbank, Handschuhe an, Messer geschützt.",
            "Sehen Sie Räder, Motoren, Getriebe und ihre Kabel an. Reinigen, ersetzen, was schleift oder rutscht.",
            .. ServiceFinish,
        ]),
        [StepKind.SwapEnds] = new("Die beiden Drahtenden tauschen",
        [
            "Stecken Sie die Station aus. Fotografieren Sie beide Drahtenden an ihren Klemmen.",
            "Nehmen Sie beide ab und setzen Sie jedes an die Klemme des anderen. Ein Leitdraht bleibt, wo er ist.",
            "Stecken Sie ein und sehen Sie nach der Lampe. Tragen Sie in den Plan ein, dass A und B getauscht sind.",
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
            "Stecken Sie die Station aus. Mäher aus, Schlüssel heraus, Handschuhe an.",
            "Reiben Sie die Kontakte an Mäher und Station blank, mit Glasfaserstift oder feinem Schleifpapier. Kein Öl.",
            "Biegen Sie verbogene Federn zurück. Ersetzen Sie verbrannte oder gebrochene Kontakte.",
            "Stecken Sie ein. Setzen Sie den Mäher auf die Station, Messer von Ihnen weg; Schlüssel hinein, Hände weg. Sehen Sie, ob er lädt.",
        ])
        {
            HowForOwner =
            [
                "Ziehen Sie den Stecker der Station aus der Steckdose. Schalten Sie den Mäher aus und nehmen Sie den Schlüssel heraus.",
                "Reiben Sie die Metallkontakte von Mäher und Station mit einem trockenen, rauen Tuch, bis sie glänzen. Kein Öl, kein Wasser.",
                "Hände weg von der Unterseite. Verbrannte oder gebrochene Kontakte überlassen Sie uns.",
                "Stecken Sie die Station wieder ein. Setzen Sie den Mäher darauf, Schlüssel hinein, Hände weg. Sagen Sie, ob er lädt.",
            ],
        },
        [StepKind.ReplaceBattery] = new("Den Akku des Mähers ersetzen",
        [
            "Mäher aus, Schlüssel heraus, auf die Werkbank, Handschuhe an, Messer geschützt.",
            "Akku gebläht, heiß oder undicht? Nicht öffnen, nicht laden. Bringen Sie ihn ins Freie, weg von allem, was brennt.",
            "Nehmen Sie den alten heraus, wie die Anleitung es zeigt. Der neue: vom Typ des Herstellers. Vergleichen Sie die Schilder.",
            "Bringen Sie Dichtungen und Deckel an, bevor der Schlüssel hineinkommt. Laden Sie an der Station und bleiben Sie zehn Minuten dabei.",
            "Geben Sie den alten Akku dort ab, wo es am Ort vorgeschrieben ist.",
        ]),
        [StepKind.AskMaker] = new("Den Hersteller fragen",
        [
            "Halten Sie bereit: was wann versagt, alle Messwerte, Typ und Nummer von Station und Mäher.",
            "Rufen Sie den Kundendienst des Herstellers an. Fragen Sie nach bekannten Fehlern, und nach einem Besuch, wenn der Anruf nicht hilft.",
            "Was man Ihnen sagt, tun Sie nur im Rahmen der Warnungen oben. Öffnen Sie nichts, worin Netzspannung ist.",
            "Notieren Sie, was gefunden und was getan wurde.",
        ])
        {
            HowForOwner =
            [
                "Suchen Sie Typ und Nummer von Mäher und Station auf den Schildern. Schalten Sie den Mäher vorher aus, drehen Sie ihn nicht um.",
                "Rufen Sie den Kundendienst des Herstellers an. Sagen Sie ihm, was Sie uns gesagt haben.",
                "Öffnen Sie nichts, was auch immer man sagt: überlassen Sie das uns oder ihm.",
                "Sagen Sie uns, was er gesagt oder getan hat.",
            ],
        },
    };
}
