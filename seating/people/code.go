package people

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
)

// listSigns are capitals and figures that nobody takes for each other: without 0 O 1 I L.
const listSigns = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"

// Code is four characters of who sits where: lists printed from another roster have another code, though
// the plan and its code stay.
func (s *Seated) Code() string {
	sum := sha256.New()
	for g := range s.Roster.Groups {
		group := &s.Roster.Groups[g]
		fmt.Fprintf(sum, "%q %q %q %q %q", group.Name, group.Leader, group.Room, group.Door, group.Time)
		for i := group.First; i < group.Last; i++ {
			fmt.Fprintf(sum, "%q %d ", s.Roster.People[i].Name, s.Seat[i])
		}
	}
	n := binary.BigEndian.Uint64(sum.Sum(nil))
	code := make([]byte, 4)
	for i := range code {
		code[i] = listSigns[n%uint64(len(listSigns))]
		n /= uint64(len(listSigns))
	}
	return string(code)
}
