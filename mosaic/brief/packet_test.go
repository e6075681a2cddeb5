package brief

import "testing"

// The crowd manager's figure of the New York State fire code, 403.11.3 (SEEN): over 500 people one for each 250 or
// part, at least two. The counts are COMPUTED from that text.
func TestCrowdManagers(t *testing.T) {
	for people, want := range map[int]int{501: 3, 750: 3, 751: 4, 1000: 4, 2200: 9, 500: 1, 30: 1} {
		if got := CrowdManagers(people); got != want {
			t.Errorf("%d people: %d, want %d", people, got, want)
		}
	}
}
