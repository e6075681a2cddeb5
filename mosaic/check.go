package mosaic

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"everyseat/mosaic/colour"
	"everyseat/mosaic/stock"
	"everyseat/seating"
)

// Limits of one stunt.
const (
	MaxColours = stock.MaxColours - 1 // one more stands for a card that is in the hand anyway
	MaxCues    = 500
	MaxMarks   = 50
	MaxText    = 200 // runes in one cue
	MaxTitle   = 120 // runes of what stands on every sheet: title, date, contact
)

// check refuses what cannot be planned before anything is built.
func check(s *Stunt) error {
	if len(s.Colours) == 0 {
		return noColours(s.Cues)
	}
	if err := checkColours(s.Colours); err != nil {
		return err
	}
	if err := checkTitles(s); err != nil {
		return err
	}
	if err := checkCard(s.Card); err != nil {
		return err
	}
	if err := checkRisk(s.FlashingRisk); err != nil {
		return err
	}
	if s.Print.Margin > widestMargin {
		return &seating.Fault{Key: "print.margin", What: fmt.Sprintf("no printer leaves %s white at every edge", s.Print.Margin), Hint: "print sheets/test.pdf and measure; 3 to 13 mm are usual"}
	}
	if s.Tempo != 0 && !(s.Tempo >= slowestTempo && s.Tempo <= fastestTempo) {
		return &seating.Fault{Key: "tempo", What: fmt.Sprintf("a tempo of %g counts a minute is no music's", s.Tempo), Hint: "write tempo = 120"}
	}
	if s.Walks && len(s.Marks) == 0 {
		return &seating.Fault{Key: "camera.walks", What: "the camera walks, and there is one mark alone",
			Hint: "add the places it passes in order, each as [[mark]] with back, across and height"}
	}
	if err := checkExits(s.Room.Exits); err != nil {
		return err
	}
	if len(s.Marks) > MaxMarks {
		return &seating.Fault{Key: fmt.Sprintf("mark[%d]", MaxMarks), What: fmt.Sprintf("there are more than %d marks", MaxMarks)}
	}
	for i := range s.Marks {
		for k := range i {
			if s.Marks[i].Name == s.Marks[k].Name || s.Marks[i].Name == s.Camera.Name {
				return &seating.Fault{Key: fmt.Sprintf("mark[%d].name", i), What: fmt.Sprintf("there are two marks called %q", s.Marks[i].Name), Hint: "give each mark its own name"}
			}
		}
	}
	if len(s.Cues) == 0 {
		return &seating.Fault{Key: "cue", What: "there is no message", Hint: `add a [[cue]] with text = "…" or image = "…"`}
	}
	if len(s.Cues) > MaxCues {
		return &seating.Fault{Key: fmt.Sprintf("cue[%d]", MaxCues), What: fmt.Sprintf("there are more than %d cues", MaxCues)}
	}
	names := colourNames(s.Colours)
	for i := range s.Cues {
		if err := checkCue(&s.Cues[i], i, names); err != nil {
			return err
		}
		if err := checkMoments(&s.Cues[i], i); err != nil {
			return err
		}
		if c := &s.Cues[i]; c.Text != "" && c.Ground != Shirts {
			if err := checkInk(s.rgb(c.Ink), s.rgb(c.Ground), c, fmt.Sprintf("cue[%d].ink", i)); err != nil {
				return err
			}
		}
	}
	return nil
}

// checkTitles bounds what stands on every sheet of paper.
func checkTitles(s *Stunt) error {
	for _, t := range []struct{ key, text string }{{"title", s.Title}, {"date", s.Date}, {"contact", s.Contact}} {
		if n := utf8.RuneCountInString(t.text); n > MaxTitle {
			return &seating.Fault{Key: t.key, What: fmt.Sprintf("the %s has %d characters, more than the %d that fit on a sheet", t.key, n, MaxTitle), Hint: "write a shorter one"}
		}
	}
	return nil
}

