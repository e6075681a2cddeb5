"""Other languages, how files are written, workbooks with more in them, tables that are no stand, and odd ones from life."""

from kit import *

# ---------------------------------------------------------------- languages
stand("language", "de-von-bis-fehlt", "Reihen 1 bis 5 mit erstem und letztem Platz; in Reihe 2 fehlt 7, in Reihe 4 fehlen 9 und 10.", csv("""
Reihe;Sitz von;Sitz bis;fehlt
1;1;18;
2;1;18;7
3;1;18;
4;1;18;9-10
5;1;20;
"""), S("", "assumed", "1: 1-18", "2: 1-6 8-18", "3: 1-18", "4: 1-8 11-18", "5: 1-20"))

stand("language", "de-reihe-eins-oben", "Die Zeile darüber sagt, dass Reihe 1 oben ist; also ist Reihe 5 vorne.", csv("""
Hafentribüne Gullhaven - Reihe 1 ist OBEN
Reihe;Plätze
1;22
2;22
3;20
4;20
5;18
"""), S("Hafentribüne Gullhaven", "said", "5: #18", "4..3: #20", "2..1: #22"),
      alts=[[S("", "said", "5: #18", "4..3: #20", "2..1: #22")],
            [S("Hafentribüne", "said", "5: #18", "4..3: #20", "2..1: #22")]])

stand("language", "de-vorne-hinten", "Von hinten nach vorne aufgeschrieben, drei Blöcke nebeneinander.", csv("""
;Block Links;Block Mitte;Block Rechts;
Reihe 4;10;16;10;hinten
Reihe 3;10;16;10;
Reihe 2;9;14;9;
Reihe 1;9;14;9;vorne
Summe;38;60;38;136
"""), S("Links", "said", "1..2: #9", "3..4: #10"), S("Mitte", "said", "1..2: #14", "3..4: #16"),
      S("Rechts", "said", "1..2: #9", "3..4: #10"),
      alts=[[S("Block Links", "said", "1..2: #9", "3..4: #10"), S("Block Mitte", "said", "1..2: #14", "3..4: #16"),
             S("Block Rechts", "said", "1..2: #9", "3..4: #10")]])

stand("language", "de-reihen-je", "Reihen 1 bis 5 mit je 18 Plätzen, 6 bis 8 mit je 20.", csv("""
Reihen;Plätze
1–5;je 18
6–8;je 20
"""), S("", "assumed", "1..5: #18", "6..8: #20"))

stand("language", "de-gerade-ungerade", "Links die ungeraden, rechts die geraden Plätze, in zwei Reihen.", csv("""
Seite;Reihe;Plätze
links;1;1-15 ungerade
links;2;1-15 ungerade
rechts;1;2-16 gerade
rechts;2;2-16 gerade
""", enc="cp1252"), S("links", "assumed", "1..2: " + every(2, 1, 15)), S("rechts", "assumed", "1..2: " + every(2, 2, 16)))

stand("language", "de-ohne", "Plätze mit dem Wort ohne: Platz 7 gibt es in Reihe B nicht, 1 und 2 nicht in C.", csv("""
Reihe;Plätze
A;1 bis 16
B;1 bis 16 ohne 7
C;1 bis 16 ohne 1 und 2
D;1 bis 18
"""), S("", "assumed", "A: 1-16", "B: 1-6 8-16", "C: 3-16", "D: 1-18"))

stand("language", "fr-rang-places", "Rangs A à D de la tribune, places de 1 à 18, sauf la 7 au rang B.", csv("""
Rang;Places
A;1 à 18
B;1 à 18 sauf 7
C;1 à 18
D;3 à 18
"""), S("", "assumed", "A: 1-18", "B: 1-6 8-18", "C: 1-18", "D: 3-18"))

stand("language", "fr-devant-derriere", "Du fond vers le devant : le 1er rang est devant.", csv("""
Rang;Nb de places;
5e;22;derrière
4e;22;
3e;20;
2e;20;
1er;18;devant
Total;102;
""", enc="iso8859-15", eol="\r\n"), S("", "said", "1: #18", "2..3: #20", "4..5: #22"))

stand("language", "fr-tribune-travee", "Deux travées, rangs 1 à 3, première et dernière place.", csv("""
Travée;Rang;Première place;Dernière place;Hauteur (m)
Est;1;1;12;0,00
Est;2;1;12;0,40
Est;3;1;13;0,80
Ouest;1;14;25;0,00
Ouest;2;14;25;0,40
Ouest;3;14;26;0,80
"""), S("Est", "said", "1..2: 1-12", "3: 1-13"), S("Ouest", "said", "1..2: 14-25", "3: 14-26"))

stand("language", "fr-pairs", "Places paires seulement, rangs A et B ; le rang C a toutes les places.", csv("""
Rang;Places
A;2 à 16 (paires)
B;2 à 16 (paires)
C;1 à 16
"""), S("", "assumed", "A..B: " + every(2, 2, 16), "C: 1-16"))

stand("language", "es-fila-asientos", "Filas 1 a 4 con asientos del 1 al 16; falta el 9 en la fila 3.", csv("""
Fila;Asientos;Falta
1;del 1 al 16;
2;del 1 al 16;
3;del 1 al 16;9
4;del 1 al 18;
"""), S("", "assumed", "1..2: 1-16", "3: 1-8 10-16", "4: 1-18"))

