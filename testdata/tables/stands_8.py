"""Several sections, drawings, a line a seat, and workbooks, as crews send them."""

from kit import *

# ---------------------------------------------------------------- several sections
stand("section", "three-under-one-another",
      "Three stands under one another, each with its name and its own headings; row 1 presumably in front.", csv("""
HARROW LANE END
Row,Seats
1,20
2,20
3,21

CANAL SIDE
Row,Seats
1,30
2,30
3,30
4,28

CLUBHOUSE
Row,Seats
1,9
2,9
"""), S("Harrow Lane End", "assumed", "1..2: #20", "3: #21"), S("Canal Side", "assumed", "1..3: #30", "4: #28"),
      S("Clubhouse", "assumed", "1..2: #9"))

stand("section", "beside-one-another-ranges",
      "Two blocks beside one another, each with row and seats; an empty column between.", book(sheet("plan", """
North block|||South block|
Row|Seats||Row|Seats
A|1-10||A|1-12
B|1-10||B|1-12
C|1-11||C|1-12
D|1-11|||
""", merge=["A1:B1", "D1:E1"])), S("North block", "assumed", "A..B: 1-10", "C..D: 1-11"),
      S("South block", "assumed", "A..C: 1-12"), called=[["North", "South"]])

stand("section", "wide-ranges-three",
      "Sections across, row by row, with the numbers of seats; R has no row 5.", csv("""
Row;Left wing;Middle;Right wing
1;1-8;9-20;21-28
2;1-8;9-20;21-28
3;1-8;9-20;21-28
4;1-7;8-19;20-26
5;1-7;8-19;-
"""), S("Left wing", "assumed", "1..3: 1-8", "4..5: 1-7"), S("Middle", "assumed", "1..3: 9-20", "4..5: 8-19"),
      S("Right wing", "assumed", "1..3: 21-28", "4: 20-26"))

stand("section", "section-once-then-blank",
      "Section names stand once in a merged cell beside their rows.", book(sheet("Sheet1", """
Bay|Row|From|To
Bay 1|1|1|10
|2|1|10
|3|1|11
Bay 2|1|11|22
|2|11|22
Bay 3|1|23|30
|2|23|30
|3|23|31
""", merge=["A2:A4", "A5:A6", "A7:A9"])), S("Bay 1", "assumed", "1..2: 1-10", "3: 1-11"), S("Bay 2", "assumed",
      "1..2: 11-22"),
      S("Bay 3", "assumed", "1..2: 23-30", "3: 23-31"), called=[["1", "2", "3"]])

stand("section", "sheet-per-stand",
      "A sheet for each of three stands; on each row 1 is nearest the pitch as the first line says.",
      book(sheet("Main", """
Row 1 nearest the pitch|
Row|Seats
1|24
2|24
3|26
"""), sheet("Far side", """
Row 1 nearest the pitch|
Row|Seats
1|18
2|18
"""), sheet("Town end", """
Row 1 nearest the pitch|
Row|Seats
1|12
2|13
3|14
4|15
""")), S("Main", "said", "1..2: #24", "3: #26"), S("Far side", "said", "1..2: #18"),
      S("Town end", "said", "1: #12", "2: #13", "3: #14", "4: #15"))

stand("section", "subtotals-after-each", "Two sections with a subtotal after each and a grand total.", csv("""
Section,Row,Seats
Orchestra,A,20
Orchestra,B,21
Orchestra,C,22
,Subtotal,63
Mezzanine,A,24
Mezzanine,B,24
,Subtotal,48
,Grand total,111
"""), S("Orchestra", "assumed", "A: #20", "B: #21", "C: #22"), S("Mezzanine", "assumed", "A..B: #24"))

stand("section", "section-heading-with-colon",
      "Sections in lines ending with a colon, rows below; row 1 is the one at the ropes.", csv("""
Ring side seats (row 1 at the ropes)
East:
row 1: 8 seats
row 2: 10 seats
row 3: 12 seats
West:
row 1: 8 seats
row 2: 10 seats
"""), S("East", "said", "1: #8", "2: #10", "3: #12"), S("West", "said", "1: #8", "2: #10"))

stand("section", "letter-and-number-names", "Sections A1, A2, B1 with rows in Roman numerals.", csv("""
Sector|Row|Seats
A1|I|1-9
A1|II|1-9
A1|III|1-10
A2|I|1-12
A2|II|1-12
B1|I|1-7
B1|II|1-7
""", sep=";"), S("A1", "assumed", "I, II: 1-9", "III: 1-10"), S("A2", "assumed", "I, II: 1-12"), S("B1", "assumed",
      "I, II: 1-7"))

