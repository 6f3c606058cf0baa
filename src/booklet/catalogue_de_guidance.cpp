#include "booklet/catalogue_texts.h"

namespace fanwright::booklet {

namespace {

using enum Message;

constexpr MessageText texts[] = {
    {idea_leaf,
     "Das Ornament besteht aus vielen gleich geschnittenen Blättern Papier. Jedes Blatt ist am Rücken in der Mitte "
     "gefalzt wie eine Klappkarte und hat so zwei Hälften, die einander spiegeln."},
    {idea_rows,
     "Schmale Klebestreifen halten es zusammen. Innenstreifen kleben die beiden Hälften eines Blattes aneinander, "
     "Zwischenstreifen kleben ein Blatt an seinen Nachbarn. Beide Arten wechseln sich am Blatt hinauf ab, sodass sich "
     "das "
     "Papier, das dazwischen frei bleibt, zu Zellen spreizen kann."},
    {idea_closed_round, "Blatt auf Blatt geleimt entsteht ein flacher Block. Wie ein Buch um den Rücken herum einmal "
                        "ganz im Kreis geöffnet, "
                        "wird er zum Ornament; zuletzt wird das erste Blatt ans letzte geklebt."},
    {idea_part_round,
     "Blatt auf Blatt geleimt entsteht ein flacher Block. Wie ein Fächer um den Rücken herum geöffnet, hier "
     "um {angle}, wird er zum Ornament; zuletzt kommen erstes und letztes Blatt auf einen Träger."},
    {means_leaf, "Ein geschnittenes Stück Papier. Gefalzt hat es zwei Hälften."},
    {means_spine, "Der Rücken ist der Falz, in der Mitte des Ornaments. Der Fuß ist das untere Ende des Blattes."},
    {means_inside_row,
     "Klebestreifen zwischen den beiden Hälften eines Blattes. Er liegt auf der Innenseite, die beim gefalzten "
     "Blatt verborgen ist."},
    {means_between_row, "Klebestreifen zwischen zwei benachbarten Blättern. Er liegt auf der Außenseite."},
    {means_stencil,
     "Karton mit Fenstern an den Leimstellen. Er dient für jedes Blatt, damit auf sichtbarem Papier nichts "
     "angezeichnet werden muss."},
    {means_packet,
     "Ein Päckchen sind Blätter, die schon aneinandergeklebt sind. In jeder Runde werden Päckchen zu zweit "
     "verleimt und dann gepresst."},
    {means_block, "Alle Blätter aneinandergeklebt, noch nicht geöffnet."},
    {means_seam, "Die letzte Klebung: erstes Blatt an letztes."},
    {means_grain,
     "Die Richtung, in der die Fasern des Papiers liegen. Papier biegt und falzt sich leichter um eine Linie, die "
     "in Laufrichtung liegt."},
    {means_fan,
     "Ein gefalteter Streifen, der sich spreizt: ein Flügel, ein Schwanz, ein Kragen. Zwei Felder zwischen drei "
     "Knicken sind eine Falte."},
    {needs_grain,
     "Die Laufrichtung findest du, indem du einen Bogen locker biegst, erst in der einen, dann in der anderen "
     "Richtung: Er biegt sich leichter um eine Linie, die in Laufrichtung liegt. Bei Druckerpapier läuft sie meist "
     "längs der langen Seite."},
    {needs_grain_of_leaves, "So liegen die Blätter auf dem Bogen: {grain}."},
    {needs_paper,
     "Nimm ungestrichenes, durchgefärbtes Papier: Papier mit weißem Kern zeigt an Schnitt und Falz weiße Kanten, "
     "glatt gestrichenes bricht und klebt schlecht. Mit einer anderen Grammatur als der genannten öffnet sich "
     "das Ornament etwas anders in Höhe und Breite."},
    {amounts_note, "Verschnitt ist nicht eingerechnet: Nimm ein Zehntel mehr, mindestens zwei Blätter zum Probieren."},
    {glue_note,
     "Leim: {glue}, in einer Flasche mit feiner Spitze. Eine {bead} dicke Leimraupe wird beim Pressen rund {spread} "
     "breit. Am besten ist ein Leim, der schnell anzieht und sich doch einen Augenblick lang schieben lässt."},
    {tool_knife, "Bastelmesser mit neuen Klingen, Stahllineal und Schneidematte; oder eine gute Schere"},
    {tool_machine, "Schneidemaschine mit Matte und ein Messer für Ecken, die hängen bleiben"},
    {tool_score, "Rillwerkzeug: ein Prägestift mit einer Kugel von 1 bis 1,5\u202fmm oder ein Messerrücken"},
    {tool_folder, "Falzbein oder die Rückseite eines Löffels"},
    {tool_card, "Karton mit 250 bis 300\u202fg/m² für die Schablonen und das Musterblatt"},
    {tool_glue, "Leimflasche mit feiner Spitze oder Schablonierpinsel oder Tupfer; ein feuchtes Tuch"},
    {tool_straight_edge,
     "zwei Anschläge im rechten Winkel, etwa eine flache Schachtel oder zwei Holzleisten: Am einen stehen die "
     "Rücken an, am anderen die Füße"},
    {tool_weights, "zwei ebene Bretter und ein Gewicht von 2 bis 5\u202fkg für jede Presse; hier {presses} "
                   "{presses:Presse|Pressen}"},
    {tool_parting_sheets, "Backpapier: Daran haftet kein ausgetretener Leim"},
    {tool_clips, "kleine Klammern und zwei Kartonstreifen für die Schlussnaht: {clips}"},
    {tool_freeing, "eine lange, dünne, stumpfe Klinge: ein Palettmesser oder ein Streifen aus einer Plastikkarte"},
    {tool_thread, "fester Faden, Nadel und Perle zum Aufhängen"},
    {tool_disc, "eine Scheibe aus festem Karton als Fuß, wenn das Stück auf einem glatten Tisch stehen soll"},
    {tool_backing, "ein fester Trägerkarton, etwas größer als das geöffnete Stück"},
    {tool_glitter, "Glitter aus Papier oder Mineral und ein flacher Pinsel"},
    {tool_sealer, "Klarlack aus der Sprühdose, zuerst an einem Rest desselben Papiers erprobt"},
    {sizes_note,
     "Das flache Blatt ist aufgeklappt gemessen, Breite × Höhe. Höhe und Durchmesser sind für das genannte Papier "
     "berechnet; ein sauber gearbeitetes Stück liegt innerhalb von ±. Jede Größe hat eigene Blätter, Klebestreifen "
     "und Papiere: Bitte nicht die eine auf die andere vergrößern."},
    {hours_note, "Die Handarbeit gilt für geübte Hände; rechne beim ersten Stück mit der doppelten Zeit."},
    {file_booklet, "dieses Heft"},
    {file_print_sheets,
     "Bogen zum Drucken mit 100\u202f% und Schneiden von Hand; Ebenen trennen Schnitt, Rillung und Leim"},
    {file_cutting_svg, "für Schneidemaschinen, die SVG lesen: wahre Größe in mm, eine Gruppe je Linienart"},
    {file_cutting_dxf, "für Schneidemaschinen, die DXF lesen: wahre Größe in mm, eine Ebene je Linienart"},
    {file_fan_print, "die Streifen der Fächer in voller Größe, zum Drucken und Schneiden von Hand"},
    {file_stencil, "die Leimschablonen, eine für Innenstreifen, eine für Zwischenstreifen"},
    {file_master_leaf, "ein Musterblatt, aus Karton zu schneiden und von Hand zu umfahren"},
    {file_picture, "Bild des geöffneten Ornaments"},
    {file_mesh, "das geöffnete Ornament räumlich, zum Drehen am Bildschirm"},
    {file_numbers, "alle Maße des Entwurfs, für Programme"},
    {file_readme, "womit du anfängst, als einfacher Text"},

    {step_print, "Drucken und den Maßstab prüfen"},
    {step_print_scale,
     "Drucke eine Seite mit 100\u202f%, „tatsächliche Größe“, nie „an Seite anpassen“. Miss ihr Lineal und ihr "
     "Quadrat, "
     "quer und "
     "längs zur Seite: 100\u202fmm müssen 100\u202fmm sein und das Quadrat 50\u202fmm in beiden Richtungen. Erst dann "
     "druckst du den "
     "Rest. "
     "Seiten für A4 und für Letter sind getrennte Dateien; nimm die für das Papier in deinem Drucker."},
    {step_print_pages,
     "Wo Rückseiten dabei sind, drucke beidseitig und wende über die lange Kante: Dann stehen die Zwischenstreifen auf "
     "der "
     "Rückseite. Gedruckte Blätter brauchst du nur, wenn du von Hand schneidest; eine Maschine arbeitet nach den "
     "Schneidedateien."},
    {step_stencil, "Die Schablonen machen"},
    {step_stencil_cut,
     "Drucke die Schablonen und kleb sie auf Karton, oder lass sie von der Maschine schneiden. Die Karte mit einer "
     "Kerbe ist für die Innenstreifen, die mit zwei Kerben für die Zwischenstreifen. Schneide zuerst die Fenster, dann "
     "die Karte; ihre geraden Kanten an Falz, Fuß und Kopf müssen genau sein."},
    {step_stencil_use, "Zum Leimen liegt ihre lange gerade Kante am Falz, ihre Enden schließen mit dem tiefsten und "
                       "dem höchsten Punkt des Blattes ab. Gib Leim durch die Fenster, wie es auf der Karte steht, heb "
                       "sie gerade ab und wisch sie ab: Leim unter ihr gerät dorthin, wo keiner sein darf. Streifen, "
                       "die für ein Fenster zu kurz sind, nennt ihre Seite; die klebst du nach Augenmaß."},
    {step_stencil_printed, "Auf gedruckten Bogen zeigen Rahmen dieselben Stellen."},
    {step_stencil_nicks,
     "Winzige Kerben im Rücken zeigen die Höhe der Streifen: So siehst du gleich, wenn sie verkehrt liegt."},
    {step_cut, "Die Blätter schneiden"},
    {step_cut_by_hand,
     "Von Hand: zuerst die Löcher, zuletzt den Umriss, lieber mehrmals leicht als einmal fest. In Bögen das "
     "Papier drehen, nicht das Messer."},
    {step_cut_master,
     "Ohne gedruckte Bogen schneidest du das Musterblatt aus Karton und umfährst es mit spitzem Bleistift, die "
     "Laufrichtung wie angegeben."},
    {step_cut_by_machine,
     "Mit der Maschine: Lade die Schneidedatei in wahrer Größe. Prüfe am Bildschirm ein Maß: Das Blatt der "
     "Größe {size} ist {width} breit und {height} hoch. Schneide ein Blatt zur Probe. Leg das Papier so "
     "ein, wie es in der Datei liegt, {grain}."},
    {step_cut_count, "Alle Blätter sind gleich. Du brauchst {leaves} und zwei oder drei mehr zum Probieren."},
    {step_join, "Die Hälften großer Blätter verbinden"},
    {step_join_which,
     "Der Bogen fasst diese Blätter nicht im Ganzen: {sizes}. Jedes wird als rechte Hälfte mit einer Lasche von {lap} "
     "am Rücken und als linke Hälfte geschnitten, die am Rücken endet, je eine für ein Blatt."},
    {step_join_score, "Leg die rechte Hälfte mit der Innenseite nach oben und rille sie den Rücken entlang, wo die "
                      "Lasche beginnt. Falze sie noch nicht."},
    {step_join_glue,
     "Gib auf derselben Seite eine dünne Schicht Leim auf das umrahmte Feld der Lasche. Leg die linke Hälfte darauf, "
     "auch sie mit der Innenseite nach oben, ihre gerade Kante genau an der Rille. Press das Blatt unter einem Brett "
     "flach und lass es {drying} trocknen. Dann geht es weiter wie mit einem ganzen Blatt; gerillt ist es schon."},
    {step_fold, "Den Rücken rillen und falzen"},
    {step_fold_score, "Leg das Blatt mit der Innenseite nach oben, der bedruckten, falls es bedruckt ist. Drück mit "
                      "Lineal und Prägestift eine Rille "
                      "den Rücken entlang; mit dem Messer nie tiefer als ein Drittel des Papiers."},
    {step_fold_heavy, "Papier mit {grammage} bricht, wenn es ohne Rille gefalzt wird."},
    {step_fold_light, "Leichtes Papier falzt sich auch ohne Rille, doch mit ihr wird der Rücken gerade."},
    {step_fold_dashed,
     "Die Maschine schneidet den Rücken in Strichen von {dash} mit {gap} dazwischen; dann entfällt das Rillen."},
    {step_fold_fold,
     "Falze so, dass die Innenseiten aufeinanderliegen und die Kanten sich decken. Streich den Falz mit dem "
     "Falzbein durch ein Stück Papier hindurch flach, damit er nicht glänzt. Stapel die Blätter, alle Rücken "
     "auf einer Seite, alle Füße an einem Ende."},
    {step_inside, "Die Innenstreifen kleben"},
    {step_inside_glue,
     "Leg ein Blatt offen hin, Innenseite nach oben, Fuß zu dir, die linke Hälfte angehoben. Schieb die Schablone für "
     "Innenstreifen in den Falz und gib Leim nur auf die rechte Hälfte: {rows}. Nimm sie ab, klapp das Blatt zu, Kante "
     "auf Kante, und reib über die Streifen. So mit jedem Blatt."},
    {step_inside_thin,
     "Nimm wenig Leim und bleib in den Fenstern. Was austritt, verklebt Zellen, die sich später öffnen sollen. "
     "Das Papier an den Kanten bleibt frei."},
    {step_inside_press, "Stapel die Blätter, alle paar Blätter ein Backpapier, und presse sie {drying} lang."},
    {step_first_round, "Erste Runde: Blätter zu Paaren"},
    {step_first_round_face,
     "Leg ein geschlossenes Blatt hin, Rücken links, Fuß zu dir, darauf die Schablone für Zwischenstreifen mit der "
     "Kante am Rücken. Gib Leim auf die Oberseite: {rows}. Sie liegen mitten zwischen den Innenstreifen."},
    {step_first_round_lay,
     "Setz das nächste Blatt gleich herum darauf: Rücken an Rücken am einen Anschlag, die Füße am anderen, dann "
     "ablegen und "
     "anreiben. Das ist ein Paar. Weiter so, bis jedes Blatt seinen Partner hat; ein übriges wartet bis zur nächsten "
     "Runde."},
    {step_later_rounds, "Weitere Runden: Paare zu Vierern und so fort"},
    {step_later_rounds_join, "In jeder Runde klebst du Päckchen an Päckchen: Leim auf die Oberseite des einen, das "
                             "nächste darauf. Leim kommt auf eine "
                             "der beiden Seiten, die sich treffen, nie auf beide. Die Tabellen „Die Leimrunden“ sagen "
                             "für jede Größe, was in jeder "
                             "Runde verklebt wird und welches Päckchen wartet."},
    {step_later_rounds_level, "Kleb die Blätter nicht einzeln aufeinander: Kleine Fehler summieren sich, und ein "
                              "langer Stapel läuft schief. Richte "
                              "Rücken und Füße jedes Mal an den Anschlägen aus."},
    {step_press, "Nach jeder Runde pressen"},
    {step_press_weight,
     "Leg die Päckchen zwischen Bretter, über und unter jedes Backpapier, die Rücken abwechselnd links und "
     "rechts, damit der Stapel eben bleibt. Beschwer ihn mit 2 bis 5\u202fkg und warte {drying} bis zur "
     "nächsten Runde."},
    {step_press_last, "Lass den fertigen Block {last} unter dem Gewicht, besser über Nacht."},
    {step_test, "Zur Probe öffnen"},
    {step_test_before_seam, "Bevor die Schlussnaht geklebt wird:"},
    {step_test_before_fixing, "Bevor das Stück auf den Träger kommt:"},
    {step_test_open, "{before} Fass den Block an den beiden äußeren Hälften und öffne ihn "
                     "langsam, jedes Mal ein "
                     "wenig weiter, so weit es ohne Kraft geht. Sieh jeden Ring von Zellen an. Schließ ihn wieder. "
                     "Löse verklebte Zellen "
                     "(nächster Schritt), bevor du weitermachst."},
    {step_test_level,
     "Geöffnet bilden alle Streifen einer Höhe waagerechte Ringe. Ein Blatt, das vorsteht, sitzt zu hoch oder zu "
     "tief; drück seinen Rand sanft zurück, dann fällt es kaum auf."},
    {step_free, "Verklebte Zellen lösen"},
    {step_free_blade,
     "Schließ den Block so weit, dass das Papier locker ist. Schieb die stumpfe Klinge von der Außenkante her flach "
     "zwischen die beiden Papiere und führ sie auf und ab, bis sie sich trennen. Nie ziehen: Das Papier reißt "
     "vor dem Leim."},
    {step_free_before,
     "Am leichtesten geht es in der ersten Stunde nach dem Leimen. Kleben viele Zellen, nimm beim nächsten Stück "
     "weniger Leim und bleib weiter von der Kante weg."},
    {step_seam, "Die Schlussnaht kleben"},
    {step_seam_glue,
     "Gib mit der Schablone für Zwischenstreifen Leim auf die Außenseite des letzten Blattes, wie in jeder Runde. "
     "Öffne den Block ganz herum, bis diese Seite auf das erste Blatt trifft. Fang am Rücken an, Füße und "
     "Spitzen auf gleicher Höhe, und drück die Streifen von innen nach außen zusammen."},
    {step_seam_clips,
     "Leg beidseits der Naht einen Kartonstreifen an und halte sie mit Klammern, auf die Länge verteilt: {clips}. "
     "Lass sie {last} trocknen."},
    {step_fix, "Auf den Träger kleben"},
    {step_fix_backing,
     "Öffne den Block um {angle} und leg ihn auf den Trägerkarton. Zeichne an, wo die beiden äußeren Seiten "
     "liegen. Kleb erst die eine, dann die andere entlang ihrer Zwischenstreifen an und beschwer sie "
     "{last}."},
    {step_pleat, "Die Fächer falten"},
    {step_pleat_fan, "{name}: {pleats} {pleats:Falte|Falten}, {depth} tief, zu spreizen auf {angle}°."},
    {step_pleat_front, "Schneide die Streifen aus den Fächerbogen. Die bedruckte Seite ist vorn. Rille alle Knicke, "
                       "die Bergfalten auf der "
                       "Rückseite oder mit leichter Hand vorn; die Laufrichtung folgt den Falten."},
    {step_pleat_fold,
     "Leg den Streifen mit der Vorderseite nach oben und dem gerafften Ende zu dir, die Klebelasche auf der Seite, auf "
     "der sie gezeichnet ist. Falte ihren Knick als Tal, den nächsten als Berg und so im Wechsel weiter; Berge stehen "
     "dir entgegen. Drück das geschlossene Paket mit dem Falzbein flach. Beide äußeren Falten zeigen nun dieselbe "
     "Seite."},
    {step_pleat_join,
     "Ein Streifen in mehreren Teilen wird vor dem Falten verbunden: Gib einen dünnen Leimfilm vorn auf die "
     "schraffierte "
     "Überlappung, leg das nächste Teil darauf und richte beide mit dem gerafften Ende an einer geraden Kante aus. Die "
     "Knicke beidseits müssen eine Faltentiefe auseinander liegen."},
    {step_pleat_pair,
     "Die Fächer eines Paars sind Spiegelbilder: Ein Streifen trägt right (rechts), einer left (links). "
     "Dreh nie einen um, damit er zum anderen wird: Seine Berge würden Täler."},
    {step_spread, "Die Fächer spreizen und ankleben"},
    {step_spread_gather, "Drück das geraffte Ende zusammen und halte es: zwei Windungen Faden oder ein Tropfen Leim "
                         "zwischen den Falten auf "
                         "den letzten 3 mm. Am Rand muss es sich spreizen können."},
    {step_spread_first,
     "Kleb die Lasche eines offenen Fächers an die Kante eines Blattes des fertigen Ornaments, die Vorderseite zu dir, "
     "das geraffte Ende dort, wo der Fächer beginnt. Halte sie, bis der Leim greift. Halt den Fächer vorher an und "
     "spreize ihn von Hand: Er braucht darüber und darunter freie Höhe, sonst spreizt er sich nicht."},
    {step_spread_last,
     "Ist die Lasche trocken, spreize den Fächer gleichmäßig, bis er so weit steht wie gezeichnet: {fans}. Gib dann "
     "einen Tropfen Leim oben auf die letzte Falte und drück sie dort an das Ornament, wo sie zu liegen kommt."},
    {step_spread_round,
     "Ein Fächer, der ganz herum geht, wird in sich geschlossen: Führ die letzte Falte zur ersten, kleb die "
     "Vorderseite "
     "der Lasche hinter die letzte Falte und drück eine Minute lang. Drück die Mitte flach und kleb beidseits eine "
     "Kartonscheibe darüber, Radius {radius} oder mehr, unter einem Gewicht, bis sie flach bleibt."},
    {step_seat_place,
     "{name}: Das geraffte Ende sitzt {below}, {where}. Miss mit dem Lineal und zeichne die Blattkante an."},
    {step_seat_pair,
     "{name}: Das geraffte Ende des rechten sitzt {below}, {where}; der linke ist sein Spiegelbild. Miss "
     "mit dem Lineal und zeichne die Blattkanten an."},
    {step_seat_edge, "Halt den Fächer mit der Vorderseite {facing} und der ersten Falte nach unten an und spreize ihn "
                     "von Hand, bevor du klebst. Kleb dann die erste Falte mit ihrer Lasche von der Marke abwärts an "
                     "Blattkanten: {edges}. Die "
                     "Blätter zählen von der Schlussnaht an, von oben gesehen gegen den Uhrzeigersinn."},
    {step_seat_point, "Gib Leim auf das geraffte Ende und setz es auf die Marke: {edges}. Die Blätter zählen von der "
                      "Schlussnaht an, von oben gesehen gegen den Uhrzeigersinn."},
    {step_seat_cover,
     "Gib Leim auf die Scheibe an seiner Rückseite und drück sie um die Marke an die Blattkanten: {edges}. Die Blätter "
     "zählen von der Schlussnaht an, von oben gesehen gegen den Uhrzeigersinn."},
    {step_seat_cell, "Gib Leim auf beide Seiten des gerafften Endes und schieb es {depth} tief zwischen zwei Kanten: "
                     "{edges}. Die Blätter zählen von der Schlussnaht an, von oben gesehen gegen den Uhrzeigersinn."},
    {step_seat_lean, "Seine Mitte zeigt {rise} über die Waagerechte, und seine Ebene ist um {turn} aus der Senkrechten "
                     "gedreht; 90° ist waagerecht, die Vorderseite oben."},
    {step_seat_free, "Ist der Leim trocken, spreize ihn gleichmäßig auf {angle}. Seine letzte Falte bleibt frei."},
    {step_seat_head, "Ist der Leim trocken, spreize ihn gleichmäßig auf {angle}, bis die letzte Falte am Kopf anliegt. "
                     "Kleb sie dort mit ihrem oberen Teil an: {edges}."},
    {below_neck, "{height} unter dem Hals"},
    {below_top, "{height} unter der Spitze"},
    {leaf_half, "Blatt {leaf}, Hälfte {half}"},
    {leaf_both_halves, "Blatt {leaf}, beide Hälften"},
    {edges_of_pair, "rechts: {right}; links: {left}"},
    {edges_over, "{edges}; auf {length}"},
    {faces_front, "nach vorn"},
    {faces_right, "zur rechten Seite der Figur"},
    {faces_back, "nach hinten"},
    {faces_left, "zur linken Seite der Figur"},
    {where_front, "vorn"},
    {where_front_right, "vorn, von der Figur aus rechts"},
    {where_right, "auf der rechten Seite der Figur"},
    {where_back_right, "hinten, von der Figur aus rechts"},
    {where_back, "hinten"},
    {where_back_left, "hinten, von der Figur aus links"},
    {where_left, "auf der linken Seite der Figur"},
    {where_front_left, "vorn, von der Figur aus links"},
    {step_stand, "Einen Fuß geben"},
    {step_stand_check,
     "Stell das Stück auf einen ebenen Tisch. Es soll auf allen Blättern stehen; schieb die, die zu tief hängen, "
     "von unten hoch und drück einen wackelnden Fuß leicht auf den Tisch."},
    {step_stand_disc,
     "Für festen Stand kleb eine Scheibe aus festem Karton unter den Fuß, etwas kleiner als er, damit man sie "
     "nicht sieht. Sie hält das Ornament auch davon ab, sich zu verziehen."},
    {step_hang, "Einen Aufhänger geben"},
    {step_hang_thread,
     "Führ mit der Nadel einen festen Faden von etwa 450\u202fmm durch die oberen Enden zweier Rücken, "
     "die einander gegenüberliegen, "
     "ein paar mm unter der Spitze. Zieh die Enden gleich lang, fädle beide durch die Perle, schieb "
     "sie auf die Spitze hinab "
     "und knote eine Schlaufe von 150 bis 200\u202fmm."},
    {step_hang_check,
     "Häng das Stück auf. Hängt es schief, verschieb den Faden in den Rücken, bis es gerade hängt; dann sichere die "
     "Perle mit einem Tropfen Leim."},
    {step_glitter, "Die Kanten verzieren"},
    {step_glitter_edge,
     "Streich mit fast trockenem Pinsel einen dünnen Leimfilm auf die offenen Kanten, sodass keiner in die Zellen "
     "läuft, und streu über einem Bogen Papier Glitter darauf. Schüttle den Rest ab und lass es trocknen."},
    {step_sealer, "Klarlack auftragen"},
    {step_sealer_coats, "Sprüh den Klarlack im Freien oder bei starkem Durchzug: zwei dünne Schichten aus 200 bis "
                        "300\u202fmm, im Abstand von 10 bis 20 Minuten, und dreh das Stück dabei. Dicke Schichten "
                        "weichen das Papier auf und verkleben die Zellen."},
    {step_store, "Flach aufbewahren"},
    {step_store_open,
     "Soll ein Stück flach gelagert oder verschickt werden, bleibt die Schlussnaht ungeklebt: Halte es mit Klammern "
     "oder einem Band im Kreis geschlossen, solange es steht oder hängt."},
    {step_store_flat,
     "Bewahr den Block in einer Hülle mit festem Karton auf: flach, trocken und vor Sonne geschützt. Geöffnete und "
     "geklebte Stücke kommen in eine Schachtel von ihrer Höhe."},

    {rounds_note,
     "In jeder Runde werden Nachbarn zu zweit verklebt, je zwei an einer Stelle: das letzte Blatt des einen ans erste "
     "Blatt des anderen. Alle Päckchen bleiben in einer Reihe; das wartende ist von ihrem Anfang an gezählt."},
    {rounds_strips, "Jede Klebung hat {count} {count:Klebestreifen|Klebestreifen}."},
    {time_note, "Balken zeigen, wer oder was gerade beschäftigt ist; ihre Nummern stehen in der Legende, und Balken, "
                "die für eine Nummer zu schmal sind, folgen in ihrer Reihe. Pausen und Nächte kommen dazu."},
    {time_summary, "{size}: {hands_on} Handarbeit, {waiting} Wartezeit, fertig nach {finish}."},
    {time_hands, "Mit {hands} {hands:Person|Personen} und {presses} {presses:Presse|Pressen}."},
    {cautions_note,
     "Wo hier etwas anderes steht als auf dem Etikett eines Produkts oder in den Regeln des Ortes, an dem du lebst, "
     "verkaufst oder ausstellst, gehen Etikett und Regeln vor."},
    {caution_knife,
     "Messer: scharfe Klinge, Stahllineal und Matte; die andere Hand hinter der Klinge; beim Weglegen Kappe darauf; "
     "alte Klingen in einer Dose entsorgen. Nur für Erwachsene."},
    {caution_machine,
     "Schneidemaschinen: Beachte ihre Anleitung. Lass einen Laser nie unbeaufsichtigt; Papier brennt."},
    {caution_glue, "Leim: Lies das Etikett, lüfte, halte ihn von Haut und Augen fern."},
    {caution_hot_glue,
     "Heißkleber taugt nicht für die Streifen, denn er trägt auf. Wenn du ihn an Fuß oder Aufhänger nimmst: Düse "
     "und Kleber haben 120 bis 200\u202f°C und verbrennen die Haut. Halte Wasser bereit."},
    {caution_spray,
     "Sprays und Lösemittel sind extrem entzündbar, ihre Dosen stehen unter Druck: keine Flamme, kein Funke, keine "
     "heiße Fläche in der Nähe, nie über 50\u202f°C, nur im Freien oder bei starkem Durchzug, mit Maske nach Etikett. "
     "Lass das Stück trocknen, bevor du es verpackst. Lack schützt Papier nicht vor Feuer."},
    {caution_glitter,
     "Glitter verletzt die Augen und gehört nicht in die Lunge: Brille tragen, nicht pusten, feucht aufwischen. "
     "Mancherorts darf loser Plastikglitter nicht mehr verkauft werden; Glitter aus Papier oder Mineral ist die "
     "bessere Wahl."},
    {caution_fire,
     "Papier brennt. Halte das Ornament mindestens 300\u202fmm von Kerzen und jeder Flamme fern und weg von heißen "
     "Lampen, "
     "Heizungen und Öfen. Nur kühle Batterielichter. Öffentliche Räume und Schulen haben eigene Brandschutzregeln: "
     "vorher fragen."},
    {caution_children,
     "Dekoration, kein Spielzeug. Perlen, Klammern, Glitter und Knopfzellen können verschluckt werden: Halte sie und "
     "das Ornament von Kindern unter 36 Monaten und von Haustieren fern."},
    {caution_cord,
     "In Schnüren und Schlaufen kann man sich strangulieren: Mach Schlaufen kurz und häng sie außer Reichweite kleiner "
     "Kinder auf, nie über ein Bett."},
    {caution_codes,
     "Wenn du Stücke verkaufst, erkundige dich, welche Sicherheits- und Kennzeichnungsregeln dort gelten."},
    {licence_none,
     "Es ist keine Lizenz angegeben. Frag den, von dem du diese Dateien hast, bevor du sie weitergibst oder Stücke "
     "danach verkaufst."},
    {licence_predicted,
     "{title}, Version {version}. Die Maße sind für das in diesem Heft genannte Papier vorausberechnet."},
    {licence_measures, "Die Maße sind für das in diesem Heft genannte Papier vorausberechnet."},
    {for_maker_note, "Nur für dich: Diese Seiten gehören nicht zu dem, was du weitergibst."},
    {batch_note, "Für eine Serie von {pieces} {pieces:Stück|Stück} je Größe."},
    {batch_summary,
     "{size}, {pieces} {pieces:Stück|Stück}: {hands_on} Handarbeit, {waiting} warten alle Hände, fertig nach "
     "{finish}."},
    {cost_note,
     "Preis = (Kosten + feste Gebühr) / (1 − Gebühren − Gewinn), nach deinen eigenen Sätzen: feste Gebühr {fixed}, "
     "Gebühren {fees} vom Preis, Gewinn {margin} vom Preis."},
};

} // namespace

std::span<const MessageText> german_guidance() { return texts; }

} // namespace fanwright::booklet
