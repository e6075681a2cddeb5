"""Untidy tables, with several things in them at once, as they arrive from crews in a hurry."""

from kit import *

# ---------------------------------------------------------------- lines with much around them
stand("life", "report-with-everything",
      "A report with who measured, two lines of headings, merged sections, gaps, totals and a legend below.",
      book(sheet("Report", """
GRANDSTAND REPORT - Coldbrook showground||||||
measured by:|Ottilie, Joris|||date:|@2026-05-16{dd/mm/yyyy}|
|weather:|dry|||||
||||||
Section|Row|Seat numbers||not there|depth|
||from|to||cm|
East|1|1|14||80|
|2|1|14|8|80|
|3|1|15||80|
|||||sum 42|
West|1|15|28||80|
|2|15|28||80|
|3|16|30|22, 23|80|
|||||sum 41|
||||||
row 1 is at the show ring||||||
""", merge=["A1:G1", "C5:D5", "A7:A9", "A11:A13"], bold=[1, 5, 6])),
      S("East", "said", "1: 1-14", "2: 1-7 9-14", "3: 1-15"), S("West", "said", "1..2: 15-28", "3: 16-21 24-30"))

stand("life", "usable-in-brackets", "Counts with what is usable in brackets; what is usable is what we have.", csv("""
Row,Seats (usable)
Row A,14
Row B,14 (13 usable)
Row C,15
Row D,15 (12 usable)
"""), S("", "assumed", "A: #14", "B: #13", "C: #15", "D: #12"))

stand("life", "headings-again-on-page-two",
      "A printed list whose headings and title come again on the second page.", csv("""
Seats of the Old Quarry stand;;page 1
Row;First;Last
1;1;20
2;1;20
3;1;20
Seats of the Old Quarry stand;;page 2
Row;First;Last
4;1;22
5;1;22
6;1;24
"""), S("Old Quarry stand", "assumed", "1..3: 1-20", "4..5: 1-22", "6: 1-24"),
      called=[[""], ["Old Quarry"], ["Seats of the Old Quarry stand"]])

stand("life", "plan-and-list-in-one-book",
      "One sheet draws a section, another lists the other section row by row; both have row 1 at the field.",
      book(sheet("Plan North", """
3|1|2|3|4|5|6|7
2|1|2|3|4|5|6|7
1|1|2|3|4|5|6|
|field||||||
""", merge=["B4:H4"]), sheet("List South", """
Row|From|To|
1|1|9|at the field
2|1|9|
3|1|10|
""")), S("North", "said", "1: 1-6", "2..3: 1-7"), S("South", "said", "1..2: 1-9", "3: 1-10"),
      called=[["Plan North", "List South"]])

stand("life", "numbers-like-a-snake",
      "Numbers run to the right in row 1, back in row 2, to the right again in row 3.", csv("""
Row,Leftmost,Rightmost
1,1,12
2,24,13
3,25,36
4,48,37
"""), S("", "assumed", "1: 1-12", "2: 13-24", "3: 25-36", "4: 37-48"))

stand("life", "seat-codes-first-last", "First and last seat with the row's letter before them.", csv("""
Row,First seat,Last seat
A,A1,A14
B,B1,B14
C,C1,C16
"""), S("", "assumed", "A..B: 1-14", "C: 1-16"))

stand("life", "headings-with-their-totals",
      "Section headings that give the section's total, which agrees with the rows.", csv("""
North (36 seats)
1 - 12 seats
2 - 12 seats
3 - 12 seats
South (21 seats)
1 - 10 seats
2 - 11 seats
"""), S("North", "assumed", "1..3: #12"), S("South", "assumed", "1: #10", "2: #11"))

stand("life", "ticks-for-comfort",
      "Crosses tell which rows have a roof, backs and arms; the seats are counted in their own column.", csv("""
Row,Seats,Roof,Backs,Arms,Heated
1,16,,x,,
2,16,,x,,
3,16,x,x,x,
4,17,x,x,x,x
5,17,x,x,x,x
"""), S("", "assumed", "1..3: #16", "4..5: #17"))

