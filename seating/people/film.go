package people

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"everyseat/seating"
	"everyseat/seating/cells"
)

// The names of columns that say who may be filmed and who may not. They are taken as they stand and no other is
// guessed: one word more may turn the meaning round.
var (
	mayBeFilmed = []string{"may be filmed", "can be filmed", "may be photographed", "can be photographed",
		"ok to film", "okay to film", "ok to photograph", "filming ok", "filming allowed", "filming permitted",
		"film consent", "filming consent", "film permission", "filming permission", "consent to film",
		"consent to be filmed", "consents to being filmed", "agrees to be filmed", "allowed to be filmed",
		"photo consent", "photo ok", "photos ok", "photo permission", "photos allowed", "photo allowed",
		"photos permitted", "photography consent", "media consent", "media ok", "film ok", "permission to film",
		"gdpr film consent", "video consent", "video ok",
		"darf gefilmt werden", "filmen erlaubt", "foto erlaubt", "fotos erlaubt", "fotoerlaubnis", "filmerlaubnis",
		"peut être filmé", "peut être filmée", "autorisé à être filmé", "puede ser filmado", "puede ser filmada",
		"può essere filmato", "può essere filmata", "può essere ripreso", "mag gefilmd worden", "mag op de foto",
		"mag op film", "autoriza imagen", "toestemming foto film"}
	mayNotBeFilmed = []string{"may not be filmed", "must not be filmed", "cannot be filmed", "can not be filmed",
		"not to be filmed", "not filmed", "do not film", "don t film", "no film", "no filming", "no photo",
		"no photos", "no photographs", "no pictures", "do not photograph", "may not be photographed",
		"must not be photographed", "not to be photographed", "no camera", "no media", "no video", "no videos",
		"not on camera", "camera shy", "darf nicht gefilmt werden", "nicht filmen", "nicht fotografieren",
		"keine fotos", "kein foto", "kein film", "ne pas filmer", "ne pas photographier", "pas de photo",
		"pas de photos", "no filmar", "sin fotos", "non filmare", "niente foto", "niet filmen", "geen foto",
		"geen foto s", "mag niet gefilmd worden", "opted out of filming", "ohne fotoerlaubnis", "får ej filmas"}
)

// Words that speak of being filmed, and others that speak of leave, which over a column of a roster is mostly that.
// They are in small letters without accents; a blank is the edge of a word.
var (
	ofFilm = []string{"film", "foto", "photo", "video", "camera", "kamera", " pic ", " pics ", " pictur", " image",
		" imagen", " imagem", " immagin", "bild ", " bilder", " bilda", " bildf", " bildm", " bildn", " bildr",
		" bildv", " aufnahmen ", " media ", " medien", " medios ", " mediat ", " multimedia", " tv ", "televis",
		"livestream", "broadcast", " recorded ", " recording", " footage ", " publish", " publication",
		" publicity", "veroffentlich", "consens", "consent", "einwillig", "einverst", "toestemm", "liberatoria",
		"gdpr", "dsgvo", "rgpd", "privac", "datenschutz", "portretrecht", " beeld", " opname", " ripres", " tournage ",
		" grabar", " grabaci", " gravac", " opt out", " opted out", " optout"}
	ofLeave = []string{" release", " opt in", " optin", " signed ", " signature", "unterschr", "handtekening",
		" firmado ", " firmato ", " signe ", "permission", "permitted", " permiso", "authori", "autori",
		"erlaubnis", "erlaubt", "genehmig", "freigabe", "zustimm", "waiver", " form returned", " avg "}
	ofNo = []string{" no ", " not ", "n t ", " never ", " without ", " nicht ", " kein", " nie ", " ohne ", " pas ",
		" sans ", " non ", " sin ", " senza ", " niente ", " niet ", " geen ", " zonder ", " refus", " declin",
		" denied ", " verbot", " forbid", " avoid", " shy ", " opt out", " opted out", " optout", " cannot ",
		" except", " exclud", " withdr", " withh", " object", " only ", " interdit", " prohib", " vietat", " divieto ",
		" verbod", " bezwaar "}
)

// speaks says whether a text, as folded gives it, holds any of some words.
func speaks(folded string, words ...[]string) bool {
	return slices.ContainsFunc(words, func(list []string) bool {
		return slices.ContainsFunc(list, func(word string) bool { return strings.Contains(folded, word) })
	})
}