stand("section", "mixed-fronts-said",
      "In section Hill row 1 is at the top; in section Flat row 1 is in front: the remarks say so.", csv("""
Section,Row,Seats,Remark
Flat,1,15,front
Flat,2,15,
Flat,3,15,back
Hill,1,18,top (back)
Hill,2,17,
Hill,3,16,bottom (front)
"""), S("Flat", "said", "1..3: #15"), S("Hill", "said", "3: #16", "2: #17", "1: #18"))

stand("section", "heading-across-twice",
      "Two stands across with first and last seat each under their merged names.", book(sheet("Sheet1", """
|Harbour side||Street side|
Row|first|last|first|last
1|1|12|13|24
2|1|12|13|24
3|1|14|15|28
4|||15|28
""", merge=["B1:C1", "D1:E1"])), S("Harbour side", "assumed", "1..2: 1-12", "3: 1-14"),
      S("Street side", "assumed", "1..2: 13-24", "3..4: 15-28"), called=[["Harbour", "Street"]])

stand("section", "dashed-lines-between", "Two sections divided by lines of dashes.", csv("""
Section Elm,
row,seats
A,11
B,12
C,13
-----,-----
Section Oak,
row,seats
A,9
B,9
-----,-----
all together,54
"""), S("Elm", "assumed", "A: #11", "B: #12", "C: #13"), S("Oak", "assumed", "A..B: #9"),
      called=[["Section Elm", "Section Oak"]])

stand("section", "boxes-not-for-us",
      "Rows 1 to 3 and two boxes for guests, which are places as well but are named apart and not ours.", csv("""
Where,Row,Seats,Ours?
Terrace,1,24,yes
Terrace,2,24,yes
Terrace,3,26,yes
Box 1,1,6,no - sponsors sit there
Box 2,1,6,no - sponsors sit there
"""), S("Terrace", "assumed", "1..2: #24", "3: #26"),
      alts=[[S("Terrace", "assumed", "1..2: #24", "3: #26"), S("Box 1", "assumed", "1: #6"), S("Box 2", "assumed",
      "1: #6")],
            [S("Terrace", "assumed", "1..2: #24", "3: #26")]
            + [S(b, "assumed", "1: #6", reserved=["%s-1-%d" % (b, n) for n in range(1, 7)]) for b in ("Box 1",
      "Box 2")]])

stand_ask("section", "section-twice-differing", "Section B stands there twice with the same rows and other seats.",
          "Section B, rows 1 and 2, has 14 seats in one place and 16 in another: which is right?", csv("""
Section,Row,Seats
A,1,12
A,2,12
B,1,14
B,2,14
C,1,12
C,2,12
B,1,16
B,2,16
"""))

# ---------------------------------------------------------------- which row is in front
stand("back", "front-behind-heading",
      "The heading says that the list goes from the back to the front; so row E, the last, is in front.", csv("""
Row (listed back to front),Seats
A,18
B,18
C,17
D,16
E,16
"""), S("", "said", "E..D: #16", "C: #17", "B..A: #18"))

stand("back", "stage-in-the-last-line",
      "The last line says that the stage is after row K, which is therefore in front.", csv("""
Row,Chairs
G,16
H,16
I,15
J,14
K,14
(then comes the stage)
"""), S("", "said", "K..J: #14", "I: #15", "H..G: #16"))

stand("back", "number-one-highest-words",
      "A line under the table says that row one is the highest and row six is by the sand.", csv("""
Row,Seats
1,16
2,16
3,18
4,18
5,20
6,20
NB row 1 is the highest one; row 6 is down by the sand
"""), S("", "said", "6..5: #20", "4..3: #18", "2..1: #16"))

stand("back", "front-column-ticked", "A column Front row? with yes beside row D.", csv("""
Row,Seats,Front row?
A,14,no
B,14,no
C,13,no
D,12,yes
"""), S("", "said", "D: #12", "C: #13", "B..A: #14"))

stand("back", "order-column", "A column gives each row's place from the front.", csv("""
Row name,Seats,Place from front
Red,12,3
Blue,11,2
White,10,1
Green,13,4
"""), S("", "said", "White: #10", "Blue: #11", "Red: #12", "Green: #13"))

stand("back", "steps-down-from-entrance",
      "Steps down from the entrance at the top: row 5 is 20 steps down, so lowest and in front.", csv("""
Row,Steps down from entrance,Seats
1,4,22
2,8,22
3,12,20
4,16,20
5,20,18
"""), S("", "said", "5: #18", "4..3: #20", "2..1: #22"))

