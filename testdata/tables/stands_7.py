"""Ordinary tables of halls, churches, grounds and theatres, a line a row or a few rows in a line."""

from kit import *

# ---------------------------------------------------------------- counts
stand("count", "pool-gallery", "Gallery of a swimming pool, five rows; row A is at the poolside, so in front.", csv("""
Row,Seats,Remarks
A,24,poolside
B,24,
C,26,
D,26,
E,28,against the windows
"""), S("", "said", "A..B: #24", "C..D: #26", "E: #28"))

stand("count", "church-pews-two-sides",
      "Pews left and right of the nave, pew 1 nearest the chancel and so in front.", csv("""
St. Aldra's - how many sit in each pew,,
Pew 1 is the one nearest the chancel steps,,
Pew,North side,South side
1,7,7
2,7,7
3,8,8
4,8,8
5,8,8
6,8,6
Total,46,44
"""), S("North side", "said", "1..2: #7", "3..6: #8"), S("South side", "said", "1..2: #7", "3..5: #8", "6: #6"),
      called=[["North", "South"], ["St. Aldra's North side", "St. Aldra's South side"]])

stand("count", "rink-blocks",
      "Three blocks of an ice rink, 101 to 103, each with four rows; row 1 presumably in front.", csv("""
Block,Row,No. of seats
101,1,16
101,2,16
101,3,17
101,4,17
102,1,20
102,2,20
102,3,21
102,4,21
103,1,16
103,2,16
103,3,17
103,4,17
"""), S("101", "assumed", "1..2: #16", "3..4: #17"), S("102", "assumed", "1..2: #20", "3..4: #21"),
      S("103", "assumed", "1..2: #16", "3..4: #17"), called=[["Block 101", "Block 102", "Block 103"]])

stand("count", "scout-logs",
      "Logs round a field with how many scouts fit on each; nothing says which log is in front but their numbers.",
      csv("""
Log no.,Scouts
1,9
2,9
3,10
4,12
5,12
"""), S("", "assumed", "1..2: #9", "3: #10", "4..5: #12"))

stand("count", "cricket-pavilion",
      "Pavilion seats; row 1 stands at the boundary rope and row 6 under the balcony.", book(sheet("Pavilion", """
Row|Chairs|Where
1|22|at the boundary rope
2|22|
3|22|
4|20|
5|20|
6|18|under the balcony
All|=SUM(B2:B7)~124|
"""))
, S("", "said", "1..3: #22", "4..5: #20", "6: #18"), called=[["Pavilion"]])

stand("count", "choir-risers-steps", "Steps of choir risers by name; the bottom step is in front.", csv("""
Step,Standing places
bottom,11
2nd,12
3rd,12
top,13
"""), S("", "said", "bottom: #11", "2nd, 3rd: #12", "top: #13"),
      alts=[[S("", "said", "bottom: #11", "2, 3: #12", "top: #13")]])

stand("count", "gym-bleachers-tiers",
      "Pull-out bleachers of a gym with tread and riser in inches; tier 1 presumably in front.", csv("""
Westmere Middle School gym - home side bleachers,,,
Tier,Seats,Tread (in),Riser (in)
1,31,24,10
2,31,24,10
3,31,24,10
4,30,24,10
5,30,24,10
6,30,24,10
7,30,26,10
"""), S("", "assumed", "1..3: #31", "4..7: #30"), called=[["home side"], ["home side bleachers"],
      ["Westmere Middle School gym"], ["Westmere Middle School gym - home side bleachers"]], or_front="said")

stand("count", "parish-benches-metres",
      "Benches with length in metres and how many sit; bench 1 at the altar.", csv("""
Bench;Length (m);Persons;Notes
1;3.60;8;altar end
2;3.60;8;
3;3.60;8;
4;3.15;7;pillar side
5;3.15;7;
6;2.70;6;by the font / door
"""), S("", "said", "1..3: #8", "4..5: #7", "6: #6"))

stand("count", "speedway-terrace",
      "Three terraces with rows and seats in one list; row 1 nearest the track as the second line says.", csv("""
Speedway ground - counted 2 May,,,
rows are numbered from the track up,,,
Terrace,Row,Seats,Counted by
Pits,1,30,Ruza
Pits,2,30,Ruza
Pits,3,28,Ruza
Start,1,25,Eddo
Start,2,25,Eddo
Bend,1,18,Eddo
Bend,2,19,Eddo
Bend,3,20,Eddo
"""), S("Pits", "said", "1..2: #30", "3: #28"), S("Start", "said", "1..2: #25"),
      S("Bend", "said", "1: #18", "2: #19", "3: #20"))