// folded is a text in small letters without accents, a blank for everything else and at both ends.
func folded(text string) string {
	if strings.ContainsFunc(text, func(r rune) bool { return r > unicode.MaxASCII }) {
		text = strings.Map(func(r rune) rune {
			if unicode.Is(unicode.Mn, r) {
				return -1
			}
			return r
		}, norm.NFD.String(text))
	}
	return " " + cells.Plain(text) + " "
}

// filmColumn is a column that says who may be filmed.
type filmColumn struct {
	col     int
	may     bool // yes there means that they may; else that they may not
	answers bool // no is written there too, so that a blank is no answer
}

// isFilm says whether a name of a column is one of those that are taken for who may be filmed, and which way. What the
// name may say of its cells, (yes/no), is left out.
func isFilm(name string) (may, is bool) {
	words := cells.Plain(name)
	for _, answers := range []string{" yes no", " y n", " ja nein", " oui non", " yes"} {
		words = strings.TrimSuffix(words, answers)
	}
	words = norm.NFC.String(words)
	may = slices.Contains(mayBeFilmed, words)
	return may, may || slices.Contains(mayNotBeFilmed, words)
}

const (
	nameColumn = `name the column "may be filmed" (yes or no) or "may not be filmed" (yes), or take it away`
	nameInCell = `write yes into a column "may not be filmed", and take the words away here`
)

// checkSheetName refuses a name of a sheet that may say who is filmed; of one alone it may say what the roster is for.
func (r *reader) checkSheetName() {
	if name := folded(r.sheet.Name); speaks(name, ofFilm) && (r.several || speaks(name, ofNo)) {
		r.fault = &seating.Fault{File: r.file, What: fmt.Sprintf("the name of sheet %q speaks of being filmed, and "+
			"nothing says what that means for its people", r.sheet.Name),
			Hint: "say it in a column, and give the sheet the name of a group"}
	}
}

// checkFilm refuses what speaks of being filmed where nobody would read it: taken for nothing, it would put people
// into the picture who may not be there.
func (r *reader) checkFilm() {
	for col := range r.cols {
		switch name := r.sheet.At(r.head, col).Text; {
		case r.used(col):
		case speaks(header(name), ofFilm, ofLeave):
			r.wrong(r.head, col, nameColumn,
				"column %q speaks of being filmed or of leave, and nothing says what its cells mean", name)
		case name == "" && (r.isFilmed(col-1) || r.isFilmed(col+1)) && r.below(col) >= 0:
			r.wrong(r.below(col), col, nameColumn,
				"%q stands in a column without a name, beside one that says who may be filmed",
				shown(r.sheet.At(r.below(col), col).Text))
		}
	}
	for row := range r.sheet.Rows() {
		if row != r.head {
			r.checkFilmIn(row)
		}
	}
}

// checkFilmIn looks at the cells of one line. Over the names of the columns a title may speak of a film.
func (r *reader) checkFilmIn(row int) {
	filled := 0
	for col := range r.sheet.Cols(row) {
		if r.sheet.At(row, col).Text != "" {
			filled++
		}
	}
	for col := range r.sheet.Cols(row) {
		text := r.sheet.At(row, col).Text
		if text == "" || r.isFilmed(col) && row > r.head || strings.Contains(text, "@") {
			continue
		}
		words := folded(text)
		used := row > r.head && r.used(col)
		title := row < r.head && filled == 1 && (r.used(col) || r.below(col) < 0)
		switch {
		case (used || title) && !speaks(words, ofNo), !speaks(words, ofFilm):
		case row < r.head:
			r.wrong(row, col, nameColumn+", in the line that names the columns",
				"%q speaks of being filmed and stands above the line that names the columns, which is line %d",
				shown(text), r.head+1)
		case used:
			r.wrong(row, col, nameInCell, "%q speaks of being filmed, and its column is read for something else",
				shown(text))
		default:
			r.wrong(row, col, nameInCell, "%q speaks of being filmed, and its column is not read", shown(text))
		}
	}
}

// header is the name of a column as speaks takes it; whoever signs up gives no leave by it.
func header(name string) string {
	words := folded(name)
	for _, up := range []string{" signed up ", " signed in ", " signed on "} {
		words = strings.ReplaceAll(words, up, " ")
	}
	return words
}

func (r *reader) isFilmed(col int) bool {
	return slices.ContainsFunc(r.film, func(c filmColumn) bool { return c.col == col })
}

