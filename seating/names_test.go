package seating

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestCheckName(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"A", "A"}, {"North 2", "North 2"}, {"E\u0301", "É"}, {"北", "北"}, {strings.Repeat("é", 16), strings.Repeat("é", 16)},
		{"", ""}, {" A", ""}, {"A-1", ""}, {"A,1", ""}, {"A=1", ""}, {"A/1", ""}, {`A\1`, ""}, {"A#1", ""}, {"A\n", ""}, {"A\tB", ""},
		{"A\u200bB", ""}, {"A\u202eB", ""}, {"A\u00a0B", ""}, {"A\ufeffB", ""}, {strings.Repeat("A", 17), ""}, {"\xff", ""}, {"\ufffd", ""},
	} {
		got, err := CheckName(c.in)
		if got != c.want || (err == nil) != (c.want != "") {
			t.Errorf("CheckName(%q) = %q, %v; want %q", c.in, got, err, c.want)
		}
	}
}

func TestFileName(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"B-7-12", "B-7-12"}, {"North 2", "North_2"}, {"a_b", "a~5f~b"}, {"A:B", "A~3a~B"}, {"É", "É"}, {"con", "~~con"}, {"CON", "~~CON"}, {".", "~2e~"},
	} {
		if got := FileName(c.in); got != c.want {
			t.Errorf("FileName(%q) = %q, want %q", c.in, got, c.want)
		}
	}
}

func TestFileNamesDiffer(t *testing.T) {
	name := rapid.StringMatching(`[aA1 _~.:5fe%+é]{1,6}`)
	rapid.Check(t, func(t *rapid.T) {
		a, errA := CheckName(name.Draw(t, "a"))
		b, errB := CheckName(name.Draw(t, "b"))
		if errA != nil || errB != nil || NameKey(a) == NameKey(b) {
			t.Skip("no two different names")
		}
		x, y := FileName(a), FileName(b)
		if strings.EqualFold(x, y) || strings.ContainsAny(x, `<>:"/\|?* `) || strings.HasSuffix(x, ".") {
			t.Fatalf("%q and %q give %q and %q", a, b, x, y)
		}
	})
}

func TestRowNames(t *testing.T) {
	for _, c := range []struct {
		rule RowNaming
		rows int
		want string
	}{
		{RowNaming{}, 3, "1 2 3"},
		{RowNaming{Start: 5, Step: 2}, 3, "5 7 9"},
		{RowNaming{FromBack: true}, 3, "3 2 1"},
		{RowNaming{Letters: true}, 10, "A B C D E F G H J K"},
		{RowNaming{Letters: true, Start: 8}, 3, "H J K"},
		{RowNaming{Letters: true, AllLetters: true, Start: 8}, 3, "H I J"},
		{RowNaming{Letters: true, Start: 14}, 2, "N P"},
		{RowNaming{Letters: true, Start: 25}, 4, "Y Z AA AB"},
		{RowNaming{Letters: true, AllLetters: true, Start: 26}, 3, "Z AA AB"},
		{RowNaming{Letters: true, Step: 2}, 3, "A C E"},
		{RowNaming{Letters: true, FromBack: true}, 3, "C B A"},
		{RowNaming{Names: []string{"Low", "High"}}, 2, "Low High"},
		{RowNaming{Letters: true, Start: 9}, 2, ""},
		{RowNaming{Names: []string{"a", "A"}}, 2, ""},
		{RowNaming{Names: []string{"a"}}, 2, ""},
		{RowNaming{Names: []string{"a", "b"}, FromBack: true}, 2, ""},
		{RowNaming{Start: -1}, 2, ""},
	} {
		got, err := c.rule.names(c.rows)
		if strings.Join(got, " ") != c.want || (err == nil) != (c.want != "") {
			t.Errorf("%+v over %d rows: %q, %v; want %q", c.rule, c.rows, got, err, c.want)
		}
	}
}

func TestLettersCountOn(t *testing.T) {
	for _, alphabet := range []Alphabet{RowLetters, AllLetters} {
		for n := 1; n < 20_000; n++ {
			if name := alphabet.Name(n); alphabet.Index(name) != n {
				t.Fatalf("%d is %q, which is %d", n, name, alphabet.Index(name))
			}
		}
	}
}

func TestSeatNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := SeatNumbering{From: Side(rapid.IntRange(0, 1).Draw(t, "from")), Start: rapid.IntRange(0, 9).Draw(t, "start"), Step: rapid.IntRange(0, 4).Draw(t, "step")}
		places := rapid.IntRange(1, 40).Draw(t, "places")
		if err := n.Check(places); err != nil {
			t.Fatal(err)
		}
		numbers := map[int]int{}
		for p := range places {
			numbers[n.Number(p, places)] = p
		}
		want := rapid.IntRange(-5, 200).Draw(t, "number")
		got, ok := n.Place(want, places)
		if p, there := numbers[want]; there != ok || there && p != got {
			t.Fatalf("number %d: place %d %v, want %d %v", want, got, ok, p, there)
		}
		for number := range numbers {
			if abs(number-want) < abs(n.Number(got, places)-want) {
				t.Fatalf("number %d: %d is nearer than %d", want, number, n.Number(got, places))
			}
		}
	})
}