stand("count", "village-hall-chairs",
      "Stacking chairs in eight rows of a village hall; row H is at the back by the kitchen hatch.", csv("""
Row,Chairs,
A,10,
B,10,
C,10,
D,10,
E,12,
F,12,
G,12,
H,9,back row - keep kitchen hatch clear
"""), S("", "said", "A..D: #10", "E..G: #12", "H: #9"))

stand("count", "fire-brigade-steps",
      "Rows counted from the top of the steps: 1 is the top row, 5 at the bottom by the engine yard.", csv("""
Row,People,Remark
1,14,top
2,14,
3,15,
4,15,
5,16,bottom - yard
"""), S("", "said", "5: #16", "4..3: #15", "2..1: #14"))

stand("count", "letters-backwards", "Rows from F down to A; A is the front row as its remark says.", csv("""
Row;Places;Comment
F;19;wall
E;19;
D;18;
C;18;
B;17;
A;17;front row
"""), S("", "said", "A..B: #17", "C..D: #18", "E..F: #19"))

stand("count", "amphitheatre-arcs",
      "Arcs of a small amphitheatre, growing outwards from the stage; arc 1 is said to be innermost.", csv("""
Arc (1 = innermost at the stage),Seats
1,14
2,17
3,20
4,23
5,26
"""), S("", "said", "1: #14", "2: #17", "3: #20", "4: #23", "5: #26"))

stand("count", "regatta-bank-benches",
      "Benches on a bank of the river with distance to the water in metres; bench 1 is nearest.", csv("""
Bench,Seats,Distance to water (m)
1,12,4.0
2,12,5.1
3,12,6.2
4,13,7.3
"""), S("", "said", "1..3: #12", "4: #13"))

stand("count", "capacity-and-usable",
      "What each row is licensed for and what we can use; what can be used is what exists for us.", csv("""
Row,Licensed,Usable,Why not all
A,20,20,
B,20,18,two seats behind the pillar
C,20,20,
D,22,21,one broken
E,22,22,
"""), S("", "assumed", "A: #20", "B: #18", "C: #20", "D: #21", "E: #22"))

stand("count", "seats-and-price-band",
      "Theatre rows with seats and price band; the price says nothing about seats.", csv("""
Row,Seats,Band,Price
AA,12,A,£14
BB,12,A,£14
A,16,A,£14
B,16,B,£11
C,17,B,£11
D,17,C,£8
"""), S("", "assumed", "AA, BB: #12", "A, B: #16", "C, D: #17"), or_front="unsure",
      alts=[[S("", "unsure", "D..C: #17", "B..A: #16", "BB, AA: #12")]])

stand("count", "two-tiers-with-letters",
      "Stalls A to D and balcony A to C, sections in a column filled in once each.", csv("""
Part of house,Row,Seats
Stalls,A,14
,B,15
,C,15
,D,16
Balcony,A,18
,B,18
,C,12
"""), S("Stalls", "assumed", "A: #14", "B..C: #15", "D: #16"), S("Balcony", "assumed", "A..B: #18", "C: #12"))

stand("count", "counts-from-a-form", "Answers of a web form, a line a row, the time of answering first.", csv("""
Timestamp,Which row did you count?,How many seats?,Your name
2026/04/11 10:02:13,1,17,Edda
2026/04/11 10:02:58,2,17,Edda
2026/04/11 10:04:20,3,18,Joris
2026/04/11 10:05:41,4,18,Joris
2026/04/11 10:07:02,5,18,Edda
"""), S("", "assumed", "1..2: #17", "3..5: #18"))

stand("count", "zone-colour-column", "A stand with zones named by colour; three rows each.", csv("""
Zone,Row,Seats
Blue,1,10
Blue,2,10
Blue,3,11
Yellow,1,14
Yellow,2,14
Yellow,3,14
Green,1,10
Green,2,10
Green,3,11
"""), S("Blue", "assumed", "1..2: #10", "3: #11"), S("Yellow", "assumed", "1..3: #14"),
      S("Green", "assumed", "1..2: #10", "3: #11"))

stand("count", "rows-go-on-in-next-section",
      "Rows 1 to 3 are the lower stand, 4 to 7 the upper; nothing else is said of the front.", csv("""
Stand,Row,Seats
Lower stand,1,22
Lower stand,2,22
Lower stand,3,22
Upper stand,4,26
Upper stand,5,26
Upper stand,6,26
Upper stand,7,25
"""), S("Lower stand", "assumed", "1..3: #22"), S("Upper stand", "assumed", "4..6: #26", "7: #25"),
      called=[["Lower", "Upper"]])

