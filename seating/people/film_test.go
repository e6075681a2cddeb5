package people

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"everyseat/seating"
)

// Rosters that speak of being filmed. Who may not be stands with a ! behind their name, as lines writes it; a want that
// begins with r.csv is a fault, and of that kind every one names the two columns that are read.
func TestFilmed(t *testing.T) {
	const silent1 = "1 person's cell does not say whether they may be filmed: they are kept out of the film."
	const silent2 = "2 people's cells do not say whether they may be filmed: they are kept out of the film."
	for _, c := range []struct {
		name, text, want string
		notes            []string
	}{
		{"may not, marked", "name,class,may not be filmed\na,7a,\nb,7a,x\nc,7a,yes\n", "7a||||: a, b!, c!,\n", nil},
		{"the hint's own words", "name,class,may be filmed (yes/no)\na,7a,yes\nb,7a,no\n", "7a||||: a, b!,\n", nil},
		{"and the other's", "name,class,“may not be filmed” (yes)\na,7a,yes\nb,7a,\n", "7a||||: a!, b,\n", nil},
		{"answers in several tongues", "name,class,photos allowed\na,c,ja\nb,c,Oui\nc,c,sí\nd,c,✓\ne,c,TRUE\nf,c,granted\ng,c,nein\nh,c,0\ni,c,Declined.\n",
			"c||||: a, b, c, d, e, f, g!, h!, i!,\n", nil},
		{"no answer keeps out", "name,class,may be filmed\na,c,?\nb,c,-\nc,c,pending\nd,c,n/a\ne,c,not yet\nf,c,\ng,c,y\n", "c||||: a!, b!, c!, d!, e!, f!, g,\n",
			[]string{"6 people's cells do not say whether they may be filmed: they are kept out of the film."}},
		{"no answer to may not", "name,class,no photos\na,c,?\nb,c,\nc,c,x\n", "c||||: a!, b, c!,\n", []string{silent1}},
		{"a blank among noes is no answer", "name,class,no photos\na,c,no\nb,c,\nc,c,yes\n", "c||||: a, b!, c!,\n", []string{silent1}},
		{"a blank column", "name,class,no photos\na,c,\nb,c,\n", "c||||: a, b,\n", []string{`Column C1 "no photos" is blank: it keeps nobody out of the film.`}},
		{"two columns, one silent", "name,class,may be filmed,may not be filmed\na,c,yes,\nb,c,,x\nc,c,,\nd,c,?,\n", "c||||: a, b!, c!, d!,\n", []string{silent2}},
		{"German", "Name,Klasse,darf gefilmt werden\na,7a,ja\nb,7a,nein\n", "7a||||: a, b!,\n", nil},
		{"French", "name,classe,Ne pas filmer\na,5e,oui\nb,5e,\n", "5e||||: a!, b,\n", nil},
		{"Italian", "name,gruppo,Può essere filmata\na,5e,sì\nb,5e,no\n", "5e||||: a, b!,\n", nil},
		{"counted", "class,count,not filmed\n7a,5,2\n7b,3,\n", "7a||||: , , , !, !,\n7b||||: , , ,\n", nil},
		{"counted, some not known", "class,count,not filmed\n7a,3,1\n7b,2,?\n", "7a||||: , , !,\n7b||||: !, !,\n", []string{silent2}},
		{"a blank count among noughts", "class,count,not filmed\n7a,3,0\n7b,2,\n", "7a||||: , , ,\n7b||||: !, !,\n", []string{silent2}},
		{"a blank count of leave", "class,count,may be filmed\n7a,3,3\n7b,2,\n", "7a||||: , , ,\n7b||||: !, !,\n", []string{silent2}},
		{"counted twice alike", "class,count,may be filmed,not filmed\n7a,3,2,1\n", "7a||||: , , !,\n", nil},
		{"a title speaks of the film", "Film day of Gullhaven\n\nname,class\na,7a\n", "7a||||: a,\n", nil},
		{"a film club", "name,club\na,film club\n", "film club||||: a,\n", nil},
		{"an address is no remark", "name,class,e-mail\na,7a,filmfan@gullhaven.example\n", "7a||||: a,\n", []string{`Columns that are not used: C1 "e-mail".`}},
		{"who signed up", "name,class,signed up\na,7a,3 May\n", "7a||||: a,\n", []string{`Columns that are not used: C1 "signed up".`}},

		{"a bare photo", "name,class,photo\na,7a,x\n", `r.csv:1:3: column "photo" speaks of being filmed`, nil},
		{"a bare filming", "name,class,filming\na,7a,refused\n", `r.csv:1:3: column "filming" speaks`, nil},
		{"opt-out", "name,class,photo opt-out\na,7a,x\n", `r.csv:1:3: column "photo opt-out" speaks`, nil},
		{"a form", "name,class,consent form returned\na,7a,yes\n", `r.csv:1:3: column "consent form returned" speaks`, nil},
		{"signed", "name,class,signed\na,7a,3/5/2027\n", `r.csv:1:3: column "signed" speaks`, nil},
		{"turned round", "name,class,no objection to photos\na,7a,yes\n", `r.csv:1:3: column "no objection to photos" speaks`, nil},
		{"a negation of a known name", "name,class,film consent refused\na,7a,yes\n", `r.csv:1:3: column "film consent refused" speaks`, nil},
		{"a slip of the pen", "name,class,may not be filmd\na,7a,yes\n", `r.csv:1:3: column "may not be filmd" speaks`, nil},
		{"a blank column of that name", "name,class,GDPR\na,7a,\n", `r.csv:1:3: column "GDPR" speaks`, nil},
		{"a count of unknown meaning", "class,count,photos\n7a,20,3\n", `r.csv:1:3: column "photos" speaks`, nil},
		{"a remark", "name,class,remarks\na,7a,\nb,7a,do not film\n", `r.csv:3:3: "do not film" speaks of being filmed, and its column is not read`, nil},
		{"a German remark", "name,class,Bemerkung\na,7a,keine Fotos\n", `r.csv:2:3: "keine Fotos" speaks`, nil},
		{"a remark without a column", "name,class\na,7a,no photos please\n", `r.csv:2:3: "no photos please" speaks`, nil},
		{"a remark behind the name", "name,class\na (no photos),7a\n", `r.csv:2:1: "a (no photos)" speaks of being filmed, and its column is read for something else`, nil},
		{"a need that is none", "name,class,needs\na,7a,not on film\n", `r.csv:2:3: "not on film" speaks`, nil},
		{"a group of them", "name,class\na,not to be filmed\n", `r.csv:2:2: "not to be filmed" speaks`, nil},
		{"a note at the end", "name,class\na,7a\n\nred: no photos\n", `r.csv:4:1: "red: no photos" speaks`, nil},
		{"the names of columns in two lines", "pupil's,,photo\nname,class,\na,7a,x\n", `r.csv:1:3: "photo" speaks of being filmed and stands above the line that names the columns, which is line 2`, nil},
		{"a title that keeps out", "Class 7a: nobody may be filmed, no photos\nname,class\na,7a\n", "r.csv:1:1: ", nil},
		{"a joined name", "name,class,may not be filmed,\na,7a,,x\n", `r.csv:2:4: "x" stands in a column without a name, beside one that says who may be filmed`, nil},
		{"columns that disagree", "name,class,may be filmed,no photos\na,7a,yes,x\n", `r.csv:2:4: the person may not be filmed by column "no photos", and may by column "may be filmed"`, nil},
		{"counts that disagree", "class,count,may be filmed,not filmed\n7a,3,2,2\n", "r.csv:2:4: by this column 2 of the group may not be filmed, by another one 1", nil},
		{"initials", "name,class,film consent\na,7a,MG\n", `r.csv:2:3: "MG" is no answer to "film consent"`, nil},
		{"a date", "name,class,film consent\na,7a,3/5/2027\n", `r.csv:2:3: "3/5/2027" is no answer`, nil},
		{"signed is not leave", "name,class,film consent\na,7a,signed\n", `r.csv:2:3: "signed" is no answer`, nil},
		{"a yes with a but", "name,class,may be filmed\na,7a,\"yes, no close-ups\"\n", `r.csv:2:3: "yes, no close-ups" is no answer`, nil},
		{"a yes in doubt", "name,class,may be filmed\na,7a,yes?\n", `r.csv:2:3: "yes?" is no answer`, nil},
		{"listed twice", "name,class,may be filmed\na,7a,yes\nb,7a,yes\nA ,7a,no\n", `r.csv:4: "A" of group "7a" is listed twice`, nil},
		{"shifted by a comma in a name", "name,class,may not be filmed\nGull, Maren,7a,\n", `r.csv:2:3: "7a" is no answer`, nil},
		{"a count that is a word", "class,count,not filmed\n7a,5,some\n", `r.csv:2:3: "some" is no number of people of 5`, nil},
		{"named anew in another way", "name,class,may be filmed\na,7a,yes\nname,class,may not be filmed\nb,7b,\n", "r.csv:3: the line names columns in another way than line 1", nil},
	} {
		r, err := Read("r.csv", []byte(c.text))
		if fault, is := strings.CutPrefix(c.want, "r.csv:"); is {
			f, ok := err.(*seating.Fault)
			if !ok || !strings.HasPrefix(f.Error(), "r.csv:"+fault) || f.Hint == "" {
				t.Errorf("%s: %v, want %s", c.name, err, c.want)
			} else if strings.Contains(f.What, "column") && f.Line == 1 && !strings.Contains(f.Hint, `"may be filmed" (yes or no) or "may not be filmed" (yes)`) {
				t.Errorf("%s: hint %s", c.name, f.Hint)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := lines(r); got != c.want {
			t.Errorf("%s:\n%swant\n%s", c.name, got, c.want)
		}
		if strings.Join(r.Notes, "\n") != strings.Join(c.notes, "\n") {
			t.Errorf("%s: notes %q", c.name, r.Notes)
		}
	}
}

// Names of columns that speak of being filmed in the words of those who keep rosters: each is read one way, or refused.
func TestFilmNames(t *testing.T) {
	for names, want := range map[string]string{
		"May be filmed|Film consent?|Media OK?|Photo-consent|Photos allowed (Y/N)|OK to film|Filmen erlaubt|peut être filmé": "may",
		"May NOT be filmed|No photos!|Do not film|Not filmed|Keine Fotos|Geen foto's|Pas de photos|Sin fotos|Niente foto":    "not",
		"Photo|Film|Video|Camera|Picture|Media|Consent|Release form|Image rights|GDPR|Privacy|Photos (tick if not allowed)|" +
			"Opt out|Foto|Bildrechte|Einwilligung|Einverständniserklärung|Datenschutz|DSGVO|Fotografiert werden|Droit à l'image|Autorisation parentale|Vidéo|" +
			"Derechos de imagen|Autorización|Fotografía|Consenso|Liberatoria|Immagini|Privacyverklaring|Toestemming|Beeldmateriaal|AVG|Permission slip|" +
			"No consent|Photo consent withdrawn|Not yet consented|Does not mind photos|May be filmed by nobody": "refused",
		"E-mail|Birthday|Building|Ausbildung|Mediation|Intermediate exam|Shirt|Late|Philosophy": "unused",
	} {
		for name := range strings.SplitSeq(names, "|") {
			got := "refused"
			cell := "yes"
			if want == "unused" { // whatever stands in a column that is not read may be refused
				cell = ""
			}
			r, err := Read("r.csv", fmt.Appendf(nil, "person;class;%s\na;7a;%s\n", name, cell))
			switch {
			case err != nil:
			case len(r.Understood) == 0:
				got = "unused"
			case r.People[0].Unfilmed:
				got = "not"
			default:
				got = "may"
			}
			if got != want {
				t.Errorf("%q is %s, want %s: %v", name, got, want, err)
			}
		}
	}
}

// In a workbook a sheet's name may speak of being filmed, and so may a sheet that is left out.
func TestFilmInWorkbooks(t *testing.T) {
	for name, c := range map[string]struct {
		sheets map[string][][]any
		want   string
	}{
		"a sheet of those who may not be": {map[string][][]any{"7a": {{"Name"}, {"a"}}, "no photos": {{"Name"}, {"b"}}}, `the name of sheet "no photos" speaks of being filmed`},
		"a sheet left out":                {map[string][][]any{"7a": {{"Name"}, {"a"}}, "remarks": {{"not to be photographed:", "b"}}}, `"not to be photographed:" speaks of being filmed`},
		"a sheet that is silent":          {map[string][][]any{"7a": {{"Name", "no photos"}, {"a", "x"}}, "7b": {{"Name"}, {"b"}}}, `sheet "7b" has no column that says who may be filmed, and another sheet has`},
		"one sheet alone":                 {map[string][][]any{"film roster": {{"Name"}, {"a"}}}, ""},
	} {
		f := excelize.NewFile()
		for sheet, rows := range c.sheets {
			f.NewSheet(sheet)
			for i, row := range rows {
				at, _ := excelize.CoordinatesToCellName(1, i+1)
				if err := f.SetSheetRow(sheet, at, &row); err != nil {
					t.Fatal(err)
				}
			}
		}
		f.DeleteSheet("Sheet1")
		var b bytes.Buffer
		if err := f.Write(&b); err != nil {
			t.Fatal(err)
		}
		_, err := Read("r.xlsx", b.Bytes())
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}
