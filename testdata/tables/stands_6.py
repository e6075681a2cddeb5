"""More of the same kinds, with what misleads: words that are names, numbers beside the seats, ways to write a range."""

from kit import *

# ---------------------------------------------------------------- words that mislead
stand("back", "row-from-the-back", "The heading counts rows from the back: row 1 is the last one, row 5 is in front.", csv("""
Row (from the back),Seats
1,20
2,20
3,19
4,18
5,18
"""), S("", "said", "5..4: #18", "3: #19", "2..1: #20"))

stand("back", "wall-distance", "The distance from the back wall grows, so row 4 is in front.", csv("""
Row,Seats,From back wall (m)
1,15,0.8
2,15,1.6
3,15,2.4
4,14,3.2
"""), S("", "said", "4: #14", "3..1: #15"))

stand("back", "below-the-walkway", "Levels against the walkway, from 80 cm below to 80 above: row A is lowest and in front.", csv("""
Row,Seats,Level against walkway (cm)
A,1-14,-80
B,1-14,-40
C,1-14,0
D,1-16,40
E,1-16,80
"""), S("", "said", "A..C: 1-14", "D..E: 1-16"))

stand("back", "not-the-front", "The note warns that row 1 is not in front but at the very back, so row 4 is in front.", csv("""
Row,Seats,Note
1,22,careful: NOT the front row - this is the very back
2,22,
3,20,
4,20,
"""), S("", "said", "4..3: #20", "2..1: #22"))

stand("back", "in-front-of-the-kiosk", "The stand lies in front of the kiosk, which does not say which row is in front.", csv("""
Small stand in front of the kiosk,
Row,Seats
1,10
2,10
3,11
"""), S("Small stand", "assumed", "1..2: #10", "3: #11"), alts=[[S("", "assumed", "1..2: #10", "3: #11")],
      [S("Small stand in front of the kiosk", "assumed", "1..2: #10", "3: #11")]])

stand("back", "front-street-back-lane", "Two stands named after Front Street and Back Lane; names of streets say nothing about rows.", csv("""
Stand,Row,Seats
Front Street,1,12
Front Street,2,12
Front Street,3,13
Back Lane,1,9
Back Lane,2,9
Back Lane,3,10
"""), S("Front Street", "assumed", "1..2: #12", "3: #13"), S("Back Lane", "assumed", "1..2: #9", "3: #10"))

stand("back", "stage-left-stage-right", "Two sections called Stage left and Stage right; row A presumably in front in both.", csv("""
Section,Row,Seats
Stage left,A,1-8
Stage left,B,1-8
Stage right,A,9-16
Stage right,B,9-17
"""), S("Stage left", "assumed", "A..B: 1-8"), S("Stage right", "assumed", "A: 9-16", "B: 9-17"))

stand("back", "camera-in-the-title", "The title speaks of the camera day; it says nothing about which row is in front.", csv("""
Seats for the camera day - 14 March,
Row,Seats
A,1-15
B,1-15
C,1-16
"""), S("", "assumed", "A..B: 1-15", "C: 1-16"))

stand("back", "up-and-down-words", "Words up in the sky and by the grass at the two ends: row 5 is at the grass and in front.", csv("""
Row,Seats,Where
1,20,highest
2,20,
3,19,
4,18,
5,18,right at the grass
"""), S("", "said", "5..4: #18", "3: #19", "2..1: #20"))

stand("contradict", "heading-against-word", "The heading says rows count from the field, a word beside row 4 calls it front.", csv("""
Row no. from the field,Seats,
1,16,
2,16,
3,17,
4,17,front!
"""), S("", "unsure", "1..2: #16", "3..4: #17"), alts=[[S("", "unsure", "4..3: #17", "2..1: #16")]])

stand("contradict", "stage-on-both-ends", "A drawing with STAGE above and below.", csv("""
,,STAGE,,,
1,x,x,x,x,x
2,x,x,x,x,x
3,x,x,x,x,x
,,STAGE,,,
"""), S("", "unsure", "1..3: #5"), alts=[[S("", "unsure", "3..1: #5")]])

