"""What is missing, dates that were ranges, other languages, files, no stands, and odd ones from life."""

from kit import *

# ---------------------------------------------------------------- what is missing
stand("missing", "missing-and-broken-apart", "Missing and broken seats in two columns; neither can be used.", csv("""
Row,Seats,Missing,Broken
1,1-18,,
2,1-18,4,9
3,1-18,,"17, 18"
4,1-18,1-2,
"""), S("", "assumed", "1: 1-18", "2: 1-3 5-8 10-18", "3: 1-16", "4: 3-18"))

stand("missing", "count-minus-gone",
      "Unnumbered places, how many are gone, and what remains by formula.", book(sheet("Sheet1", """
Row|Places|Gone|Remaining
1|16||=B2-C2~16
2|16|1|=B3-C3~15
3|16|2|=B4-C4~14
4|18||=B5-C5~18
""")), S("", "assumed", "1: #16", "2: #15", "3: #14", "4: #18"))

stand("missing", "list-of-gaps-below",
      "Rows with seats 1 to 20; below the table the seats that do not exist are listed.", csv("""
Row,Seats
A,1-20
B,1-20
C,1-20
D,1-20
,
Seats that do not exist:,
B 7,
C 7,
D 19 and 20,
"""), S("", "assumed", "A: 1-20", "B..C: 1-6 8-20", "D: 1-18"))

stand("missing", "every-row-the-same-gap", "A line above says that seat 13 does not exist in any row.", csv("""
There is no seat 13 anywhere (superstition!)
Row,First,Last
A,1,16
B,1,16
C,1,18
"""), S("", "assumed", "A..B: 1-12 14-16", "C: 1-12 14-18"))

stand("missing", "blocked-by-camera",
      "Column 'blocked by': a camera and a speaker take the seats named; a flag takes none.", csv("""
Row;Seats;Blocked by
1;1-14;
2;1-14;camera crew: 6, 7, 8
3;1-14;speaker: 1
4;1-14;nothing
5;1-15;flag pole behind the row
"""), S("", "assumed", "1: 1-14", "2: 1-5 9-14", "3: 2-14", "4: 1-14", "5: 1-15"))

stand_ask("missing", "some-missing-unsaid", "Row C has a remark that some seats are missing, without numbers.",
          "Which seats of row C are missing?", csv("""
Row,Seats,Remark
A,1-16,
B,1-16,
C,1-16,some seats missing
D,1-16,
"""))

stand("missing", "row-closed-off", "Row 3 is closed and has no seats for us; four rows are left.", csv("""
Row,Seats,Status
1,1-15,open
2,1-15,open
3,1-15,closed - do not use
4,1-16,open
5,1-16,open
"""), S("", "assumed", "1..2: 1-15", "4..5: 1-16"))

# ---------------------------------------------------------------- dates that were ranges
stand("dates", "jan-to-counts-mixed",
      "Ranges of which some became dates: 1-9 is 09-Jan, 1-11 is 11-Jan, 1-14 stayed; counts beside.", csv("""
Row,Seats,Number of seats
A,09-Jan,9
B,11-Jan,11
C,1-14,14
D,1-14,14
"""), S("", "assumed", "A: 1-9", "B: 1-11", "C..D: 1-14"))

stand("dates", "dates-two-sections-book",
      "The second section's ranges became dates: 8 Dec was 8-12; the counts agree.", book(sheet("Sheet1", """
Section|Row|Seats|Count
Bow|1|1-7|7
Bow|2|1-7|7
Stern|1|@2026-12-08{d-mmm}|5
Stern|2|@2026-12-08{d-mmm}|5
""")), S("Bow", "assumed", "1..2: 1-7"), S("Stern", "assumed", "1..2: 8-12"))

