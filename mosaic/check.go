package mosaic

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"everyseat/mosaic/stock"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// What the crew need not say. Common practice, no source, unless another is named.
const (
	defaultMarkHeight   = 160 * seating.Centimetre
	defaultPictureWide  = 3840 // UHD-1, SMPTE ST 2036-1
	defaultPictureHigh  = 2160
	defaultHandHeight   = 4 * seating.Centimetre
	defaultHandSideways = 2 * seating.Centimetre
	defaultHandTilt     = 8 // degrees
	defaultHelpers      = 6
	defaultPerCard      = 6 * time.Second
	defaultPerRow       = 20 * time.Second
	defaultUp           = 2 * time.Second
	defaultHold         = 15 * time.Second
	defaultWave         = 4 * time.Second
	defaultReady        = 4 * time.Second // from READY to UP

	// ExpectedEmpty and ExpectedWrong are the shares of empty seats and of wrong cards under
	// which every verdict is given: nobody films the perfect picture.
	ExpectedEmpty = 0.08
	ExpectedWrong = 0.01
)

// Filled is a copy of s with everything that was left open decided.
func Filled(s *Stunt) *Stunt {
	f := *s
	f.Cues = slices.Clone(s.Cues)
	f.Marks = slices.Clone(s.Marks)

	f.Stands.Expected = cmp.Or(f.Stands.Expected, seating.DefaultExpected)
	fillCard(&f.Card, f.Print.Paper, len(f.Cues))
	fillMark(&f.Camera, "camera", "camera")
	for i := range f.Marks {
		fillMark(&f.Marks[i], fmt.Sprintf("mark %d", i+1), fmt.Sprintf("mark[%d]", i))
		if s.Marks[i].Picture == [2]int{} {
			f.Marks[i].Picture = f.Camera.Picture
		}
	}
	for i := range f.Cues {
		fillCue(&f.Cues[i], f.Colours, i)
	}
	f.Laying.Helpers = cmp.Or(f.Laying.Helpers, defaultHelpers)
	f.Laying.PerCard = cmp.Or(f.Laying.PerCard, defaultPerCard)
	f.Laying.PerRow = cmp.Or(f.Laying.PerRow, defaultPerRow)
	f.Print.Paper = cmp.Or(f.Print.Paper, "Letter")
	f.Print.Placards = cmp.Or(f.Print.Placards, Labels)
	f.Print.PerSheet = cmp.Or(f.Print.PerSheet, 4) // labels, cut once across
	return &f
}

func fillCard(c *CardSpec, paper string, cues int) {
	if c.Width == 0 && c.Height == 0 {
		c.Width, c.Height = 11*seating.Inch, 17*seating.Inch/2 // ANSI Letter
		if strings.HasPrefix(paper, "A") {
			c.Width, c.Height = 297*seating.Millimetre, 210*seating.Millimetre // ISO 216 A4
		}
	}
	c.Orientation = cmp.Or(c.Orientation, "auto")
	if c.Held == camera.Lap { // nobody shows a message on the laps
		c.Held = camera.Eyes
	}
	if c.Kind == "" { // with two cues the front sheet is dropped to the lap
		c.Kind = Sheet
		if cues > 2 {
			c.Kind = Bonded
		}
	}
	c.HandHeight = cmp.Or(c.HandHeight, defaultHandHeight)
	c.HandSideways = cmp.Or(c.HandSideways, defaultHandSideways)
	c.HandTilt = cmp.Or(c.HandTilt, defaultHandTilt)
}

func fillMark(m *camera.Mark, name, key string) {
	m.Key = key
	m.Name = cmp.Or(m.Name, name)
	m.Height = cmp.Or(m.Height, defaultMarkHeight)
	m.Picture = cmp.Or(m.Picture, [2]int{defaultPictureWide, defaultPictureHigh})
}

// fillCue names the cue, and takes the first colour as ground and the second as
// ink where the cue does not say.
func fillCue(c *Cue, colours []Colour, i int) {
	c.Name = cmp.Or(c.Name, strings.Join(strings.Fields(c.Text), " "), fmt.Sprintf("cue %d", i+1))
	for _, k := range colours {
		c.Ground = cmp.Or(c.Ground, k.Name)
		if c.Ink == "" && c.Text != "" && k.Name != c.Ground {
			c.Ink = k.Name
		}
	}
	c.UpWithin = cmp.Or(c.UpWithin, defaultUp)
	c.Transition = cmp.Or(c.Transition, AtOnce)
	if c.Takes == 0 && c.Transition != AtOnce {
		c.Takes = defaultWave
	}
}

