"""Drawings of a stand, a cell a seat; lists with a line a seat."""

from kit import *

# ---------------------------------------------------------------- drawings
stand("drawing", "numbers-field-below", "Four rows drawn with their seat numbers; FIELD at the bottom, so row A is in front.", csv("""
D,1,2,3,4,5,6,7,8
C,1,2,3,4,5,6,7,8
B,1,2,3,4,5,6,7,8
A,,2,3,4,5,6,7,
FIELD,,,,,,,,
"""), S("", "said", "A: 2-7", "B..D: 1-8"))

stand("drawing", "stage-above-crosses", "Crosses for seats under a STAGE line; seat numbers on top; rows 1 to 4 from the stage.", csv("""
STAGE,,,,,,,,,
Row,1,2,3,4,5,6,7,8,9
1,x,x,x,x,x,x,x,x,x
2,x,x,x,x,,x,x,x,x
3,x,x,x,x,x,x,x,x,x
4,x,x,x,x,x,x,x,,
"""), S("", "said", "1: 1-9", "2: 1-4 6-9", "3: 1-9", "4: 1-7"))

stand("drawing", "ones-and-zeros", "1 is a seat, 0 is none; column numbers are seat numbers, the sums at the edge are none.", csv("""
row/seat,1,2,3,4,5,6,7,8,9,10,sum
A,1,1,1,1,1,1,1,1,1,1,10
B,1,1,1,0,0,1,1,1,1,1,8
C,1,1,1,1,1,1,1,1,1,1,10
D,0,1,1,1,1,1,1,1,1,0,8
sum,3,4,4,3,3,4,4,4,4,3,36
"""), S("", "assumed", "A: 1-10", "B: 1-3 6-10", "C: 1-10", "D: 2-9"))

stand("drawing", "filled-cells-field", "Grey cells are seats, nothing is written in them; three rows without names above FIELD.", book(sheet("Sheet1", """
[]|[]|[]|[]|[]|[]|[]|[]
[]|[]|[]|[]|[]|[]|[]|[]
|[]|[]|[]|[]|[]|[]|
|||FIELD||||
""", widths={c: 3 for c in "ABCDEFGH"})), S("", "said", "1: #6", "2..3: #8"))

stand("drawing", "filled-with-row-letters", "Blue cells are seats beside row letters; black cells are pillars; the camera is below row A.", book(sheet("Plan", """
E|[b]|[b]|[b]|[b]|[b]|[b]|[b]|[b]|[b]
D|[b]|[b]|[k]|[b]|[b]|[b]|[k]|[b]|[b]
C|[b]|[b]|[b]|[b]|[b]|[b]|[b]|[b]|[b]
B|[b]|[b]|[b]|[b]|[b]|[b]|[b]|[b]|[b]
A|[b]|[b]|[b]|[b]|[b]|[b]|[b]|[b]|[b]
||||||||
|[k]|pillar||||||
|||||CAMERA|||
""")), S("", "said", "A..C: #9", "D: #7", "E: #9"),
      alts=[[S("Plan", "said", "A..C: #9", "D: #7", "E: #9")]])

stand("drawing", "aisle-column", "Two sections left and right of an empty column, numbered on; the field is at the top.", csv("""
,field,,,,,,,,,
row,Left,,,,,Right,,,,
1,1,2,3,4,,5,6,7,8,9
2,1,2,3,4,,5,6,7,8,9
3,1,2,3,4,,5,6,7,8,9
"""), S("Left", "said", "1..3: 1-4"), S("Right", "said", "1..3: 5-9"))

stand("drawing", "aisle-no-names", "One stand with an aisle down the middle, no section names; 1 to 10 numbered across the aisle.", csv("""
Row 1;1;2;3;4;5;;6;7;8;9;10
Row 2;1;2;3;4;5;;6;7;8;9;10
Row 3;1;2;3;4;5;;6;7;8;9;10
"""), S("", "assumed", "1..3: 1-10"),
      alts=[[S("", "assumed", "1..3: 1-5"), S("", "assumed", "1..3: 6-10")]])

stand("drawing", "arrow-down-to-field", "An arrow and the word field below row 1; listed from the back.", csv("""
Row,Seats,,,,,,
5,1,2,3,4,5,6,7
4,1,2,3,4,5,6,7
3,1,2,3,4,5,6,
2,1,2,3,4,5,6,
1,1,2,3,4,5,,
,,,↓ field ↓,,,,
"""), S("", "said", "1: 1-5", "2..3: 1-6", "4..5: 1-7"))