stand("dates", "missing-turned-date-text",
      "The missing seats 5-6 became 05.Jun; the column Rest says how many are left.", csv("""
Reihe;Plätze;fehlt;Rest
1;1-15;;15
2;1-15;05.Jun;13
3;1-15;;15
4;1-17;8;16
"""), S("", "assumed", "1: 1-15", "2: 1-4 7-15", "3: 1-15", "4: 1-7 9-17"))

stand_ask("dates", "date-alone-either-way",
          "Days such as 03/04/2026 stand for seats; day and month may be either way round, and no count helps.",
          "Seats of rows 2 and 3 became dates: were 3-4 and 5-9 typed, or 4-3 and 9-5, or something else?", csv("""
Row,Seats
1,1-18
2,03/04/2026
3,05/09/2026
4,1-18
"""))

stand("dates", "measured-on-and-by",
      "A column of days on which was measured and a column of times; seats have their own column.",
      book(sheet("log", """
Measured|At|Row|Seats
@2026-05-09{dd.mm.yyyy}|10:05|1|19
@2026-05-09{dd.mm.yyyy}|10:15|2|19
@2026-05-10{dd.mm.yyyy}|09:30|3|20
@2026-05-10{dd.mm.yyyy}|09:45|4|20
""")), S("", "assumed", "1..2: #19", "3..4: #20"), called=[["log"]])

# ---------------------------------------------------------------- languages
stand("language", "de-turnhalle-tribuene",
      "Tribüne der Turnhalle, Reihe 1 unten am Spielfeld; die Summe ist keine Reihe.", csv("""
Tribüne Turnhalle Nordwall;;
Reihe;Anzahl Plätze;Bemerkung
1;28;unten am Spielfeld
2;28;
3;28;
4;26;oben
Summe;110;
""", enc="cp1252", eol="\r\n"), S("Tribüne Turnhalle Nordwall", "said", "1..3: #28", "4: #26"),
      called=[[""], ["Tribüne"], ["Turnhalle Nordwall"], ["Tribüne Turnhalle"]])

stand("language", "de-kirchenbaenke", "Bänke links und rechts vom Mittelgang, die erste Bank am Altar.", csv("""
Bank;links;rechts
1 (am Altar);6;6
2;6;6
3;7;7
4;7;7
5;7;5
"""), S("links", "said", "1..2: #6", "3..5: #7"), S("rechts", "said", "1..2: #6", "3..4: #7", "5: #5"),
      alts=[[S("", "said", "1..2: #12", "3..4: #14", "5: #12")]])

stand("language", "de-block-sitze-von-bis",
      "Drei Blöcke mit Reihen als Buchstaben, Sitze von bis, Rollstuhlplätze bleiben frei.", csv("""
Block;Reihe;Sitze;Rollstuhlplätze (frei halten)
A;a;1 bis 10;
A;b;1 bis 10;
B;a;11 bis 20;11, 12
B;b;11 bis 20;
C;a;21 bis 28;
C;b;21 bis 30;
"""), S("A", "assumed", "a..b: 1-10"), S("B", "assumed", "a..b: 11-20", reserved=["B-a-11", "B-a-12"]),
      S("C", "assumed", "a: 21-28", "b: 21-30"))

stand("language", "fr-gymnase-gradins", "Gradins du gymnase : rang 1 en bas, cinq rangs, total hors table.", csv("""
Gradins du gymnase;;
Rang;Nombre de places;Observations
1;24;en bas, devant
2;24;
3;24;2 places cassées déjà retirées du compte
4;22;
5;22;tout en haut
TOTAL;116;
"""), S("Gradins du gymnase", "said", "1..3: #24", "4..5: #22"), called=[[""], ["Gradins"]])

stand("language", "fr-de-a-manque",
      "Places de... à... avec celles qui manquent ; rangée A près de la scène.", csv("""
Rangée;De;À;Manque
A (près de la scène);1;14;
B;1;14;6 et 7
C;1;16;
D;1;16;16
"""), S("", "said", "A: 1-14", "B: 1-5 8-14", "C: 1-16", "D: 1-15"))