// taken says what was taken for granted and matters to what the camera sees.
func taken(s *Stunt) []string {
	var out []string
	marks := append([]camera.Mark{s.Camera}, s.Marks...)
	for i := range marks {
		if marks[i].Height != 0 {
			continue
		}
		of, table := "the camera", "[camera]"
		if i > 0 {
			table = "[[mark]]"
			if of = fmt.Sprintf("mark %d", i); marks[i].Name != "" {
				of = fmt.Sprintf("mark %q", marks[i].Name)
			}
		}
		out = append(out,
			fmt.Sprintf("The height of %s is not given: %s above the floor is taken, in somebody's hands. "+
				"Write height = … under %s.", of, defaultMarkHeight.Spoken(), table))
	}
	return out
}

// Limits of one stunt.
const (
	MaxColours = stock.MaxColours - 1 // one more stands for a card that is in the hand anyway
	MaxCues    = 500
	MaxMarks   = 50
	MaxText    = 200 // runes in one cue
	MaxTitle   = 120 // runes of what stands on every sheet: title, date, contact
)

// refuse is the fault of what is wrong, and nil where it is not. Of several cmp.Or gives the first.
func refuse(wrong bool, key, what, hint string) error {
	if !wrong {
		return nil
	}
	return &seating.Fault{Key: key, What: what, Hint: hint}
}

// oneOf refuses a name that is not known, and says which one was probably meant.
func oneOf[S ~string](key, what string, name S, known ...S) error {
	if slices.Contains(known, name) {
		return nil
	}
	lead := "there are "
	if len(known) == 0 || len(known) > 12 {
		lead = ""
	}
	names := mapped(known, func(k S) string { return string(k) })
	return &seating.Fault{Key: key, What: fmt.Sprintf("there is no %s %q", what, name),
		Hint: seating.DidYouMean(string(name), names, lead)}
}

// widestMargin is more than printers leave white; largestCard is more than arms can hold between neighbours;
// longestWave is when a crowd has stopped to follow (ours, no source). More or wider exits are a slip of the pen.
const (
	widestMargin = 30 * seating.Millimetre
	largestCard  = 150 * seating.Centimetre
	longestWave  = time.Minute
	mostExits    = 100
	widestExit   = 20 * seating.Metre
)

// check refuses what cannot be planned before anything is built.
func check(s *Stunt) error {
	if len(s.Colours) == 0 {
		return noColours(s.Cues)
	}
	title := func(key, text string) error { // it stands on every sheet of paper
		n := utf8.RuneCountInString(text)
		return refuse(n > MaxTitle, key, fmt.Sprintf("the %s has %d characters, more than the %d that fit on a sheet",
			key, n, MaxTitle), "write a shorter one")
	}
	return cmp.Or(
		CheckColours(s.Colours), title("title", s.Title), title("date", s.Date), title("contact", s.Contact),
		checkCard(s.Card), checkRisk(s.FlashingRisk),
		refuse(s.Print.Margin > widestMargin, "print.margin",
			fmt.Sprintf("no printer leaves %s white at every edge", s.Print.Margin),
			"print sheets/test.pdf and measure; 3 to 13 mm are usual"),
		checkWork(&s.Work), checkLaying(s), checkDay(s),
		refuse(s.Tempo != 0 && !(s.Tempo >= slowestTempo && s.Tempo <= fastestTempo), "tempo",
			fmt.Sprintf("a tempo of %g counts a minute is no music's", s.Tempo), "write tempo = 120"),
		refuse(s.Walks && len(s.Marks) == 0, "camera.walks", "the camera walks, and there is one mark alone",
			"add the places it passes in order, each as [[mark]] with back, across and height"),
		checkExits(s.Room.Exits), checkSpots(s.Room.Spots),
		tooMany(len(s.Marks), MaxMarks, "mark", "marks"), checkMarks(s),
		refuse(len(s.Cues) == 0, "cue", "there is no message", `add a [[cue]] with text = "…" or image = "…"`),
		tooMany(len(s.Cues), MaxCues, "cue", "cues"), checkCues(s),
	)
}

// checkWork refuses half of what white card costs: the other half would be taken for granted.
func checkWork(w *Work) error {
	const hint = "write both beside each other, such as white_pack = 250 and white_price = 15.00, or leave both out"
	return cmp.Or(
		refuse(w.PaperPack > 0 && w.PaperCents == 0, "print.white_pack",
			"there is a white_pack and no white_price", hint),
		refuse(w.PaperCents > 0 && w.PaperPack == 0, "print.white_price",
			"there is a white_price and no white_pack", hint),
	)
}

