"""A line a row: counts, ranges, first and last seats, several rows in a line."""

from kit import *

# ---------------------------------------------------------------- counts
stand("count", "mole-stand-plain", "Ten rows of one stand, row 1 presumably in front, with that many seats each.", csv("""
Row,Seats
1,18
2,18
3,18
4,20
5,20
6,20
7,22
8,22
9,22
10,24
"""), S("", "assumed", "1..3: #18", "4..6: #20", "7..9: #22", "10: #24"))

stand("count", "rows-how-many", "Rows A to F, A presumably in front, the number of seats beside each.", csv("""
row,how many seats
A,12
B,12
C,14
D,14
E,15
F,16
"""), S("", "assumed", "A..B: #12", "C..D: #14", "E: #15", "F: #16"))

stand("count", "harbour-terrace-titled", "Harbour Terrace, seven rows, row 1 at the touchline so in front; the total is no row.", csv("""
HARBOUR TERRACE - measured Sat 14 March by Tilda and Osk
Row 1 is at the touchline.
,
Row,No. of seats
1,21
2,21
3,23
4,23
5,25
6,25
7,27
Total,165
"""), S("Harbour Terrace", "said", "1..2: #21", "3..4: #23", "5..6: #25", "7: #27"),
      alts=[[S("", "said", "1..2: #21", "3..4: #23", "5..6: #25", "7: #27")]])

stand("count", "tide-park-east-west", "Two stands, East and West, with counts a row; subtotals and total are no rows.", csv("""
Stand,Row,Seats
East,1,14
East,2,14
East,3,16
East total,,44
West,1,12
West,2,13
West,3,14
West total,,39
All,,83
"""), S("East", "assumed", "1..2: #14", "3: #16"), S("West", "assumed", "1: #12", "2: #13", "3: #14"))

stand("count", "lantern-bank-depths", "Six rows with seat counts and measures in inches; row 1 presumably in front.", csv("""
Row,Seats,Seat width (in),Row depth (in),Step up (in)
1,16,18,30,0
2,16,18,30,8
3,16,18,30,8
4,17,18,30,8
5,17,18,30,8
6,18,17.5,32,10
"""), S("", "assumed", "1..3: #16", "4..5: #17", "6: #18"), alts=[[S("", "said", "1..3: #16", "4..5: #17", "6: #18")]])

stand("count", "ropewalk-book", "Five rows with counts on a workbook's only sheet; the sum below is no row.", book(sheet("Sheet1", """
Row|Seats|Remarks
1|20|
2|20|
3|22|rail at left end
4|22|
5|24|against the wall
|=SUM(B2:B6)~108|
""")), S("", "said", "1..2: #20", "3..4: #22", "5: #24"), alts=[[S("", "assumed", "1..2: #20", "3..4: #22", "5: #24")]])

stand("count", "capacity-column", "Rows 1 to 8 with what each holds; all bench rows, seats not numbered.", csv("""
Bench,Capacity,Pitch
1,11,78 cm
2,11,78 cm
3,11,78 cm
4,12,78 cm
5,12,78 cm
6,12,78 cm
7,13,80 cm
8,13,80 cm
"""), S("", "assumed", "1..3: #11", "4..6: #12", "7..8: #13"))

stand("count", "no-headings-two-columns", "No headings: rows 1 to 6 and how many seats in each.", csv("""
Row 1,18
Row 2,18
Row 3,18
Row 4,16
Row 5,16
Row 6,16
"""), S("", "assumed", "1..3: #18", "4..6: #16"))

stand("count", "count-with-words", "Counts written with the word seats; row 1 nearest the field is said in the first cell.", csv("""
Row,What is there
1 (nearest field),18 seats
2,18 seats
3,19 seats
4,19 seats
5 (under the roof),20 seats
"""), S("", "said", "1..2: #18", "3..4: #19", "5: #20"))

stand("count", "ordinals-counts", "First to fifth row with counts; the first row presumably in front.", csv("""
Which row,Seats
1st,9
2nd,10
3rd,11
4th,12
5th,13
"""), S("", "assumed", "1: #9", "2: #10", "3: #11", "4: #12", "5: #13"))

stand("count", "letters-without-i-o", "Rows A to Q without I and O, ten to fourteen seats each; A presumably in front.", csv("""
Row,Seats
A,10
B,10
C,10
D,10
E,11
F,11
G,11
H,11
J,12
K,12
L,12
M,12
N,13
P,13
Q,14
"""), S("", "assumed", "A..D: #10", "E..H: #11", "J..M: #12", "N, P: #13", "Q: #14"))