stand("drawing", "camera-below-row-three", "Rows 1 to 3 drawn downwards with CAMERA below: row 3 is in front.", csv("""
1,x,x,x,x,x,x,x,x
2,x,x,x,x,x,x,x,x
3,x,x,x,x,x,x,x,
,,,,CAMERA,,,,
"""), S("", "said", "3: #7", "2..1: #8"))

stand("drawing", "names-in-seats", "Who sits where, a name a seat; a dash is where no seat is, as the key says; the stage is in front of row 1.", csv("""
Who sits where (- means no seat there)
stage
Row 1,Tilda,Osk,Mo,Bryn,Ines,Pelle
Row 2,Runa,Sven,-,Kaja,Lorens,Fia
Row 3,Ebba,Nils,Jory,Wim,Dara,Tove
"""), S("", "said", "1: #6", "2: #5", "3: #6"),
      alts=[[S("", "said", "1: 1-6", "2: 1-2 4-6", "3: 1-6")]])

stand("drawing", "labels-on-both-sides", "Row letters at both ends, seat numbers between.", csv("""
C,1,2,3,4,5,6,7,8,C
B,1,2,3,4,5,6,7,8,B
A,1,2,3,4,5,6,7,8,A
,,,pitch,,,,,,
"""), S("", "said", "A..C: 1-8"))

stand("drawing", "walkway-blank-line", "Five rows with a blank line for the walkway between 3 and 4; FIELD above.", csv("""
,FIELD,,,,,,
1,x,x,x,x,x,x,x
2,x,x,x,x,x,x,x
3,x,x,x,x,x,x,x
,,,,,,,
4,x,x,x,x,x,x,x
5,x,x,x,x,x,x,x
"""), S("", "said", "1..5: #7"))

stand("drawing", "seat-codes", "Seat codes in every cell; C4 is a pillar, B has no 1; listed from the front by the word at the top.", csv("""
front,,,,,,
A1,A2,A3,A4,A5,A6,
,B2,B3,B4,B5,B6,
C1,C2,C3,pillar,C5,C6,
D1,D2,D3,D4,D5,D6,
back,,,,,,
"""), S("", "said", "A: 1-6", "B: 2-6", "C: 1-3 5-6", "D: 1-6"))

stand("drawing", "from-the-right", "Seat 1 is at the right end in this drawing; the ground is below row A.", csv("""
C,9,8,7,6,5,4,3,2,1
B,8,7,6,5,4,3,2,1,
A,8,7,6,5,4,3,2,1,
,,,,ground,,,,,
"""), S("", "said", "A..B: 1-8", "C: 1-9"))

stand("drawing", "odd-left-even-right", "Theatre numbering: odd to the left of the middle, even to the right; row A at the stage.", csv("""
STAGE,,,,,,,,
A,7,5,3,1,2,4,6,8
B,7,5,3,1,2,4,6,8
C,9,7,5,3,1,2,4,6
"""), S("", "said", "A..B: 1-8", "C: 1-7 9"))

stand("drawing", "through-numbers", "Seats numbered through from row to row, without row names; the front is above seat 1.", csv("""
front (quay side),,,,,,,
1,2,3,4,5,6,7,8
9,10,11,12,13,14,15,16
17,18,19,20,21,22,23,24
"""), S("", "said", "1: 1-8", "2: 9-16", "3: 17-24"))

stand("drawing", "key-of-signs", "Drawing with a key: X seat, O no seat, W wheelchair place, C camera platform; the field is under row 1.", csv("""
Key: X = seat; O = no seat; W = wheelchair place; C = camera platform (no seats),,,,,,,,,,
,1,2,3,4,5,6,7,8,9,10
4,X,X,X,X,C,C,X,X,X,X
3,X,X,X,X,X,X,X,X,X,X
2,O,X,X,X,X,X,X,X,X,O
1,W,W,X,X,X,X,X,X,X,X
,,,,,FIELD,,,,,
"""), S("", "said", "1: 1-10", "2: 2-9", "3: 1-10", "4: 1-4 7-10", reserved=["1-1", "1-2"]))

