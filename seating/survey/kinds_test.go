package survey

import (
	"errors"
	"strings"
	"testing"

	"everyseat/seating"
)

// front is the row that stands in front of a survey's first section, and what says so.
func front(s *Survey) string {
	for _, n := range s.Notes {
		if _, said, ok := strings.Cut(n, ": row "); ok {
			return strings.TrimSuffix(said, ".")
		}
	}
	return ""
}

// Which row is in front: words and heights beat the habit that numbers rise toward the back.
func TestFronts(t *testing.T) {
	const habit = " is the front one, by the habit that "
	for _, c := range []struct{ name, text, want string }{
		{"rising", "row,seats\n1,9\n2,8\n", "1" + habit + "numbers rise toward the back"},
		{"falling", "row,seats\n3,9\n2,8\n1,7\n", "1" + habit + "numbers rise toward the back"},
		{"falling with gaps", "row,seats\n9,9\n8,9\n7,8\n5,8\n1,7\n", "1" + habit + "numbers rise toward the back"},
		{"letters", "row,seats\nC,9\nB,8\nA,7\n", "A" + habit + "letters rise toward the back"},
		{"past Z", "row,seats\nY,9\nZ,8\nAA,7\n", "Y" + habit + "letters rise toward the back"},
		{"ordinals", "row,seats\n3rd row,9\n2nd row,8\nfirst row,7\n", "1" + habit + "numbers rise toward the back"},
		{"numbers behind letters", "row,seats\nR3,9\nR2,8\nR1,7\n", "R1" + habit + "numbers rise toward the back"},
		{"ranges of rows", "rows,seats\n6-9,9 each\n1-5,8 each\n", "1" + habit + "numbers rise toward the back"},
		{"one range", "rows,seats\n5-1,9 each\n", "1" + habit + "numbers rise toward the back"},
		{"nothing", "seats,rise\n9,9in\n8,\n", "1 is the front one, as the first line: nothing says otherwise"},
		{"a name", "row,seats\nFront,9\n2,8\nBack,7\n", `Front is the front one, by the words "Front" at A2`},
		{"a name at the end", "row,seats\nWall,9\nC,8\nB,8\nCourt side,7\n", `Court side is the front one, by the words "Court side" at A5`},
		{"a word in brackets", "row,seats\n1 (back),9\n2,8\n3 (front),7\n", `3 is the front one, by the words "3 (front)" at A4`},
		{"a word behind", "row,seats\nRow 1 at the top,9\nRow 2,8\nRow 3,7\n", `3 is the front one, by the words "Row 1 at the top" at A2`},
		{"tiers", "row,seats\nUpper 2,9\nUpper 1,8\nLower 2,8\nLower 1,7\n", `Lower 1 is the front one, by the words "Lower 2" at A4`},
		{"words as names", "bench,seats\nWall,9\n2,8\nFloor,7\n", `Floor is the front one, by the words "Floor" at A4`},
		{"a name of the column", "row (from the back),seats\n1,9\n2,8\n", `2 is the front one, by the words "row (from the back)" at A1`},
		{"a word in no column", "row,seats,\n1,9,back\n2,8,\n", `2 is the front one, by the words "back" at C2`},
		{"a side of each", "row,seats,side\n1,9,wall side\n2,8,field side\n", `2 is the front one, by the words "field side" at C3`},
		{"heights by seat", "row,seat,height cm\n1,1,80\n1,2,80\n2,1,40\n2,2,40\n", "2 is the front one, as the heights say"},
		{"distances from the wall", "row,seats,from the wall (m)\n1,9,1\n2,8,2\n", "2 is the front one, as the heights say"},
		{"another language", "Reihe,Plätze\n1 (hinten),9\n2,8\n3,7\n", `3 is the front one, by the words "1 (hinten)" at A2`},
		{"a remark", "row,seats,remarks\n1,9,back row\n2,8,\n3,7,\n", `3 is the front one, by the words "back row" at C2`},
		{"heights", "row,seats,height (cm)\nA,9,90\nB,8,60\nC,7,30\n", "C is the front one, as the heights say"},
		{"distances", "row,seats,distance from stage\nA,9,9 m\nB,8,7 m\n", "B is the front one, as the heights say"},
		{"a title", "Row 1 is at the top\nrow,seats\n1,9\n2,8\n", `2 is the front one, by the words "Row 1 is at the top" at A1`},
		{"an order", "listed from back to front\nrow,seats\n1,9\n2,8\n", `2 is the front one, by the words "listed from back to front" at A1`},
		{"another", "Rows run from the top down\nrow,seats\n1,9\n2,8\n", `2 is the front one, by the words "Rows run from the top down" at A1`},
		{"a first line", "row,seats\n1,9\n2,8\n\ntop row first\n", `2 is the front one, by the words "top row first" at A5`},
		{"a letter", "row,seats\nA,9\nB,8\nA = back row\n", `B is the front one, by the words "A = back row" at A4`},
		{"two letters", "\"Row A = front, row C = back\"\nrow,seats\nC,9\nB,8\nA,8\n", `A is the front one, by the words "Row A = front, row C = back" at A1`},
		{"near the stage", "Row C is nearest to the stage.\nrow,seats\nA,9\nB,8\nC,8\n", `C is the front one, by the words "Row C is nearest to the stage." at A1`},
		{"far from it", "Row C is farthest from the stage\nrow,seats\nC,9\nB,8\nA,8\n", `A is the front one, by the words "Row C is farthest from the stage" at A1`},
		{"numbers from the back", "numbered from the back\nrow,seats\n1,9\n2,8\n", `2 is the front one, by the words "numbered from the back" at A1`},
		{"a word above", "STAGE\nrow,seats\n2,9\n1,8\n", `2 is the front one, by the word "STAGE" at A1`},
		{"a word below", "row,seats\n1,9\n2,8\nPITCH SIDE\n", `2 is the front one, by the word "PITCH SIDE" at A4`},
		{"a word above a drawing", "FIELD\n2,x,x\n1,x,x\n", `2 is the front one, by the word "FIELD" at A1`},
		{"a word on the other side", "BACK WALL\nx,x\nx,x\n", `1 is the front one, by the word "BACK WALL" at A1`},
		{"a bracket below", "row,seats\nA,9\nB,8\n(front)\n", `B is the front one, by the word "(front)" at A4`},
		{"letters from the wall", "Row letters start at the back wall\nrow,seats\nA,9\nB,8\n", `B is the front one, by the words "Row letters start at the back wall" at A1`},
		{"what is no order", "Bleachers: the top row has a broken board\nrow,seats\n1,9\n2,8\n", "1" + habit + "numbers rise toward the back"},
	} {
		if got := front(survey(t, c.text)); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	for end, want := range map[Front]string{FirstLine: `2 is the front one, as front = "first line" says`, LastLine: `3 is the front one, as front = "last line" says`} {
		for _, o := range []Options{{Front: end}, {Front: FirstLine + LastLine - end, Fronts: map[string]Front{"A": end}}} {
			s, err := Read("t.csv", []byte("row,seats\n2,9\n10,8\n3,8\n"), o)
			if err != nil || front(s) != want {
				t.Errorf("%v, %v: %v", o, err, s)
			}
		}
	}
	heights := survey(t, "row,seats,height (cm)\nA,9,75\nB,8,50\nC,7,25\n").Sections[0]
	if heights.Rise != 25*seating.Centimetre || heights.FirstRow != 25*seating.Centimetre {
		t.Errorf("rise %v, first row %v", heights.Rise, heights.FirstRow)
	}
}

// Seats as people write them.
func TestSeatNumbers(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"a range", "row,seats\n1,1-18\n2,seats 1 to 18\n3,1 – 18\n", "A rows=3 seats=[18]\n"},
		{"one of them missing", "row,seats\n1,1-9 (no 7)\n2,1-9 except 7\n3,\"1-9, 7 missing\"\n4,\"1–6, 8–9\"\n5,1-9 (not 7 and 8)\n",
			"A rows=5 seats=[9] missing=[{1 7 7} {2 7 7} {3 7 7} {4 7 7} {5 7 7} {5 8 8}]\n"},
		{"even ones", "row,seats\n1,2-20 even\n2,even 2-22\n", "A rows=2 seats=[10 11] numbers=0:2+2\n"},
		{"odd ones", "row,seats\n1,odd 1-19\n", "A rows=1 seats=[10] numbers=0:1+2\n"},
		{"as the count says", "row,seats,capacity\n1,2-20,10\n2,2-22,11\n", "A rows=2 seats=[10 11] numbers=0:2+2\n"},
		{"all, as the count says", "row,seats,capacity\n1,2-20,19\n", "A rows=1 seats=[19] numbers=0:2+1\n"},
		{"as another row says", "row,seats\n1,2-20\n2,2-21\n", "A rows=2 seats=[19 20] numbers=0:2+1\n"},
		{"as the step says", "row,seats,number step\n1,2-20,2\n", "A rows=1 seats=[10] numbers=0:2+2\n"},
		{"from a hundred", "row,seats\n1,101-118\n2,101-119\n", "A rows=2 seats=[18 19] numbers=0:101+1\n"},
		{"first and last", "row,first,last\n1,1,18\n2,1,19\n", "A rows=2 seats=[18 19]\n"},
		{"from and to", "row,from,to\n1,1,18\n2,3,16\n", "A rows=2 seats=[18 16] align=1 numbers=0:1+1 missing=[{2 1 2}]\n"},
		{"start and end, from the right", "row,start seat,end seat,numbered from\n1,18,1,right\n", "A rows=1 seats=[18] numbers=1:1+1\n"},
		{"first, last and how many", "row,first seat,last seat,seats\n1,2,20,10\n", "A rows=1 seats=[10] numbers=0:2+2\n"},
		{"odd ones, as the column says", "row,first (odd only),last (odd only)\n1,1,17\n", "A rows=1 seats=[9] numbers=0:1+2\n"},
		{"falling, as they lie", "row,seats (left to right)\n1,18-1\n", "A rows=1 seats=[18] numbers=1:1+1\n"},
		{"the same again", "row,seats\n1,18\n2,same\n3,as above\n4,19\n", "A rows=4 seats=[18 18 18 19]\n"},
		{"in other languages", "Rang,Places\n1,1 à 9 sauf 4\n2,1 bis 9 ohne 4\n", "A rows=2 seats=[9] missing=[{1 4 4} {2 4 4}]\n"},
		{"all of them counted too", "section,rows,seats,total seats\nA,10,18,180\n", "A rows=10 seats=[18]\n"},
		{"brackets", "row,seats\n1,\"1-9 (6, 7 missing)\"\n2,1-9\n", "A rows=2 seats=[9] missing=[{1 6 6} {1 7 7}]\n"},
		{"rows from and to", "section,first row,last row,seats per row\nA,1,3,9\nA,4,4,8\n", "A rows=4 seats=[9 9 9 8]\n"},
		{"a list", "row,seats\n1,\"1,2,3,5\"\n2,\"1,2,3,4,5\"\n", "A rows=2 seats=[5] missing=[{1 4 4}]\n"},
		{"capacity alone", "row,capacity\n1,18\n2,19\n", "A rows=2 seats=[18 19]\n"},
		{"capacity less what is missing", "row,seats,capacity,missing\n1,18,17,\"seat 7\"\n", "A rows=1 seats=[18] missing=[{1 7 7}]\n"},
		{"rows at once", "rows,seats\n1-3,18 each\n4,20\n", "A rows=4 seats=[18 18 18 20]\n"},
		{"rows by letter", "row,seats per row\nA-C,18\n\"D, E and F\",20\n", "A rows=6 seats=[18 18 18 20 20 20] names=[A B C D E F]\n"},
		{"rows as others are", "row,seats\nRows 1 to 4,18\n5,20\n", "A rows=5 seats=[18 18 18 18 20]\n"},
		{"a line a seat", "section,row,seat\nA,1,1\nA,1,2\nA,1,4\nA,2,1\nA,2,2\nA,2,3\nA,2,4\n", "A rows=2 seats=[4] missing=[{1 3 3}]\n"},
		{"a line a seat, odd", "row,seat no\n1,1\n1,5\n1,3\n2,3\n2,1\n", "A rows=2 seats=[3 2] numbers=0:1+2\n"},
		{"seats.csv", "order,seat_id,section,row,seat,block,use,cue_1,card_1\n1,A-1-1,A,1,1,A front,card,RED,RED A\n2,A-1-3,A,1,3,A front,reserved,,\n3,A-2-2,A,2,2,A front,card,RED,RED A\n4,A-2-1,A,2,1,A front,card,RED,RED A\n",
			"A rows=2 seats=[3 2] missing=[{1 2 2}]\n! G3 \"reserved\"\n"},
		{"lists that are no dates", "row,seats,missing\n1,18,\"7, 9-10\"\n2,18,\"3, 5-16\"\n3,18,\"5-6, 12\"\n", "A rows=3 seats=[18] missing=[{1 7 7} {1 9 10} {2 3 3} {2 5 16} {3 5 6} {3 12 12}]\n"},
		{"a number beside lists", "row,seats,missing\n1,18,2\n2,18,\"3, 4\"\n", "A rows=2 seats=[18] missing=[{1 2 2} {2 3 3} {2 4 4}]\n"},
		{"a number by its column's name", "row,seats,missing seat numbers\n1,18,2\n", "A rows=1 seats=[18] missing=[{1 2 2}]\n"},
	} {
		if got := brief(survey(t, c.text)); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// Sections and ways between rows, wherever they stand.
func TestLayouts(t *testing.T) {
	const two = "West rows=2 seats=[18] aisle=4ft\nEast rows=2 seats=[16 17]\n"
	for _, c := range []struct{ name, text, want string }{
		{"headings", "row,seats\nSECTION West,\n1,18\n2,18\nSECTION East,\n1,16\n2,17\n", two},
		{"tiers", "tier,row,seats\nWest,1,18\nWest,2,18\nEast,1,16\nEast,2,17\n", two},
		{"headings in their column", "section,row,seats\nWest,,\n,1,18\n,2,18\nEast,,\n,1,16\n,2,17\n", two},
		{"headings and headers", "Block West\nrow,seats\n1,18\n2,18\n\nBlock East\nrow,no. of seats,rise\n1,16,\n2,17,\n", two},
		{"bare headings", "West\nrow,seats\n1,18\n2,18\nEast\nrow,seats\n1,16\n2,17\n", two},
		{"side by side", "section,row,seats,,section,row,seats\nWest,1,18,,East,1,16\nWest,2,18,,East,2,17\n", two},
		{"side by side with titles", "West,,,East,\nrow,seats,,row,seats\n1,18,,1,16\n2,18,,2,17\n", two},
		{"across", "row,West,East\n1,18,16\n2,18,17\n", two},
		{"across, by numbers", "row,Section West,Section East\n1,1-18,1-16\n2,1-18,1-17\n", two},
		{"across with totals", "row,West,East,total\n1,18,16,34\n2,18,17,35\n", two + "! D1 \"total\"\n! D2 \"34\"\n! D3 \"35\"\n"},
		{"down", "section,row 1,row 2\nWest,18,18\nEast,16,17\n", two},
		{"across under the word section", "section,West,East\n1,18,16\n2,18,17\n", two},
		{"names that start anew", "row,seats\n1,18\n2,18\nrow,seats\n1,16\n2,17\n", "A rows=2 seats=[18] aisle=4ft\nB rows=2 seats=[16 17]\n"},
		{"a blank line in a list", "row,seats\n1,18\n\n2,18\n", "A rows=2 seats=[18]\n"},
		{"a walkway in a list", "row,seats\n3,18\nwalkway 5 ft,\n2,18\n1,18\n", "A rows=3 seats=[18] cross=[{2 5ft}]\n"},
		{"a walkway among rows", "section,row,seats\nA,1,18\nA,cross aisle,\nA,2,18\n", "A rows=2 seats=[18] cross=[{1 4ft}]\n"},
		{"a walkway behind several rows", "rows,seats,walkway\n1-3,9 each,4 ft\n4-5,9 each,\n", "A rows=5 seats=[9] cross=[{3 4ft}]\n"},
		{"a walkway among several rows", "rows,seats\n4-5,9 each\nwalkway 4 ft,\n1-3,9 each\n", "A rows=5 seats=[9] cross=[{3 4ft}]\n"},
		{"a walkway behind all rows", "section,row,seats\nA,1,9\nwalkway 4 ft,,\nB,1,9\n", "A rows=1 seats=[9] aisle=4ft\nB rows=1 seats=[9]\n"},
		{"a blank line in a drawing", "1,x,x\n2,x,x\n\n4,x,x\n5,x,x\n", "A rows=4 seats=[2] names=[1 2 4 5]\n"},
		{"a walkway in a drawing", "x,x\n1.5 m walkway\nx,x\nFIELD\n", "A rows=2 seats=[2] cross=[{1 1.5m}]\n"},
		{"drawings one below the other", "Section West\n2,x,x\n1,x,x\n\nSection East\n2,x,x,x\n1,x,x,x\nFIELD\n", "West rows=2 seats=[2] aisle=4ft\nEast rows=2 seats=[3]\n"},
		{"names of rows before each block", "West,,,,East\nB,x,x,,B,x\nA,x,x,,A,x\n", "West rows=2 seats=[2] aisle=4ft names=[A B]\nEast rows=2 seats=[1] names=[A B]\n"},
		{"a seat that has no cell", "1,2,3,4,5,6\n1,2,3,5,6\nFIELD\n", "A rows=2 seats=[6] align=1 missing=[{1 4 4}]\n"},
		{"a seat whose cell is blank", "6,5,4,3,2,1\n6,5,,3,2,1\nFIELD\n", "A rows=2 seats=[6] numbers=1:1+1 missing=[{1 4 4}]\n"},
		{"a sign among numbers", "1,2,3,4\n1,W,3,4\nFIELD\n", "A rows=2 seats=[4] numbers=0:1+1 wheelchair=[{1 2 2}]\n"},
		{"a letter over every column", ",K,K,K\n2,x,x,x\n1,x,x,x\n", "K rows=2 seats=[3]\n"},
		{"rows by names of no order", "Gate,x,x\n2,x,x\nfront,x,x\n", "A rows=3 seats=[2] names=[front 2 Gate]\n"},
	} {
		if got := brief(survey(t, c.text)); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// What may mean two things is refused: where, what, and how to write it.
func TestAsked(t *testing.T) {
	for _, c := range []struct{ text, what, hint string }{
		{"row,seats\n1,9\n10,9\n2,9\n", "which row of section A is in front? Their names go neither up nor down", `front = "last line"`},
		{"row,seats,height (cm)\nFront,9,90\nB,8,60\n", `Its first line is, by the words "Front" at A2, and its last line is, as the heights say`, "[[section]]"},
		{"the list starts with the bench that leans on the back wall\nrow,seats\n1,9\n2,9\n", "is not understood", "front ="},
		{"AUDIENCE\nx,x\nx,x\n", `"AUDIENCE" at A1 speaks of it`, "front ="},
		{"Front\n2,x\n1,x\nBack\n2,x\n1,x\n", `cell A4, "Back": it may be the name of a section`, "Section Back"},
		{"North\nx,x\nx,x\n\nFIELD\n\nSouth\nx,x\nx,x\n", "which row of section South is in front? Neither names of rows nor words", "front ="},
		{"x,x,x\n,x,\n", "which row of section A is in front? Neither names of rows nor words say it", "front ="},
		{"o,x,o\n", `cell B1, "x": it is another sign than "O"`, "every seat with one sign"},
		{"W,R,W\n", "which may be other things than W", "every seat with one sign"},
		{"1,2,,3,4\n", "the numbers go on over the blank column before it", "blank column"},
		{"row,seats\n1,18-1\n", "its numbers fall", "numbered from"},
		{"row,seats,remark\n1,9,\n2,9,fenced off\n", `cell C1, "remark": no column that is read has this name; left unread below it: C3`, "left out"},
		{"row,seats,\n1,9,\n2,9,wobbly\n", `cell C3, "wobbly": it stands outside`, "left out"},
		{"row,seats\n1,9\n2 (loose),9\n3,9\n", `cell A3, "2 (loose)": it says more than the row's name`, "left out"},
		{"row,seats\n1,9\n2*,9\n3,9\n", "its mark is not explained", "left out"},
		{"Section A (not used)\nrow,seats\n1,9\n", "what stands behind the name is not read", "left out"},
		{"row,seats (pairs)\n1,9\n", "what stands in brackets may change what its column means", "left out"},
		{"row,seats (odd)\n1,2-18\n", "2-18 are not all odd, or not all even", "1-18"},
		{"row,seats\n1,9\n2,9\ntotal,20\n", `cell B4, "20": a total, no row of seats: the rows above it add up to 18`, "left out"},
		{"row,seats,left over\n1,9,9\n2,9,8\n", `cell C3, "8": the row has 9 seats`, "left out"},
		{"row,seats\n1,9\n2,0\n", "row 2 has no seats", "left out"},
		{"row,seats\nOak,9\nElm,9\n", "Its names are in no order", "front ="},
		{"row,seats,note\n1,9,front\n2,9,\n3,9,front\n", `cell C4, "front": with the other words`, "front ="},
		{"row,seats\n1,9\n2,9\n↑ field\n", "its arrows point at the rows", "front ="},
		{"Section A\nrow,seats\n1,9\n2,9\nSection B\nRow 1 is at the back\nrow,seats\n1,9\n2,9\n", "it may speak of one section, or of all", "front ="},
		{"row,T,O,M\n1,9,9,8\n2,9,8,9\n", `cell B1, "T": it may be a section, or who counted`, "left out"},
		{"row,seats per side\n1,9\n2,9\n", `"seats per side": it may be a section, or who counted`, "left out"},
		{"Terrace for 40\nrow,seats\n1,9\n2,9\n", `cell A1, "Terrace for 40": it stands outside`, "left out"},
		{"row,seats\n1,9\nwalkway,9\n2,9\n", `cell A3, "walkway": a way between rows has no seats`, "left out"},
		{"row,seats\n1,1-9 less 2\n", "the number of the missing seat, or how many", "1-18 (no 7)"},
		{"row,seats\n1,2-20\n", `cell B2, "2-20": 2-20 may be all of these seats, or every second one`, `write "2-20 even"`},
		{"section,row,seats\nA,1,1-19\nB,1,2-20\n", `cell C2, "1-19"`, `write "1-19 odd"`},
		{"row,first,last\n1,2,20\n2,2,20\n", `cell C2, "20": 2-20 may be all`, "capacity"},
		{"row,seats\n1,1-18\n2,2-20 even\n", "seats of section A step by 2 here and by 1 at B2", ""},
		{"row,seats\n1,\"1-18, 7, 9 missing\"\n", "seat 7 is in it twice", "1-18 (no 7)"},
		{"row,seats,rise (cm)\n1,9,0\n2,9,30\n3,9,60\n", "rises that grow from row to row are heights", `"height"`},
		{"row,seats,broken seats\n1,9,3\n", "it may be seat 3 or 3 seats", ""},
		{"sec.,r,s\nA,1,20\nA,2,20\n", "names columns, and none that is read as the seats", ""},
		{"section,seats\nWest,180\nEast,200\n", "section West has this one line", "seats per row"},
		{"row,seats\n1,1-10\n2,11-20\n", "seats run on from row to row", "how many"},
		{"row,seats,capacity\n1,1-18,20\n", "the numbers are 18 seats, and the row's own count is 20", ""},
		{"row,seats,capacity\n1,18,17\n", `cell C2, "17": the row has 18 seats by another column`, ""},
		{"row,seats\n1,\"18, 7 missing\"\n", "it may be a number of seats or the numbers of some", "1-18 (no 7)"},
		{"row,seat numbers\n1,18\n2,20\n", "it may be a number of seats or the number of one; cells like it: 1 more", "1-18"},
		{"section,row,seat\nA,1,18\nA,2,17\n", "how many seats a row has, or the number of one", "number of seats"},
		{"row,seats\n1,1\n1,2\n1,3\n2,1\n", "rows of section A come again and again", `"seat"`},
		{"rows,seats\n1-5,90\n", "it may be the seats of each of the 5 rows, or of all of them together", `"90 each"`},
		{"section,rows,seats\nA,10,150\n", "of each of the 10 rows", ""},
		{"row,seats\nA-K,14 each\n", "may leave out I and O", "A-H, J"},
		{"row,seats,missing\n1,18,2 seats\n", "it says how many seats, and not which", "seat 7"},
		{"row,seats,missing\n1,18,2\n", `cell C2, "2": it may be seat 2 or 2 seats`, `"7, 9-10"`},
		{"row,seats,wheelchair places\n1,18,2\n", `cell C2, "2": it may be seat 2 or 2 seats`, ""},
		{"row,seats,no. of missing seats\n1,18,2\n", "how many seats are missing, and not which", ""},
		{"x,x\nx,x\n\nx,x\nx,x\n", "the blank line above it may be a walkway, or part two sections", "walkway 4 ft"},
		{"section,row,seats,row,seats\nA,1,10,2,12\n", "rows go on to the right of the seats", ""},
		{"row,West,,East\n2,x,x,x,x\n1,x,x,x,x\n", "two titles stand over one block of seats", "blank column"},
		{"x,x,,15,3\nx,x,,9,7\n", "these numbers do not count along the row", ""},
		{"section,A,B\nrows,10,12\nseats per row,18,20\n", "stands down the first column", "turn the table"},
		{"section,A,B\n1,18,20\n2,18,20\n", "may be sections, or rows of the sections below it", "Row 1"},
		{"section,row,places to sit\nA,1,18\n", "names columns, and none that is read as the seats", `"seats"`},
		{"section,row,seats\nA,1,?\nA,2,many\nB,1,9\n", `no seats of section A could be read; first trouble at cell C2, "?"`, "mend"},
	} {
		s, err := Read("t.csv", []byte(c.text), Options{})
		f, ok := errors.AsType[*seating.Fault](err)
		if !ok {
			t.Errorf("%q is read as %s", c.text, brief(s))
		} else if f.File != "t.csv" || !strings.Contains(f.What, c.what) || !strings.Contains(f.Hint, c.hint) || f.Hint == "" {
			t.Errorf("%q: %v; want %q, hint %q", c.text, err, c.what, c.hint)
		}
	}
}

// Rows whose seats could not be read are named, those that have none on purpose are not.
func TestEmptyRows(t *testing.T) {
	s := survey(t, "section,row,seats\nA,1,9\nA,2,?\nA,3,none\nB,1,9\nB,2,\n")
	if got := strings.Join(s.Empty, " "); got != "A-2 B-2" {
		t.Errorf("%q", got)
	}
}