stand("back", "negative-levels", "Levels below the promenade in metres: row 4 is lowest, by the water.", csv("""
Row;Seats;Level against promenade (m)
1;15;-0.40
2;15;-0.80
3;16;-1.20
4;16;-1.60
"""), S("", "said", "4..3: #16", "2..1: #15"))

stand("back", "front-desk-trap", "The hall is called after its front desk; habit says row 1 is in front.", csv("""
Hall behind the front desk,
Row,Chairs
1,12
2,12
3,12
4,10
"""), S("Hall behind the front desk", "assumed", "1..3: #12", "4: #10"), called=[[""], ["Hall"]])

stand("contradict", "arrow-and-remark-differ",
      "The first line says row 1 is at the stage, a remark calls row 5 the front row.", csv("""
Row 1 = at the stage,,
Row,Seats,Remark
1,18,
2,18,
3,18,
4,20,
5,20,front row (keep 2 free for press)
"""), S("", "unsure", "1..3: #18", "4..5: #20"), alts=[[S("", "unsure", "5..4: #20", "3..1: #18")]])

stand("contradict", "distance-grows-back-falls",
      "Row 1 is nearest to the camera by its distance but marked back row.", csv("""
Row,Seats,Camera distance m,Note
1,12,22,back row
2,12,23,
3,12,24,front row
"""), S("", "unsure", "1..3: #12"), alts=[[S("", "unsure", "3..1: #12")]])

stand("contradict", "rows-by-flower", "Benches named after flowers in no order that says which is in front.", csv("""
Bench,Persons
Tulip,6
Aster,6
Dahlia,7
Rose,8
"""), S("", "unsure", "Tulip, Aster: #6", "Dahlia: #7", "Rose: #8"),
      alts=[[S("", "assumed", "Tulip, Aster: #6", "Dahlia: #7", "Rose: #8")],
            [S("", "unsure", "Rose: #8", "Dahlia: #7", "Aster, Tulip: #6")]])

stand("contradict", "stage-at-side", "A drawing with the stage at its left side, not above or below.", csv("""
STAGE,row 1,x,x,x,x,x
STAGE,row 2,x,x,x,x,x
STAGE,row 3,x,x,x,x,x
"""), S("", "unsure", "1..3: #5"), alts=[[S("", "assumed", "1..3: #5")], [S("", "unsure", "3..1: #5")]])

# ---------------------------------------------------------------- drawings
stand("drawing", "theatre-plan-with-aisles",
      "A theatre's plan with numbers and two aisles; the stage is above row A.", csv("""
,,,,,STAGE,,,,,,
A,,1,2,,3,4,5,6,,7,8
B,,1,2,,3,4,5,6,,7,8
C,1,2,3,,4,5,6,7,,8,9
D,1,2,3,,4,5,6,7,,8,9
"""), S("", "said", "A..B: 1-8", "C..D: 1-9"),
      alts=[[S("", "said", "A..B: 1-2", "C..D: 1-3"), S("", "said", "A..B: 3-6", "C..D: 4-7"), S("", "said",
      "A..B: 7-8", "C..D: 8-9")]])

stand("drawing", "o-for-seats-pitch-below", "The letter o is a seat; PITCH stands below row 1.", csv("""
4;o;o;o;o;o;o;o;o
3;o;o;o;o;o;o;o;o
2;o;o;o;;;o;o;o
1;o;o;o;;;o;o;o
PITCH;;;;;;;;
"""), S("", "said", "1..2: #6", "3..4: #8"))

stand("drawing", "fills-green-red-key",
      "Green cells can be used, red ones cannot, as the key says; numbers in the top line; row A by the band.",
      book(sheet("map", """
|1|2|3|4|5|6|7|8
A|[g]|[g]|[g]|[g]|[g]|[g]|[g]|[g]
B|[g]|[g]|[r]|[r]|[g]|[g]|[g]|[g]
C|[g]|[g]|[g]|[g]|[g]|[g]|[g]|[r]
||||||||
green = ok, red = broken, nobody sits there||||||||
row A is next to the band, right at the front||||||||
""")), S("", "said", "A: 1-8", "B: 1-2 5-8", "C: 1-7"), called=[["map"]])