stand("language", "fr-blocs-feuilles", "Une feuille par bloc, rangs et numéros.", book(sheet("Bloc Mer", """
Rang|Sièges
1|1 à 12
2|1 à 12
3|1 à 13
"""), sheet("Bloc Terre", """
Rang|Sièges
1|1 à 9
2|1 à 9
""")), S("Mer", "assumed", "1..2: 1-12", "3: 1-13"), S("Terre", "assumed", "1..2: 1-9"), called=[["Bloc Mer",
      "Bloc Terre"]])

stand("language", "es-teatro-pares-impares",
      "Teatro: impares a la izquierda, pares a la derecha; la fila 1 junto al escenario.", csv("""
Lado;Fila;Butacas;Nota
izquierda;1;1-13 impares;junto al escenario
izquierda;2;1-15 impares;
derecha;1;2-14 pares;junto al escenario
derecha;2;2-16 pares;
"""), S("izquierda", "said", "1: " + every(2, 1, 13), "2: " + every(2, 1, 15)),
      S("derecha", "said", "1: " + every(2, 2, 14), "2: " + every(2, 2, 16)))

stand("language", "es-gradas-total",
      "Tres gradas con el número de asientos de cada fila; los totales no son filas.", csv("""
Grada;Fila;Nº de asientos
Norte;1;20
Norte;2;20
Total Norte;;40
Sur;1;15
Sur;2;16
Sur;3;17
Total Sur;;48
TOTAL;;88
""", enc="cp1252"), S("Norte", "assumed", "1..2: #20"), S("Sur", "assumed", "1: #15", "2: #16", "3: #17"))

stand("language", "nl-tribune-sporthal",
      "Tribune van de sporthal: rij 1 is vooraan, stoel 5 ontbreekt in rij 3.", csv("""
Rij;Eerste stoel;Laatste stoel;Ontbreekt;Opmerking
1;1;21;;vooraan
2;1;21;;
3;1;21;5;
4;1;23;;achteraan
"""), S("", "said", "1..2: 1-21", "3: 1-4 6-21", "4: 1-23"))

stand("language", "nl-banken-aantal", "Banken in de kerk met aantal personen, twee zijden naast elkaar.", csv("""
Bank;Noordzijde;Zuidzijde
1;8;8
2;8;8
3;9;7
totaal;25;23
"""), S("Noordzijde", "assumed", "1..2: #8", "3: #9"), S("Zuidzijde", "assumed", "1..2: #8", "3: #7"),
      called=[["Noord", "Zuid"]])

stand("language", "sv-laktare", "Läktare med sektioner, rader och platser från och till.", csv("""
Sektion;Rad;Plats från;Plats till
A;1;1;18
A;2;1;18
A;3;1;19
B;1;1;12
B;2;1;12
"""), S("A", "assumed", "1..2: 1-18", "3: 1-19"), S("B", "assumed", "1..2: 1-12"))

stand("language", "nb-tribune-forrest", "Rader fra bakerst til forrest: rad 1 er forrest.", csv("""
Rad;Antall seter;Merknad
5;20;bakerst
4;20;
3;18;
2;18;
1;16;forrest
Sum;92;
"""), S("", "said", "1: #16", "2..3: #18", "4..5: #20"))

stand("language", "da-sektioner-bredt", "To sektioner ved siden af hinanden med sæder pr. række.", csv("""
Række;Nordsiden;Sydsiden
A;1-10;11-20
B;1-10;11-20
C;1-11;12-22
"""), S("Nordsiden", "assumed", "A..B: 1-10", "C: 1-11"), S("Sydsiden", "assumed", "A..B: 11-20", "C: 12-22"),
      called=[["Nord", "Syd"]])

