"""Which row is in front: listed from the back, heights, words, notes, signs that contradict; sections in many ways."""

from kit import *

# ---------------------------------------------------------------- listed from the back
stand("back", "back-to-front-words", "Listed from the back: Back, 6 to 2, Front.", csv("""
Row,Seats
Back,24
6,22
5,22
4,20
3,20
2,18
Front,18
"""), S("", "said", "Front: #18", "2: #18", "3..4: #20", "5..6: #22", "Back: #24"))

stand("back", "top-bottom", "Listed from the top of the stand down; the bottom row is in front.", csv("""
Row,Seats
Top,1-20
4,1-20
3,1-18
2,1-18
Bottom,1-16
"""), S("", "said", "Bottom: 1-16", "2..3: 1-18", "4: 1-20", "Top: 1-20"))

stand("back", "falling-with-gaps", "Rows 9 down to 1 without 7 and 4; by habit row 1 is in front.", csv("""
Row,Seats
9,14
8,14
6,14
5,13
3,13
2,12
1,12
"""), S("", "assumed", "1..2: #12", "3: #13", "5: #13", "6: #14", "8..9: #14"))

stand("back", "ordinals-falling", "5th row first, 1st row last; by habit the 1st is in front.", csv("""
Row,Seats
5th row,1-16
4th row,1-16
3rd row,1-16
2nd row,1-14
1st row,1-14
"""), S("", "assumed", "1..2: 1-14", "3..5: 1-16"))

stand("back", "row-one-at-the-top", "A note says row 1 is at the top of the stand, so row 6 is in front.", csv("""
Row,Seats,Note
1,20,Row 1 is at the top
2,20,
3,20,
4,18,
5,18,
6,18,
"""), S("", "said", "6..4: #18", "3..1: #20"))

stand("back", "title-says-top", "The title says rows are counted from the top: row 5 is in front.", csv("""
Lantern Bank (rows counted from the top of the bank!)
Row;Seats
1;1-22
2;1-22
3;1-20
4;1-20
5;1-18
""" ), S("Lantern Bank", "said", "5: 1-18", "4..3: 1-20", "2..1: 1-22"),
      alts=[[S("", "said", "5: 1-18", "4..3: 1-20", "2..1: 1-22")]])

stand("back", "heights-fall", "Heights fall down the list, so the last row, row 6, is in front.", csv("""
Row,Seats,Height above ground (cm)
1,18,225
2,18,180
3,18,135
4,18,90
5,18,45
6,18,0
"""), S("", "said", "6..1: #18"))

stand("back", "heights-rise", "Heights rise down the list: row A is in front.", csv("""
Row,Seats,Height
A,1-12,0.30 m
B,1-12,0.65 m
C,1-13,1.00 m
D,1-14,1.35 m
"""), S("", "said", "A..B: 1-12", "C: 1-13", "D: 1-14"))

stand("back", "heights-fall-letters", "Rows F to A with falling heights: A, lowest, is in front.", csv("""
Row;Height (in);Seats
F;60;16
E;48;16
D;36;16
C;24;15
B;12;15
A;0;15
"""), S("", "said", "A..C: #15", "D..F: #16"))

stand("back", "wall-to-floor", "From the wall down to the floor: the floor row is in front.", csv("""
Bench,Seats
Wall,9
4,9
3,8
2,8
Floor,7
"""), S("", "said", "Floor: #7", "2..3: #8", "4: #9", "Wall: #9"))

stand("back", "field-to-press-box", "From the field up to the press box: the first line is in front.", csv("""
,Row,Seats
FIELD,1,24
,2,24
,3,24
,4,26
PRESS BOX,5,20
"""), S("", "said", "1..3: #24", "4: #26", "5: #20"))

stand("back", "press-box-first", "Press box in the first line, field in the last: listed from the back; row 1 is under the press box.", csv("""
Press box,,
Row,Seats,
1,20,
2,26,
3,24,
4,24,
Field,,
"""), S("", "said", "4..3: #24", "2: #26", "1: #20"))

stand("back", "front-in-last-line", "Rows 4 to 1, with 'front' beside row 1.", csv("""
row,first,last,
4,1,20,(back)
3,1,20,
2,1,18,
1,1,18,(front)
"""), S("", "said", "1..2: 1-18", "3..4: 1-20"))

