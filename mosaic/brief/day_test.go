package brief

import "testing"

// Times of day as people write them; worked by hand.
func TestReadClock(t *testing.T) {
	for text, want := range map[string]string{"18:45": "18:45", "6:45 pm": "18:45", "6.45 p.m.": "18:45", "12:05 am": "0:05", "12 pm": "12:00", "9 AM": "9:00", " 07:30h ": "7:30"} {
		if c, ok := readClock(text); !ok || c.String() != want {
			t.Errorf("%q is %v %v, want %s", text, c, ok, want)
		}
	}
	for _, text := range []string{"", "18", "25:00", "18:60", "18:5", "noon", "13 pm", "18:45:10", "-1:30"} {
		if c, ok := readClock(text); ok {
			t.Errorf("%q is read as %v", text, c)
		}
	}
}
