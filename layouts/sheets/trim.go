package sheets

import (
	"fmt"
	"strconv"
	"strings"

	"everyseat/mosaic"
)

// trimRule says in one sentence what is done with the marks for a low turnout.
func trimRule(pass bool) string {
	const rule = "FEW PEOPLE: the crew calls “90”, “80” or “70” of a hundred; a seat whose box has that number or a higher one stays empty, "
	if pass {
		return rule + "and its card comes out of the stack before it is handed in."
	}
	return rule + "and its card goes back into the bag."
}

// trimReads says how the texts read when so few come that the marked seats stay empty, by legibility's score; "" where
// no cue has a text. Of several texts the one that reads worst stands for all.
func trimReads(p *mosaic.Plan) string {
	var said, shares []string // what is read, and at which shares
	for i, share := range mosaic.TrimShares {
		worst, at, texts := mosaic.Trimmed{}, -1, 0
		for cue := range p.Cues {
			if trimmed := p.Trimmed(cue); trimmed != nil {
				texts++
				if at < 0 || trimmed[i].Score < worst.Score {
					worst, at = trimmed[i], cue
				}
			}
		}
		if at < 0 {
			return ""
		}
		which := "it"
		if texts > 1 {
			which = "the weakest, " + cueName(p, at) + ","
		}
		words := fmt.Sprintf("%s %s (%.0f of 100)", which, worst.Verdict.Says(), 100*worst.Score)
		if last := len(said) - 1; last >= 0 && said[last] == words {
			shares[last] += " and " + strconv.Itoa(share)
			continue
		}
		said, shares = append(said, words), append(shares, strconv.Itoa(share))
	}
	for i := range said {
		said[i] = "at " + shares[i] + " " + said[i]
	}
	return "The message then: " + strings.Join(said, "; ") + "."
}

// startHere names the end at which a row is begun.
func startHere(pass bool) string {
	if pass {
		return "HAND IN HERE: "
	}
	return "START HERE: "
}

// trimWords say who drops out, share by share: "If few come: at 90 % seats 1, 2; at 80 % also 3 stay empty."
func (l *rowStrips) trimWords(list []place, where string) string {
	var parts []string
	for _, share := range mosaic.TrimShares {
		var numbers []int
		for _, pl := range list {
			if pl.seat >= 0 && int(l.trim[pl.seat]) == share {
				numbers = append(numbers, int(l.plan.Stands.Seats[pl.seat].Number))
			}
		}
		if len(numbers) == 0 {
			continue
		}
		word := "seat"
		switch {
		case len(parts) > 0:
			word = "also"
		case len(numbers) > 1:
			word = "seats"
		}
		parts = append(parts, fmt.Sprintf("at %d %% %s%s%s", share, word, glue, seatRanges(numbers)))
	}
	switch {
	case len(parts) == 0:
		return "If few come: nobody drops out" + where + "."
	case strings.HasPrefix(strings.SplitN(parts[0], "%", 2)[1], " seat"+glue) && len(parts) == 1:
		return "If few come" + where + ": " + parts[0] + " stays empty."
	}
	return "If few come" + where + ": " + strings.Join(parts, "; ") + " stay empty."
}

// seatRanges is "1–3, 7" of numbers in the order of the row; houses of odd or even numbers count as they
// come.
func seatRanges(numbers []int) string {
	var parts []string
	for i := 0; i < len(numbers); {
		end := i + 1
		for end < len(numbers) && (numbers[end]-numbers[end-1] == 1 || numbers[end]-numbers[end-1] == -1) {
			end++
		}
		part := strconv.Itoa(numbers[i])
		switch end - i {
		case 1:
		case 2:
			part += "," + glue + strconv.Itoa(numbers[end-1])
		default:
			part += "–" + strconv.Itoa(numbers[end-1])
		}
		parts = append(parts, part)
		i = end
	}
	return strings.Join(parts, ","+glue)
}

// trimLine draws a box with the share under every seat that drops out.
func (l *rowStrips) trimLine(p *pen, x, y, w float64, list []place) {
	const size = 8.5
	p.lineColour(black)
	p.lineWidth(0.35)
	for i, pl := range list {
		if pl.seat < 0 || l.trim[pl.seat] == 0 {
			continue
		}
		left := x + float64(i)*w
		p.box(left+0.5, y, w-1, trimHeight)
		p.textMiddle(left+w/2, y+trimHeight/2+capMM(size)/2, size, bold, strconv.Itoa(int(l.trim[pl.seat])))
	}
}
