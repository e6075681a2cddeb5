package seating_test

import (
	"fmt"

	"everyseat/seating"
)

// A section of ten rows: nine feet of bench hold six people by the 18-inch rule,
// and five at the planning pitch of 20 in.
func ExampleBuild() {
	nineFeet, _ := seating.ParseLength("9 ft")
	stands, err := seating.Build(seating.Spec{Sections: []seating.SectionSpec{
		{Name: "B", Rows: 10, Bench: []seating.Length{nineFeet}},
	}})
	if err != nil {
		fmt.Println(err)
		return
	}
	total := stands.CountAll()
	fmt.Println(len(stands.Seats), "seats, capacity", total.Capacity, "- the last is", stands.ID(len(stands.Seats)-1))
	// Output: 50 seats, capacity 60 - the last is B-10-5
}

func ExampleParseLength() {
	for _, text := range []string{`5'6"`, "9 5/8in", "0,46 m", "18"} {
		l, err := seating.ParseLength(text)
		fmt.Println(l, err)
	}
	// Output:
	// 66in <nil>
	// 9 5/8in <nil>
	// 46cm <nil>
	// 0m "18" has no unit (hint: write "18in" or "18cm", whichever was measured)
}
