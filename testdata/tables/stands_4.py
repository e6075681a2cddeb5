"""What is missing, told in a column; cells that a spreadsheet took for dates; measures with and without units."""

from kit import *

# ---------------------------------------------------------------- what is missing
stand("missing", "missing-many-ways", "Rows of 18 with missing seats by number; the last column counts what is left.", csv("""
Row,Seats,Missing,Left over
1,18,,18
2,18,"7, 9-10",15
3,18,"3, 5-16",5
4,18,"5-6, 12",15
5,18,2,17
6,18,none,18
"""), S("", "assumed", "1: 1-18", "2: 1-6 8 11-18", "3: 1-2 4 17-18", "4: 1-4 7-11 13-18", "5: 1 3-18", "6: 1-18"))

stand("missing", "missing-seat-no", "Seats from 1 to the last number, without those in the column Missing seat no.", csv("""
Row;Last seat no.;Missing seat no.
A;16;-
B;16;4
C;16;4 and 5
D;17;-
E;17;11 to 13
"""), S("", "assumed", "A: 1-16", "B: 1-3 5-16", "C: 1-3 6-16", "D: 1-17", "E: 1-10 14-17"))

stand("missing", "two-seats-gone", "Twenty seats a row of which two are gone in row 2 and one in row 4; what is left stands beside it.", csv("""
Row,Places,Gone,Usable
1,20,none,20
2,20,2 seats,18
3,20,-,20
4,20,1 seat,19
5,20,,20
"""), S("", "assumed", "1: #20", "2: #18", "3: #20", "4: #19", "5: #20"))

stand_ask("missing", "only-a-two", "Rows of 18; a 2 in the column Missing of row 3 is either seat 2 or two seats.",
          "Is it seat 2 of row 3 that is missing, or two seats, and which?", csv("""
Row,From,To,Missing
1,1,18,
2,1,18,
3,1,18,2
4,1,18,
"""))

stand_ask("missing", "how-many-missing", "Numbered rows where so many seats are missing, but not which.",
          "Rows 2 and 4 lack 3 and 1 seats, and it is not said which numbers.", csv("""
Row,First seat,Last seat,How many missing
1,1,22,0
2,1,22,3
3,1,22,0
4,1,24,1
"""))

stand("missing", "words-for-none", "Nothing is missing in rows where somebody wrote none, nil, n/a or a dash; row 4 lacks 8.", csv("""
Row,From,To,Seats missing (numbers)
1,1,15,none
2,1,15,nil
3,1,15,n/a
4,1,15,8
5,1,16,-
6,1,16,–
7,1,16,
"""), S("", "assumed", "1..3: 1-15", "4: 1-7 9-15", "5..7: 1-16"))

stand("missing", "broken-column", "Seats 1 to 14; broken ones by number, which cannot be used, so they do not exist.", csv("""
Row,Seats,Broken
A,1-14,
B,1-14,"3, 4"
C,1-14,
D,1-14,14
"""), S("", "assumed", "A: 1-14", "B: 1-2 5-14", "C: 1-14", "D: 1-13"))

stand("missing", "platform-column", "The camera platform and a pillar take seats, each in its column.", csv("""
row|seats|camera platform|pillar
1|1-20||
2|1-20||6
3|1-20|9-12|
4|1-20|9-12|6
""", sep=";"), S("", "assumed", "1: 1-20", "2: 1-5 7-20", "3: 1-8 13-20", "4: 1-5 7-8 13-20"))

stand_ask("missing", "missing-out-of-range", "Rows of 16 seats; row 3 is said to lack seat 21.",
          "Row 3 ends with seat 16 and is said to lack seat 21: which seat is meant?", csv("""
Row,From,To,Missing seat
1,1,16,
2,1,16,5
3,1,16,21
4,1,16,
"""))

stand("missing", "signs-between", "Missing seats listed with plus, slash, ampersand and spaces; the last column says how many there are.", csv("""
Row,Highest number,Not there,Seats there
1,12,3+4,10
2,12,3/4,10
3,12,3 & 4,10
4,12,3 4 5,9
5,12,3.,11
"""), S("", "assumed", "1..3: 1-2 5-12", "4: 1-2 6-12", "5: 1-2 4-12"))

stand("missing", "comma-number", "In a German sheet 7,9 means that seats 7 and 9 are missing; sixteen are left.", csv("""
Reihe;Plätze;fehlt;bleibt
1;18;;18
2;18;7,9;16
3;18;4;17
4;18;4,5,6;15
"""), S("", "assumed", "1: 1-18", "2: 1-6 8 10-18", "3: 1-3 5-18", "4: 1-3 7-18"))