stand("language", "es-grada-arriba-abajo", "La grada de arriba abajo: la fila 1 está abajo, junto al campo.", csv("""
Fila;Plazas;
5;20;arriba
4;20;
3;18;
2;18;
1;16;abajo (campo)
"""), S("", "said", "1: #16", "2..3: #18", "4..5: #20"))

stand("language", "it-settore-fila-posti", "Due settori, file A-C, posti dal 1 al 14.", csv("""
Settore;Fila;Posti
Nord;A;1-14
Nord;B;1-14
Nord;C;1-15
Sud;A;1-10
Sud;B;1-10, manca il 5
"""), S("Nord", "assumed", "A..B: 1-14", "C: 1-15"), S("Sud", "assumed", "A: 1-10", "B: 1-4 6-10"))

stand("language", "nl-rij-stoelen", "Rijen met stoelen 1 t/m 18; stoel 4 ontbreekt in rij 2.", csv("""
Rij;Stoelen
1;1 t/m 18
2;1 t/m 18 behalve 4
3;1 t/m 20
"""), S("", "assumed", "1: 1-18", "2: 1-3 5-18", "3: 1-20"))

stand("language", "nl-vak-aantal", "Twee vakken met het aantal stoelen per rij; rij 1 is het dichtst bij het veld.", csv("""
rij 1 = dichtst bij het veld
Vak;Rij;Aantal stoelen
A;1;12
A;2;12
A;3;13
B;1;15
B;2;15
"""), S("A", "said", "1..2: #12", "3: #13"), S("B", "said", "1..2: #15"))

stand("language", "pt-bancada-lugares", "Bancada com cinco filas e a altura em metros, que sobe.", csv("""
Fila;Lugares;Altura (m)
A;14;0,00
B;14;0,35
C;15;0,70
D;15;1,05
E;16;1,40
""", enc="cp1252"), S("", "said", "A..B: #14", "C..D: #15", "E: #16"))

stand("language", "sv-rad-platser", "Rader skrivna bakifrån: rad 1 längst fram.", csv("""
Rad;Platser;Anm.
4;1–22;längst bak
3;1–22;
2;1–20;
1;1–20;längst fram
"""), S("", "said", "1..2: 1-20", "3..4: 1-22"))

stand("language", "da-raekke-pladser", "Rækker med antal pladser; række 1 forrest.", csv("""
Række;Antal pladser
1 (forrest);16
2;16
3;17
4 (bagerst);17
""", enc="cp1252"), S("", "said", "1..2: #16", "3..4: #17"))

stand("language", "nb-felt-rad-sete", "To felt med rader og seter fra og til.", csv("""
Felt;Rad;Sete fra;Sete til
Øst;1;1;9
Øst;2;1;9
Vest;1;10;18
Vest;2;10;18
"""), S("Øst", "assumed", "1..2: 1-9"), S("Vest", "assumed", "1..2: 10-18"))

stand("language", "fi-rivi-paikat", "Rivit 1-4 ja paikkojen määrä; yhteensä ei ole rivi.", csv("""
Rivi;Paikkoja
1;14
2;14
3;15
4;15
Yhteensä;58
"""), S("", "assumed", "1..2: #14", "3..4: #15"))

stand("language", "pl-rzad-miejsca", "Rzędy 1-4, miejsca od do, w rzędzie 3 brak miejsca 6.", csv("""
Rząd;Miejsce od;Miejsce do;Brak
1;1;15;
2;1;15;
3;1;15;6
4;1;16;
"""), S("", "assumed", "1..2: 1-15", "3: 1-5 7-15", "4: 1-16"))

stand("language", "cs-rada-sedadla", "Řady A až D, sedadla 1-12; ve čtvrté řadě 1-14 kromě 8.", csv("""
Řada;Sedadla
A;1-12
B;1-12
C;1-12
D;1-14 kromě 8
"""), S("", "assumed", "A..C: 1-12", "D: 1-7 9-14"))

stand("language", "de-zeichnung", "Eine Zeichnung mit Platznummern; SPIELFELD unten, also ist Reihe A vorne; Säule bei C 4.", csv("""
C;1;2;3;Säule;5;6;7
B;1;2;3;4;5;6;7
A;1;2;3;4;5;6;7
;;;SPIELFELD;;;;
"""), S("", "said", "A..B: 1-7", "C: 1-3 5-7"))

stand("language", "fr-dessin-scene", "Un dessin avec des x ; SCÈNE en haut, donc le rang 1 est devant.", csv("""
;;;SCÈNE;;;
1;x;x;x;x;x;x
2;x;x;x;x;x;x
3;x;x;;;x;x
"""), S("", "said", "1..2: #6", "3: #4"))

stand("language", "de-erste-reihe", "Erste bis fünfte Reihe mit Anzahl.", csv("""
Reihe;Anzahl Sitze;Sitzbreite (cm)
erste;12;45,5
zweite;12;45,5
dritte;13;45,5
vierte;13;45,5
fünfte;14;45,5
"""), S("", "assumed", "erste, zweite: #12", "dritte, vierte: #13", "fünfte: #14"),
      alts=[[S("", "assumed", "1..2: #12", "3..4: #13", "5: #14")]])