# ---------------------------------------------------------------- numbers of seats
stand("range", "stalls-no-i",
      "Stalls A to H without a row I; row A nearest the stage, as the heading line says.", csv("""
Stalls (row A nearest the stage)
Row,Seat numbers
A,3-14
B,2-15
C,1-16
D,1-16
E,1-16
F,1-16
G,1-16
H,1-10
J,1-10
"""), S("Stalls", "said", "A: 3-14", "B: 2-15", "C..G: 1-16", "H, J: 1-10"), called=[[""]])

stand("range", "netball-spaces", "Seats with spaces round the dash; four rows of a netball court.", csv("""
Row,Seats
1,1 - 22
2,1 - 22
3,1 - 22
4,5 - 22
"""), S("", "assumed", "1..3: 1-22", "4: 5-22"))

stand("range", "lift-shaft-gap",
      "The lift shaft takes seats 9 to 12 of the upper rows, which are left out of the numbers.", csv("""
Row;Seats;Comment
K;1-20;
L;1-20;
M;1-8, 13-20;lift shaft
N;1-8, 13-20;lift shaft
O;1-8, 13-22;lift shaft
"""), S("", "assumed", "K..L: 1-20", "M..N: 1-8 13-20", "O: 1-8 13-22"))

stand("range", "section-and-row-in-one", "Section and row in one cell: Dock A is row A of section Dock.", csv("""
Place,Seats
Dock A,1-12
Dock B,1-12
Dock C,1-14
Hill A,1-9
Hill B,1-9
"""), S("Dock", "assumed", "A..B: 1-12", "C: 1-14"), S("Hill", "assumed", "A..B: 1-9"))

stand("range", "odd-even-words-behind",
      "A row's odd seats are left of the aisle and its even ones right; both belong to the row.", csv("""
Row,Left of aisle,Right of aisle
A,"1, 3, 5, 7, 9","2, 4, 6, 8, 10"
B,"1, 3, 5, 7, 9","2, 4, 6, 8, 10"
C,"1, 3, 5, 7, 9, 11","2, 4, 6, 8, 10"
"""), S("Left of aisle", "assumed", "A..B: " + every(2, 1, 9), "C: " + every(2, 1, 11)),
      S("Right of aisle", "assumed", "A..C: " + every(2, 2, 10)),
      alts=[[S("", "assumed", "A..B: 1-10", "C: 1-11")]], called=[["Left", "Right"]])

stand("range", "wheelchair-bays-named",
      "Seats 1 to 20 a row; in row A 17 to 20 are places for wheelchairs and kept free.", csv("""
Row,Seats,Wheelchair places (keep free)
A,1-20,17-20
B,1-20,
C,1-20,
D,1-20,
"""), S("", "assumed", "A..D: 1-20", reserved=["A-17", "A-18", "A-19", "A-20"]))

stand("range", "rows-painted-on-steps",
      "Rows painted 21 to 25 with seat numbers; the lowest painted number is at the pitch.", csv("""
Row (painted),Seats,
21,1-15,by the pitch
22,1-15,
23,1-15,
24,1-17,
25,1-17,
"""), S("", "said", "21..23: 1-15", "24..25: 1-17"))

stand("range", "plus-signs-between", "Pieces of rows joined by a plus sign: the aisle runs between.", csv("""
Row,Seats
1,1-7 + 8-14
2,1-7 + 8-14
3,1-7 + 10-14
4,1-8 + 9-16
"""), S("", "assumed", "1..2: 1-14", "3: 1-7 10-14", "4: 1-16"),
      alts=[[S("", "assumed", "1..2: 1-7", "3: 1-7", "4: 1-8"), S("", "assumed", "1..2: 8-14", "3: 10-14",
      "4: 9-16")]])

stand("range", "removed-in-words", "Seats 1 to 16 a row; the last column says in words which were taken out.", csv("""
Row,Seats,What we found
1,1-16,ok
2,1-16,seat 3 has been removed
3,1-16,ok
4,1-16,5 and 6 removed for the sound desk
5,1-16,squeaks
"""), S("", "assumed", "1: 1-16", "2: 1-2 4-16", "3: 1-16", "4: 1-4 7-16", "5: 1-16"))

stand("range", "house-seats",
      "All seats of a small theatre; those named under House seats are kept back, and they exist.", csv("""
Row;Seats;House seats (not for us)
A;1-12;
B;1-12;
C;1-14;7-8
D;1-14;
"""), S("", "assumed", "A..B: 1-12", "C..D: 1-14", reserved=["C-7", "C-8"]))