stand("contradict", "distance-against-height", "Row 1 is nearest to the field by distance and highest by height.", csv("""
Row,Seats,To the field (m),Height (m)
1,14,5.0,1.2
2,14,5.8,0.8
3,14,6.6,0.4
4,14,7.4,0.0
"""), S("", "unsure", "1..4: #14"), alts=[[S("", "unsure", "4..1: #14")]])

# ---------------------------------------------------------------- numbers beside the seats
stand("count", "leaders-and-cards", "Rows with seats, a leader's name, and cards handed out, which are not seats.", csv("""
Row,Leader,Seats,Cards packed
1,Tilda,16,20
2,Osk,16,20
3,Runa,17,20
4,Mo,17,20
"""), S("", "assumed", "1..2: #16", "3..4: #17"))

stand("count", "taken-and-free", "Seats, and how many of them were taken and free at the last game; all seats exist.", csv("""
Row,Taken,Free,Seats
A,10,4,14
B,12,2,14
C,3,12,15
"""), S("", "assumed", "A..B: #14", "C: #15"))

stand("count", "sign-and-counted", "What the sign says and what was counted; what was counted holds.", csv("""
Row,On the sign,Counted by us
1,20,18
2,20,18
3,20,20
4,22,21
"""), S("", "assumed", "1..2: #18", "3: #20", "4: #21"))

stand("count", "letters-across", "Row letters across and the seats below.", csv("""
Row,A,B,C,D,E
Seats,12,12,13,13,14
"""), S("", "assumed", "A..B: #12", "C..D: #13", "E: #14"))

stand("count", "leading-zeros", "Row names with leading zeros.", csv("""
Row,Seats
01,14
02,14
03,15
04,15
"""), S("", "assumed", "01, 02: #14", "03, 04: #15"), alts=[[S("", "assumed", "1..2: #14", "3..4: #15")]])

stand("count", "running-total", "Seats a row with a running total beside them, which is no number of seats.", csv("""
Row,Seats,Running total
1,14,14
2,14,28
3,15,43
4,15,58
5,16,74
"""), S("", "assumed", "1..2: #14", "3..4: #15", "5: #16"))

stand("count", "three-people-counted", "Counted by three people; the last column is what they agreed on.", csv("""
Row,Tilda,Osk,Mo,Agreed
1,16,16,16,16
2,16,15,16,16
3,17,17,17,17
"""), S("", "assumed", "1..2: #16", "3: #17"))

stand("count", "b-before-a", "Section B was measured before A.", csv("""
Section,Row,Seats
B,1,12
B,2,13
A,1,9
A,2,10
"""), S("B", "assumed", "1: #12", "2: #13"), S("A", "assumed", "1: #9", "2: #10"))

stand("count", "unnamed-first-column", "The first column has no heading; its letters are rows.", csv("""
,seats
A,14
B,14
C,15
D,15
"""), S("", "assumed", "A..B: #14", "C..D: #15"))

# ---------------------------------------------------------------- ways to write a range
stand("range", "ways-to-leave-out", "Many words for a seat that is left out.", csv("""
Row,Seats
1,1-18 w/o 7
2,1-18 minus 7
3,1-18 (7 gone)
4,1-18 excluding 13
5,1-18 skip 13
6,"1-18, 4 missing"
"""), S("", "assumed", "1..3: 1-6 8-18", "4..5: 1-12 14-18", "6: 1-3 5-18"))

stand("range", "count-then-range", "The count, and in brackets the numbers, which agree.", csv("""
Row,Seats
1,18 (1-18)
2,"17 (1-18, no 7)"
3,20 (1-20)
"""), S("", "assumed", "1: 1-18", "2: 1-6 8-18", "3: 1-20"))

stand("range", "words-before-numbers", "No., Nos., Seats, # before the numbers.", csv("""
Row,Which
1,Seats 1-14
2,No. 1-14
3,Nos. 1–15
4,#1-#15
5,nr 1 - nr 16
"""), S("", "assumed", "1..2: 1-14", "3..4: 1-15", "5: 1-16"))