# ---------------------------------------------------------------- how files are written
stand("file", "utf8-bom", "Four rows with ranges, the file begins with a byte order mark.", csv("""
Row,Seats,Note
1,1-18,
2,1–18,café side
3,1–18,
4,1–20,
""", enc="utf-8-sig", eol="\r\n"), S("", "assumed", "1..3: 1-18", "4: 1-20"))

stand("file", "utf16-tabs", "Unicode text of a spreadsheet: UTF-16 with tabs; two sections.", csv("""
Block|Reihe|Plätze
Süd|1|1–12
Süd|2|1–12
Süd|3|1–13
Nord|1|1–9
Nord|2|1–9
""", sep="\t", enc="utf-16-le-bom", eol="\r\n"), S("Süd", "assumed", "1..2: 1-12", "3: 1-13"), S("Nord", "assumed", "1..2: 1-9"))

stand("file", "utf16-big-endian", "UTF-16 the other way round with semicolons.", csv("""
Rang;Places
A;12
B;12
C;13
""", enc="utf-16-be-bom"), S("", "assumed", "A..B: #12", "C: #13"))

stand("file", "windows-dashes", "Windows-1252 with en dashes and curly quotes; five rows.", csv("""
Row,Seats,Called
1,1–16,“the kerb”
2,1–16,
3,"1–7, 10–16",Mo’s gap
4,1–18,
5,1–18,
""", enc="cp1252", eol="\r\n"), S("", "assumed", "1..2: 1-16", "3: 1-7 10-16", "4..5: 1-18"))

stand("file", "latin9-euro", "ISO 8859-15; the prices in euros say nothing about seats.", csv("""
Rang;Places;Loyer par siège
1;18;2,50 €
2;18;2,50 €
3;20;2,00 €
""", enc="iso8859-15"), S("", "assumed", "1..2: #18", "3: #20"))

stand("file", "carriage-returns-alone", "Lines end with a carriage return alone.", csv("""
Row,Seats
1,11
2,11
3,12
4,12
""", eol="\r"), S("", "assumed", "1..2: #11", "3..4: #12"))

stand("file", "mixed-line-ends", "Some lines end with two characters, some with one.", csv("""
Row,Seats\r
1,1-11\r
2,1-11
3,1-12
4,1-12\r
"""), S("", "assumed", "1..2: 1-11", "3..4: 1-12"))

stand("file", "no-last-line-end", "The last line has no end; row 4 is there all the same.", csv("""
Row,Seats
1,1-11
2,1-11
3,1-12
4,1-12
""", end=False), S("", "assumed", "1..2: 1-11", "3..4: 1-12"))

stand("file", "sep-line", "A first line sep=; tells the separator.", csv("""
sep=;
Row;Seats
1;1-14
2;1-14
3;1-6, 8-14
""", eol="\r\n"), S("", "assumed", "1..2: 1-14", "3: 1-6 8-14"))

stand("file", "all-quoted", "Every cell in quotes, numbers too.", csv('''
"Section","Row","Seats"
"A","1","14"
"A","2","14"
"B","1","12"
"B","2","13"
'''), S("A", "assumed", "1..2: #14"), S("B", "assumed", "1: #12", "2: #13"))

stand("file", "line-break-in-cell", "A note with a line break inside its cell; four rows.", csv('''
Row,Seats,Note
1,1-18,"rail at the left,
mind your head"
2,1-18,
3,1-18,"wet
after rain"
4,1-20,
'''), S("", "assumed", "1..3: 1-18", "4: 1-20"))

stand("file", "no-break-spaces", "No-break spaces round the numbers.", csv("""
Row,Seats
\u00a01,\u00a018\u00a0
\u00a02,\u00a018\u00a0
\u00a03,\u00a019\u00a0
"""), S("", "assumed", "1..2: #18", "3: #19"))

stand("file", "many-empty-columns", "Empty columns and lines all round, as a spreadsheet leaves them.", csv("""
,,,,,,,
,,,,,,,
,,Row,Seats,,,,
,,1,17,,,,
,,2,17,,,,
,,3,18,,,,
,,,,,,,
,,,,,,,
,,,,,,,
"""), S("", "assumed", "1..2: #17", "3: #18"))

stand("file", "semicolon-with-commas", "Semicolons between cells, commas within: 1-6, 8-18.", csv("""
Row;Seats;Depth m
1;1-6, 8-18;0,75
2;1-6, 8-18;0,75
3;1-18;0,80
"""), S("", "assumed", "1..2: 1-6 8-18", "3: 1-18"))

stand("file", "garbled-umlauts", "Headings with garbled letters: PlÃ¤tze is Plätze.", csv("""
Reihe;PlÃ¤tze
1;16
2;16
3;18
"""), S("", "assumed", "1..2: #16", "3: #18"))

stand("file", "bars-from-a-chat", "A table with bars, as pasted from a message.", csv("""
| Row | Seats |
| --- | --- |
| 1 | 1-14 |
| 2 | 1-14 |
| 3 | 1-15 |
"""), S("", "assumed", "1..2: 1-14", "3: 1-15"))