stand("range", "three-digit-blocks", "Block 12 to 14 with rows A to C; numbers go on from block to block.", csv("""
Block,Row,Seats
12,A,1-18
12,B,1-18
12,C,1-18
13,A,19-40
13,B,19-40
13,C,19-40
14,A,41-58
14,B,41-58
14,C,41-56
"""), S("12", "assumed", "A..C: 1-18"), S("13", "assumed", "A..C: 19-40"), S("14", "assumed", "A..B: 41-58",
      "C: 41-56"),
      called=[["Block 12", "Block 13", "Block 14"]])

stand("range", "seat-count-and-note",
      "Numbers, their count, and a remark whose date says nothing about seats.", book(sheet("survey may", """
Row|Seats|No.|Remark
1|1-20|20|repainted 12.04.
2|1-20|20|
3|1-9, 12-20|18|stair opening
4|1-22|22|
5|1-22|22|wobbly, fixed 3 May
|total|=SUM(C2:C6)~102|
""")), S("", "assumed", "1..2: 1-20", "3: 1-9 12-20", "4..5: 1-22"), called=[["survey may"]])

# ---------------------------------------------------------------- first and last
stand("firstlast", "low-high-sections",
      "Three sections with low and high seat; row A lowest as the column Elevation says.", csv("""
Section,Row,Low seat,High seat,Elevation (ft)
South,A,1,14,0.0
South,B,1,14,1.2
South,C,1,15,2.4
Home,A,15,30,0.0
Home,B,15,30,1.2
Home,C,16,31,2.4
North,A,31,44,0.0
North,B,31,44,1.2
North,C,32,46,2.4
"""), S("South", "said", "A..B: 1-14", "C: 1-15"), S("Home", "said", "A..B: 15-30", "C: 16-31"),
      S("North", "said", "A..B: 31-44", "C: 32-46"))

stand("firstlast", "first-last-aisle-seats", "First and last seat; no seats exist at the aisle's numbers.", csv("""
Row,First,Last,Aisle (no seats)
1,1,20,10-11
2,1,20,10-11
3,1,22,11-12
"""), S("", "assumed", "1..2: 1-9 12-20", "3: 1-10 13-22"))

stand("firstlast", "from-to-step-two",
      "From and to with a column that says every second number: odd on the left, even on the right.", csv("""
Side,Row,From,To,Numbering
L,1,1,19,odd
L,2,1,19,odd
L,3,1,21,odd
R,1,2,20,even
R,2,2,20,even
R,3,2,22,even
"""), S("L", "assumed", "1..2: " + every(2, 1, 19), "3: " + every(2, 1, 21)),
      S("R", "assumed", "1..2: " + every(2, 2, 20), "3: " + every(2, 2, 22)), called=[["Left", "Right"]])

stand("firstlast", "leftmost-rightmost",
      "Leftmost and rightmost seat as one looks from the court; numbers fall from left to right.", csv("""
Row;Leftmost seat;Rightmost seat;Missing
1;24;1;
2;24;1;13
3;24;1;
4;22;1;1, 2
"""), S("", "assumed", "1: 1-24", "2: 1-12 14-24", "3: 1-24", "4: 3-22"))

stand("firstlast", "book-with-formulas-total",
      "First, last and count by formula, a total below; the sheet is called West wing.", book(sheet("West wing", """
Row|First|Last|Count
F|101|116|=C2-B2+1~16
G|101|116|=C3-B3+1~16
H|101|118|=C4-B4+1~18
J|101|118|=C5-B5+1~18
Total|||=SUM(D2:D5)~68
""")), S("", "assumed", "F..G: 101-116", "H, J: 101-118"), called=[["West wing"], ["West"]])

stand("firstlast", "begin-end-minus-pillars", "Begin, end and the numbers lost to pillars.", csv("""
ROW,BEGIN,END,PILLAR AT
R,1,26,
S,1,26,"6, 21"
T,1,26,"6, 21"
U,1,28,
"""), S("", "assumed", "R: 1-26", "S..T: 1-5 7-20 22-26", "U: 1-28"))

stand_ask("firstlast", "last-seat-zero", "First and last of four rows; row 3 ends with 0.",
          "Row 3 begins with 1 and ends with 0: which is its last seat?", csv("""
Row,First,Last
1,1,14
2,1,14
3,1,0
4,1,14
"""))

# ---------------------------------------------------------------- several rows in a line
stand("rowrange", "retractable-summary",
      "A hall's retractable seating: rows A-H with 14 seats each, J-L with 12.", csv("""
Rows,Seats per row,Type
A-H,14,retractable
J-L,12,retractable
"""), S("", "assumed", "A..H: #14", "J..L: #12"))