stand("range", "aisle-word-between", "The word aisle between two ranges.", csv("""
Row,Seats from left to right
1,1-9 / aisle / 10-18
2,1-9 / aisle / 10-18
3,1-8 / stair / 11-18
"""), S("", "assumed", "1..2: 1-18", "3: 1-8 11-18"))

stand("range", "every-other", "Every other seat exists in rows 1 and 2.", csv("""
Row,Seats
1,1-19 every other
2,1-19 every other
3,1-20
"""), S("", "assumed", "1..2: " + every(2, 1, 19), "3: 1-20"))

stand("range", "brackets-and-stops", "Ranges in brackets, with full stops after them.", csv("""
Row,Seats
A.,[1-12].
B.,[1-12].
C.,(1-14).
"""), S("", "assumed", "A..B: 1-12", "C: 1-14"))

stand("range", "apostrophes-kept", "Apostrophes that a spreadsheet uses for texts are left in the file.", csv("""
Row,Seats
'1,'1-18
'2,'1-18
'3,'1-20
"""), S("", "assumed", "1..2: 1-18", "3: 1-20"))

stand("range", "equals-sign-texts", "Texts written with an equals sign so that no spreadsheet takes them for dates.", csv('''
Row,Seats
1,"=""1-12"""
2,"=""1-12"""
3,"=""1-14"""
'''), S("", "assumed", "1..2: 1-12", "3: 1-14"))

stand("range", "padded-numbers", "Seat numbers padded with zeros.", csv("""
Row,Seats
01,001-018
02,001-018
03,001-020
"""), S("", "assumed", "01, 02: 1-18", "03: 1-20"), alts=[[S("", "assumed", "1..2: 1-18", "3: 1-20")]])

stand("range", "two-blocks-one-row-each", "Odd on one side of the stair and even on the other, all of one row.", csv("""
Row,Left of stair,Right of stair
1,"11, 9, 7, 5, 3, 1","2, 4, 6, 8, 10, 12"
2,"11, 9, 7, 5, 3, 1","2, 4, 6, 8, 10"
"""), S("Left of stair", "assumed", "1..2: " + every(2, 1, 11)),
      S("Right of stair", "assumed", "1: " + every(2, 2, 12), "2: " + every(2, 2, 10)),
      alts=[[S("", "assumed", "1: 1-12", "2: 1-11")]])

stand("dates", "times-of-day", "1:18 was taken for a time of day; the counts show that seats 1 to 18 are meant.", csv("""
Row,Seats,Count
1,01:18,18
2,01:18,18
3,01:20,20
"""), S("", "assumed", "1..2: 1-18", "3: 1-20"))

stand("dates", "dates-with-full-years", "Missing seats that became dates with a year: 7-9, 3-4; what is left stands beside them.", csv("""
Row;From;To;Missing;Left
1;1;16;07.09.2026;13
2;1;16;;16
3;1;16;03.04.2026;14
4;1;16;12;15
"""), S("", "assumed", "1: 1-6 10-16", "2: 1-16", "3: 1-2 5-16", "4: 1-11 13-16"))

stand("dates", "dates-wide", "Sections across whose ranges became dates in part: 1-8 is 1 Aug, 1-9 is 1 Sep.", book(sheet("Sheet1", """
Row|Left|Right
1|@2026-08-01{d-mmm}|9-16
2|@2026-08-01{d-mmm}|9-16
3|@2026-09-01{d-mmm}|10-18
""")), S("Left", "assumed", "1..2: 1-8", "3: 1-9"), S("Right", "assumed", "1..2: 9-16", "3: 10-18"))

# ---------------------------------------------------------------- first and last, several rows in a line
stand("firstlast", "lowest-highest", "Lowest and highest seat number.", csv("""
Tier;Lowest no.;Highest no.
1;1;24
2;1;24
3;1;26
"""), S("", "assumed", "1..2: 1-24", "3: 1-26"))

stand("firstlast", "last-before-first", "The last seat stands before the first.", csv("""
Row,Last,First
A,14,1
B,14,1
C,16,1
"""), S("", "assumed", "A..B: 1-14", "C: 1-16"))