stand("drawing", "numbers-with-w",
      "Seat numbers in cells, W where a wheelchair can stand; the front is at the bottom.", book(sheet("Sheet1", """
E|1|2|3|4|5|6|7|8|9
D|1|2|3|4|5|6|7|8|9
C|1|2|3|4|5|6|7|8|9
B|1|2|3|4|5|6|7|8|9
A|W|W|3|4|5|6|7|W|W
|front||||||||
W = wheelchair space, please keep free|||||||||
""", merge=["B6:J6"])), S("", "said", "A..E: 1-9", reserved=["A-1", "A-2", "A-8", "A-9"]))

stand("drawing", "hash-signs-seats",
      "Hash signs are seats, dots are gaps, in one cell a row; the first line is the water.", csv("""
~~~~ water ~~~~
########..########
########..########
#########.########
"""), S("", "said", "1..2: #16", "3: #17"),
      alts=[[S("", "said", "1..2: 1-8 11-18", "3: 1-9 11-18")]])

stand("drawing", "column-letters-as-seats",
      "Columns lettered a to h are seats, rows are numbered; row 1 at the top by the net.", csv("""
NET,a,b,c,d,e,f,g,h
1,x,x,x,x,x,x,x,x
2,x,x,x,x,x,x,x,x
3,x,x,,,x,x,x,x
"""), S("", "said", "1..2: #8", "3: #6"), or_front="assumed")

stand("drawing", "crosses-with-sums-book",
      "Crosses with row sums and a sum below; row names on the left; field written over the first row.",
      book(sheet("Home stand", """
|FIELD||||||
Row 1|x|x|x|x|x|x|=COUNTA(B2:G2)~6
Row 2|x|x|x||x|x|=COUNTA(B3:G3)~5
Row 3|x|x|x|x|x|x|=COUNTA(B4:G4)~6
||||||sum|=SUM(H2:H4)~17
""", merge=["B1:G1"])), S("", "said", "1: #6", "2: #5", "3: #6"), called=[["Home stand"]])

stand("drawing", "two-drawings-beside",
      "Two blocks drawn beside each other with a wide gap, rows named at the left only.", csv("""
,North,,,,,,South,,,
D,1,2,3,4,,,1,2,3,4
C,1,2,3,4,,,1,2,3,4
B,1,2,3,4,,,1,2,3,
A,1,2,3,,,,1,2,3,
,track,,,,,,track,,,
"""), S("North", "said", "A: 1-3", "B..D: 1-4"), S("South", "said", "A..B: 1-3", "C..D: 1-4"))

stand("drawing", "curved-rows-padded",
      "Rows of a half circle, longer towards the back, drawn with numbers in the middle; stage above.", csv("""
,,,STAGE,,,
1,,,1,2,,
2,,1,2,3,4,
3,,1,2,3,4,
4,1,2,3,4,5,6
"""), S("", "said", "1: 1-2", "2..3: 1-4", "4: 1-6"))

stand("drawing", "desk-marked-in-plan",
      "A plan with the sound desk written across the places it takes in rows 5 and 6.", book(sheet("hall", """
STAGE|||||||||
1|1|2|3|4|5|6|7|8|9
2|1|2|3|4|5|6|7|8|9
3|1|2|3|4|5|6|7|8|9
4|1|2|3|4|5|6|7|8|9
5|1|2|3|sound desk|||7|8|9
6|1|2|3||||7|8|9
""", merge=["A1:J1", "E6:G7"])), S("", "said", "1..4: 1-9", "5..6: 1-3 7-9"), called=[["hall"]])

stand("drawing", "codes-in-cells", "Full codes in the cells, section, row and seat: K1-01 is row K1, seat 1.", csv("""
K2-01,K2-02,K2-03,K2-04,K2-05
K1-01,K1-02,K1-03,K1-04,K1-05
CAMERA,,,,
"""), S("", "said", "K1: 1-5", "K2: 1-5"), alts=[[S("K", "said", "1..2: 1-5")]])

stand("drawing", "colour-plan-letters",
      "Last year's plan with colour letters; a full stop is no chair, as is said; camera at the bottom.",
      csv("""
Letters are last year's colours. A full stop = no chair there.
3,B,B,Y,Y,Y,B,B
2,B,Y,Y,.,Y,Y,B
1,B,B,Y,Y,Y,B,.
,,,camera,,,
"""), S("", "said", "1..2: #6", "3: #7"),
      alts=[[S("", "said", "1: 1-6", "2: 1-3 5-7", "3: 1-7")]])