stand_ask("life", "adults-or-children",
          "Benches with how many adults or how many children fit; nobody says who will sit there.",
          "Will adults or children sit there? The benches hold 5 to 6 adults or 7 to 8 children each.", csv("""
Bench,Adults,Children
1,5,7
2,5,7
3,6,8
4,6,8
"""))

stand("life", "seats-and-a-wheelchair",
      "Twelve seats and one wheelchair place in row 1; one may count the place or only the seats.", csv("""
Row,What is there
1,12 seats + 1 wheelchair place
2,14 seats
3,14 seats
"""), S("", "assumed", "1: #13", "2..3: #14"), alts=[[S("", "assumed", "1: #12", "2..3: #14")]])

stand_ask("life", "blank-in-the-middle",
          "Row 3 has no seats written beside it, all others have.",
          "How many seats has row 3? Its cell is empty.", csv("""
Row,Seats,Step
1,16,wood
2,16,wood
3,,concrete
4,18,concrete
"""))

stand("life", "rows-one-of-six", "Rows called 1 of 6 to 6 of 6.", csv("""
Row,Seats
1 of 6,11
2 of 6,11
3 of 6,12
4 of 6,12
5 of 6,13
6 of 6,13
"""), S("", "assumed", "1..2: #11", "3..4: #12", "5..6: #13"),
      alts=[[S("", "assumed", "1 of 6, 2 of 6: #11", "3 of 6, 4 of 6: #12", "5 of 6, 6 of 6: #13")]])

stand("life", "plates-of-four-digits", "Number plates of four digits: row 1 has 1001 to 1018.", csv("""
Row,First plate,Last plate
1,1001,1018
2,2001,2018
3,3001,3020
"""), S("", "assumed", "1: 1001-1018", "2: 2001-2018", "3: 3001-3020"))

stand("life", "capacity-and-sales",
      "Capacity of each row and how many were sold on two days; the capacity is how many seats there are.", csv("""
Row,Capacity,Sold Fri,Sold Sat
A,18,12,18
B,18,9,17
C,20,4,20
"""), S("", "assumed", "A..B: #18", "C: #20"))

stand("life", "restricted-view", "All seats exist; some have a restricted view, which is told by number.", csv("""
Row,Seats,Restricted view
F,1-18,
G,1-18,1-2
H,1-20,"1-2, 19-20"
"""), S("", "assumed", "F..G: 1-18", "H: 1-20"))

stand("life", "not-row-six",
      "A sentence below says that row 6 must not be counted since the camera crew has it.", csv("""
Row,Seats
1,15
2,15
3,15
4,16
5,16
6,16
don't count row 6 - the camera crew needs it
"""), S("", "assumed", "1..3: #15", "4..5: #16"))

stand("life", "crosses-for-rows-that-exist",
      "A cross where a block has that row; how many seats its rows have stands in the heading.", csv("""
Row,Block A (14 seats per row),Block B (20 seats per row)
1,x,x
2,x,x
3,x,x
4,,x
"""), S("A", "assumed", "1..3: #14"), S("B", "assumed", "1..4: #20"), called=[["Block A", "Block B"]])

stand("life", "form-on-top-of-each-sheet",
      "A form on each of two sheets: section, who and when, then the rows.", book(sheet("Sheet1", """
Section:|Elder
Measured by:|Joris
Date:|@2026-05-03{dd/mm/yyyy}
|
Row|Seats
1|13
2|13
3|14
"""), sheet("Sheet2", """
Section:|Hazel
Measured by:|Edda
Date:|@2026-05-03{dd/mm/yyyy}
|
Row|Seats
1|10
2|10
""")), S("Elder", "assumed", "1..2: #13", "3: #14"), S("Hazel", "assumed", "1..2: #10"))

stand("life", "sections-down-rows-across",
      "Sections down, rows across, counts in the cells; C has three rows only.", csv("""
Section,Row 1,Row 2,Row 3,Row 4,Sum
A,10,10,11,11,42
B,14,14,15,15,58
C,10,10,11,,31
"""), S("A", "assumed", "1..2: #10", "3..4: #11"), S("B", "assumed", "1..2: #14", "3..4: #15"), S("C", "assumed",
      "1..2: #10", "3: #11"))