stand("drawing", "text-picture", "Each row drawn in one cell with x and spaces; the underscores are the stair.", csv("""
Row,Picture
1,xxxxxx__xxxxxx
2,xxxxxx__xxxxxx
3,xxxxx___xxxxxx
4,xxxxxxxxxxxxxx
"""), S("", "assumed", "1..2: #12", "3: #11", "4: #14"),
      alts=[[S("", "assumed", "1..2: 1-6 9-14", "3: 1-5 9-14", "4: 1-14")]])

stand("drawing", "true-false", "TRUE where there is a seat, FALSE where not; the numbers on top are the seats.", book(sheet("grid", """
Row|1|2|3|4|5|6
A|!TRUE|!TRUE|!TRUE|!TRUE|!TRUE|!TRUE
B|!TRUE|!TRUE|!FALSE|!FALSE|!TRUE|!TRUE
C|!TRUE|!TRUE|!TRUE|!TRUE|!TRUE|!FALSE
""")), S("", "assumed", "A: 1-6", "B: 1-2 5-6", "C: 1-5"),
      alts=[[S("grid", "assumed", "A: 1-6", "B: 1-2 5-6", "C: 1-5")]])

stand("drawing", "no-sign-at-all", "Crosses without names or signs: three rows of seven, seven and five; nothing says which is in front.", csv("""
x,x,x,x,x,x,x
x,x,x,x,x,x,x
,x,x,x,x,x,
"""), S("", "unsure", "1..2: #7", "3: #5"), alts=[[S("", "unsure", "1: #5", "2..3: #7")]])

stand("drawing", "press-box-and-field", "PRESS BOX above, FIELD below; row 1 next to the field.", book(sheet("Sheet1", """
||||PRESS BOX||||
4|1|2|3|4|5|6|7|8
3|1|2|3|4|5|6|7|8
2|1|2|3|4|5|6|7|8
1|1|2|3|4|5|6|7|8
||||FIELD||||
""")), S("", "said", "1..4: 1-8"))

stand("drawing", "merged-platform", "A merged cell CAMERA PLATFORM covers seats 5 to 8 of rows C and D, which do not exist.", book(sheet("Mole", """
|1|2|3|4|5|6|7|8|9|10|11|12
D|1|2|3|4|CAMERA PLATFORM||||9|10|11|12
C|1|2|3|4|||||9|10|11|12
B|1|2|3|4|5|6|7|8|9|10|11|12
A|1|2|3|4|5|6|7|8|9|10|11|12
|water front|||||||||||
""", merge=["F2:I3", "B6:M6"])), S("", "said", "A..B: 1-12", "C..D: 1-4 9-12"),
      alts=[[S("Mole", "said", "A..B: 1-12", "C..D: 1-4 9-12")], [S("", "assumed", "A..B: 1-12", "C..D: 1-4 9-12")]])

stand("drawing", "count-at-the-end", "Crosses with a count at the end of every line and a sum; front at the top.", book(sheet("Sheet1", """
Front||||||||
R1|x|x|x|x|x|x||=COUNTA(B2:G2)~6
R2|x|x|x|x|x|x||=COUNTA(B3:G3)~6
R3|x|x||x|x|x||=COUNTA(B4:G4)~5
R4|x|x|x|x|x|x||=COUNTA(B5:G5)~6
||||||total||=SUM(I2:I5)~23
""")), S("", "said", "R1, R2: #6", "R3: #5", "R4: #6"),
      alts=[[S("", "said", "1..2: #6", "3: #5", "4: #6")]])

stand("drawing", "a-row-a-column", "Rows as columns: the seats of each row stand below its name.", csv("""
Row 1,Row 2,Row 3,Row 4
1,1,1,1
2,2,2,2
3,3,4,3
4,4,5,4
5,5,6,5
6,6,7,6
,7,8,7
,,,8
"""), S("", "assumed", "1: 1-6", "2: 1-7", "3: 1-2 4-8", "4: 1-8"))

stand("drawing", "last-years-colours", "Last year's picture, a letter a seat for its card's colour; the camera is in front of row 1.", csv("""
camera,,,,,,,,
Row,1,2,3,4,5,6,7,8
1,R,R,W,W,W,R,R,R
2,R,W,W,R,W,W,R,R
3,R,R,W,W,R,R,,R
4,R,R,R,W,W,R,R,R
"""), S("", "said", "1..2: 1-8", "3: 1-6 8", "4: 1-8"))