func tooMany(n, most int, key, what string) error {
	return refuse(n > most, fmt.Sprintf("%s[%d]", key, most), fmt.Sprintf("there are more than %d %s", most, what),
		"make two stunts of it, or leave some out")
}

// checkMarks refuses two marks of one name; the first mark is called camera.
func checkMarks(s *Stunt) (err error) {
	taken := []string{s.Camera.Name}
	for i, mark := range s.Marks {
		err = cmp.Or(err, refuse(slices.Contains(taken, mark.Name), fmt.Sprintf("mark[%d].name", i),
			fmt.Sprintf("there are two marks called %q", mark.Name), "give each mark its own name"))
		taken = append(taken, mark.Name)
	}
	return err
}

func checkExits(exits []Exit) error {
	err := tooMany(len(exits), mostExits, "room.exit", "exits")
	for i, e := range exits {
		err = cmp.Or(err, refuse(e.Width < 0 || e.Width > widestExit, fmt.Sprintf("room.exit[%d].width", i),
			fmt.Sprintf("an exit of %s", e.Width), `measure the opening: width = "1.8 m"`))
	}
	return err
}

func checkSpots(spots []Spot) (err error) {
	for i, s := range spots {
		err = cmp.Or(err, refuse(s.Left >= s.Right || s.Near >= s.Far, fmt.Sprintf("room.camera[%d]", i),
			"this place for a camera has no area",
			"write left smaller than right, and near (the camera's side) smaller than far"))
	}
	return err
}

func checkCard(c CardSpec) error {
	return cmp.Or(
		refuse(c.Width <= 0 || c.Height <= 0, "card.size", "the card has no size", `write size = "11in x 8.5in"`),
		refuse(max(c.Width, c.Height) > largestCard, "card.size",
			fmt.Sprintf("a card of %s × %s is larger than anybody can hold in a row", c.Width, c.Height),
			fmt.Sprintf("write a size with no side over %s", largestCard)),
		oneOf("card.orientation", "orientation", c.Orientation, "auto", "landscape", "portrait"),
		oneOf("card.kind", "kind of card", c.Kind, Sheet, Bonded, Printed),
		refuse(c.HandHeight < 0 || c.HandHeight > largestCard, "card.hand_height",
			fmt.Sprintf("hands that are uneven by %s", c.HandHeight), `write hand_height = "4 cm"`),
		refuse(c.HandSideways < 0 || c.HandSideways > largestCard, "card.hand_sideways",
			fmt.Sprintf("hands that are uneven by %s to the side", c.HandSideways), `write hand_sideways = "2 cm"`),
		refuse(!(c.HandTilt >= 0 && c.HandTilt <= 90), "card.hand_tilt",
			fmt.Sprintf("a card that leans by %g degrees", c.HandTilt),
			"write hand_tilt = 8, at most a quarter turn, 90"),
	)
}

// CheckColours refuses card colours that cannot be told apart, by their names or by eye, and stock that cannot be. The
// error is a *seating.Fault.
func CheckColours(colours []Colour) error {
	if err := tooMany(len(colours), MaxColours, "colour", "colours"); err != nil {
		return err
	}
	seen := map[string]int{}
	for i, c := range colours {
		key, name := fmt.Sprintf("colour[%d]", i), strings.ToLower(strings.TrimSpace(c.Name))
		before, twice := seen[name]
		if err := cmp.Or(
			refuse(name == "", key+".name", "a colour has no name", `write name = "blue"`),
			refuse(name == Shirts, key+".name",
				fmt.Sprintf("a card colour cannot be called %q, which means no card", c.Name), "choose another name"),
			refuse(twice, key+".name", fmt.Sprintf("colour %q is there twice (also as colour %d)", c.Name, before+1),
				"give each colour its own name"),
			refuse(c.Sheets < -1 || c.Pack < 0 || c.PriceCents < 0, key,
				fmt.Sprintf("colour %q has a negative number of sheets, pack size or price", c.Name),
				"leave out what is not known"),
			refuse(c.PriceCents > 0 && c.Pack == 0, key+".price",
				fmt.Sprintf("colour %q has a price and no pack size", c.Name),
				"write pack = 50 beside it: how many sheets the price is for"),
			refuse(c.NoMore && c.Sheets < 0, key+".no_more",
				fmt.Sprintf("colour %q has no_more, and nothing says how many sheets there are", c.Name),
				"write sheets = 500 beside it: how many there are"),
		); err != nil {
			return err
		}
		seen[name] = i
	}
	return checkApart(colours)
}