stand("rowrange", "sections-rows-per",
      "Sections with how many rows there are and how many seats in each; row 1 presumably in front.", csv("""
Section,Number of rows,Seats per row
Quay,6,18
Chapel,4,22
Mill,5,18
"""), S("Quay", "assumed", "1..6: #18"), S("Chapel", "assumed", "1..4: #22"), S("Mill", "assumed", "1..5: #18"))

stand("rowrange", "block-row-range-seat-range",
      "Blocks, their rows and the numbers of seats in every one of them.", csv("""
Block,Rows,Seats in every row
P,1-4,1-16
Q,1-4,17-32
R,1-3,33-46
"""), S("P", "assumed", "1..4: 1-16"), S("Q", "assumed", "1..4: 17-32"), S("R", "assumed", "1..3: 33-46"))

stand("rowrange", "first-row-short",
      "Row 1 alone and rows 2 to 7 together; the first is next to the judges' table, in front.", csv("""
Row(s),Seats,Notes
1,10,next to the judges' table - front
2 to 7,15,
8,12,last row under the clock
"""), S("", "said", "1: #10", "2..7: #15", "8: #12"))

stand("rowrange", "lines-for-two-rows", "Two rows in a line, joined by and or a slash.", csv("""
Rows,Seats (each)
A and B,1-14
C & D,1-14
E/F,1-16
G,1-10
"""), S("", "assumed", "A..D: 1-14", "E..F: 1-16", "G: 1-10"))

stand("rowrange", "top-middle-bottom",
      "Rows in three bunches, from the top; 9 to 12 are at the bottom by the lake.", book(sheet("lake", """
Rows|Each has|
1-4|24 seats|top of the slope
5-8|22 seats|
9-12|20 seats|bottom, by the lake
""")), S("", "said", "12..9: #20", "8..5: #22", "4..1: #24"), called=[["lake"]])

# ---------------------------------------------------------------- measures and lists with more in them
stand("measure", "levels-in-millimetres",
      "An engineer's levels in millimetres against the stage floor; row 1 is lowest.", csv("""
ROW,LEVEL [mm],GOING [mm],SEATS [-],SEAT CTRS [mm]
1,+0,850,18,500
2,+150,850,18,500
3,+300,850,19,500
4,+450,850,19,500
5,+600,900,20,500
"""), S("", "said", "1..2: #18", "3..4: #19", "5: #20"))

stand("measure", "setting-out-points",
      "Surveyed points of every row's ends in metres, and seats; heights rise with the rows.", csv("""
row,x_left,y_left,z_left,x_right,y_right,z_right,seats
1,-4.50,6.00,0.40,4.50,6.00,0.40,18
2,-4.50,6.85,0.80,4.50,6.85,0.80,18
3,-4.75,7.70,1.20,4.75,7.70,1.20,19
4,-5.00,8.55,1.60,5.00,8.55,1.60,20
"""), S("", "said", "1..2: #18", "3: #19", "4: #20"), or_front="assumed")

stand("measure", "feet-and-inches-rows",
      "Row depth and height in feet and inches; seats in their own column; row 1 is on the ground.", csv('''
Row,Seats,Depth,Height above ground
1,21,"2'-6""","0'-0"""
2,21,"2'-6""","0'-10"""
3,21,"2'-6""","1'-8"""
4,22,"2'-8""","2'-6"""
'''), S("", "said", "1..3: #21", "4: #22"))

stand("measure", "width-per-person",
      "Bench lengths, width a person, and the number that follows from it, rounded down.", book(sheet("benches", """
Bench|Length cm|cm per person|Persons
1|640|50|=INT(B2/C2)~12
2|640|50|=INT(B3/C3)~12
3|700|50|=INT(B4/C4)~14
4|730|50|=INT(B5/C5)~14
""")), S("", "assumed", "1..2: #12", "3..4: #14"), called=[["benches"]])

stand("measure", "lens-distance",
      "Distance of each row to the lens in metres; row D is nearest, so it is in front.", csv("""
Row,Seats,Distance to lens [m]
A,16,31.5
B,16,30.6
C,16,29.7
D,14,28.8
"""), S("", "said", "D: #14", "C..A: #16"))

stand_ask("measure", "only-total-area", "A stand's overall size and the number of rows, but no seats.",
          "How many seats has each row? Only the length, the depth and the number of rows are given.", csv("""
What,Value
Stand,Tidewater
Length,18.40 m
Depth,6.80 m
Rows,8
Height of last row,2.10 m
"""))