stand("language", "pl-sektory", "Dwa sektory, rzędy 1-3, liczba miejsc; suma nie jest rzędem.", csv("""
Sektor;Rząd;Liczba miejsc
Niebieski;1;14
Niebieski;2;14
Niebieski;3;16
Zielony;1;10
Zielony;2;11
Razem;;65
"""), S("Niebieski", "assumed", "1..2: #14", "3: #16"), S("Zielony", "assumed", "1: #10", "2: #11"))

stand("language", "pl-rysunek-scena", "Rysunek z numerami miejsc; SCENA u góry, więc rząd A jest z przodu.", csv("""
;;;SCENA;;;
A;1;2;3;4;5;6
B;1;2;3;4;5;6
C;1;2;;;5;6
""", enc="cp1250"), S("", "said", "A..B: 1-6", "C: 1-2 5-6"))

stand("language", "pt-plateia", "Plateia com filas e cadeiras; faltam as cadeiras 3 e 4 na fila B.", csv("""
Fila;Cadeiras;Faltam
A;1 a 12;
B;1 a 12;3 e 4
C;1 a 14;
"""), S("", "assumed", "A: 1-12", "B: 1-2 5-12", "C: 1-14"))

# ---------------------------------------------------------------- how files are written
stand("file", "bom-semicolons-crlf-quoted",
      "A byte order mark, semicolons, quotes round texts only; three rows of two sections.", csv('''
"Section";"Row";"First";"Last"
"Gate";1;1;14
"Gate";2;1;14
"Wall";1;15;29
''', enc="utf-8-sig", eol="\r\n"), S("Gate", "assumed", "1..2: 1-14"), S("Wall", "assumed", "1: 15-29"))

stand("file", "utf16-commas", "UTF-16 with commas and ranges with en dashes.", csv("""
Row,Seats
1,1–14
2,1–14
3,1–15
""", enc="utf-16-le-bom"), S("", "assumed", "1..2: 1-14", "3: 1-15"))

stand("file", "tabs-with-empty-tail",
      "Tabs, and empty cells at the ends of lines; a page of empty lines behind.", csv("""
Row|Seats|||
A|12|||
B|12|||
C|13|||
||||
||||
||||
""", sep="\t"), S("", "assumed", "A..B: #12", "C: #13"))

stand("file", "spaces-for-columns", "Columns set with spaces, as typed in a message.", csv("""
Row   Seats
1     14
2     14
3     15
4     15
"""), S("", "assumed", "1..2: #14", "3..4: #15"))

stand("file", "latin1-section-names", "Section names with accents in ISO 8859-1; counts.", csv("""
Section;Row;Seats
Café;1;9
Café;2;9
Château;1;12
Château;2;12
""", enc="iso8859-1"), S("Café", "assumed", "1..2: #9"), S("Château", "assumed", "1..2: #12"))

stand("file", "quoted-ranges-with-inches",
      "Quoted cells with inch signs doubled; five rows of seats by number.", csv('''
"Row","Seats","Seat width"
"1","1-15","19"""
"2","1-15","19"""
"3","1-15","19"""
"4","1-16","18 1/2"""
"5","1-16","18 1/2"""
'''), S("", "assumed", "1..3: 1-15", "4..5: 1-16"))

