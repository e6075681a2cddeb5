package sheets

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"everyseat/mosaic"
	"everyseat/seating"
)

// span says metres in both ways, since a crew reads metres or feet: 18.00 m (59 ft 1 in).
func span(m float64) string {
	return seating.Length(math.Round(math.Abs(m) * float64(seating.Metre))).Spoken()
}

// thousands writes 12345 as 12,345.
func thousands(n int) string {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

// goods is what has to be paid for, or that nothing has.
func goods(cents int) string {
	if cents == 0 {
		return "nothing"
	}
	return money(cents)
}

func money(cents int) string { return fmt.Sprintf("%s.%02d", thousands(cents/100), cents%100) }

// minutes rounds up: nobody plans with the last seconds.
func minutes(d time.Duration) int { return int((d + time.Minute - 1) / time.Minute) }

func minuteWords(d time.Duration) string {
	n := minutes(d)
	if n < 120 {
		return plural(n, "minute")
	}
	return fmt.Sprintf("%d h %02d min", n/60, n%60)
}

func seconds(d time.Duration) string { return fmt.Sprintf("%g s", d.Seconds()) }

// occasion is the line under a sheet's title: which stunt, when, where.
func occasion(p *mosaic.Plan) string {
	var parts []string
	for _, s := range []string{p.Stunt.Title, p.Stunt.Date} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	where := "indoors"
	if p.Stunt.Outdoors {
		where = "outdoors"
	}
	return strings.Join(append(parts, where), ", ")
}

// cueName is how a cue is called on paper.
func cueName(p *mosaic.Plan, cue int) string {
	name := "the cue"
	if len(p.Cues) > 1 {
		name = "cue " + strconv.Itoa(cue+1)
	}
	return name + quotedCue(p, cue)
}

// quotedCue is a cue's own name after its number, or nothing where that is all there is to say.
func quotedCue(p *mosaic.Plan, cue int) string {
	n := p.Cues[cue].Name
	if n == "" || n == "cue "+strconv.Itoa(cue+1) {
		return ""
	}
	return " “" + n + "”"
}

// list joins words with commas, or gives what stands for nothing.
func list(words []string, nothing string) string {
	if len(words) == 0 {
		return nothing
	}
	return strings.Join(words, ", ")
}

// Speeds at which paper is worked off (common practice, no source).
const (
	cutPerPiece  = 4 * time.Second // at a trimmer, a few sheets at a time
	cutPerPile   = 3 * time.Minute // a pile of at most jobSheets, cut as a whole and stacked
	spareMinutes = 15              // between the last card laid and the doors
)

// work is what there is to do, and how long it takes.
type work struct {
	cards, bags, longest int // cards in people's hands; rows that get any; most in one row
	labels               int // that are stuck on
	printing             printRun
	making, print, cut   time.Duration // for one person
	stick, deal          time.Duration
	lay                  time.Duration // for all helpers together
	helpers              int
}

// workOf counts the work of the plan.
func workOf(p *mosaic.Plan, sections [][]rowWork) work {
	w := work{helpers: max(p.Stunt.Laying.Helpers, 1)}
	for _, rows := range sections {
		for i := range rows {
			n := 0
			for _, c := range rows[i].cards {
				n += c
			}
			w.cards += n
			w.longest = max(w.longest, n)
			if n > 0 {
				w.bags++
			}
		}
	}
	if b := p.Bill(); b != nil {
		w.making = time.Duration(b.Minutes) * time.Minute
	}
	w.printing = runOf(p)
	w.print = w.printing.time()
	w.cut = w.printing.cutting()
	w.labels, w.stick = p.Sticking()
	_, _, w.deal = p.Dealing()
	spec := p.Stunt.Laying
	if spec.Pass {
		// Stacks are handed to the rows one after the other; the rows pass them on at the same time.
		w.lay = time.Duration(w.bags)*spec.PerRow/time.Duration(w.helpers) + time.Duration(w.longest)*spec.PerCard
	} else {
		w.lay = (time.Duration(w.cards)*spec.PerCard + time.Duration(w.bags)*spec.PerRow) / time.Duration(w.helpers)
	}
	return w
}

// before says what is done before the day, and how long it takes one person.
func (w *work) before() string {
	parts := []string{fmt.Sprintf("printing %s (%s)", plural(w.printing.sheets, "sheet"), minuteWords(w.print))}
	if w.making > 0 {
		parts = append(parts, fmt.Sprintf("making the cards (%s)", minuteWords(w.making)))
	}
	if w.cut > 0 {
		parts = append(parts, fmt.Sprintf("cutting %s (%s)", w.printing.cutWords(), minuteWords(w.cut)))
	}
	if w.labels > 0 {
		parts = append(parts, fmt.Sprintf("sticking on %s (%s)", plural(w.labels, "label"), minuteWords(w.stick)))
	}
	parts = append(parts, fmt.Sprintf("dealing %s into %s (%s)", plural(w.cards, "card"), plural(w.bags, "bag"), minuteWords(w.deal)))
	all := w.print + w.making + w.cut + w.stick + w.deal
	words := fmt.Sprintf("%s: %s of work for one person", sentenceCase(strings.Join(parts, ", ")), minuteWords(all))
	if w.helpers > 1 {
		words += fmt.Sprintf(", about %s for %d", minuteWords(all/time.Duration(w.helpers)), w.helpers)
	}
	return words + "."
}

// layWord is how the cards get to the people.
func layWord(p *mosaic.Plan) string {
	if p.Stunt.Laying.Pass {
		return "passing"
	}
	return "laying"
}

// floorPeople counts who is on the floor, with and without cards.
func floorPeople(p *mosaic.Plan) int {
	n := 0
	for k := range p.Stands.Sections {
		if p.Stands.Sections[k].Spec.Kind == seating.Floor {
			n += p.Stands.Count(k).People()
		}
	}
	return n
}