stand("file", "tabs-in-csv", "Tabs, though the file is called .csv; two sections.", csv("""
Section|Row|First|Last
A|1|1|10
A|2|1|10
B|1|11|20
B|2|11|21
""", sep="\t"), S("A", "assumed", "1..2: 1-10"), S("B", "assumed", "1: 11-20", "2: 11-21"))

stand("file", "spaces-after-commas", "Spaces after the commas.", csv("""
Row, First, Last, Missing
A, 1, 12,
B, 1, 12, "3, 4"
C, 1, 14,
"""), S("", "assumed", "A: 1-12", "B: 1-2 5-12", "C: 1-14"))

stand("file", "long-dashes", "Ranges with a minus sign, dashes of several lengths, a hyphen and a tilde.", csv("""
Row,Seats
1,1−14
2,1—14
3,1‒14
4,1‐14
5,1~14
"""), S("", "assumed", "1..5: 1-14"))

# ---------------------------------------------------------------- workbooks with more in them
stand("workbook", "notes-on-second-sheet", "Four rows on the first sheet; the second holds notes about the day.", book(sheet("Stand", """
Row|Seats
1|1-18
2|1-18
3|1-20
4|1-20
"""), sheet("Notes", """
What|Who
Bring tape 30 m|Osk
Bring chalk|Runa
Ladder from the boat club|Mo
""")), S("", "assumed", "1..2: 1-18", "3..4: 1-20"), alts=[[S("Stand", "assumed", "1..2: 1-18", "3..4: 1-20")]])

stand("workbook", "old-version-sheet", "The sheet Survey counts; the sheet OLD - do not use has the rows of last year.", book(sheet("Survey", """
Row|Seats
1|16
2|16
3|18
4|18
"""), sheet("OLD - do not use", """
Row|Seats
1|15
2|15
3|15
""")), S("", "assumed", "1..2: #16", "3..4: #18"), alts=[[S("Survey", "assumed", "1..2: #16", "3..4: #18")]])

stand("workbook", "same-copy", "A sheet and its copy with the same rows: one stand, not two.", book(sheet("Survey", """
Row|Seats
A|1-12
B|1-12
C|1-14
"""), sheet("Survey (2)", """
Row|Seats
A|1-12
B|1-12
C|1-14
""")), S("", "assumed", "A..B: 1-12", "C: 1-14"), alts=[[S("Survey", "assumed", "A..B: 1-12", "C: 1-14")]])

stand_ask("workbook", "two-that-differ", "A sheet and its copy, which differ in rows 2 and 3.",
          "Sheet1 and Sheet1 (2) hold the same rows with different seats: which counts?", book(sheet("Sheet1", """
Row|Seats
1|1-18
2|1-18
3|1-18
"""), sheet("Sheet1 (2)", """
Row|Seats
1|1-18
2|1-16
3|1-20
""")))

stand("workbook", "hidden-old-sheet", "Four rows on the sheet one sees; a hidden sheet holds an older count.", book(sheet("Terrace", """
Row|Seats
1|20
2|20
3|21
4|21
"""), sheet("old count", """
Row|Seats
1|19
2|19
3|19
""", hidden=True)), S("", "assumed", "1..2: #20", "3..4: #21"), alts=[[S("Terrace", "assumed", "1..2: #20", "3..4: #21")]])

stand("workbook", "hidden-helper-column", "First and last seats; a hidden column has the count, which agrees.", book(sheet("Sheet1", """
Row|First|helper|Last
1|1|18|18
2|1|18|18
3|1|20|20
""", hidecols=["C"])), S("", "assumed", "1..2: 1-18", "3: 1-20"))

stand("workbook", "hidden-note-rows", "Rows 1 to 4; hidden lines between hold remarks, no rows.", book(sheet("Sheet1", """
Row|Seats|
1|14|
checked by Bryn||
2|14|
3|15|
checked by Mo||
4|15|
""", hide=[3, 6])), S("", "assumed", "1..2: #14", "3..4: #15"))

stand("workbook", "hidden-row-counted", "Row 3 is hidden in the sheet, and the sum counts it: it exists, or a person who sees only what is shown leaves it out.", book(sheet("Sheet1", """
Row|Seats
1|10
2|10
3|10
4|12
Total|=SUM(B2:B5)~42
""", hide=[4])), S("", "assumed", "1..3: #10", "4: #12"), alts=[[S("", "assumed", "1..2: #10", "4: #12")]])

stand("workbook", "starts-at-c5", "The table begins at C5; nothing is before it.", book(sheet("Sheet1", """
Row|From|To
A|1|15
B|1|15
C|1|16
""", at="C5")), S("", "assumed", "A..B: 1-15", "C: 1-16"))

stand("workbook", "formulas-everywhere", "Row names and counts are formulas; their values are 1 to 4 and 18, 18, 20, 20.", book(sheet("Sheet1", """
Row|First|Last|Seats
1|1|18|=C2-B2+1~18
=A2+1~2|1|18|=C3-B3+1~18
=A3+1~3|1|20|=C4-B4+1~20
=A4+1~4|1|20|=C5-B5+1~20
|||=SUM(D2:D5)~76
""")), S("", "assumed", "1..2: 1-18", "3..4: 1-20"))