stand("missing", "missing-in-words", "The remarks say in words which seats are not there; a remark about paint says nothing about seats.", csv("""
Row,First,Last,Remarks
1,1,18,
2,1,18,no seat 9
3,1,18,fresh paint!
4,1,18,seats 1 and 2 missing
5,1,18,seat 18 is missing
"""), S("", "assumed", "1: 1-18", "2: 1-8 10-18", "3: 1-18", "4: 3-18", "5: 1-17"))

stand("missing", "aisle-numbers-gone", "Seat numbers that fall on the aisle do not exist.", csv("""
Row,Numbers,Aisle at
1,1-20,10-11
2,1-20,10-11
3,1-20,10-11
4,1-20,
"""), S("", "assumed", "1..3: 1-9 12-20", "4: 1-20"))

stand("missing", "unused-is-reserved", "All seats exist; the column Reserved for names those kept for the band and the fair's guests.", csv("""
Row,Seats,Reserved for band,Reserved for guests
1,1-12,,1-2
2,1-12,,
3,1-12,11-12,
"""), S("", "assumed", "1..3: 1-12", reserved=["1-1", "1-2", "3-11", "3-12"]))

stand("missing", "missing-book-mixed", "Missing seats as numbers, texts and one cell that became 7 Sep for 7-9; the last column counts.", book(sheet("Sheet1", """
Row|Seats|Missing|Usable
1|18||18
2|18|@2026-09-07{d-mmm}|15
3|18|12|17
4|18|5-6, 12|15
5|18|'4|17
""")), S("", "assumed", "1: 1-18", "2: 1-6 10-18", "3: 1-11 13-18", "4: 1-4 7-11 13-18", "5: 1-3 5-18"))

stand_ask("missing", "crossed", "A cross in the column Missing of two rows.",
          "Rows 2 and 5 have a cross under Missing: which seats, or the whole row?", csv("""
Row,Seats,Missing
1,1-14,
2,1-14,x
3,1-14,
4,1-14,
5,1-14,x
"""))

stand_ask("missing", "seven-hundred-ten", "Missing seats, of which one cell reads 710 where the row has 18 seats.",
          "Row 3 is said to lack seat 710: were 7 and 10 meant, and the comma lost?", book(sheet("Sheet1", """
Row|Seats|Missing
1|1-18|5
2|1-18|
3|1-18|710
4|1-18|6
""")))

stand("missing", "whole-row-missing", "Row 4 has been taken out whole; five rows are left.", csv("""
Row,From,To,Missing
1,1,10,
2,1,10,
3,1,10,4
4,1,10,1-10 (whole row taken out)
5,1,10,
6,1,10,
"""), S("", "assumed", "1..2: 1-10", "3: 1-3 5-10", "5..6: 1-10"))

# ---------------------------------------------------------------- dates that were ranges
stand("dates", "jan-eighteen", "1-18 was turned into Jan-18; rows of 18 and 20 as the last column counts.", csv("""
Row,Seats,Count
1,Jan-18,18
2,Jan-18,18
3,Jan-20,20
4,Jan-20,20
"""), S("", "assumed", "1..2: 1-18", "3..4: 1-20"))

stand("dates", "first-of-december", "1-12 was turned into 01-Dec and 1-14 into Jan-14.", csv("""
Row,Seats,How many
A,01-Dec,12
B,01-Dec,12
C,Jan-14,14
D,Jan-14,14
"""), S("", "assumed", "A..B: 1-12", "C..D: 1-14"))

stand("dates", "twelve-january", "1-12 turned into 12-Jan, the month first: seats 1 to 12; 1-13 was left alone.", csv("""
Row,Seats,Total
1,12-Jan,12
2,12-Jan,12
3,"1-6, 8-13",12
4,14-Jan,14
"""), S("", "assumed", "1..2: 1-12", "3: 1-6 8-13", "4: 1-14"))

stand("dates", "dates-in-book", "Cells that are dates: 1 Jan 2018 shown as Jan-18 is seats 1-18; the counts agree.", book(sheet("Sheet1", """
Row|Seats|Count
1|@2018-01-01{mmm-yy}|18
2|@2018-01-01{mmm-yy}|18
3|1-6, 8-18|17
4|@2020-01-01{mmm-yy}|20
""")), S("", "assumed", "1..2: 1-18", "3: 1-6 8-18", "4: 1-20"))