stand("drawing", "two-blocks-with-stair", "Two blocks drawn beside each other with the word stairs in the aisle; field above.", csv("""
FIELD;;;;;;;;;
;Block A;;;;;Block B;;;
1;x;x;x;x;stairs;x;x;x;
2;x;x;x;x;stairs;x;x;x;
3;x;x;x;x;stairs;x;x;x;x
"""), S("A", "said", "1..3: #4"), S("B", "said", "1..2: #3", "3: #4"),
      alts=[[S("Block A", "said", "1..3: #4"), S("Block B", "said", "1..2: #3", "3: #4")]])

stand("drawing", "half-a-seat-shifted", "Every second row is shifted by half a seat, drawn in every other column; thrust stage below.", csv("""
D,x,,x,,x,,x,,x,
C,,x,,x,,x,,x,,
B,x,,x,,x,,x,,x,
A,,x,,x,,x,,x,,
,,,,STAGE,,,,,,
"""), S("", "said", "A: #4", "B: #5", "C: #4", "D: #5"))

stand("drawing", "two-drawings-below-each-other", "Two drawings one below the other, each with its name and its own field line.", csv("""
NORTH BANK,,,,,
field,,,,,
1,x,x,x,x,x
2,x,x,x,x,x
,,,,,
SOUTH BANK,,,,,
2,x,x,x,x,
1,x,x,x,x,
field,,,,,
"""), S("North Bank", "said", "1..2: #5"), S("South Bank", "said", "1..2: #4"))

stand("drawing", "strange-signs", "Seats drawn as hollow squares, a full square is a pillar by the key; the front is at the bottom.", csv("""
□ seat   ■ pillar   front is at the bottom
4;□;□;□;□;□;□
3;□;□;■;□;□;□
2;□;□;□;□;□;□
1;□;□;□;□;□;□
"""), S("", "said", "1..2: #6", "3: #5", "4: #6"))

stand("drawing", "reserved-r", "R seats are reserved for the band but exist; the blank cells of row B do not; stage in the last line.", csv("""
Seat,1,2,3,4,5,6,7,8
C,x,x,x,x,x,x,x,x
B,x,x,,,x,x,x,x
A,R,R,R,x,x,x,x,x
STAGE / R = reserved for the band,,,,,,,,
"""), S("", "said", "A: 1-8", "B: 1-2 5-8", "C: 1-8", reserved=["A-1", "A-2", "A-3"]))

stand_ask("drawing", "signs-without-key", "A drawing with four letters and no key.",
          "What S, P, K and T mean is not said, so it is not clear which cells are seats.", csv("""
,1,2,3,4,5,6,7
1,S,S,S,P,S,S,S
2,S,S,K,K,K,S,S
3,S,S,S,P,S,S,T
"""))

stand("drawing", "office-saved-drawing", "Four rows of numbers saved by LibreOffice, the field word in the top line.", book(sheet("Stand", """
|Field|||||||
A|1|2|3|4|5|6|7|8
B|1|2|3|4|5|6|7|8
C|1|2|3||5|6|7|8
D|1|2|3|4|5|6|7|8
""", merge=["B1:I1"]), office=True), S("", "said", "A..B: 1-8", "C: 1-3 5-8", "D: 1-8"),
      alts=[[S("Stand", "said", "A..B: 1-8", "C: 1-3 5-8", "D: 1-8")]])

# ---------------------------------------------------------------- a line a seat
stand("perseat", "section-row-seat", "A line a seat in two sections of two rows; seat 3 of A 2 is not there.", csv("""
Section,Row,Seat
A,1,1
A,1,2
A,1,3
A,1,4
A,2,1
A,2,2
A,2,4
B,1,5
B,1,6
B,1,7
B,2,5
B,2,6
B,2,7
"""), S("A", "assumed", "1: 1-4", "2: 1-2 4"), S("B", "assumed", "1..2: 5-7"))