// checkMoments looks at how a cue comes up and how long it stays.
func checkMoments(c *Cue, i int) error {
	key := func(k string) string { return fmt.Sprintf("cue[%d].%s", i, k) }
	var known []string
	for _, t := range []Transition{AtOnce, LeftToRight, RightToLeft, BottomToTop, FromMiddle, RowByRow} {
		known = append(known, string(t))
	}
	if !slices.Contains(known, string(c.Transition)) {
		return unknown(key("transition"), "transition", string(c.Transition), known)
	}
	for _, t := range []struct {
		key string
		is  time.Duration
	}{{"up", c.UpWithin}, {"hold", c.Hold}, {"takes", c.Takes}} {
		if t.is < 0 || t.is > time.Hour {
			return &seating.Fault{Key: key(t.key), What: "the time is negative, or longer than an hour", Hint: `write "2 s"`}
		}
	}
	if c.Takes > longestWave {
		return &seating.Fault{Key: key("takes"), What: fmt.Sprintf("a wave of %g s is longer than anybody follows one", c.Takes.Seconds()), Hint: fmt.Sprintf(`write takes = "4 s", at most %g s`, longestWave.Seconds())}
	}
	if c.Takes > 0 && c.Transition == AtOnce {
		return &seating.Fault{Key: key("takes"), What: fmt.Sprintf("cue %q comes up at once and so takes no time", c.Name), Hint: `write transition = "left to right", or leave takes out`}
	}
	return nil
}

// widestMargin is more than printers leave white; largestCard is more than arms can hold between neighbours;
// longestWave is when a crowd has stopped to follow (ours, no source).
const (
	widestMargin = 30 * seating.Millimetre
	largestCard  = 150 * seating.Centimetre
	longestWave  = time.Minute
)

func checkCard(c CardSpec) error {
	if c.Width <= 0 || c.Height <= 0 {
		return &seating.Fault{Key: "card.size", What: "the card has no size", Hint: `write size = "11in x 8.5in"`}
	}
	if max(c.Width, c.Height) > largestCard {
		return &seating.Fault{Key: "card.size", What: fmt.Sprintf("a card of %s × %s is larger than anybody can hold in a row", c.Width, c.Height), Hint: fmt.Sprintf("no side over %s", largestCard)}
	}
	switch c.Orientation {
	case "auto", "landscape", "portrait":
	default:
		return unknown("card.orientation", "orientation", c.Orientation, []string{"auto", "landscape", "portrait"})
	}
	switch c.Kind {
	case Sheet, Bonded, Printed:
	default:
		return unknown("card.kind", "kind of card", string(c.Kind), []string{string(Sheet), string(Bonded), string(Printed)})
	}
	if c.HandHeight < 0 || c.HandSideways < 0 || !(c.HandTilt >= 0 && c.HandTilt <= 90) {
		return &seating.Fault{Key: "card", What: "the error of hand is negative or more than a quarter turn"}
	}
	return nil
}

func checkColours(colours []Colour) error {
	if len(colours) > MaxColours {
		return &seating.Fault{Key: fmt.Sprintf("colour[%d]", MaxColours), What: fmt.Sprintf("there are more than %d colours", MaxColours)}
	}
	seen := map[string]int{}
	for i, c := range colours {
		key := fmt.Sprintf("colour[%d].name", i)
		switch folded := strings.ToLower(strings.TrimSpace(c.Name)); {
		case folded == "":
			return &seating.Fault{Key: key, What: "a colour has no name", Hint: `write name = "blue"`}
		case folded == Shirts:
			return &seating.Fault{Key: key, What: fmt.Sprintf("a card colour cannot be called %q, which means no card", c.Name)}
		default:
			if first, twice := seen[folded]; twice {
				return &seating.Fault{Key: key, What: fmt.Sprintf("colour %q is there twice (also as colour %d)", c.Name, first+1), Hint: "give each colour its own name"}
			}
			seen[folded] = i
		}
		if c.Sheets < -1 || c.Pack < 0 || c.PriceCents < 0 {
			return &seating.Fault{Key: fmt.Sprintf("colour[%d]", i), What: fmt.Sprintf("colour %q has a negative number of sheets, pack size or price", c.Name), Hint: "leave out what is not known"}
		}
		if c.PriceCents > 0 && c.Pack == 0 {
			return &seating.Fault{Key: fmt.Sprintf("colour[%d].price", i), What: fmt.Sprintf("colour %q has a price and no pack size", c.Name), Hint: "write pack = 50 beside it: how many sheets the price is for"}
		}
	}
	return checkApart(colours)
}