stand("count", "double-letters", "Rows Y, Z, AA, BB, CC in that order, presumably from the front.", csv("""
Row;Seats
Y;22
Z;22
AA;24
BB;24
CC;26
"""), S("", "assumed", "Y, Z: #22", "AA, BB: #24", "CC: #26"))

stand("count", "letters-past-z", "Rows X, Y, Z, AA, AB, AC, presumably from the front.", csv("""
ROW,SEATS,SURVEYED BY
X,15,Mo
Y,15,Mo
Z,15,Mo
AA,16,Bryn
AB,16,Bryn
AC,16,Bryn
"""), S("", "assumed", "X, Y, Z: #15", "AA, AB, AC: #16"))

stand("count", "left-centre-right-counts", "One stand in three sections, a column each: Left, Centre, Right, seats a row.", csv("""
Row,Left,Centre,Right
1,8,12,8
2,8,12,8
3,9,13,9
4,9,13,9
"""), S("Left", "assumed", "1..2: #8", "3..4: #9"), S("Centre", "assumed", "1..2: #12", "3..4: #13"),
      S("Right", "assumed", "1..2: #8", "3..4: #9"))

stand("count", "three-columns-total", "Sections A, B, C across with a total column and a total line, which are neither.", csv("""
Row,A,B,C,Total
1,10,14,10,34
2,10,14,10,34
3,11,15,11,37
4,11,15,11,37
5,12,,12,24
Total,54,58,54,166
"""), S("A", "assumed", "1..2: #10", "3..4: #11", "5: #12"), S("B", "assumed", "1..2: #14", "3..4: #15"),
      S("C", "assumed", "1..2: #10", "3..4: #11", "5: #12"))

stand("count", "fair-benches-blank-lines", "Benches with blank lines between them and a walkway; eight rows, front to back.", csv("""
bench,people it holds
,
front,7
second,7
third,7
,
--- walkway ---,
,
fourth,8
fifth,8
back,9
"""), S("", "said", "front: #7", "second: #7", "third: #7", "fourth: #8", "fifth: #8", "back: #9"))

stand("count", "seats-two-tiers", "Two tiers of one stand, each numbered from 1: the lower one is a section, the upper another.", csv("""
Tier,Row,Seats
Lower,1,26
Lower,2,26
Lower,3,27
Upper,1,30
Upper,2,30
Upper,3,31
"""), S("Lower", "assumed", "1..2: #26", "3: #27"), S("Upper", "assumed", "1..2: #30", "3: #31"))

stand("count", "numbers-as-text", "Five rows; numbers kept as text by the spreadsheet, still numbers.", book(sheet("Rows", """
Row|Seats
'1|'15
'2|'15
'3|'16
'4|'16
'5|'17
""")), S("", "assumed", "1..2: #15", "3..4: #16", "5: #17"), alts=[[S("Rows", "assumed", "1..2: #15", "3..4: #16", "5: #17")]])

stand("count", "rows-continue-101", "Rows 101 to 105, as painted on the steps, with counts; 101 presumably in front.", csv("""
Row (as painted),Seats
101,31
102,31
103,32
104,32
105,33
"""), S("", "assumed", "101..102: #31", "103..104: #32", "105: #33"))

# ---------------------------------------------------------------- ranges
stand("range", "gull-stand-ranges", "Five rows, seats numbered as written; row 2 has no seat 7.", csv("""
Row,Seats
1,1-18
2,"1-6, 8-18"
3,1-18
4,1-20
5,1-20
"""), S("", "assumed", "1: 1-18", "2: 1-6 8-18", "3: 1-18", "4..5: 1-20"))

stand("range", "en-dashes", "Four rows with en dashes and gaps: seat 13 is left out in every row.", csv("""
Row,Seat numbers
A,"1–12, 14–18"
B,"1–12, 14–18"
C,"1–12, 14–20"
D,"1–12, 14–20"
"""), S("", "assumed", "A..B: 1-12 14-18", "C..D: 1-12 14-20"))

stand("range", "no-seven", "Rows with exceptions in brackets: seats named after 'no' or 'not' do not exist.", csv("""
row,seats
1,1-18 (no 7)
2,1-18 (no 7 and 8)
3,1-18
4,"1-18 (not 3, 4)"
5,1-18 except 18
"""), S("", "assumed", "1: 1-6 8-18", "2: 1-6 9-18", "3: 1-18", "4: 1-2 5-18", "5: 1-17"))

