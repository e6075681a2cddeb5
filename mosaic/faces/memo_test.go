package faces

import "testing"

// TestMemo: what is asked for again and again is made once, and no more is kept than was said.
func TestMemo(t *testing.T) {
	made := map[int]int{}
	m := Memo[int, *int]{Half: 8}
	ask := func(k int) *int {
		return m.Of(k, func() *int {
			made[k]++
			return &k
		})
	}
	first := ask(1)
	for k := range 1000 {
		if v := ask(k); *v != k {
			t.Fatalf("%d was asked for and %d given", k, *v)
		}
		if ask(1) != first {
			t.Fatal("1 is made again although it is asked for all the time")
		}
		if n := len(m.young) + len(m.old); n > 16 {
			t.Fatalf("%d are kept", n)
		}
	}
	ask(500)
	if made[1] != 1 || made[500] != 2 {
		t.Errorf("1 was made %d times and 500, forgotten meanwhile, %d times", made[1], made[500])
	}
}