stand("back", "front-is-seven", "Rows 1 to 7 with 'front' beside row 7 and 'back' beside row 1.", csv("""
Row,Seats,
1,22,back
2,22,
3,22,
4,20,
5,20,
6,18,
7,18,front
"""), S("", "said", "7..6: #18", "5..4: #20", "3..1: #22"))

stand("back", "arrow-to-stage", "A note below says the stage is below the last line: row 5 is in front.", csv("""
Row,Seats
1,15
2,15
3,14
4,14
5,13

v v v STAGE v v v
"""), S("", "said", "5: #13", "4..3: #14", "2..1: #15"))

stand("back", "camera-note-book", "A note in the workbook says the camera sees row A first.", book(sheet("Survey", """
Row|Seats|Note
A|1-18|nearest to the camera
B|1-18|
C|1-18|
D|1-20|
E|1-20|furthest from camera
""")), S("", "said", "A..C: 1-18", "D..E: 1-20"))

stand("back", "camera-note-reverse", "Row E is nearest to the camera and so in front.", book(sheet("Survey", """
Row|Seats|Note
A|1-20|behind us only the fence
B|1-20|
C|1-18|
D|1-18|
E|1-16|nearest to the camera
""")), S("", "said", "E: 1-16", "D..C: 1-18", "B..A: 1-20"))

stand("back", "risers-metres-fall", "Floor levels in metres with decimal commas fall: row 4 is in front.", csv("""
Row;Seats;Level (m)
1;17;1,35
2;17;0,90
3;16;0,45
4;16;0,00
"""), S("", "said", "4..3: #16", "2..1: #17"))

stand("back", "distance-to-field", "Distances to the touchline: row Z is nearest, A furthest.", csv("""
Row,Seats,Distance to touchline (m)
A,21,9.6
B,21,8.8
C,20,8.0
X,20,7.2
Y,19,6.4
Z,19,5.6
"""), S("", "said", "Z, Y: #19", "X, C: #20", "B, A: #21"))

stand("back", "second-from-back", "Row names in words: front row, second, middle, last but one, last.", csv("""
Row,Seats
Front row,10
Second row,11
Middle row,11
Last but one,12
Last row,12
"""), S("", "said", "Front: #10", "Second: #11", "Middle: #11", "Last but one: #12", "Last: #12"))

stand("back", "numbered-from-field", "The heading says rows are numbered from the field, listed in falling order.", csv("""
Row (from field),No of seats
4,30
3,30
2,28
1,28
"""), S("", "said", "1..2: #28", "3..4: #30"))

stand("back", "heights-feet-inches", "Heights in feet and inches rise with the rows.", csv('''
Row,Height,Seats
1,"0'0""",14
2,"0'8""",14
3,"1'4""",15
4,"2'0""",15
5,"2'8""",16
'''), S("", "said", "1..2: #14", "3..4: #15", "5: #16"))

# ---------------------------------------------------------------- contradicting signs
stand("contradict", "front-on-the-highest", "Row 1 is called front, but heights put it highest.", csv("""
Row,Seats,Height (cm)
1 (front),16,160
2,16,120
3,17,80
4,17,40
5 (back),18,0
"""), S("", "unsure", "1..2: #16", "3..4: #17", "5: #18"), alts=[[S("", "unsure", "5: #18", "4..3: #17", "2..1: #16")]])

stand("contradict", "note-against-heights", "The title says row A is at the field, the levels say row D is lowest.", csv("""
Row A is right at the field
Row;Level (in);Seats
A;36;1-14
B;24;1-14
C;12;1-15
D;0;1-15
"""), S("", "unsure", "A..B: 1-14", "C..D: 1-15"), alts=[[S("", "unsure", "D..C: 1-15", "B..A: 1-14")]])

stand("contradict", "both-ends-front", "Front is written beside the first row and beside the last.", csv("""
Row,Seats,Remark
1,12,front
2,12,
3,12,
4,12,front
"""), S("", "unsure", "1..4: #12"), alts=[[S("", "unsure", "4..1: #12")]])

stand("contradict", "field-top-and-heights", "The drawing's FIELD stands above row 1, but row 1 is the highest.", csv("""
FIELD,,
Row,Seats,Height cm
1,20,120
2,20,80
3,20,40
4,20,0
"""), S("", "unsure", "1..4: #20"), alts=[[S("", "unsure", "4..1: #20")]])