stand("dates", "dates-day-month-book", "Dates in a German sheet: 01. Dez is seats 1-12, 03. Okt is seats 3-10.", book(sheet("Tabelle1", """
Reihe|Plätze|Anzahl
1|@2026-12-01{d. mmm}|12
2|@2026-10-03{d. mmm}|8
3|@2026-12-01{d. mmm}|12
""")), S("", "assumed", "1: 1-12", "2: 3-10", "3: 1-12"))

stand("dates", "dates-us-book", "Dates of an American sheet: 12-Jan (January 12) is seats 1-12, 10-Mar is 3-10.", book(sheet("Sheet1", """
Row|Seats|How many
1|@2026-01-12{d-mmm}|12
2|@2026-03-10{d-mmm}|8
3|@2026-01-12{d-mmm}|12
""")), S("", "assumed", "1: 1-12", "2: 3-10", "3: 1-12"))

stand("dates", "dates-from-1904", "The same in a workbook that counts days from 1904: 1 Dec is 1-12.", book(sheet("Sheet1", """
Row|Seats|Count
A|@2026-12-01{d-mmm}|12
B|@2026-11-01{d-mmm}|11
C|@2026-12-01{d-mmm}|12
"""), from1904=True), S("", "assumed", "A: 1-12", "B: 1-11", "C: 1-12"))

stand("dates", "iso-dates", "Ranges exported as full dates: 2026-12-01 was 1-12, 2026-11-01 was 1-11, as the counts say.", csv("""
Row,Seats,Count
1,2026-12-01 00:00:00,12
2,2026-12-01 00:00:00,12
3,2026-11-01 00:00:00,11
"""), S("", "assumed", "1..2: 1-12", "3: 1-11"))

stand("dates", "french-dates", "01-déc was 1-12, janv-14 was 1-14.", csv("""
Rang;Places;Nombre
A;01-déc;12
B;01-déc;12
C;janv-14;14
"""), S("", "assumed", "A..B: 1-12", "C: 1-14"))

stand("dates", "missing-became-september", "The missing seats 7-9 became 07-Sep and 3-4 became 03-Apr.", csv("""
Row,From,To,Missing,Rest
1,1,16,,16
2,1,16,07-Sep,13
3,1,16,03-Apr,14
4,1,16,5,15
"""), S("", "assumed", "1: 1-16", "2: 1-6 10-16", "3: 1-2 5-16", "4: 1-4 6-16"))

stand("dates", "rows-became-dates", "Row ranges: 04-Jan was rows 1-4, 08-May was rows 5-8 (month first).", csv("""
Rows,Seats in each
04-Jan,16
08-May,18
9,20
"""), S("", "assumed", "1..4: #16", "5..8: #18", "9: #20"))

stand("dates", "date-column-is-a-date", "Rows with counts and the day on which each was measured, which says nothing about seats.", csv("""
Row,Seats,Measured on
1,16,07-Mar
2,16,07-Mar
3,17,08-Mar
4,17,08-Mar
"""), S("", "assumed", "1..2: #16", "3..4: #17"))

stand("dates", "width-became-may", "The seat width 18.5 became 18. Mai in two rows; seats are counted in their own column.", csv("""
Reihe;Plätze;Sitzbreite (in)
1;16;18
2;16;18. Mai
3;17;18. Mai
4;17;18
"""), S("", "assumed", "1..2: #16", "3..4: #17"))

stand_ask("dates", "serial-numbers", "Seat cells hold numbers like 43101, dates that lost their look.",
          "The seats of rows 1, 2 and 4 are numbers above 43000: what had been typed there?", book(sheet("Sheet1", """
Row|Seats
1|43101
2|43101
3|1-6, 8-18
4|43831
""")))

stand_ask("dates", "days-that-fit-nothing", "Seat cells are dates of last summer, which fit no seats.",
          "The column Seats holds days of August 2025; where are the numbers of seats?", csv("""
Row,Seats
1,14/08/2025
2,15/08/2025
3,15/08/2025
"""))

# ---------------------------------------------------------------- measures
stand("measure", "decimal-commas", "Counts with row depth and rise in metres, decimal commas; rows rise, so row 1 is in front.", csv("""
Row;Seats;Depth (m);Height (m)
1;16;0,80;0,00
2;16;0,80;0,38
3;16;0,80;0,76
4;17;0,85;1,14
"""), S("", "said", "1..3: #16", "4: #17"))

stand("measure", "units-every-way", "Seat widths with all sorts of units; the counts are in the column Seats.", csv('''
Row,Seats,Seat width
1,14,"18"""
2,14,18 in
3,14,"1'6"""
4,15,45 cm
5,15,0.45 m
6,15,450 mm
'''), S("", "assumed", "1..3: #14", "4..6: #15"))