stand("range", "odd-even-sides", "Odd seats on one side, even on the other, as in a theatre: two sections.", csv("""
Side,Row,Seats
Left,1,1-17 odd
Left,2,1-17 odd
Left,3,1-19 odd
Right,1,2-18 even
Right,2,2-18 even
Right,3,2-20 even
"""), S("Left", "assumed", "1..2: " + every(2, 1, 17), "3: " + every(2, 1, 19)),
      S("Right", "assumed", "1..2: " + every(2, 2, 18), "3: " + every(2, 2, 20)))

stand("range", "even-list", "Even numbers only, written after the range.", csv("""
Row;Seats
F;2-20 even
G;2-20 even
H;2-22 even
J;2-22 even
"""), S("", "assumed", "F..G: " + every(2, 2, 20), "H, J: " + every(2, 2, 22)))

stand("range", "one-to-eighteen-words", "Ranges written with 'to'; row 3 stops at seat 16.", csv("""
Row,Seats
1,1 to 18
2,1 to 18
3,1 to 16
4,1 to 18
"""), S("", "assumed", "1..2: 1-18", "3: 1-16", "4: 1-18"))

stand("range", "single-seats-and-ranges", "Ranges with single seats between them.", csv("""
Row|Seats
1|1-4, 6, 8-15
2|1-15
3|1, 3, 5-15
4|1-15
"""
, sep="\t"), S("", "assumed", "1: 1-4 6 8-15", "2: 1-15", "3: 1 3 5-15", "4: 1-15"))

stand("range", "falling-ranges", "Seats counted from the right: 18-1 is seats 1 to 18 all the same.", csv("""
Row,Seats (left to right)
1,18-1
2,18-1
3,20-1
4,20-1
"""), S("", "assumed", "1..2: 1-18", "3..4: 1-20"))

stand("range", "through-numbering", "Seats numbered on from row to row: 1-12, 13-24, and so on.", csv("""
Row,Seats
1,1-12
2,13-24
3,25-36
4,37-50
5,51-64
"""), S("", "assumed", "1: 1-12", "2: 13-24", "3: 25-36", "4: 37-50", "5: 51-64"))

stand("range", "hundred-numbers", "Seat numbers of three digits: row 1 has 101 to 118 and so on.", csv("""
Row,Seats
1,101-118
2,201-218
3,301-316
4,401-416
"""), S("", "assumed", "1: 101-118", "2: 201-218", "3: 301-316", "4: 401-416"))

stand("range", "sections-with-ranges", "Two blocks that share numbering across: seats of block B go on after A's.", csv("""
Block,Row,Seats
A,1,1-10
A,2,1-10
A,3,1-11
B,1,11-22
B,2,11-22
B,3,12-23
"""), S("A", "assumed", "1..2: 1-10", "3: 1-11"), S("B", "assumed", "1..2: 11-22", "3: 12-23"))

stand("range", "range-and-count", "Ranges with a count column that agrees with them.", csv("""
Row,Seats,Count
1,1-18,18
2,"1-6, 8-18",17
3,1-18,18
4,3-18,16
"""), S("", "assumed", "1: 1-18", "2: 1-6 8-18", "3: 1-18", "4: 3-18"))

stand_ask("range", "range-and-count-differ", "Ranges and counts that do not agree in rows 2 and 3.",
          "Row 2 says seats 1-18 but counts 16, and row 3 says 1-18 but counts 20: which is right?", csv("""
Row,Seats,Count
1,1-18,18
2,1-18,16
3,1-18,20
4,1-18,18
"""))

stand("range", "dots-ranges", "Ranges written with two dots.", csv("""
Row,Seats
1,1..14
2,1..14
3,1..6 + 9..14
4,1..16
"""), S("", "assumed", "1..2: 1-14", "3: 1-6 9-14", "4: 1-16"))

stand("range", "spaces-and-ampersand", "Ranges with spaces round the dash and an ampersand between them.", csv("""
Row,Seats
AA,1 - 8 & 11 - 18
BB,1 - 8 & 11 - 18
CC,1 - 18
"""), S("", "assumed", "AA: 1-8 11-18", "BB: 1-8 11-18", "CC: 1-18"))

stand("range", "all-numbers-listed", "Every seat number written out; 5 is not there in row 2.", csv("""
Row,Seats
1,1 2 3 4 5 6 7 8 9 10
2,1 2 3 4 6 7 8 9 10
3,1 2 3 4 5 6 7 8 9 10 11
"""), S("", "assumed", "1: 1-10", "2: 1-4 6-10", "3: 1-11"))

