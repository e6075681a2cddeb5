package stock

// LeastSpares is how many spares a colour has at least in every section that uses it.
const LeastSpares = 5

// Spares is how many spare sheets go with so many cards of a colour in one section: a
// tenth, and five at least (common practice, no source).
func Spares(cards int) int {
	if cards == 0 {
		return 0
	}
	return max(LeastSpares, (cards+9)/10)
}

// Usable is how many cards of a colour may be dealt so that they and the spares of up
// to so many sections never exceed the stock, however the cards fall on the
// sections. Unlimited stays unlimited.
func Usable(stock, sections int) int {
	if stock == Unlimited || sections < 1 {
		return stock
	}
	low, high := 0, stock
	for low < high {
		cards := (low + high + 1) / 2
		if cards+mostSpares(cards, sections) <= stock {
			low = cards
		} else {
			high = cards - 1
		}
	}
	return low
}

// mostSpares is the most that any split of cards over the sections asks for: one
// card in each section but one takes its five spares, and the rest together
// loses least to the first fifty cards, which five spares cover.
func mostSpares(cards, sections int) int {
	if cards < sections {
		return cards * LeastSpares
	}
	return (sections-1)*LeastSpares + Spares(cards-sections+1)
}