func checkCues(s *Stunt) error {
	names := mapped(s.Colours, func(c Colour) string { return c.Name })
	for i := range s.Cues {
		c := &s.Cues[i]
		key := func(k string) string { return fmt.Sprintf("cue[%d].%s", i, k) }
		err := cmp.Or(checkContent(c, i, key), checkNamed(c, key, names), checkMoments(c, key),
			checkInk(s, c, key("ink")))
		if err != nil {
			return err
		}
	}
	return nil
}

// checkContent looks at what cue i shows; key is that of something of the cue.
func checkContent(c *Cue, i int, key func(string) string) error {
	text, image := strings.TrimSpace(c.Text) != "", c.ImageName != "" || c.Image != nil
	fits := []string{"camera", "flat"}
	if image {
		fits = []string{"fit", "fill", "flat"}
	}
	stops, reduce := 0.0, cmp.Or(c.Reduce, Flat)
	if c.Exposure != nil {
		stops = *c.Exposure
	}
	off := func(share float64) bool { return !(share >= 0 && share <= 1) }
	return cmp.Or(
		refuse(c.Text != "" && !text, key("text"), "the text is empty", "write what the cards should spell"),
		refuse(text && image, key("image"), "a cue shows a text or an image, not both", "make two cues of it"),
		refuse(!text && !image && len(c.Painted) == 0, fmt.Sprintf("cue[%d]", i),
			fmt.Sprintf("cue %q shows nothing", c.Name), "give it text, image or painted seats"),
		refuse(utf8.RuneCountInString(c.Text) > MaxText, key("text"),
			fmt.Sprintf("the text has more than %d letters", MaxText), "make several cues of it"),
		oneOf(key("fit"), "fit", cmp.Or(c.Fit, "flat"), fits...),
		oneOf(key("reduce"), "way to reduce colours", reduce, Flat, Diffuse),
		refuse(!(stops >= -8 && stops <= 8), key("exposure"),
			fmt.Sprintf("an exposure of %g stops leaves nothing of an image", stops),
			"write exposure = 1 for twice the light, -1 for half of it"),
		refuse(slices.ContainsFunc(c.Focus[:], off), key("focus"), "the focus lies outside the image",
			"write focus = [0.5, 0.3]: shares of the width from the left and of the height from the top"),
	)
}

// checkNamed looks for the colours that a cue names.
func checkNamed(c *Cue, key func(string) string, names []string) error {
	err := oneOf(key("ground"), "colour", c.Ground, append([]string{Shirts}, names...)...)
	if c.Text != "" {
		err = cmp.Or(err,
			refuse(c.Ink == "", key("ink"), "there is no second colour for the letters",
				"add another [[colour]], or set ground = \"shirts\""),
			oneOf(key("ink"), "colour", c.Ink, names...),
			refuse(c.Ink == c.Ground, key("ink"), fmt.Sprintf("letters and ground are both %s", c.Ink),
				"choose two colours that differ"))
	}
	for k, p := range c.Painted {
		if p.Colour != "" && err == nil {
			err = oneOf(key(fmt.Sprintf("painted[%d].colour", k)), "colour", p.Colour, names...)
		}
	}
	return err
}

// checkMoments looks at how a cue comes up and how long it stays.
func checkMoments(c *Cue, key func(string) string) error {
	long := func(k string, t time.Duration) error {
		return refuse(t < 0 || t > time.Hour, key(k), "the time is negative, or longer than an hour", `write "2 s"`)
	}
	return cmp.Or(
		oneOf(key("transition"), "transition", c.Transition,
			AtOnce, LeftToRight, RightToLeft, BottomToTop, FromMiddle, RowByRow),
		long("up", c.UpWithin), long("hold", c.Hold), long("takes", c.Takes),
		refuse(c.Takes > longestWave, key("takes"),
			fmt.Sprintf("a wave of %g s is longer than anybody follows one", c.Takes.Seconds()),
			fmt.Sprintf(`write takes = "4 s", at most %g s`, longestWave.Seconds())),
		refuse(c.Takes > 0 && c.Transition == AtOnce, key("takes"),
			fmt.Sprintf("cue %q comes up at once and so takes no time", c.Name),
			`write transition = "left to right", or leave takes out`),
	)
}