func checkCue(c *Cue, i int, names []string) error {
	key := func(k string) string { return fmt.Sprintf("cue[%d].%s", i, k) }
	text, image := strings.TrimSpace(c.Text) != "", c.ImageName != "" || c.Image != nil
	switch {
	case c.Text != "" && !text:
		return &seating.Fault{Key: key("text"), What: "the text is empty", Hint: "write what the cards should spell"}
	case text && image:
		return &seating.Fault{Key: key("image"), What: "a cue shows a text or an image, not both", Hint: "make two cues of it"}
	case !text && !image && len(c.Painted) == 0:
		return &seating.Fault{Key: fmt.Sprintf("cue[%d]", i), What: fmt.Sprintf("cue %q shows nothing", c.Name), Hint: "give it text, image or painted seats"}
	case len([]rune(c.Text)) > MaxText:
		return &seating.Fault{Key: key("text"), What: fmt.Sprintf("the text has more than %d letters", MaxText), Hint: "make several cues of it"}
	}
	fits := []string{"", "camera", "flat"}
	if image {
		fits = []string{"", "fit", "fill", "flat"}
	}
	if !slices.Contains(fits, c.Fit) {
		return unknown(key("fit"), "fit", c.Fit, fits[1:])
	}
	switch c.Reduce {
	case "", Flat, Diffuse:
	default:
		return unknown(key("reduce"), "way to reduce colours", string(c.Reduce), []string{string(Flat), string(Diffuse)})
	}
	if e := c.Exposure; e != nil && !(*e >= -8 && *e <= 8) {
		return &seating.Fault{Key: key("exposure"), What: fmt.Sprintf("an exposure of %g stops leaves nothing of an image", *e), Hint: "1 is twice the light, -1 half of it"}
	}
	for _, f := range c.Focus {
		if !(f >= 0 && f <= 1) {
			return &seating.Fault{Key: key("focus"), What: "the focus lies outside the image", Hint: "write focus = [0.5, 0.3]: shares of the width from the left and of the height from the top"}
		}
	}
	if c.Ground != Shirts && !slices.Contains(names, c.Ground) {
		return unknown(key("ground"), "colour", c.Ground, append([]string{Shirts}, names...))
	}
	if text {
		if c.Ink == "" {
			return &seating.Fault{Key: key("ink"), What: "there is no second colour for the letters", Hint: "add another [[colour]], or set ground = \"shirts\""}
		}
		if !slices.Contains(names, c.Ink) {
			return unknown(key("ink"), "colour", c.Ink, names)
		}
		if c.Ink == c.Ground {
			return &seating.Fault{Key: key("ink"), What: fmt.Sprintf("letters and ground are both %s", c.Ink), Hint: "choose two colours that differ"}
		}
	}
	for k, p := range c.Painted {
		if p.Colour != "" && !slices.Contains(names, p.Colour) {
			return unknown(fmt.Sprintf("cue[%d].painted[%d].colour", i, k), "colour", p.Colour, names)
		}
	}
	return nil
}

func colourNames(colours []Colour) []string {
	names := make([]string, len(colours))
	for i, c := range colours {
		names[i] = c.Name
	}
	return names
}

func rgbs(colours []Colour) []colour.RGB {
	out := make([]colour.RGB, len(colours))
	for i, c := range colours {
		out[i] = c.RGB
	}
	return out
}

// unknown says that there is no such name and which one was probably meant.
func unknown(key, what, name string, known []string) error {
	f := &seating.Fault{Key: key, What: fmt.Sprintf("there is no %s %q", what, name)}
	if near := nearest(name, known); near != "" {
		f.Hint = fmt.Sprintf("did you mean %q?", near)
	} else if len(known) > 0 && len(known) <= 12 {
		f.Hint = "there are " + strings.Join(known, ", ")
	}
	return f
}

// nearest is the known name that differs least from name in letters changed,
// added or lost, whatever the case; "" where none is near.
func nearest(name string, known []string) string {
	best, least := "", 1+max(1, len([]rune(name))/3)
	for _, k := range known {
		if d := distance(strings.ToLower(name), strings.ToLower(k)); d < least {
			best, least = k, d
		}
	}
	return best
}

// distance is Levenshtein's.
func distance(a, b string) int {
	ra, rb := []rune(a), []rune(b)
	line := make([]int, len(rb)+1)
	for k := range line {
		line[k] = k
	}
	for i, x := range ra {
		diagonal := line[0]
		line[0] = i + 1
		for k, y := range rb {
			cost := diagonal
			if x != y {
				cost++
			}
			diagonal = line[k+1]
			line[k+1] = min(cost, line[k]+1, line[k+1]+1)
		}
	}
	return line[len(rb)]
}

// Bounds of exits: more or wider ones are a slip of the pen.
const (
	mostExits = 100
	widest    = 20 * seating.Metre
)

func checkExits(exits []Exit) error {
	if len(exits) > mostExits {
		return &seating.Fault{Key: fmt.Sprintf("room.exit[%d]", mostExits), What: fmt.Sprintf("there are more than %d exits", mostExits)}
	}
	for i, e := range exits {
		if e.Width < 0 || e.Width > widest {
			return &seating.Fault{Key: fmt.Sprintf("room.exit[%d].width", i), What: fmt.Sprintf("an exit of %s", e.Width), Hint: `measure the opening: width = "1.8 m"`}
		}
	}
	return nil
}