stand("workbook", "formula-makes-range", "The ranges are put together by formulas from hidden columns.", book(sheet("Sheet1", """
Row|Seats|f|l
1|=C2&CHAR(45)&D2~1-18|1|18
2|=C3&CHAR(45)&D3~1-18|1|18
3|=C4&CHAR(45)&D4~1-20|1|20
""", hidecols=["C", "D"])), S("", "assumed", "1..2: 1-18", "3: 1-20"))

stand("workbook", "broken-total", "The sum is broken and shows an error; the rows are all right.", book(sheet("Sheet1", """
Row|Seats
1|13
2|13
3|14
Total|=SUM(#REF!)~#REF!
""")), S("", "assumed", "1..2: #13", "3: #14"))

stand("workbook", "pinned-comments", "Comments are pinned to two cells; they do not change the seats.", book(sheet("Sheet1", """
Row|Seats
1|1-16
2|1-16
3|1-18
""", notes={"B2": "measured twice, fine", "A4": "Osk: nice view from here"})), S("", "assumed", "1..2: 1-16", "3: 1-18"))

stand("workbook", "struck-out-row", "Row 5 is struck through: somebody took it out, four rows are left.", book(sheet("Sheet1", """
Row|Seats|
1|12|
2|12|
3|13|
4|13|
~~5|~~14|row 5 is the camera's, taken out
""")), S("", "assumed", "1..2: #12", "3..4: #13"))

stand("workbook", "unit-in-the-format", "The cells show 16 seats, as the number's format adds the word.", book(sheet("Sheet1", """
Row|What fits
1|16{0" seats"}
2|16{0" seats"}
3|17{0" seats"}
""")), S("", "assumed", "1..2: #16", "3: #17"))

stand("workbook", "text-with-spaces", "Numbers kept as text with stray spaces.", book(sheet("Sheet1", """
Row|First|Last
'1|'1|'18
'2 |' 1|'18
'3|'1|' 20
""")), S("", "assumed", "1..2: 1-18", "3: 1-20"))

stand("workbook", "three-sheets-one-stand", "Of three sheets the second, Stand, holds the rows; the others are how-to and a card count.", book(sheet("How to", """
How we measure
1. Start at the stair
2. Count every seat twice
3. Write it down at once
"""), sheet("Stand", """
Row|Seats
1|1-15
2|1-15
3|1-16
"""), sheet("Cards", """
Colour|Cards
red|20
white|15
blue|11
""")), S("", "assumed", "1..2: 1-15", "3: 1-16"), alts=[[S("Stand", "assumed", "1..2: 1-15", "3: 1-16")]])

stand("workbook", "sheets-and-summary", "A sheet each for the sections West and East; the summary only adds them up.", book(sheet("Summary", """
Section|Seats
West|=SUM(West!B2:B4)~37
East|=SUM(East!B2:B4)~46
Total|=B2+B3~83
"""), sheet("West", """
Row|Seats
1|12
2|12
3|13
"""), sheet("East", """
Row|Seats
1|15
2|15
3|16
""")), S("West", "assumed", "1..2: #12", "3: #13"), S("East", "assumed", "1..2: #15", "3: #16"))

stand("workbook", "empty-sheets-after", "One sheet with rows and two empty ones, as old spreadsheets come.", book(sheet("Tabelle1", """
Reihe|Plätze
1|14
2|14
3|16
"""), sheet("Tabelle2", ""), sheet("Tabelle3", "")), S("", "assumed", "1..2: #14", "3: #16"))

stand("workbook", "sheets-with-different-fronts", "Two sheets: in North row 1 is lowest, in South row 1 is highest.", book(sheet("North", """
Row|Seats|Height cm
1|1-10|0
2|1-10|40
3|1-11|80
"""), sheet("South", """
Row|Seats|Height cm
1|1-13|80
2|1-12|40
3|1-12|0
""")), S("North", "said", "1..2: 1-10", "3: 1-11"), S("South", "said", "3..2: 1-12", "1: 1-13"))

stand("workbook", "line-breaks-in-headings", "Headings with line breaks, a title merged over all columns.", book(sheet("Sheet1", """
Lee Stand, Gullhaven harbour|||
Row\\nno.|First\\nseat|Last\\nseat|Row depth\\n(cm)
1|1|12|75
2|1|12|75
3|1|13|80
""", merge=["A1:D1"], bold=[1, 2])), S("Lee Stand", "assumed", "1..2: 1-12", "3: 1-13"),
      alts=[[S("", "assumed", "1..2: 1-12", "3: 1-13")], [S("Lee Stand, Gullhaven harbour", "assumed", "1..2: 1-12", "3: 1-13")]])

stand("workbook", "shopping-list-beside", "Rows and seats in the left columns; the list on the right is what to buy.", book(sheet("Sheet1", """
Row|Seats|||To buy|Pieces
1|16|||tape|4
2|16|||chalk|12
3|17|||string (m)|100
4|17||||
""")), S("", "assumed", "1..2: #16", "3..4: #17"))

