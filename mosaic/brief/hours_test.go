package brief

import (
	"strings"
	"testing"
	"time"

	"everyseat/mosaic"
	"everyseat/seating/say"
	"everyseat/testdata/fair"
)

// Where all sheets are in stock there is nothing to pay for, and that is said in words, not as a sum of 0.00.
func TestAllInStock(t *testing.T) {
	s := fair.Stunt()
	for i := range s.Colours {
		s.Colours[i].Sheets, s.Colours[i].Pack, s.Colours[i].PriceCents = 1000, 50, 1199
	}
	all := told(t, s)
	wantSaid(t, all, "Buy and print", "There is nothing to buy: all of it is in stock; printing is not counted.")
	if got := said(t, all, "Buy and print"); strings.Contains(got, "0.00") {
		t.Errorf("a sum of nothing: %s", got)
	}
}

// euros is a sum of money without its sign, which the stunt does not know.
func euros(cents int) string {
	return strings.Join([]string{say.Thousands(cents / 100), string(rune('0'+cents/10%10)) + string(rune('0'+cents%10))}, ".")
}

// 432 cards at 6 s and 36 rows at 20 s are 3,312 s of work: 6 helpers take 9 min 12 s.
func TestWorkIsCounted(t *testing.T) {
	s := fair.Stunt()
	wantSaid(t, told(t, s), "The work", "Laying 432 cards in 36 rows takes about 10 minutes with 6 helpers, at 6 s a card and 20 s a row.")
	s.Laying.Helpers, s.Laying.PerCard, s.Laying.PerRow = 1, 10*time.Second, time.Minute
	wantSaid(t, told(t, s), "The work", "takes about 108 minutes with 1 helper, at 10 s a card and 60 s a row.")
	s.Laying.Pass = true // 36 stacks at a minute, then twelve cards along the row
	wantSaid(t, told(t, s), "The work", "Passing 432 cards along 36 rows takes about 38 minutes with 1 helper")
}

// The sentence about printing says what is printed, and speaks of labels only where there are some.
func TestSaysHowPlacardsArePrinted(t *testing.T) {
	for placards, want := range map[mosaic.Placards]string{
		mosaic.Labels: "placard labels, 4 on a sheet", mosaic.OnStock: "on the coloured cards themselves", mosaic.FullColoured: "in full colour",
	} {
		s := fair.Stunt()
		s.Print.Placards = placards
		if placards == mosaic.FullColoured {
			s.Card.Kind = mosaic.Printed
		}
		all := told(t, s)
		wantSaid(t, all, "Buy and print", want)
		if labels := strings.Contains(said(t, all, "Buy and print"), "placard label"); labels != (placards == mosaic.Labels) {
			t.Errorf("%s: labels are spoken of: %v", placards, labels)
		}
	}
}

// With prices, the ways of making the cards are compared, work included.
func TestCheapestIsSaid(t *testing.T) {
	s := fair.Stunt()
	s.Cues = []mosaic.Cue{{Text: "GLOW"}, {Text: "LAMP"}, {Text: "MOON"}}
	for c := range s.Colours {
		s.Colours[c].Pack, s.Colours[c].PriceCents = 1000, 1000
	}
	wantSaid(t, told(t, s), "Buy and print", "As cheap and less work would be cards made as sheet", "but up to two cards a person.")
	s.Colours[0].PriceCents = 90_000 // navy stock dear, printing it is not
	wantSaid(t, told(t, s), "Buy and print", "Cheaper would be cards made as printed", "(printing at 0.25 of toner a side and 15.00 for 250 white cards, which is assumed).")
	s.Card.Kind, s.Work = mosaic.Printed, mosaic.Work{TonerCents: 1, PaperPack: 100, PaperCents: 100}
	wantSaid(t, told(t, s), "Buy and print", "No other way of making the cards is cheaper.")
}

// Printed cards are told of as white card and toner, bonded ones as sheets back to back.
func TestHowCardsAreMadeIsSaid(t *testing.T) {
	s := fair.Stunt()
	s.Card.Kind = mosaic.Printed
	s.Colours[0].Sheets = 10
	wantSaid(t, told(t, s), "Buy and print", "of white card to print", "sides to flood with toner")
	s = fair.Stunt()
	s.Cues = []mosaic.Cue{{Text: "GLOW"}, {Text: "LAMP"}, {Text: "MOON"}}
	wantSaid(t, told(t, s), "Buy and print", "432 cards in people's hands, at most one each", "two sheets back to back")
}