stand("firstlast", "first-seat-and-number", "First seat and how many follow on: row 2 begins with 17.", csv("""
Row,First seat,Number of seats
1,1,16
2,17,16
3,33,18
"""), S("", "assumed", "1: 1-16", "2: 17-32", "3: 33-50"))

stand("firstlast", "last-seat-alone", "Only the last seat number; rows begin with 1, as the title says.", csv("""
All rows begin with seat 1,
Row,Last seat
1,15
2,15
3,16
4,16
"""), S("", "assumed", "1..2: 1-15", "3..4: 1-16"))

stand("firstlast", "hyphen-column", "From, a column with a dash, and to.", csv("""
Row,Seats,,
A,1,-,12
B,1,-,12
C,1,-,13
"""), S("", "assumed", "A..B: 1-12", "C: 1-13"))

stand("firstlast", "two-pieces-a-row", "Two pieces a row, each from and to; the stair lies between.", csv("""
Row,from,to,from,to
1,1,8,11,18
2,1,8,11,18
3,1,9,10,18
"""), S("", "assumed", "1..2: 1-8 11-18", "3: 1-18"),
      alts=[[S("", "assumed", "1..2: 1-8", "3: 1-9"), S("", "assumed", "1..2: 11-18", "3: 10-18")]])

stand("rowrange", "each-with-exceptions", "Ranges of rows with an exception in a line of its own.", csv("""
Rows,Seats
1-4,1-16
5,1-12
6-8,1-16
"""), S("", "assumed", "1..4: 1-16", "5: 1-12", "6..8: 1-16"))

stand("rowrange", "from-row-to-row", "From row, to row, from seat, to seat, a section a line.", csv("""
Section,From row,To row,From seat,To seat
Mole,1,5,1,14
Kerb,1,3,15,24
"""), S("Mole", "assumed", "1..5: 1-14"), S("Kerb", "assumed", "1..3: 15-24"))

stand("rowrange", "falling-row-range", "Rows 8-5 behind, rows 4-1 before them, as the words say.", csv("""
Rows,Seats each,Where
8-5,20,behind
4-1,18,in front
"""), S("", "said", "1..4: #18", "5..8: #20"))

stand("rowrange", "all-rows", "All six rows have the same seats.", csv("""
Rows,Seats
all (1-6),1-18
"""), S("", "assumed", "1..6: 1-18"))

stand_ask("rowrange", "overlapping-ranges", "Ranges of rows of which row 5 is in two.", "Row 5 is in both lines, with 18 and with 20 seats: which is right?", csv("""
Rows,Seats each
1-5,18
5-8,20
"""))

stand_ask("rowrange", "rest-of-the-rows", "Rows 1 to 3 and then 'all the others', but not how many there are.", "How many rows are there behind row 3?", csv("""
Rows,Seats each
1-3,16
all the others,18
"""))

stand("section", "box-within-a-section", "A section named in words inside the row cell.", csv("""
Where,Seats
Left block row 1,8
Left block row 2,8
Right block row 1,9
Right block row 2,10
"""), S("Left block", "assumed", "1..2: #8"), S("Right block", "assumed", "1: #9", "2: #10"),
      alts=[[S("Left", "assumed", "1..2: #8"), S("Right", "assumed", "1: #9", "2: #10")]])

stand("section", "three-headings-and-notes", "Three sections under headings with a note under each heading; in the third the note says that row 1 is at the back.", csv("""
Section 1,
Note: bench boards are wet,
Row,Seats
1,9
2,9
,
Section 2,
Note: none,
Row,Seats
1,12
2,13
,
Section 3,
Note: row 1 is at the back here!,
Row,Seats
1,11
2,10
"""), S("1", "assumed", "1..2: #9"), S("2", "assumed", "1: #12", "2: #13"), S("3", "said", "2: #10", "1: #11"),
      alts=[[S("Section 1", "assumed", "1..2: #9"), S("Section 2", "assumed", "1: #12", "2: #13"),
             S("Section 3", "said", "2: #10", "1: #11")]])