stand("workbook", "long-notes-above", "Five lines of notes with numbers in them stand above the heading.", book(sheet("Sheet1", """
Measured by 4 people in 2 hours
Weather: rain, 9 degrees
Tape: 30 m
There are 3 rows, row A at the quay, that is in front.
|
Row|Seats
A|1-13
B|1-13
C|1-14
""")), S("", "said", "A..B: 1-13", "C: 1-14"))

stand("workbook", "yellow-is-reserved", "Yellow cells are kept for the band, as the last line says; they exist.", book(sheet("Sheet1", """
Row|||||||
C|1|2|3|4|5|6|7
B|1|2|3|4|5|6|7
A|[y]1|[y]2|3|4|5|6|7
front|||||||
yellow = kept for the band|||||||
""")), S("", "said", "A..C: 1-7", reserved=["A-1", "A-2"]))

stand("workbook", "office-formulas-merged", "Saved by LibreOffice: a merged title, first and last seats, counts by formula.", book(sheet("Quay stand", """
QUAY STAND|||
Row|First|Last|Count
1|1|11|=C3-B3+1~11
2|1|11|=C4-B4+1~11
3|1|12|=C5-B5+1~12
""", merge=["A1:D1"], bold=[1, 2]), office=True), S("Quay Stand", "assumed", "1..2: 1-11", "3: 1-12"),
      alts=[[S("", "assumed", "1..2: 1-11", "3: 1-12")]])

stand("workbook", "office-dates-and-hidden", "Saved by LibreOffice: 7-9 became a date, a line is hidden that holds only a remark.", book(sheet("Sheet1", """
Row|From|To|Missing|Left
1|1|14||14
2|1|14|@2026-09-07{d. mmm}|11
remark: ask Runa||||
3|1|14|5|13
""", hide=[4]), office=True), S("", "assumed", "1: 1-14", "2: 1-6 10-14", "3: 1-4 6-14"))

stand("workbook", "office-sheets-each", "Saved by LibreOffice: a sheet a section with counts.", book(sheet("Block A", """
Row|Seats
1|9
2|9
3|10
"""), sheet("Block B", """
Row|Seats
1|12
2|12
""" ), office=True), S("A", "assumed", "1..2: #9", "3: #10"), S("B", "assumed", "1..2: #12"),
      alts=[[S("Block A", "assumed", "1..2: #9", "3: #10"), S("Block B", "assumed", "1..2: #12")]])

stand("workbook", "texts-in-the-cells", "Two sections with ranges, written as web programs write workbooks.", book(sheet("Export", """
Section|Row|Seats
Mole|1|1-12
Mole|2|1-12
Kerb|1|1-9
Kerb|2|1-9, 12
"""), written="inline"), S("Mole", "assumed", "1..2: 1-12"), S("Kerb", "assumed", "1: 1-9", "2: 1-9 12"))

stand("workbook", "half-bold-texts", "Parts of the texts are bold, which changes nothing.", book(sheet("Sheet1", """
Row|Seats|Note
A|1-14|front, at the quay
B|1-14|
C|1-6, 9-14|stair
"""), written="runs"), S("", "said", "A..B: 1-14", "C: 1-6 9-14"))

stand("workbook", "cells-without-places", "A workbook whose cells do not name their places; they follow one another.", book(sheet("Sheet1", """
Row|First|Last
1|1|16
2|1|16
3|1|17
"""), written="places"), S("", "assumed", "1..2: 1-16", "3: 1-17"))