stand("perseat", "status-ok-broken", "A line a seat with its state; broken and missing ones do not exist.", csv("""
Row,Seat,State
A,1,ok
A,2,ok
A,3,broken
A,4,ok
A,5,ok
B,1,ok
B,2,ok
B,3,ok
B,4,missing
B,5,ok
C,1,ok
C,2,ok
C,3,ok
C,4,ok
C,5,ok
"""), S("", "assumed", "A: 1-2 4-5", "B: 1-3 5", "C: 1-5"))

stand("perseat", "one-column-codes", "Seat codes row-seat in one column; A-1 to A-4, B-1 to B-5.", csv("""
Seats
A-1
A-2
A-3
A-4
B-1
B-2
B-3
B-4
B-5
"""), S("", "assumed", "A: 1-4", "B: 1-5"))

stand("perseat", "exists-yes-no", "A line a seat number with 'there?' yes or no.", csv("""
row;seat;there?
1;1;yes
1;2;yes
1;3;no
1;4;yes
2;1;yes
2;2;yes
2;3;yes
2;4;yes
3;1;no
3;2;yes
3;3;yes
3;4;yes
"""), S("", "assumed", "1: 1-2 4", "2: 1-4", "3: 2-4"))

stand("perseat", "with-type", "A line a seat with its kind; the wheelchair and VIP places exist and are reserved, the pillar does not.", csv("""
Row,Seat,Kind
1,1,wheelchair
1,2,bench
1,3,bench
1,4,bench
2,1,bench
2,2,bench
2,3,pillar
2,4,bench
3,1,VIP
3,2,VIP
3,3,bench
3,4,bench
"""), S("", "assumed", "1: 1-4", "2: 1-2 4", "3: 1-4", reserved=["1-1", "3-1", "3-2"]))

stand("perseat", "with-metres-from-field", "A line a seat with its place in metres; y is the distance from the touchline, so row P is in front.", csv("""
row\tseat\tx (m)\ty from touchline (m)
Q\t1\t0.00\t6.80
Q\t2\t0.45\t6.80
Q\t3\t0.90\t6.80
Q\t4\t1.35\t6.80
P\t1\t0.00\t6.00
P\t2\t0.45\t6.00
P\t3\t0.90\t6.00
"""), S("", "said", "P: 1-3", "Q: 1-4"))

stand("perseat", "same-seat-twice", "A line a seat; seat 2 of row 1 was written twice, the same both times.", csv("""
Row,Seat,Width cm
1,1,45
1,2,45
1,2,45
1,3,46
2,1,45
2,2,45
2,3,45
"""), S("", "assumed", "1..2: 1-3"))

stand("perseat", "sorted-by-seat", "A line a seat sorted by seat number, then row.", csv("""
Seat,Row
1,A
1,B
1,C
2,A
2,B
2,C
3,B
3,C
4,C
"""), S("", "assumed", "A: 1-2", "B: 1-3", "C: 1-4"))

stand("perseat", "with-people", "A line a seat with who sits there; seats without a name are free and exist all the same.", csv("""
Block,Row,Seat no,Name
Lee,A,1,Tilda
Lee,A,2,Osk
Lee,A,3,
Lee,B,1,Runa
Lee,B,2,
Lee,B,3,Bryn
"""), S("Lee", "assumed", "A..B: 1-3"))

stand("perseat", "with-height", "A line a seat with the height of its row above ground: row 3 is lowest and so in front.", csv("""
Row;Seat;Height cm
1;1;80
1;2;80
1;3;80
2;1;40
2;2;40
2;3;40
3;1;0
3;2;0
"""), S("", "said", "3: 1-2", "2..1: 1-3"))

stand("perseat", "numbered-through-book", "A line a seat numbered through in a workbook; row 1 has 1-4, row 2 has 5-9.", book(sheet("Seats", """
Nr|Row|Seat
1|1|1
2|1|2
3|1|3
4|1|4
5|2|5
6|2|6
7|2|7
8|2|8
9|2|9
""")), S("", "assumed", "1: 1-4", "2: 5-9"))

stand("perseat", "code-with-section", "Seat codes of section, row and seat: N-2-3 is section N, row 2, seat 3.", csv("""
Code (section-row-seat),Cushion
N-1-1,red
N-1-2,red
N-1-3,
N-2-1,red
N-2-2,
N-2-3,red
S-1-1,blue
S-1-2,blue
S-2-1,blue
S-2-2,
"""), S("N", "assumed", "1..2: 1-3"), S("S", "assumed", "1..2: 1-2"))