stand("range", "wheelchair-reserved", "Six rows; wheelchair places 1 and 2 in row 1 and the band's seats in row 4 exist but are reserved.", csv("""
Row,Seats,Note
1,1-16,1 and 2 reserved for wheelchairs
2,1-16,
3,1-16,
4,1-18,15-18 kept for the band
5,1-18,
6,1-18,
"""), S("", "assumed", "1..3: 1-16", "4..6: 1-18", reserved=["1-1", "1-2", "4-15", "4-16", "4-17", "4-18"]))

stand("range", "platform-note", "Five rows; the camera platform takes seats 8-11 of rows 4 and 5, which do not exist.", csv("""
Row,Seats,Note
1,1-18,
2,1-18,
3,1-18,pillar by seat 1 (seat is fine)
4,1-18,camera platform on 8-11
5,1-18,camera platform on 8-11
"""), S("", "assumed", "1..3: 1-18", "4..5: 1-7 12-18"))

stand("range", "seats-in-book", "Ranges typed in a workbook, row names as numbers.", book(sheet("North", """
North stand||
Row|Seats|
1|1-18|
2|1-18|
3|1-6, 9-18|stair head at 7-8
4|1-20|
""", merge=["A1:C1"], bold=[1, 2])), S("North stand", "assumed", "1..2: 1-18", "3: 1-6 9-18", "4: 1-20"),
      alts=[[S("North", "assumed", "1..2: 1-18", "3: 1-6 9-18", "4: 1-20")],
            [S("", "assumed", "1..2: 1-18", "3: 1-6 9-18", "4: 1-20")]])

stand("range", "row-in-seat-code", "Seats written with their row's letter: A1-A12.", csv("""
Row,From-to
A,A1-A12
B,B1-B12
C,C1-C14
D,D1-D14
"""), S("", "assumed", "A..B: 1-12", "C..D: 1-14"))

stand("range", "row-and-range-in-one", "One column: the row and its seats in one cell.", csv("""
What we found
Row 1: 1-18
Row 2: 1-18
Row 3: 1-20
Row 4: 1-20
"""), S("", "assumed", "1..2: 1-18", "3..4: 1-20"))

stand_ask("range", "question-marks", "Four rows of which the third is not known.",
          "Row 3 has a question mark in place of seats.", csv("""
Row,Seats
1,1-18
2,1-18
3,?
4,1-18
"""))

stand_ask("range", "same-row-twice", "Four lines, row 3 given twice with different seats.",
          "Row 3 stands there twice, once with seats 1-18 and once with 1-20.", csv("""
Row,Seats
1,1-18
2,1-18
3,1-18
3,1-20
4,1-20
"""))

stand("range", "row-in-two-pieces", "Each row in two lines, left and right of the stair, of one section.", csv("""
Row,Seats,Side of stair
1,1-9,left
1,10-18,right
2,1-9,left
2,10-18,right
3,1-10,left
3,11-20,right
"""), S("", "assumed", "1..2: 1-18", "3: 1-20"),
      alts=[[S("left", "assumed", "1..2: 1-9", "3: 1-10"), S("right", "assumed", "1..2: 10-18", "3: 11-20")]])

# ---------------------------------------------------------------- first and last
stand("firstlast", "first-last", "First and last seat of each row.", csv("""
Row,First seat,Last seat
1,1,18
2,1,18
3,1,20
4,2,21
5,2,21
"""), S("", "assumed", "1..2: 1-18", "3: 1-20", "4..5: 2-21"))

stand("firstlast", "from-to", "From and to, by section.", csv("""
Section,Row,From,To
Left,A,1,9
Left,B,1,9
Left,C,1,10
Right,A,10,18
Right,B,10,18
Right,C,11,20
"""), S("Left", "assumed", "A..B: 1-9", "C: 1-10"), S("Right", "assumed", "A..B: 10-18", "C: 11-20"))

stand("firstlast", "from-to-capacity", "From, to and how many, which agree.", csv("""
Row|From seat|To seat|Seats in row
1|1|16|16
2|1|16|16
3|1|17|17
4|1|18|18
""", sep=";"), S("", "assumed", "1..2: 1-16", "3: 1-17", "4: 1-18"))

stand("firstlast", "from-to-missing", "From, to, and what is missing between.", csv("""
Row,From,To,Missing
1,1,18,
2,1,18,7
3,1,18,"7, 9-10"
4,1,18,none
5,1,20,
"""), S("", "assumed", "1: 1-18", "2: 1-6 8-18", "3: 1-6 8 11-18", "4: 1-18", "5: 1-20"))

stand("firstlast", "left-right-ends", "Seat at the left end and at the right end; numbered from the right.", csv("""
Row,Left end,Right end
1,18,1
2,18,1
3,20,1
"""), S("", "assumed", "1..2: 1-18", "3: 1-20"))

