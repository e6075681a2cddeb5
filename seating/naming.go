package seating

import (
	"fmt"
	"slices"
	"strconv"
)

// letterRows is the alphabet for rows in the usual way: I and O look like 1 and 0.
const (
	allLetters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	letterRows = "ABCDEFGHJKLMNPQRSTUVWXYZ"
)

// maxNumber bounds seat and row numbers as marked.
const maxNumber = 99_999_999

// letterName is the n-th name, from 1: A … Z, AA, AB … over the given alphabet.
func letterName(n int, alphabet string) string {
	var b []byte
	for ; n > 0; n = (n - 1) / len(alphabet) {
		b = append(b, alphabet[(n-1)%len(alphabet)])
	}
	slices.Reverse(b)
	return string(b)
}

// letterIndex is the inverse of letterName; 0 where a letter is not in the alphabet.
func letterIndex(name, alphabet string) int {
	n := 0
	for _, r := range name {
		i := slices.Index([]rune(alphabet), r)
		if i < 0 {
			return 0
		}
		n = n*len(alphabet) + i + 1
	}
	return n
}

// names gives the row names, front to back.
func (n RowNaming) names(rows int) ([]string, error) {
	if len(n.Names) > 0 {
		return n.given(rows)
	}
	start, step := max(n.Start, 1), max(n.Step, 1)
	if n.Start < 0 || n.Step < 0 {
		return nil, &Fault{What: "row names count upwards from 1", Hint: "for names that fall toward the back, let them begin at the back"}
	}
	if start > maxNumber || step > maxNumber/max(rows, 1) {
		return nil, &Fault{What: "row numbers are too large", Hint: fmt.Sprintf("stay below %d", maxNumber)}
	}
	name := strconv.Itoa
	if n.Letters {
		alphabet := letterRows
		if n.AllLetters {
			alphabet = allLetters
		}
		first := letterName(start, allLetters)
		if start = letterIndex(first, alphabet); start == 0 {
			return nil, &Fault{What: fmt.Sprintf("rows cannot start at %s, which is left out because it looks like a figure", first), Hint: "start at another letter, or ask for all letters"}
		}
		name = func(i int) string { return letterName(i, alphabet) }
	}
	out := make([]string, rows)
	for i := range out {
		out[i] = name(start + i*step)
	}
	if n.FromBack {
		slices.Reverse(out)
	}
	return out, nil
}

func (n RowNaming) given(rows int) ([]string, error) {
	if n.Letters || n.AllLetters || n.Start != 0 || n.Step != 0 || n.FromBack {
		return nil, &Fault{What: "rows have a list of names and a rule for names", Hint: "give one of the two; the list runs from the front to the back"}
	}
	if len(n.Names) != rows {
		return nil, &Fault{What: fmt.Sprintf("there are %d names for %d rows", len(n.Names), rows), Hint: "give one a row, from the front to the back"}
	}
	out, seen := make([]string, rows), map[string]string{}
	for i, raw := range n.Names {
		name, err := CheckName(raw)
		if err != nil {
			return nil, err
		}
		key := nameKey(name)
		if twin, ok := seen[key]; ok {
			return nil, &Fault{What: fmt.Sprintf("the rows %q and %q have the same name but for capitals", twin, name), Hint: "name one of them otherwise"}
		}
		seen[key], out[i] = name, name
	}
	return out, nil
}

// check fills in defaults and bounds the largest number of a row with so many places.
func (n *SeatNumbering) check(places int) error {
	if n.Start < 0 || n.Step < 0 || n.From > Right {
		return &Fault{What: "seat numbers count upwards from 1", Hint: "for numbers that fall to the right, let them begin at the right"}
	}
	n.Start, n.Step = max(n.Start, 1), max(n.Step, 1)
	if n.Start > maxNumber || n.Step > maxNumber/max(places, 1) {
		return &Fault{What: "seat numbers are too large", Hint: fmt.Sprintf("stay below %d", maxNumber)}
	}
	return nil
}

// number is what the place from the left is marked as in a row of so many places.
func (n SeatNumbering) number(place, places int) int {
	if n.From == Right {
		place = places - 1 - place
	}
	return n.Start + n.Step*place
}

// place is the inverse of number. When no place has the number, ok is false and
// place is the nearest one, the lower number on a tie.
func (n SeatNumbering) place(number, places int) (place int, ok bool) {
	i := 0
	if number > n.Start {
		i = (number - n.Start + (n.Step-1)/2) / n.Step
	}
	i = min(i, places-1)
	ok = n.Start+n.Step*i == number
	if n.From == Right {
		i = places - 1 - i
	}
	return i, ok
}