# ---------------------------------------------------------------- no stand
stand_ask("nostand", "headings-alone", "Headings without rows.", "There is no row under the headings.", csv("""
Section,Row,First seat,Last seat
"""))
stand_ask("nostand", "headings-alone-book", "Headings without rows in a workbook.", "There is no row under the headings.",
          book(sheet("Sheet1", """
Row|Seats|Missing
""")))
stand_ask("nostand", "empty-file", "An empty file.", "There is nothing in it.", csv("", end=False))
stand_ask("nostand", "empty-book", "An empty workbook.", "There is nothing in it.", book(sheet("Sheet1", "")))
stand_ask("nostand", "commas-alone", "Lines of commas and nothing else.", "There is nothing in it.", csv("""
,,,
,,,
,,,
"""))
stand_ask("nostand", "budget", "What the fair costs, no stand.", "This is a budget; where is the table of the stand?", csv("""
Item,Pieces,Price,Sum
Card stock A3,400,0.18,72.00
Tape,12,2.40,28.80
Tea and buns,60,1.50,90.00
Sum,,,190.80
"""))
stand_ask("nostand", "budget-book", "A budget in a workbook with formulas, no stand.", "This is a budget; where is the table of the stand?",
          book(sheet("2026", """
Budget Lantern Fair||
|planned|spent
Cards|120|96.5
Paint|40|38.2
Posters|25|0
Total|=SUM(B3:B5)~185|=SUM(C3:C5)~134.7
"""), office=False))
stand_ask("nostand", "timetable", "The day's timetable, no stand.", "This is a timetable; where is the table of the stand?", csv("""
Time;What;Who
14:00;Doors open;Mo
14:20;Rows filled from the middle;row leaders
14:45;First try;all
15:00;Filming;all
"""))
stand_ask("nostand", "rehearsals", "Days of rehearsals with how many came, no stand.", "These are rehearsals; where is the table of the stand?", csv("""
Date,Group,Came
07-Mar,Harbour choir,18
07-Mar,Rope jumpers,12
08-Mar,Harbour choir,20
"""))
stand_ask("nostand", "people-list", "Who comes, in groups: a roster, no stand.", "This lists people, no rows of seats.", csv("""
Name,Group,Wheelchair
Tilda Amsel,Harbour choir,no
Osk Brandt,Harbour choir,no
Runa Dahl,Rope jumpers,yes
"""))
stand_ask("nostand", "cards-to-buy", "Cards by colour, no stand.", "These are cards to buy; where is the table of the stand?", csv("""
Colour,Cards,Packs of 50
red,118,3
white,204,5
blue,96,2
"""))
stand_ask("nostand", "dinner-tables", "Tables of a supper with their places, no stand.", "These are tables of a supper, no rows of a stand.", csv("""
Table,Places,Host
1,8,Tilda
2,8,Osk
3,10,Runa
"""))
stand_ask("nostand", "buses", "Buses with their seats, no stand.", "These are buses that bring people, no rows of a stand.", csv("""
Bus,Seats,From,Leaves
1,52,Saltmarsh school yard,13:10
2,52,Ropewalk corner,13:20
3,19,Lighthouse lane,13:30
"""))
stand_ask("nostand", "blank-form", "A form to fill in: rows 1 to 6, nothing is filled in.", "The rows are there but no seats have been filled in.", csv("""
Row,First seat,Last seat,Missing
1,,,
2,,,
3,,,
4,,,
5,,,
6,,,
"""))
stand_ask("nostand", "section-totals-only", "Seats by section without rows.", "Only the sections' totals are there: how many rows, and how many seats in each?", csv("""
Section,Seats
A,120
B,144
C,120
Total,384
"""))
stand_ask("nostand", "letter-text", "A letter, no table.", "This is a letter; where is the table of the stand?", csv("""
Dear row leaders,
thank you for coming on Saturday. We will measure the stand again next week since it rained.
Bring boots and the long tape.
Mo
"""))
stand_ask("nostand", "league-table", "A league table of invented clubs, no stand.", "This is a league table, no rows of a stand.", csv("""
Place,Club,Played,Points
1,Gullhaven Terns,18,41
2,Saltmarsh Rovers,18,36
3,Ropewalk United,18,30
4,Quayside Herons,18,22
"""))

# ---------------------------------------------------------------- odd ones from life
stand("life", "plus-in-counts", "12+6 is twelve and six across the stair, eighteen in the row.", csv("""
Row,Seats (left + right of stair)
1,12+6
2,12+6
3,12+7
4,13+7
"""), S("", "assumed", "1..2: #18", "3: #19", "4: #20"),
      alts=[[S("left", "assumed", "1..3: #12", "4: #13"), S("right", "assumed", "1..2: #6", "3..4: #7")]])

stand("life", "two-times-nine", "2x9 is two benches of nine, eighteen in the row.", csv("""
Row,Benches x seats
1,2x9
2,2x9
3,2 x 10
4,2 × 10
"""), S("", "assumed", "1..2: #18", "3..4: #20"))

stand("life", "roman-rows", "Rows I to V in Roman numerals.", csv("""
Row,Seats
I,14
II,14
III,15
IV,15
V,16
"""), S("", "assumed", "I, II: #14", "III, IV: #15", "V: #16"))

stand("life", "row-three-a", "Rows 1, 2, 3, 3a, 4; 3a is a short row between.", csv("""
Row,Seats
1,1-16
2,1-16
3,1-16
3a,1-6
4,1-18
"""), S("", "assumed", "1..3: 1-16", "3a: 1-6", "4: 1-18"))

stand("life", "row-zero", "A row 0 of chairs on the grass before row 1; the note says it is in front.", csv("""
Row,Seats,
0,10,folding chairs on the grass in front of row 1
1,16,
2,16,
3,17,
"""), S("", "said", "0: #10", "1..2: #16", "3: #17"))

stand("life", "row-without-seats", "Row 3 has no seats, so nobody sits there; four rows are left.", csv("""
Row,Seats
1,16
2,16
3,0
4,18
5,18
"""), S("", "assumed", "1..2: #16", "4..5: #18"))

stand("life", "fenced-off", "Row 5 is fenced off and must not be used, so it does not exist for us.", csv("""
Row,Seats,Remark
1,1-14,
2,1-14,
3,1-15,
4,1-15,
5,1-16,FENCED OFF - nobody may sit here
"""), S("", "assumed", "1..2: 1-14", "3..4: 1-15"))

stand("life", "corrected-counts", "Corrected counts: 18 (was 20) is eighteen.", csv("""
Row,Seats
1,18 (was 20)
2,18
3,20 (counted twice)
4,20
"""), S("", "assumed", "1..2: #18", "3..4: #20"))

stand_ask("life", "about-eighteen", "Counts of which two are guesses.", "Rows 3 and 4 are only guessed: about 18, and 18-20?", csv("""
Row,How many seats
1,18
2,18
3,about 18
4,18-20?
"""))

