package mosaic

import (
	"fmt"

	"everyseat/seating"
)

// BlockPeople is how many people one leader looks after at most, as far as rows
// go (common practice, no source).
const BlockPeople = 60

// blocks names each seat's block: a section's rows from the front in bands of
// like size. A row longer than that is a block.
func blocks(stands *seating.Stands) []string {
	out := make([]string, len(stands.Seats))
	for k := range stands.Sections {
		sec := &stands.Sections[k]
		all := bands(stands, sec)
		for n, band := range all {
			name := blockName(sec.Name, n, len(all))
			for s := band[0]; s < band[1]; s++ {
				out[s] = name
			}
		}
	}
	return out
}

// blockName says in words which part of its section a block is: "A1" would be taken for a row.
func blockName(section string, n, of int) string {
	switch {
	case of == 1:
		return section
	case n == 0 && of <= 3:
		return section + " front"
	case n == of-1 && of <= 3:
		return section + " back"
	case of == 3:
		return section + " middle"
	}
	return fmt.Sprintf("%s part %d", section, n+1)
}

// bands parts a section into as few bands of whole rows as can be, each a range
// of seats, and evens them out.
func bands(stands *seating.Stands, sec *seating.Section) [][2]int {
	people := make([]int, len(sec.Rows))
	total := 0
	for r, row := range sec.Rows {
		for s := row.First; s < row.Last; s++ {
			if u := stands.Seats[s].Use; u == seating.UseCard || u == seating.UsePerson {
				people[r]++
			}
		}
		total += people[r]
	}
	least := len(filledBands(people, BlockPeople))
	if least == 0 {
		return nil
	}
	// The smallest size that still needs no more bands makes them even.
	size := max(1, (total+least-1)/least)
	for size < BlockPeople && len(filledBands(people, size)) > least {
		size++
	}
	var out [][2]int
	for _, b := range filledBands(people, size) {
		out = append(out, [2]int{sec.Rows[b[0]].First, sec.Rows[b[1]-1].Last})
	}
	return out
}

// filledBands takes rows into a band until the next one would be more than size.
func filledBands(people []int, size int) [][2]int {
	var out [][2]int
	in := 0
	for r, n := range people {
		if len(out) == 0 || in+n > size && in > 0 {
			out = append(out, [2]int{r, r})
			in = 0
		}
		in += n
		out[len(out)-1][1] = r + 1
	}
	return out
}