// findAnswers looks which of the columns that say who may not be filmed say so of those who may as well; one that
// names nobody is worth a word.
func (r *reader) findAnswers() {
	for i := range r.film {
		c := &r.film[i]
		marked := c.may
		for row := r.head + 1; row < r.sheet.Rows(); row++ {
			text := r.sheet.At(row, c.col).Text
			c.answers = c.answers || answerOf(text) == no
			marked = marked || text != ""
		}
		if !marked {
			r.note("Column %s %q is blank: it keeps nobody out of the film.", r.sheet.Address(r.head, c.col),
				r.sheet.At(r.head, c.col).Text)
		}
	}
}

// silent says whether an answer in a column leaves open whether somebody may be filmed.
func (c *filmColumn) silent(a answer) bool { return a == unknown || a == blank && (c.may || c.answers) }

// unfilmed says whether the person of a line may not be filmed; whoever has no clear leave may not.
func (r *reader) unfilmed(row int) bool {
	may, mayNot, silent := -1, -1, false
	for i := range r.film {
		c := &r.film[i]
		text := r.sheet.At(row, c.col).Text
		switch a := answerOf(text); {
		case a == other:
			r.wrong(row, c.col, "write yes or no; ? where it is not known, which keeps the person out of the film",
				"%q is no answer to %q", shown(text), r.sheet.At(r.head, c.col).Text)
		case c.silent(a):
			silent = true
		case a == blank:
		case (a == yes) == c.may:
			may = c.col
		default:
			mayNot = c.col
		}
	}
	if may >= 0 && mayNot >= 0 {
		r.wrong(row, mayNot, "make the two agree, or keep the column that is right",
			"the person may not be filmed by column %q, and may by column %q",
			r.sheet.At(r.head, mayNot).Text, r.sheet.At(r.head, may).Text)
	}
	if silent && mayNot < 0 {
		r.unsaid++
	}
	return silent || mayNot >= 0
}

// unfilmedOf is how many of a counted group may not be filmed: a number, or yes and no for all and none where that is
// clear.
func (r *reader) unfilmedOf(row, of int) int {
	most, said := 0, -1
	for i := range r.film {
		c := &r.film[i]
		text := r.sheet.At(row, c.col).Text
		n, whole := cells.Number(text)
		a := answerOf(text)
		switch {
		case whole && n <= of && c.may:
			n = of - n
		case whole && n <= of:
		case c.silent(a):
			r.unsaid += of
			return of
		case a == blank:
			continue
		case (a == no || cells.Plain(text) == "none") && c.may:
			n = of
		case a == no, cells.Plain(text) == "none", a == yes && c.may:
			n = 0
		default:
			r.wrong(row, c.col, "write how many of the group, such as 2; ? where it is not known",
				"%q is no number of people of %d", shown(text), of)
		}
		if said >= 0 && said != n {
			r.wrong(row, c.col, "make the two agree, or keep the column that is right",
				"by this column %d of the group may not be filmed, by another one %d", n, said)
		}
		most, said = max(most, n), n
	}
	return most
}

// saySilent counts those who are kept out since nobody says whether they may be filmed.
func (r *reader) saySilent() {
	switch {
	case r.unsaid == 1:
		r.note("1 person's cell does not say whether they may be filmed: they are kept out of the film.")
	case r.unsaid > 1:
		r.note("%d people's cells do not say whether they may be filmed: they are kept out of the film.", r.unsaid)
	}
}

// checkSheets refuses a roster of which one sheet says who may be filmed and another is silent.
func (r *reader) checkSheets(silent string, says bool) {
	if says && silent != "" && r.fault == nil {
		r.fault = &seating.Fault{File: r.file, What: fmt.Sprintf("sheet %q has no column that says who may be "+
			"filmed, and another sheet has", silent),
			Hint: `give it a column "may not be filmed", with yes for whom that is so`}
	}
}

// howFilmed says how the columns of one sheet are read.
func (r *reader) howFilmed() {
	for _, c := range r.film {
		who, means := "whoever has yes there", "may not be filmed"
		if r.has(fCount) {
			who = "so many of a group"
		}
		if c.may {
			means = "may be filmed, and nobody else"
		}
		r.out.Understood = append(r.out.Understood, fmt.Sprintf("column %s, %q: %s %s",
			r.sheet.Address(r.head, c.col), r.sheet.At(r.head, c.col).Text, who, means))
	}
}