stand("measure", "width-before-count", "Seat width first, then the count; neither width nor depth is a number of seats.", csv("""
Row,Width,Depth,No. of seats
A,18,30,22
B,18,30,22
C,18,32,24
D,18,32,24
"""), S("", "assumed", "A..B: #22", "C..D: #24"))

stand_ask("measure", "only-lengths", "Bench lengths and a width a person, but no seats.",
          "No seats are counted; shall benches of 9.00 m be taken as 20 places of 45 cm?", csv("""
Bench,Length (m),Height (m)
1,9.00,0.0
2,9.00,0.4
3,9.45,0.8
4,9.45,1.2
"""))

stand("measure", "eighteen-at-eighteen", "18 @ 18 in is eighteen seats of eighteen inches each.", csv("""
Row,Seats
1,18 @ 18 in
2,18 @ 18 in
3,20 @ 18 in
4,20 @ 17.5 in
"""), S("", "assumed", "1..2: #18", "3..4: #20"))

stand("measure", "length-and-seats", "Row lengths in metres with decimal commas beside the counts.", csv("""
Bank;Länge;Plätze;Bemerkung
1;7,20 m;16;Boden
2;7,20 m;16;
3;7,65 m;17;
4;8,10 m;18;Wand
"""), S("", "said", "1..2: #16", "3: #17", "4: #18"))

stand("measure", "counts-with-decimals", "Counts that came out as 16.0 and 17.0 are whole seats.", csv("""
Row,Seats,Riser cm
1.0,16.0,0.0
2.0,16.0,38.5
3.0,17.0,77.0
4.0,17.0,115.5
"""), S("", "said", "1..2: #16", "3..4: #17"))

stand("measure", "units-in-second-heading", "A second heading line gives units; counts under (no.).", csv("""
Row,Seats,Width,Depth,Rise
-,(no.),(cm),(cm),(cm)
1,13,45,80,20
2,13,45,80,40
3,14,45,80,40
"""), S("", "assumed", "1..2: #13", "3: #14"), alts=[[S("", "said", "1..2: #13", "3: #14")]])

stand("measure", "rise-per-step", "Every row steps up by the same 8 in, which does not say more than habit.", csv("""
Row,Seats,Rise
1,12,8 in
2,12,8 in
3,12,8 in
"""), S("", "assumed", "1..3: #12"), alts=[[S("", "said", "1..3: #12")]])

stand("measure", "tape-readings", "Tape readings at the left and right end of every row, and seats by number.", csv("""
Row,Tape left,Tape right,Seat left,Seat right
1,0.35,8.45,1,18
2,0.35,8.45,1,18
3,0.35,9.35,1,20
4,0.35,9.35,1,20
"""), S("", "assumed", "1..2: 1-18", "3..4: 1-20"))

stand("measure", "eye-heights", "Eye heights in the last column rise to the back; row A is in front.", csv("""
Row,Seats,Eye height above field
A,20,1.15 m
B,20,1.55 m
C,20,1.95 m
D,22,2.35 m
"""), S("", "said", "A..C: #20", "D: #22"))

stand("measure", "steps-counted", "Steps climbed from the ground: row 4 has none and is in front.", csv("""
Row,Seats,Steps up from the ground
1,14,6
2,14,4
3,15,2
4,15,0
"""), S("", "said", "4..3: #15", "2..1: #14"))

stand("measure", "feet-from-camera", "Distances to the camera in feet grow with the row letters.", csv("""
Row,Camera distance (ft),Seats
A,60,1-16
B,62.5,1-16
C,65,1-16
D,67.5,1-18
"""), S("", "said", "A..C: 1-16", "D: 1-18"))

stand("measure", "thousands-dot", "Three sections in one line each with a total of 1.056 in German writing, which is a sum.", csv("""
Block;Reihen;Plätze je Reihe;Plätze
A;12;30;360
B;12;28;336
C;12;30;360
Summe;;;1.056
"""), S("A", "assumed", "1..12: #30"), S("B", "assumed", "1..12: #28"), S("C", "assumed", "1..12: #30"))

stand("measure", "fractions-of-inches", "Seat widths with fractions of inches; counts are whole.", csv('''
Row,Seats,Pitch,Tread
1,12,"17 1/2""","28 3/4"""
2,12,"17 1/2""","28 3/4"""
3,13,"17 1/4""",30
'''), S("", "assumed", "1..2: #12", "3: #13"))