stand("life", "hidden-old-lines",
      "Hidden lines hold old counts of rows 2 and 3; what one sees holds, and the sum counts it.",
      book(sheet("Sheet1", """
Row|Seats
1|12
2|11
2|12
3|12
3|13
Sum|=B2+B4+B6~37
""", hide=[3, 5])), S("", "assumed", "1..2: #12", "3: #13"))

stand("life", "first-seat-and-count",
      "The first number of each row and how many seats follow one another from there.", csv("""
Row,Starts at,Seats
A,1,14
B,15,14
C,29,16
"""), S("", "assumed", "A: 1-14", "B: 15-28", "C: 29-44"))

stand("life", "seats-in-groups-of-four",
      "Rows made of tables of four seats: 4 x 4 is sixteen; the end column says so.", csv("""
Row;Made of;Makes
1;4 x 4;16
2;4 x 4;16
3;4 x 4 + 2;18
"""), S("", "assumed", "1..2: #16", "3: #18"))

stand("life", "side-table-of-cards",
      "Rows and ranges on the left; cards by colour on the right with numbers of their own.", book(sheet("Sheet1", """
Row|Seats||Colour|Cards|Spare
A|1-12||red|24|3
B|1-12||white|26|3
C|1-13||blue|13|2
D|1-13||||
""")), S("", "assumed", "A..B: 1-12", "C..D: 1-13"))

stand_ask("life", "two-first-rows",
          "Two lines are both called row 1, others follow; seats differ.",
          "Two rows are called 1, with 12 and with 15 seats: is there a section for each, or is one of them row 2?",
          csv("""
Row,Seats
1,12
1,15
3,15
4,16
"""))

stand_ask("life", "as-last-year",
          "Seats of row 4 are said to be as last year.",
          "How many seats has row 4? 'Same as last year' does not say.", csv("""
Row,Seats
1,1-18
2,1-18
3,1-18
4,same as last year
"""))

# ---------------------------------------------------------------- drawings in a hurry
stand("drawing", "struck-numbers-removed",
      "Struck numbers are seats that have been taken away, as is said below; front at the bottom.",
      book(sheet("Sheet1", """
C|1|2|3|4|5|6|7
B|1|2|~~3|~~4|5|6|7
A|1|2|3|4|5|6|7
|front||||||
struck out = taken away|||||||
""")), S("", "said", "A: 1-7", "B: 1-2 5-7", "C: 1-7"))

stand("drawing", "wheel-sign-in-plan",
      "The wheelchair sign stands for places that are kept for wheelchairs, as is said; the lawn is above.", csv("""
,,,lawn,,,,
Row,1,2,3,4,5,6,7
1,♿,♿,o,o,o,o,o
2,o,o,o,o,o,o,o
3,o,o,o,-,o,o,o
"o = seat, - = no seat, ♿ = wheelchair place (keep free)",,,,,,,
"""), S("", "said", "1..2: 1-7", "3: 1-3 5-7", reserved=["1-1", "1-2"]))

stand("drawing", "office-fills-with-names",
      "Saved by LibreOffice: filled cells are seats, row letters at both ends, STAGE merged below.",
      book(sheet("Sheet1", """
C|[b]|[b]|[b]|[b]|[b]|[b]|C
B|[b]|[b]|[b]|[b]|[b]|[b]|B
A||[b]|[b]|[b]|[b]||A
|STAGE||||||
""", merge=["B4:G4"]), office=True), S("", "said", "A: #4", "B..C: #6"))

stand("drawing", "counts-in-the-plan",
      "A plan of two blocks whose cells hold how many seats each bench has; the field is above.", csv("""
,FIELD,
,Block 1,Block 2
Row 1,6,8
Row 2,6,8
Row 3,7,9
"""), S("1", "said", "1..2: #6", "3: #7"), S("2", "said", "1..2: #8", "3: #9"), called=[["Block 1", "Block 2"]])

stand("drawing", "aisle-word-in-every-row",
      "Numbers left and right of the word aisle in every row; orchestra below row A.", csv("""
C,1,2,3,4,aisle,5,6,7,8
B,1,2,3,4,aisle,5,6,7,8
A,1,2,3,,aisle,,6,7,8
,,,,orchestra,,,,
"""), S("", "said", "A: 1-3 6-8", "B..C: 1-8"),
      alts=[[S("", "said", "A: 1-3", "B..C: 1-4"), S("", "said", "A: 6-8", "B..C: 5-8")]])