stand("contradict", "two-notes", "Mo says row 1 is in front, Tilda that it is at the back.", csv("""
Row,Seats,Mo,Tilda
1,18,front row,back row
2,18,,
3,18,,
4,18,back row,front row
"""), S("", "unsure", "1..4: #18"), alts=[[S("", "unsure", "4..1: #18")]])

stand("contradict", "heights-up-and-down", "Heights go up and down again, so they do not say which row is in front; habit says row 1.", csv("""
Row,Seats,Height (cm)
1,14,40
2,14,80
3,14,120
4,14,80
5,14,40
"""), S("", "assumed", "1..5: #14"), alts=[[S("", "unsure", "1..5: #14")], [S("", "unsure", "5..1: #14")]])

stand("contradict", "sections-differ", "In section East row 1 is in front by heights, in West row 1 is highest.", csv("""
Section,Row,Seats,Height (cm)
East,1,10,0
East,2,10,40
East,3,10,80
West,1,10,80
West,2,10,40
West,3,10,0
"""), S("East", "said", "1..3: #10"), S("West", "said", "3..1: #10"))

stand("contradict", "names-without-order", "Rows named after colours; nothing says which is in front, only the order of writing.", csv("""
Bench,Seats
Red,8
Green,8
Blue,9
Yellow,9
"""), S("", "unsure", "Red, Green: #8", "Blue, Yellow: #9"), alts=[[S("", "unsure", "Yellow, Blue: #9", "Green, Red: #8")],
      [S("", "assumed", "Red, Green: #8", "Blue, Yellow: #9")]])

stand("contradict", "shuffled-rows", "Rows written in the order they were measured; by habit row 1 is in front.", csv("""
Row,Seats
3,18
1,16
5,20
2,16
4,18
"""), S("", "assumed", "1..2: #16", "3..4: #18", "5: #20"))

# ---------------------------------------------------------------- sections
stand("section", "section-headings", "Two sections under heading lines, a line a row.", csv("""
SECTION A,
Row,Seats
1,1-12
2,1-12
3,1-14
,
SECTION B,
Row,Seats
1,1-16
2,1-16
3,1-18
"""), S("A", "assumed", "1..2: 1-12", "3: 1-14"), S("B", "assumed", "1..2: 1-16", "3: 1-18"))

stand("section", "section-headings-one-header", "One heading line for all, then a section name on its own line each.", csv("""
Row,First,Last
Left wing,,
1,1,8
2,1,8
3,1,9
Middle,,
1,1,14
2,1,14
3,1,15
Right wing,,
1,1,8
2,1,8
3,1,9
"""), S("Left wing", "assumed", "1..2: 1-8", "3: 1-9"), S("Middle", "assumed", "1..2: 1-14", "3: 1-15"),
      S("Right wing", "assumed", "1..2: 1-8", "3: 1-9"))

stand("section", "block-in-title-cell", "Blocks named on the line above each list, with counts.", csv("""
Block 1 (harbour side)
Row,Seats
A,14
B,14
C,15

Block 2 (town side)
Row,Seats
A,11
B,11
C,12
"""), S("1 (harbour side)", "assumed", "A..B: #14", "C: #15"), S("2 (town side)", "assumed", "A..B: #11", "C: #12"),
      alts=[[S("1", "assumed", "A..B: #14", "C: #15"), S("2", "assumed", "A..B: #11", "C: #12")]])

stand("section", "a-sheet-each", "A section a sheet, ranges in each.", book(sheet("Section A", """
Row|Seats
1|1-10
2|1-10
3|1-11
"""), sheet("Section B", """
Row|Seats
1|1-14
2|1-14
3|1-15
"""), sheet("Section C", """
Row|Seats
1|1-10
2|1-10
3|1-11
""")), S("A", "assumed", "1..2: 1-10", "3: 1-11"), S("B", "assumed", "1..2: 1-14", "3: 1-15"),
      S("C", "assumed", "1..2: 1-10", "3: 1-11"))

stand("section", "sheets-north-south", "Two stands, a sheet each, North counted from the field and South too.", book(sheet("North", """
North
Row (1 = field side)|Seats
1|25
2|25
3|26
"""), sheet("South", """
South
Row (1 = field side)|Seats
1|31
2|31
3|33
4|33
"""), office=True), S("North", "said", "1..2: #25", "3: #26"), S("South", "said", "1..2: #31", "3..4: #33"))