# ---------------------------------------------------------------- no stand
stand_ask("nostand", "float-order",
          "The order of floats in a parade, no stand.",
          "This is the order of floats; where is the table of the stand?", csv("""
No,Float,Length (m),People on it
1,Fishwives,9,14
2,Brass,12,22
3,Lanterns,7,10
"""))
stand_ask("nostand", "lockers",
          "Rows of lockers with keys, no seats.", "These are lockers; where is the table of the stand?", csv("""
Row,Lockers,Keys missing
1,1-20,4
2,21-40,
3,41-60,47
"""))
stand_ask("nostand", "attendance-sheet",
          "An attendance list of rehearsals, no stand.",
          "This is who came to the rehearsals; where is the table of the stand?", book(sheet("Rehearsals", """
Name|7 May|14 May|21 May
Ottilie Brahe|x|x|
Joris Vael|x||x
Edda Lune||x|x
""")))
stand_ask("nostand", "sports-results",
          "Results of rowing races, of which Row is none.",
          "These are results of races; where is the table of the stand?", csv("""
Race,Lane 1,Lane 2,Lane 3
1,4:02.1,4:05.8,4:11.0
2,3:58.7,4:00.2,4:03.3
3,4:08.5,4:07.9,4:15.6
"""))
stand_ask("nostand", "measurements-of-the-tape",
          "Points on a lawn, no rows or seats.",
          "These are surveyed points; which are rows, and how many seats are in them?", csv("""
point,x,y,z
p1,0.00,0.00,10.21
p2,8.40,0.02,10.22
p3,8.41,6.10,12.60
p4,0.01,6.08,12.61
"""))

# ---------------------------------------------------------------- odd ones from life
stand("life", "message-pasted", "A message in sentences, one a row; row A by the bandstand, i.e. in front.", csv("""
Hi! counted the park benches for you:
Row A (by the bandstand): 14 seats
Row B: 14 seats
Row C: 15 seats
Row D (at the hedge): 12 seats
Greetings Ottilie
"""), S("", "said", "A..B: #14", "C: #15", "D: #12"), or_front="assumed", called=[["park benches"]])

stand("life", "ditto-first-last", "Ditto marks for the row above.", csv('''
Row,First,Last
1,1,16
2,"""",""""
3,1,18
4,"""",""""
'''), S("", "assumed", "1..2: 1-16", "3..4: 1-18"))

stand("life", "left-plus-right-total",
      "Left, right, both: the last column adds up the two sides of the gangway.", csv("""
Row,L,R,Both
A,8,8,16
B,8,8,16
C,9,8,17
D,9,9,18
Total,34,33,67
"""), S("L", "assumed", "A..B: #8", "C..D: #9"), S("R", "assumed", "A..C: #8", "D: #9"), called=[["Left", "Right"]],
      alts=[[S("", "assumed", "A..B: #16", "C: #17", "D: #18")]])

stand("life", "recounted-column", "First count and recount; the recount holds where there is one.", csv("""
Row,Count,Recount
1,16,
2,17,16
3,16,
4,18,18
"""), S("", "assumed", "1..3: #16", "4: #18"))

stand_ask("life", "two-counters-disagree", "Two people counted, and they differ in row 3.",
          "Row 3 has 17 seats for Edda and 19 for Joris: which is right?", csv("""
Row,Edda,Joris
1,16,16
2,16,16
3,17,19
4,18,18
"""))

stand("life", "one-long-line", "Everything in one line: rows and their seats after one another.", csv("""
Row,1,2,3,4,5,6
Seats,14,14,15,15,16,16
"""), S("", "assumed", "1..2: #14", "3..4: #15", "5..6: #16"))

stand("life", "spans-in-words", "Numbers in words: twelve seats, fourteen seats.", csv("""
Row,Seats
first,twelve
second,twelve
third,fourteen
"""), S("", "assumed", "first, second: #12", "third: #14"), alts=[[S("", "assumed", "1..2: #12", "3: #14")]])

stand("life", "seats-of-two-kinds", "Bench places and folding chairs a row in two columns, to be added.", csv("""
Row,Bench places,Folding chairs,All
1,10,4,14
2,10,4,14
3,12,0,12
"""), S("", "assumed", "1..2: #14", "3: #12"))

stand("life", "row-name-with-word-pew",
      "Pews by name of their donor, from the front as the heading says; a count each.", csv("""
Pew (front first),People
Harkness,6
Olde,6
Vane,7
unnamed,7
"""), S("", "said", "Harkness, Olde: #6", "Vane, unnamed: #7"))