stand("drawing", "yellow-kept-for-judges",
      "Yellow numbers are kept for the judges, as the key says; they exist; row 1 next to the arena.",
      book(sheet("arena side", """
yellow: kept for the judges||||||||
|||||||||
row 4|1|2|3|4|5|6|7|8
row 3|1|2|3|4|5|6|7|8
row 2|1|2|3|4|5|6|7|8
row 1|1|2|3|[y]4|[y]5|6|7|8
|A R E N A||||||||
""", merge=["B7:I7"])), S("", "said", "1..4: 1-8", reserved=["1-4", "1-5"]), called=[["arena side"]])

stand_ask("drawing", "two-colours-no-key",
          "A plan in two colours without numbers, signs or a key.",
          "What do the green and the red cells mean: is there a seat on both?", book(sheet("Sheet1", """
[g]|[g]|[r]|[g]|[g]|[r]|[g]
[g]|[g]|[r]|[g]|[g]|[g]|[g]
[r]|[g]|[g]|[g]|[g]|[g]|[r]
""")))

# ---------------------------------------------------------------- languages in a hurry
stand("language", "de-reihe-siehe-oben", "Reihen 1 bis 3 mit den Nummern 1 bis 14, Reihe 4 mit 1 bis 12.", csv("""
Reihe;Plätze
1;Nr. 1-14
2;dito
3;dito
4;Nr. 1-12
"""), S("", "assumed", "1..3: 1-14", "4: 1-12"))

stand("language", "de-gesperrt", "Gesperrte Plätze gibt es für uns nicht; Reihe A ist die vorderste.", csv("""
Reihe;Plätze;gesperrt;Bemerkung
A;1-16;;vorderste Reihe
B;1-16;3-4;
C;1-16;;
D;1-18;1;
"""), S("", "said", "A: 1-16", "B: 1-2 5-16", "C: 1-16", "D: 2-18"))

stand("language", "fr-rangs-a-l-envers", "Le rang 1 est tout en haut ; le rang 4 touche la pelouse.", csv("""
Rang;Places;
1;22;tout en haut
2;22;
3;20;
4;20;au bord de la pelouse
"""), S("", "said", "4..3: #20", "2..1: #22"))

stand("language", "es-falta-entre-parentesis", "Asientos con el que falta entre paréntesis; fila A delante.", csv("""
Fila;Asientos;
A;1 al 14;delante
B;1 al 14 (falta el 6);
C;1 al 16 (faltan 8 y 9);
D;1 al 16;detrás
""", enc="cp1252"), S("", "said", "A: 1-14", "B: 1-5 7-14", "C: 1-7 10-16", "D: 1-16"))

stand("language", "nl-zie-rij-een", "Rij 2 en 3 als rij 1; rij 4 heeft er twee meer.", csv("""
Rij;Stoelen
1;1 t/m 16
2;zie rij 1
3;zie rij 1
4;1 t/m 18
"""), S("", "assumed", "1..3: 1-16", "4: 1-18"))

stand("language", "sv-ritning-scen",
      "En ritning med x; SCEN nederst, så rad 1 är längst fram; bord vid rad 3.", csv("""
3;x;x;bord;bord;x;x
2;x;x;x;x;x;x
1;x;x;x;x;x;x
;;;SCEN;;;
"""), S("", "said", "1..2: #6", "3: #4"))

stand("language", "fi-penkit", "Penkit edestä taakse ja niiden paikkaluku.", csv("""
Penkki (edestä taakse);Paikkoja
1;8
2;8
3;9
4;9
"""), S("", "said", "1..2: #8", "3..4: #9"), or_front="assumed")

stand("language", "pl-brakuje", "Rzędy A-C, miejsca od do, brakuje 7 w rzędzie B; rząd A przy boisku.", csv("""
Rząd;Od;Do;Brakuje;Uwagi
A;1;14;;przy boisku
B;1;14;7;
C;1;15;;pod ścianą
"""), S("", "said", "A: 1-14", "B: 1-6 8-14", "C: 1-15"))