stand("section", "side-by-side", "Two blocks side by side on one sheet, with an empty column between.", csv("""
East,,,West,
Row,Seats,,Row,Seats
1,14,,1,12
2,14,,2,12
3,15,,3,13
4,15,,4,13
"""), S("East", "assumed", "1..2: #14", "3..4: #15"), S("West", "assumed", "1..2: #12", "3..4: #13"))

stand("section", "side-by-side-uneven", "Three blocks side by side, of which the middle one has more rows.", csv("""
Left,,,Middle,,,Right,
Row,Seats,,Row,Seats,,Row,Seats
A,1-6,,A,1-10,,A,1-6
B,1-6,,B,1-10,,B,1-6
C,1-7,,C,1-11,,C,1-7
,,,D,1-11,,,
,,,E,1-12,,,
"""), S("Left", "assumed", "A..B: 1-6", "C: 1-7"), S("Middle", "assumed", "A..B: 1-10", "C..D: 1-11", "E: 1-12"),
      S("Right", "assumed", "A..B: 1-6", "C: 1-7"))

stand("section", "side-by-side-book", "Two blocks side by side in a workbook under merged headings.", book(sheet("Sheet1", """
Harbour side|||| Town side||
Row|First|Last||Row|First|Last
1|1|15||1|16|30
2|1|15||2|16|30
3|1|16||3|17|32
""", merge=["A1:C1", "E1:G1"])), S("Harbour side", "assumed", "1..2: 1-15", "3: 1-16"),
      S("Town side", "assumed", "1..2: 16-30", "3: 17-32"))

stand("section", "wide-sections-ranges", "Sections across, a seat range in each cell; section C has no row 1.", csv("""
Row,Sect. A,Sect. B,Sect. C
1,1-8,9-22,
2,1-8,9-22,23-30
3,1-9,10-24,25-33
"""), S("A", "assumed", "1..2: 1-8", "3: 1-9"), S("B", "assumed", "1..2: 9-22", "3: 10-24"),
      S("C", "assumed", "2: 23-30", "3: 25-33"))

stand("section", "wide-first-last", "Sections across, first and last seat of each, under a line of section names.", csv("""
,Left,,Centre,,Right,
Row,first,last,first,last,first,last
1,1,8,9,22,23,30
2,1,8,9,22,23,30
3,1,9,10,24,25,33
"""), S("Left", "assumed", "1..2: 1-8", "3: 1-9"), S("Centre", "assumed", "1..2: 9-22", "3: 10-24"),
      S("Right", "assumed", "1..2: 23-30", "3: 25-33"))

stand("section", "rows-across", "Rows across and sections down: a cell is the count.", csv("""
Section,Row 1,Row 2,Row 3,Row 4
East,12,12,14,14
Centre,20,20,22,22
West,12,12,14,14
"""), S("East", "assumed", "1..2: #12", "3..4: #14"), S("Centre", "assumed", "1..2: #20", "3..4: #22"),
      S("West", "assumed", "1..2: #12", "3..4: #14"))

stand("section", "rows-across-ranges", "Rows across as columns, one stand: seats under each row.", csv("""
Row,1,2,3,4,5
Seats,16,16,18,18,20
Height (cm),0,35,70,105,140
"""), S("", "said", "1..2: #16", "3..4: #18", "5: #20"))

stand("section", "merged-sections", "Section names in merged cells down the first column.", book(sheet("Sheet1", """
Section|Row|Seats
A|1|1-9
|2|1-9
|3|1-10
B|1|1-13
|2|1-13
|3|1-14
""", merge=["A2:A4", "A5:A7"])), S("A", "assumed", "1..2: 1-9", "3: 1-10"), S("B", "assumed", "1..2: 1-13", "3: 1-14"))

stand("section", "section-once", "The section name only in the first line of each; the cells below are left empty.", csv("""
Section,Row,Seats
Ropewalk,1,15
,2,15
,3,16
Lantern,1,12
,2,12
,3,12
,4,13
"""), S("Ropewalk", "assumed", "1..2: #15", "3: #16"), S("Lantern", "assumed", "1..3: #12", "4: #13"))