stand_ask("life", "to-be-counted", "Row 4 has still to be counted.", "The seats of row 4 are not counted yet.", csv("""
Row,Seats
1,18
2,18
3,20
4,tbc
5,20
"""))

stand("life", "rows-with-prefix", "Rows R1 to R4; seats S1 to S14.", csv("""
Row,First,Last
R1,S1,S14
R2,S1,S14
R3,S1,S16
R4,S1,S16
"""), S("", "assumed", "R1, R2: 1-14", "R3, R4: 1-16"), alts=[[S("", "assumed", "1..2: 1-14", "3..4: 1-16")]])

stand("life", "seats-by-letters", "Seats are lettered A to L in every row, twelve; row 3 has A to N, fourteen.", csv("""
Row,Seats (letters)
1,A-L
2,A-L
3,A-N
"""), S("", "assumed", "1..2: #12", "3: #14"))

stand("life", "key-and-value", "One stand told in a few lines: 8 rows of 20 seats, row 1 at the field.", csv("""
Stand,Breakwater
Number of rows,8
Seats per row,20
Front row,row 1 (at the field)
Row depth,75 cm
"""), S("Breakwater", "said", "1..8: #20"))

stand("life", "same-as-above", "The same again told in words.", csv("""
Row,Seats
1,1-14
2,same
3,same as row 1
4,1-16
5,as above
"""), S("", "assumed", "1..3: 1-14", "4..5: 1-16"))

stand("life", "seats-before-row", "The columns stand the other way round: seats, then row.", csv("""
Seats,Row
14,1
14,2
15,3
16,4
"""), S("", "assumed", "1..2: #14", "3: #15", "4: #16"))

stand("life", "letter-o-for-zero", "Letters typed for digits: 1-2O is 1-20, l-18 is 1-18.", csv("""
Row,Seats,Count
1,l-18,18
2,1-18,18
3,1-2O,20
4,1-20,20
"""), S("", "assumed", "1..2: 1-18", "3..4: 1-20"))

stand("life", "same-line-twice", "Row 2 was typed twice, the same both times.", csv("""
Row,Seats
1,1-12
2,1-12
2,1-12
3,1-13
"""), S("", "assumed", "1..2: 1-12", "3: 1-13"))

stand("life", "letters-then-numbers", "Rows A and B on the ground, then 1 to 3 up the steps, in this order from the front.", csv("""
Row (from the front),Seats
A,10
B,10
1,14
2,14
3,15
"""), S("", "said", "A, B: #10", "1..2: #14", "3: #15"))

stand("life", "folding-chairs-added", "16 + 2 folding chairs makes eighteen in the row.", csv("""
Row,Seats
1,16 + 2 folding chairs
2,16 + 2 folding chairs
3,16
4,16
"""), S("", "assumed", "1..2: #18", "3..4: #16"))

stand("life", "all-but-row-four", "Sentences: six rows of 16 each, only row 4 has 14, and row 1 is at the rail in front.", csv("""
Quay benches
"6 rows, 16 seats each, only row 4 has 14"
Row 1 is in front (at the rail)
"""), S("Quay benches", "said", "1..3: #16", "4: #14", "5..6: #16"),
      alts=[[S("", "said", "1..3: #16", "4: #14", "5..6: #16")]])

stand("life", "who-measured-what", "Two people measured two sections, each with their own lines; names of people are no sections' names.", csv("""
Measured by,Section,Row,Seats
Mo,Kerb,1,12
Mo,Kerb,2,12
Runa,Slope,1,15
Runa,Slope,2,15
Mo,Slope,3,16
"""), S("Kerb", "assumed", "1..2: #12"), S("Slope", "assumed", "1..2: #15", "3: #16"))

stand("life", "wheelchair-places-and-seats", "Places for wheelchairs and seats counted apart in row 1; all fourteen are places, though one may count the ten seats alone.", csv("""
Row,Wheelchair places,Seats
1,4,10
2,0,16
3,0,16
"""), S("", "assumed", "1: #14", "2..3: #16"), alts=[[S("", "assumed", "1: #10", "2..3: #16")]])

stand("life", "seven-by-seat-gap-names", "Gaps told from both ends: from the aisle, seats 1 to 8, then 11 to 18 after the stair head.", csv("""
Row,Left of stair,Right of stair
1,1-8,11-18
2,1-8,11-18
3,1-9,10-18
"""), S("Left of stair", "assumed", "1..2: 1-8", "3: 1-9"), S("Right of stair", "assumed", "1..2: 11-18", "3: 10-18"),
      alts=[[S("", "assumed", "1..2: 1-8 11-18", "3: 1-18")]])

stand("life", "tally-marks", "Tally marks of slashes in fives; the counts stand beside them.", csv("""
Row,Tally,Seats
1,///// ///// //,12
2,///// ///// //,12
3,///// ///// ///,13
"""), S("", "assumed", "1..2: #12", "3: #13"))

stand("life", "row-names-of-ships", "Rows named after boats from the front, as the heading says.", csv("""
Row (front to back),Seats
Tern,9
Heron,10
Gannet,11
Puffin,12
"""), S("", "said", "Tern: #9", "Heron: #10", "Gannet: #11", "Puffin: #12"))