stand("drawing", "plan-starts-low-right",
      "The plan starts far down and to the right of the sheet; the quay is below.", book(sheet("Sheet1", """
c|1|2|3|4|5|6
b|1|2|3|4|5|6
a|1|2|3|4|5|6
|quay|||||
""", at="F9")), S("", "said", "a..c: 1-6"))

stand_ask("drawing", "blank-or-seat",
          "A plan of crosses and question marks; nobody says what the question marks are.",
          "Is there a seat where the question marks stand?", csv("""
field,,,,,,,
1,x,x,x,x,x,x,x
2,x,x,?,?,x,x,x
3,x,x,x,x,x,?,x
"""))

# ---------------------------------------------------------------- a line a seat
stand("perseat", "export-of-a-ticket-office",
      "An export with an id, section, row, seat and state; sold ones are seats, removed ones are not.", csv("""
id,section,row,seat,state
4401,Stalls,A,1,free
4402,Stalls,A,2,free
4403,Stalls,A,3,sold
4404,Stalls,A,4,free
4405,Stalls,B,1,free
4406,Stalls,B,2,removed
4407,Stalls,B,3,free
4408,Stalls,B,4,free
4409,Gallery,A,1,free
4410,Gallery,A,2,free
4411,Gallery,A,3,sold
"""), S("Stalls", "assumed", "A: 1-4", "B: 1 3-4"), S("Gallery", "assumed", "A: 1-3"))

stand("perseat", "places-with-coordinates",
      "A line a seat with surveyed coordinates in metres; the rows' heights rise from 1 to 3.", csv("""
row;seat;x;y;z
1;1;0.00;0.00;0.45
1;2;0.50;0.00;0.45
1;3;1.00;0.00;0.45
2;1;0.00;0.85;0.85
2;2;0.50;0.85;0.85
2;3;1.00;0.85;0.85
3;1;0.00;1.70;1.25
3;2;0.50;1.70;1.25
3;4;1.50;1.70;1.25
"""), S("", "said", "1..2: 1-3", "3: 1-2 4"), or_front="assumed")

stand("perseat", "row-once-seats-below", "The row is written once and its seats below it; row 2 lacks seat 3.", csv("""
Row,Seat,Remark
1,1,
,2,
,3,
,4,
2,1,
,2,
,4,
3,1,
,2,
,3,loose armrest
,4,
"""), S("", "assumed", "1: 1-4", "2: 1-2 4", "3: 1-4"))

stand("perseat", "codes-with-section-names", "Codes like PIER-B-03 for section, row and seat, one a line.", csv("""
seat code
PIER-A-01
PIER-A-02
PIER-A-03
PIER-B-01
PIER-B-02
PIER-B-03
PIER-B-04
DECK-A-01
DECK-A-02
"""), S("Pier", "assumed", "A: 1-3", "B: 1-4"), S("Deck", "assumed", "A: 1-2"))

stand("perseat", "one-seat-reserved", "A line a seat; two are held for the referee and exist.", csv("""
Row,Seat,Held for
A,11,
A,12,
A,13,referee
A,14,referee
B,11,
B,12,
B,13,
B,14,
"""), S("", "assumed", "A..B: 11-14", reserved=["A-13", "A-14"]))

stand_ask("perseat", "seat-without-row", "A line a seat, of which the last has a question mark for its row.",
          "Which row is seat 5 in, whose row is a question mark?", csv("""
Row,Seat
1,1
1,2
1,3
1,4
2,1
2,2
2,3
?,5
"""))

# ---------------------------------------------------------------- workbooks
stand("workbook", "hidden-columns-with-drafts",
      "Row, first and last; hidden columns hold last season's numbers.", book(sheet("2026", """
Row|first 2025|last 2025|First|Last
A|1|15|1|16
B|1|15|1|16
C|1|17|1|18
D|1|17|1|18
""", hidecols=["B", "C"])), S("", "assumed", "A..B: 1-16", "C..D: 1-18"), called=[["2026"]])

stand("workbook", "comments-pinned-to-cells",
      "Comments pinned to cells tell about the weather and a coffee; they change no seat.", book(sheet("Stand", """
Row|Seats
1|17
2|17
3|18
4|18
""", notes={"B2": "counted twice, it rained", "B4": "coffee after this one"})), S("", "assumed", "1..2: #17",
      "3..4: #18"), called=[["Stand"]])

stand("workbook", "row-struck-through",
      "Row 5 is struck through: it has been taken away; four rows are left.", book(sheet("Sheet1", """
Row|Seats|
1|14|
2|14|
3|15|
4|15|
~~5|~~16|taken away in April
""")), S("", "assumed", "1..2: #14", "3..4: #15"))