stand("section", "ditto-marks", "Ditto marks for the same again.", csv('''
Section,Row,Seats
A,1,14
"""",2,""""
"""",3,15
B,1,10
"""",2,""""
'''), S("A", "assumed", "1..2: #14", "3: #15"), S("B", "assumed", "1..2: #10"))

stand("section", "section-in-row-name", "Section and row in one name: A1, A2, B1 ...", csv("""
Row,Seats
A1,12
A2,12
A3,13
B1,16
B2,16
B3,17
"""), S("A", "assumed", "1..2: #12", "3: #13"), S("B", "assumed", "1..2: #16", "3: #17"),
      alts=[[S("", "assumed", "A1, A2: #12", "A3: #13", "B1, B2: #16", "B3: #17")]])

stand("section", "numbered-sections", "Sections 101, 102, 103 with lettered rows.", csv("""
Sec,Row,Seats,
101,A,1-10,
101,B,1-10,
102,A,1-14,
102,B,1-14,
103,A,1-10,aisle seat 10 is wobbly
103,B,1-10,
"""), S("101", "assumed", "A..B: 1-10"), S("102", "assumed", "A..B: 1-14"), S("103", "assumed", "A..B: 1-10"))

stand("section", "stand-and-block", "Two stands of two blocks each: four sections.", csv("""
Stand,Block,Row,Seats
Mole,1,1,10
Mole,1,2,10
Mole,2,1,12
Mole,2,2,12
Terrace,1,1,9
Terrace,1,2,9
Terrace,2,1,11
Terrace,2,2,11
"""), S("Mole 1", "assumed", "1..2: #10"), S("Mole 2", "assumed", "1..2: #12"), S("Terrace 1", "assumed", "1..2: #9"),
      S("Terrace 2", "assumed", "1..2: #11"))

stand("section", "sections-mixed-order", "Lines of two sections mixed, as they were measured.", csv("""
Section,Row,Seats
A,1,12
B,1,14
A,2,12
B,2,14
A,3,13
B,3,15
"""), S("A", "assumed", "1..2: #12", "3: #13"), S("B", "assumed", "1..2: #14", "3: #15"))

stand("section", "walkway-word", "One section with a walkway between rows 3 and 4.", csv("""
Row,Seats
1,1-18
2,1-18
3,1-18
WALKWAY,
4,1-20
5,1-20
"""), S("", "assumed", "1..3: 1-18", "4..5: 1-20"))

stand("section", "subtotals-book", "Two sections with subtotals and a grand total by formula.", book(sheet("Seats", """
Section|Row|Seats
Left|1|11
Left|2|11
Left|3|12
Subtotal||=SUM(C2:C4)~34
Right|1|13
Right|2|13
Right|3|14
Subtotal||=SUM(C6:C8)~40
Grand total||=C5+C9~74
""")), S("Left", "assumed", "1..2: #11", "3: #12"), S("Right", "assumed", "1..2: #13", "3: #14"))

stand("section", "heading-lines-long", "Section heading lines with the number of rows in words, counts below, listed back first in both.", csv("""
EAST STAND - 3 rows - listed from the back
Row,Seats
3,15
2,14
1,14
WEST STAND - 3 rows - listed from the back
Row,Seats
3,19
2,18
1,18
"""), S("East stand", "said", "1..2: #14", "3: #15"), S("West stand", "said", "1..2: #18", "3: #19"),
      alts=[[S("East", "said", "1..2: #14", "3: #15"), S("West", "said", "1..2: #18", "3: #19")]])

stand("section", "row-letters-go-on", "Rows go on through both sections: A-C below the walkway, D-F above.", csv("""
Part,Row,Seats
Below walkway,A,16
Below walkway,B,16
Below walkway,C,17
Above walkway,D,18
Above walkway,E,18
Above walkway,F,19
"""), S("Below walkway", "said", "A..B: #16", "C: #17"), S("Above walkway", "said", "D..E: #18", "F: #19"),
      alts=[[S("Below walkway", "assumed", "A..B: #16", "C: #17"), S("Above walkway", "assumed", "D..E: #18", "F: #19")]])

stand("section", "single-empty-section-cell", "The section of one line is missing between two lines of B, and is B too.", csv("""
Section,Row,Seats
A,1,10
A,2,10
B,1,12
,2,12
B,3,13
"""), S("A", "assumed", "1..2: #10"), S("B", "assumed", "1..2: #12", "3: #13"))