stand("life", "table-with-explanations-between", "Explanations stand between the rows.", csv("""
Row,Seats
1,1-16
2,1-16
"from here on it is steeper, and the bench is newer",
3,1-17
4,1-17
"mind the drain, 12 cm deep",
5,1-18
"""), S("", "assumed", "1..2: 1-16", "3..4: 1-17", "5: 1-18"))

stand("life", "row-names-with-tier",
      "Row names like T1-R1 for tier and row; seats by number; the tiers follow one another upwards.", csv("""
Row,First,Last
T1-R1,1,14
T1-R2,1,14
T2-R1,1,16
T2-R2,1,16
"""), S("", "assumed", "T1-R1, T1-R2: 1-14", "T2-R1, T2-R2: 1-16"),
      alts=[[S(a, "assumed", "1..2: 1-14"), S(b, "assumed", "1..2: 1-16")] for a, b in (("T1", "T2"), ("1", "2"))]
      + [[S(a, "assumed", "R1, R2: 1-14"), S(b, "assumed", "R1, R2: 1-16")] for a, b in (("T1", "T2"), ("1", "2"))])

stand("life", "half-rows-either-side",
      "Rows whose two halves stand in lines of their own, 3L and 3R, by the side of the stair.", csv("""
Row,Seats
1L,1-8
1R,9-16
2L,1-8
2R,9-16
3L,1-9
3R,10-18
"""), S("L", "assumed", "1..2: 1-8", "3: 1-9"), S("R", "assumed", "1..2: 9-16", "3: 10-18"),
      alts=[[S("", "assumed", "1..2: 1-16", "3: 1-18")]], called=[["Left", "Right"]])

stand_ask("life", "guess-for-the-whole",
          "A sentence that guesses the whole stand.",
          "How many seats has each row? About 300 in all is only a guess.", csv("""
Stand at the old quarry
I think about 10 or 11 rows
roughly 300 people fit
"""))

stand("life", "phone-number-below", "A phone number and a sum below the table are no rows.", csv("""
Row,Seats
1,13
2,13
3,14
Sum,40
Questions?,555 0142 (Joris)
"""), S("", "assumed", "1..2: #13", "3: #14"))

stand("life", "seats-with-row-letters-wide",
      "Rows across as columns, first seat and last seat below; row A at the net.", csv("""
,A (at the net),B,C,D
first seat,1,1,1,2
last seat,18,18,20,21
"""), S("", "said", "A..B: 1-18", "C: 1-20", "D: 2-21"))

stand("life", "typing-errors-in-headings", "Headings with typing errors; the rows are clear.", csv("""
Rwo,Frist seat,Lsat seat
1,1,15
2,1,15
3,1,16
"""), S("", "assumed", "1..2: 1-15", "3: 1-16"))

stand("life", "photo-numbers-beside",
      "Every row has the number of the photo that was taken of it, which is no seat.", csv("""
Photo,Row,Seats
1041,A,15
1042,B,15
1043,C,16
1044,D,16
"""), S("", "assumed", "A..B: #15", "C..D: #16"))

stand("life", "added-later-at-the-end", "Row 2 was forgotten and added at the end, as the note says.", csv("""
Row,Seats,Note
1,14,
3,15,
4,16,
2,14,"forgot this one, sorry"
"""), S("", "assumed", "1..2: #14", "3: #15", "4: #16"))

stand("life", "minus-in-counts", "20-2 with the words two broken: eighteen are left, as the last column says.", csv("""
Row,Seats,Left
1,20,20
2,20-2 (two broken),18
3,20,20
4,20-1 (one broken),19
"""), S("", "assumed", "1: #20", "2: #18", "3: #20", "4: #19"))

stand_ask("life", "minus-without-words",
          "20-2 and 20-1 between plain counts, and nothing says whether that is a subtraction or numbers of seats.",
          "Is 20-2 in row 2 eighteen seats, or the seats from 20 down to 2?", csv("""
Row,Seats
1,20
2,20-2
3,20
4,20-1
"""))