stand("workbook", "readme-sheet-first",
      "The first sheet explains, the second is the table; row A at the boards as the first sheet says.",
      book(sheet("READ ME", """
This file is for the ice rink.
Row A is right behind the boards, so it is the front row.
Questions: ask Ottilie
"""), sheet("Seats", """
Row|First|Last|Not there
A|1|30|15, 16
B|1|30|
C|1|32|
""")), S("", "said", "A: 1-14 17-30", "B: 1-30", "C: 1-32"), called=[["Seats"]], or_front="assumed")

stand("workbook", "summary-sheet-last",
      "Two sheets of rows and one that only adds them up.", book(sheet("Left bank", """
Row|Seats
1|11
2|12
3|13
"""), sheet("Right bank", """
Row|Seats
1|9
2|9
"""), sheet("Totals", """
Bank|Seats|Cards to buy
Left bank|36|40
Right bank|18|20
Both|=SUM(B2:B3)~54|=SUM(C2:C3)~60
""")), S("Left bank", "assumed", "1: #11", "2: #12", "3: #13"), S("Right bank", "assumed", "1..2: #9"),
      called=[["Left", "Right"]])

stand("workbook", "merged-title-and-legend",
      "A title over all columns, a legend at the side, five rows with ranges.", book(sheet("Sheet1", """
SPRING REGATTA - MEASURED SEATS|||||
|||||
Row|Seats||Legend||
1|1-15||blue|members|
2|1-15||grey|guests|
3|1-15||||
4|1-17||||
5|1-17||||
""", merge=["A1:F1"], bold=[1, 3])), S("", "assumed", "1..3: 1-15", "4..5: 1-17"),
      called=[["Spring Regatta"], ["Spring Regatta - measured seats"]])

stand("workbook", "formulas-refer-to-above",
      "Every row has two seats more than the one before, by formula.", book(sheet("arc", """
Row|Seats
1|14
=A2+1~2|=B2+2~16
=A3+1~3|=B3+2~18
=A4+1~4|=B4+2~20
Seats in all|=SUM(B2:B5)~68
""")), S("", "assumed", "1: #14", "2: #16", "3: #18", "4: #20"), called=[["arc"]])

stand("workbook", "office-saved-sections",
      "Saved by LibreOffice: two sections under one another with merged headings.", book(sheet("Sheet1", """
TOWER SIDE||
Row|Seats|Remark
1|1-14|lowest
2|1-14|
3|1-15|
||
GARDEN SIDE||
Row|Seats|Remark
1|1-10|lowest
2|1-10|
""", merge=["A1:C1", "A7:C7"], bold=[1, 2, 7, 8]), office=True), S("Tower Side", "said", "1..2: 1-14", "3: 1-15"),
      S("Garden Side", "said", "1..2: 1-10"))

stand("workbook", "inline-drawing",
      "A drawing from a program on the web, texts in the cells; the field is above.", book(sheet("Export", """
|field||||||
1|x|x|x|x|x|x|x
2|x|x|x|x|x|x|x
3|x|x|x||x|x|x
"""), written="inline"), S("", "said", "1..2: #7", "3: #6"), called=[["Export"]])

stand("workbook", "hidden-sheet-holds-list",
      "The sheet one sees has the rows; a hidden one lists names for a menu.", book(sheet("Seats", """
Section|Row|Seats
Red|1|12
Red|2|12
Blue|1|14
Blue|2|15
"""), sheet("lists", """
Red
Blue
Green
""", hidden=True)), S("Red", "assumed", "1..2: #12"), S("Blue", "assumed", "1: #14", "2: #15"))

stand_ask("workbook", "draft-and-final-both",
          "Two sheets for the same rows, called Monday and Thursday, with other seats.",
          "The sheets Monday and Thursday give the same rows other seats: which counts?", book(sheet("Monday", """
Row|Seats
1|18
2|18
3|20
"""), sheet("Thursday", """
Row|Seats
1|17
2|18
3|21
""")))

stand("workbook", "percent-and-money-columns",
      "Seats with money and per cent columns, which say nothing about how many seats there are.",
      book(sheet("cost", """
Row|Seats|Hire per seat|Share
A|20|2.5{0.00 "EUR"}|0.31{0%}
B|22|2.5{0.00 "EUR"}|0.34{0%}
C|22|2.5{0.00 "EUR"}|0.34{0%}
""")), S("", "assumed", "A: #20", "B..C: #22"), called=[["cost"]])