stand("firstlast", "two-line-heading", "A heading of two lines: Seats over First and Last.", csv("""
Row,Seats,,Height
,first,last,cm
1,1,14,0
2,1,14,20
3,1,15,40
4,1,15,60
"""), S("", "said", "1..2: 1-14", "3..4: 1-15"))

stand("firstlast", "two-line-heading-book", "A heading of two lines with merged cells; rows rise to the back.", book(sheet("Survey", """
Row|Seats||Riser
|first|last|in
1|1|14|0
2|1|14|8
3|1|15|16
4|1|15|24
5|1|16|32
""", merge=["B1:C1", "A1:A2"])), S("", "said", "1..2: 1-14", "3..4: 1-15", "5: 1-16"))

stand("firstlast", "odd-first-last", "Odd seats on the left: the step is said in the heading.", csv("""
Row,First (odd only),Last (odd only)
1,1,17
2,1,17
3,1,19
"""), S("", "assumed", "1..2: " + every(2, 1, 17), "3: " + every(2, 1, 19)))

stand("firstlast", "start-end-book", "Start and end a row in a workbook, through-numbered.", book(sheet("Tabelle1", """
Row|Start|End
A|1|20
B|21|40
C|41|62
D|63|84
""")), S("", "assumed", "A: 1-20", "B: 21-40", "C: 41-62", "D: 63-84"))

stand_ask("firstlast", "from-to-hole", "From and to of five rows, of which one has no end.",
          "Row 4 has a first seat but no last one.", csv("""
Row,From,To
1,1,18
2,1,18
3,1,18
4,1,
5,1,18
"""))

# ---------------------------------------------------------------- several rows in a line
stand("rowrange", "eighteen-each", "Rows 1-5 with 18 seats each and rows 6-9 with 20 each.", csv("""
Rows,Seats
1-5,18 each
6-9,20 each
"""), S("", "assumed", "1..5: #18", "6..9: #20"))

stand("rowrange", "five-lines-of-text", "Sentences: which rows have how many seats.", csv("""
Seats in the Mole Stand
Rows 1-5: 18 seats each
Rows 6-8: 20 seats each
Row 9: 12 seats
"""), S("Mole Stand", "assumed", "1..5: #18", "6..8: #20", "9: #12"),
      alts=[[S("", "assumed", "1..5: #18", "6..8: #20", "9: #12")]])

stand("rowrange", "a-to-f", "Rows A-F with seats 1-16, G-K without I with 1-18.", csv("""
Rows,Seats
A-F,1-16
G-K (no I),1-18
"""), S("", "assumed", "A..F: 1-16", "G, H, J, K: 1-18"))

stand("rowrange", "to-and-through", "Rows by 'to' and 'and', seats numbered.", csv("""
rows,seats
1 to 4,1 to 18
5 and 6,1 to 20
7,3 to 18
"""), S("", "assumed", "1..4: 1-18", "5..6: 1-20", "7: 3-18"))

stand("rowrange", "row-list", "Lists of rows of the same kind.", csv("""
Row,Seats
"1, 2, 3",1-12
"4, 5",1-14
6,1-8
"""), S("", "assumed", "1..3: 1-12", "4..5: 1-14", "6: 1-8"))

stand("rowrange", "first-row-last-row", "First row and last row of each block of equal rows.", csv("""
First row,Last row,Seats per row
1,4,22
5,8,24
9,9,10
"""), S("", "assumed", "1..4: #22", "5..8: #24", "9: #10"))

stand("rowrange", "sections-in-one-line", "A section a line: rows and seats a row.", csv("""
Section,Rows,Seats per row,Total
A,6,12,72
B,6,14,84
C,5,12,60
"""), S("A", "assumed", "1..6: #12"), S("B", "assumed", "1..6: #14"), S("C", "assumed", "1..5: #12"))

stand("rowrange", "sections-row-ranges", "Sections with row ranges and seat ranges.", csv("""
Section;Rows;Seats
Left;1-4;1-10
Left;5-6;1-12
Right;1-4;11-20
Right;5-6;13-24
"""), S("Left", "assumed", "1..4: 1-10", "5..6: 1-12"), S("Right", "assumed", "1..4: 11-20", "5..6: 13-24"))

stand("rowrange", "dates-in-rows-column", "Row ranges that the spreadsheet took for dates: 1 May is rows 1-5, 6 Sep is rows 6-9.", book(sheet("Sheet1", """
Rows|Seats per row
@2026-05-01{d-mmm}|18
@2026-09-06{d-mmm}|20
10|12
""")), S("", "assumed", "1..5: #18", "6..9: #20", "10: #12"))
