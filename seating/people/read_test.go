package people

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"everyseat/seating"
)

// say writes a roster a line a group: its name, what is said of it, then its people. w, c and ! stand
// for wheelchair, companion and may not be filmed, * for who leads.
func lines(r *Roster) string {
	var b strings.Builder
	for g := range r.Groups {
		group := &r.Groups[g]
		fmt.Fprintf(&b, "%s|%s|%s|%s|%s:", group.Name, group.Room, group.Door, group.Time, group.Leader)
		for i := group.First; i < group.Last; i++ {
			p := &r.People[i]
			marks := ""
			for _, m := range []struct {
				is   bool
				sign string
			}{{p.Leads, "*"}, {p.Need == Wheelchair, "w"}, {p.Need == Companion, "c"}, {p.Unfilmed, "!"}} {
				if m.is {
					marks += m.sign
				}
			}
			b.WriteString(" " + p.Name + marks + ",")
		}
		b.WriteString("\n")
	}
	return b.String()
}

var rosters = []struct {
	name, text, want string
	notes            []string
	unread           []string // address and a part of the reason
}{
	{"people and groups", "person,group\nP-01,harbour choir\nP-02,net-menders' guild\nP-03,Harbour  Choir\n",
		"harbour choir||||: P-01, P-03,\nnet-menders' guild||||: P-02,\n", nil, nil},
	{"groups and counts, as a school gives first", "Class;Number of people;From room;Door\n7a;3;sail loft;north\n7b;2;;\nTotal;5\n",
		"7a|sail loft|north||: , , ,\n7b||||: , ,\n", nil, nil},
	{"titles above, columns nobody asked for, a slip of the pen", "Lantern Fair\n\nStuddent,Birthday,Claas,E-mail,May not be filmed\nA. One,1-2-2012,7a,x@y,\nB. Two,,7a,,x\n",
		"7a||||: A. One, B. Two!,\n", []string{`Columns that are not used: B3 "Birthday", D3 "E-mail".`}, nil},
	{"first and last names, the group above, a header again", "First name\tLast name\tClub\nÅsa\tÖberg\trowing\nNguyễn\tThị Ánh\t\nFirst name\tLast name\tClub\nΆννα\tΠαππά\t〃\n",
		"rowing||||: Åsa Öberg, Nguyễn Thị Ánh, Άννα Παππά,\n", []string{"1 lines name no group: the one above is taken."}, nil},
	{"needs in one column", "name,group,needs\na,g,wheelchair user\nb,g,companion of a\nc,g,none\nd,g,no nuts\ne,g,wheelchair with companion\n",
		"g||||: aw, bc, c, d, ew,\n", nil, []string{"C5 crew must see to it"}},
	{"needs in columns of their own", "name,group,wheelchair,companion\na,g,x,\nb,g,no,yes\nc,g,,\n", "g||||: aw, bc, c,\n", nil, nil},
	{"needs of counted groups", "group,people,wheelchairs,companions,not filmed\nchoir,5,1,1,2\nguild,2,0,,no\n", "choir||||: w, c, , !, !,\nguild||||: , ,\n", nil, nil},
	{"no clear leave is none", "name,group,film consent\na,g,yes\nb,g,\nc,g,no\nd,g,not yet\ne,g,given\n", "g||||: a, b!, c!, d!, e,\n",
		[]string{"2 people's cells do not say whether they may be filmed: they are kept out of the film."}, nil},
	{"leave counted", "group,people,may be filmed\nchoir,5,3\nguild,2,yes\nband,2,none\n", "choir||||: , , , !, !,\nguild||||: , ,\nband||||: !, !,\n", nil, nil},
	{"leaders", "name,class,teacher,role\na,7a,Ms Gull,\nb,7a,Ms Gull,\nc,7a,Mr Tern,\n", "7a||||Ms Gull: a, b, c,\n", []string{`Columns that are not used: D1 "role".`}, []string{"C4 one leader"}},
	{"who leads", "name,group,role\na,g,member\nb,g,leader\n", "g||||: a, b*,\n", nil, nil},
	{"a role that leads nobody", "name,group,role\na,g,tenor\nb,g,leader\n", "g||||: a, b*,\n", nil, []string{"C2 of roles only who leads is read"}},
	{"that somebody leads, and who", "class,count,teachers\n7a,3,yes\n7b,2,Ms Gull\n", "7a||||: , , ,\n7b||||Ms Gull: , ,\n", nil, []string{"C2 no leader's name"}},
	{"totals of parts and of all", "class,count\n7a,3\n7b,2\nYear 7 total,5\n8a,4\nSumme: 4,4\nGrand total,9\n", "7a||||: , , ,\n7b||||: , ,\n8a||||: , , , ,\n", nil, nil},
	{"a column without a name", "name,group,\na,g,3-Apr\n", "g||||: a,\n", []string{`Columns that are not used: C1 without a name.`}, nil},
	{"lines above the names", "day,Friday\nname,group\na,g\n", "g||||: a,\n", []string{"The columns are named in line 2, and what stands above it is not read: line 1."}, nil},
	{"needs in other tongues", "Name,Gruppe,Rollstuhl,Begleitperson,needs\na,g,ja,,\nb,g,,x,\nc,g,-,n/a,Rollstuhl\nd,g,,,Begleitung von c\n", "g||||: aw, bc, cw, dc,\n", nil, nil},
	{"a need not known yet", "name,group,wheelchair\na,g,?\n", "g||||: a,\n", nil, []string{"C2 no place is kept"}},
	{"no groups", "name\na\nb\n", "everybody||||: a, b,\n", nil, nil},
	{"names of groups and counts", "Name,People\nchoir,2\n", "choir||||: , ,\n", nil, nil},
	{"a line of its own over a group", "group,name\n7a,\n,x\n,y\n7b,\n,z\n", "7a||||: x, y,\n7b||||: z,\n", []string{"3 lines name no group: the one above is taken."}, nil},
}

func TestRead(t *testing.T) {
	for _, c := range rosters {
		r, err := Read("r.csv", []byte(c.text))
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
		if len(r.Unread) != len(c.unread) {
			t.Errorf("%s: unread %v", c.name, r.Unread)
			continue
		}
		for i, u := range r.Unread {
			cell, why, _ := strings.Cut(c.unread[i], " ")
			if u.Cell != cell || !strings.Contains(u.Why, why) {
				t.Errorf("%s: unread %v, want %s", c.name, u, c.unread[i])
			}
		}
	}
}

// A workbook: a sheet a class, a time that the spreadsheet keeps as a part of a day.
func TestReadWorkbook(t *testing.T) {
	f := excelize.NewFile()
	put := func(sheet string, rows ...[]any) {
		for i, row := range rows {
			at, _ := excelize.CoordinatesToCellName(1, i+1)
			if err := f.SetSheetRow(sheet, at, &row); err != nil {
				t.Fatal(err)
			}
		}
	}
	f.SetSheetName("Sheet1", "7a")
	f.NewSheet("7b")
	f.NewSheet("remarks")
	put("7a", []any{"Pupil", "Comes at"}, []any{"a", 0.7291666666666666}, []any{"b"})
	put("7b", []any{"Pupil"}, []any{"c"})
	put("remarks", []any{"nothing to see"})
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	r, err := Read("r.xlsx", b.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	if got, want := lines(r), "7a|||17:30|: a, b,\n7b||||: c,\n"; got != want {
		t.Errorf("%swant %s", got, want)
	}
	if len(r.Notes) != 1 || !strings.Contains(r.Notes[0], `"remarks"`) {
		t.Errorf("notes %q", r.Notes)
	}
}

func TestReadFaults(t *testing.T) {
	for _, c := range []struct{ name, file, text, want string }{
		{"empty", "r.csv", " \n", "r.csv: the roster is empty"},
		{"no header", "r.csv", "a,b\nc,d\n", "r.csv:1: no line names the columns"},
		{"nobody", "r.csv", "person,group\n", "r.csv: nobody is in the roster"},
		{"another kind of file", "r.ods", "x", "tables are read from .csv and .xlsx files"},
		{"no workbook", "r.xlsx", "x", "this is no workbook"},
		{"too large", "r.csv", strings.Repeat(" ", MaxBytes+1), "more than the"},
		{"too many lines", "r.csv", "name\n" + strings.Repeat("x\n", maxLines), "the table is larger than"},
		{"too many columns", "r.csv", strings.Repeat("name,", 3000), "the table is larger than"},
		{"no number", "r.csv", "group,count\nchoir,some\n", `r.csv:2:2: "some" is no number of people`},
		{"a date for a number", "r.csv", "group,count\nchoir,5-Mar\n", "r.csv:2:2: a spreadsheet made a date of the number"},
		{"a class that became a date", "r.csv", "class,count\n5-Mar,3\n", `r.csv:2:1: a spreadsheet made a date of the group's name, "5-Mar": it probably was "3-5" or "5-3"`},
		{"a class that became a power of ten", "r.csv", "class,count\n5.00E+01,3\n", `r.csv:2:1: a spreadsheet made a number of the group's name, "5.00E+01"`},
		{"a code that became a date", "r.csv", "person,class\n3-Apr,7a\n", "r.csv:2:1: a spreadsheet made a date of the person's name"},
		{"a room that became a date", "r.csv", "class,count,room\n7a,3,3-Apr\n", "r.csv:2:3: a spreadsheet made a date of the group's room"},
		{"no count", "r.csv", "group,count\nchoir,\n", `r.csv:2:2: how many people group "choir" has is not said`},
		{"counted twice", "r.csv", "group,count\nchoir,2\nChoir,3\n", `r.csv:3: group "choir" is counted twice, in line 2 too`},
		{"counted and listed", "r.csv", "group,count,name\nchoir,2,\nchoir,,a\n", `r.csv:3: a person of group "choir" stands here, and line 2 counts`},
		{"listed and counted", "r.csv", "group,count,name\nchoir,,a\nchoir,2,\n", "r.csv:3: group \"choir\" is counted here, and its people are listed from line 2 on"},
		{"a person of five", "r.csv", "group,count,name\nchoir,5,a\n", "r.csv:2:2: a person and a count of 5"},
		{"a need in a column that is not read", "r.csv", "name,group,remark\na,g,comes in a wheelchair\n", `r.csv:2:3: "comes in a wheelchair" speaks of a place that somebody needs`},
		{"somebody who does not come", "r.csv", "name,group,remark\na,g,has cancelled\n", `r.csv:2:3: "has cancelled" speaks of somebody who may not come`},
		{"a waiting list below", "r.csv", "name,group\na,g\nwaiting list:,\nb,g\n", `r.csv:3:1: "waiting list:" speaks of somebody`},
		{"several people in a cell", "r.csv", "name,group\n\"a, b, c\",g\n", `r.csv:2:1: "a, b, c" may be several people`},
		{"two columns of groups", "r.csv", "name,class,form\na,7a,b\n", `r.csv:1:3: columns "class" and "form" mean the same`},
		{"nobody on the line", "r.csv", "group,name,room\n,,loft\n", "r.csv:2: the line says neither"},
		{"more people than a crowd", "r.csv", fmt.Sprintf("group,count\na,%d\nb,1\n", MaxPeople), "r.csv:3: with it there are more than"},
		{"a number from elsewhere", "r.csv", "group,count\na,99999999\n", "is no number of people"},
		{"more needs than people", "r.csv", "group,count,wheelchairs,companions\na,2,2,1\n", "2 people and 3 wheelchair users and companions"},
		{"needs of nobody", "r.csv", "group,count,wheelchairs\na,2,3\n", `"3" is no number of people of 2`},
		{"a total that disagrees", "r.csv", "class,count\n7a,3\n7b,2\nTotal,6\n", `r.csv:4:1: "Total" may be a total or a group, and the lines above it add up to 5 people`},
		{"a group or a total", "r.csv", "class,count\n7a,3\nTotal Eclipse,2\n", `r.csv:3:1: "Total Eclipse" may be a total or a group, and the lines above it add up to 3 people`},
		{"how many lead, and not who", "r.csv", "class,count,helpers\n7a,3,2\n", `r.csv:2:3: "2" may be people who come too`},
		{"a group whose name counts others", "r.csv", "name,group\na,Choir (3)\nb,Choir (3)\n", `group "Choir (3)" has 2 people by its lines, and 3 by its name`},
		{"a sum in one cell", "r.csv", "name,group\na,g\nb,g\nTotal: 3,\n", `r.csv:4:1: "Total: 3" may be a total or a group`},
		{"needs of a group", "r.csv", "group,count,needs\ng,9,2 wheelchairs\n", `r.csv:2:3: "2 wheelchairs" is not read for a group`},
		{"a doubt", "r.csv", "name,group,needs\na,g,wheelchair?\n", `r.csv:2:3: what seat the person needs is not sure`},
		{"a mark behind a name", "r.csv", "name,group\nMaren (W),g\n", `r.csv:2:1: "Maren (W)" says more than a name`},
		{"maybe", "r.csv", "name,group,comes\na,g,yes\nb,g,maybe\n", `r.csv:3:3: "maybe" does not say whether the person comes`},
		{"answers to what", "r.csv", "name,group,rehearsal\na,g,yes\n", `r.csv:2:3: column "rehearsal" is not read, and "yes" may say`},
		{"one brings others", "r.csv", "name,group,brings\na,g,+2\nb,g,\n", `r.csv:2:3: column "brings" is not read, and "+2" may say`},
		{"a word about one of them", "r.csv", "name,group,said\na,g,\nb,g,\nc,g,see Ole\n", `r.csv:4:3: column "said" is not read, and "see Ole" may say`},
		{"one person twice", "r.csv", "name,group\na,g\nb,g\na,g\n", `r.csv:4: "a" of group "g" is listed twice`},
		{"a number among names", "r.csv", "no,name\n1,Maren\n2,Ole\npeople:,3\n", `r.csv:4:1: "people:" may be a total or a group, and the lines above it add up to 2 people`},
		{"a title that counts others", "r.csv", "Harbour choir: 3 singers\nname,group\na,g\nb,g\n", `r.csv:1:1: "Harbour choir: 3 singers" tells another number`},
		{"two people in a cell", "r.csv", "name,group\nMaren and Ole,g\n", `r.csv:2:1: "Maren and Ole" may be several people`},
		{"nobody in a cell", "r.csv", "name,group\nMaren,g\nN.N.,g\n", `r.csv:3:1: "N.N." names nobody`},
		{"a list of those who wait", "r.csv", "Waiting list,\nname,group\na,g\n", `r.csv:1:1: "Waiting list" speaks of somebody who may not come`},
		{"two counts", "r.csv", "number,class,count\n1,7a,20\n", `r.csv:1:3: columns "number" and "count" mean the same`},
		{"two columns of wheelchairs", "r.csv", "name,group,wheelchair,wheelchair user\na,g,,x\n", `r.csv:1:4: columns "wheelchair" and "wheelchair user" mean the same`},
		{"a companion by name", "r.csv", "name,group,companion\na,g,Ole\n", `r.csv:2:3: "Ole" is no answer to "companion"`},
		{"both needs", "r.csv", "name,group,wheelchair,companion\na,g,x,1\n", "r.csv:2:4: the person cannot need a wheelchair place and a companion's"},
		{"no wheelchair", "r.csv", "name,group,needs\na,g,no wheelchair any more\n", "r.csv:2:3: what seat the person needs is not sure"},
		{"a companion or somebody with one", "r.csv", "name,group,needs\na,g,needs a carer\n", "r.csv:2:3: what seat the person needs is not sure"},
		{"other names further down", "r.csv", "name,class\na,7a\nclass,name\n7b,b\n", "r.csv:3: the line names columns in another way than line 1"},
		{"a long name", "r.csv", "name,group\n" + strings.Repeat("é", MaxName+1) + ",g\n", "r.csv:2:1: the person's name has more than 200 signs"},
		{"a long group", "r.csv", "name,group\na," + strings.Repeat("é", MaxName+1) + "\n", "r.csv:2:2: the group's name has more than 200 signs"},
		{"a line end in a name", "r.csv", "name,group\n\"a\nb\",g\n", "holds a line end"},
		{"a group a person", "r.csv", "name,group\n" + everyOne(MaxGroups+1), "more than 5000 groups"},
	} {
		_, err := Read(c.file, []byte(c.text))
		f, ok := err.(*seating.Fault)
		if !ok || !strings.Contains(f.Error(), c.want) || f.Hint == "" || f.File != c.file || strings.ContainsAny(f.Error(), "\n") {
			t.Errorf("%s: %v, want %s", c.name, err, c.want)
		}
	}
}

func everyOne(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "p%d,g%d\n", i, i)
	}
	return b.String()
}

// A party lends a listed group what the roster does not say; the rest is counted.
func TestGather(t *testing.T) {
	file, err := Read("r.csv", []byte("name,group,room\na,choir,loft\nb,guild,\n"))
	if err != nil {
		t.Fatal(err)
	}
	r, err := Gather([]Party{{Name: "rowing", People: 2, Wheelchairs: 1, Unfilmed: 1}, {Name: "Guild", Room: "net store", Door: "north", Time: "17:35", Leader: "office"}}, file)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := lines(r), "rowing||||: w, !,\nguild|net store|north|17:35|office: b,\nchoir|loft|||: a,\n"; got != want {
		t.Errorf("%swant\n%s", got, want)
	}
	if r.Called(0) != "rowing 1" || r.Called(2) != "b" {
		t.Errorf("called %q, %q", r.Called(0), r.Called(2))
	}
	for want, parties := range map[string][]Party{
		"group[0].name: a group has no name":                                             {{People: 1}},
		`group[1].name: group "A" is there twice`:                                        {{Name: "a", People: 1}, {Name: "A", People: 1}},
		`group[0].people: how many people group "a" has is not said`:                     {{Name: "a"}},
		`group[0].people: group "choir" has 2 people here and 1 in the roster`:           {{Name: "choir", People: 2}},
		`group[0]: group "choir" is in the roster, which says who needs what`:            {{Name: "choir", Unfilmed: 1}},
		`group[0].people: group "a" has 2 people and more with needs`:                    {{Name: "a", People: 2, Wheelchairs: 2, Companions: 1}},
		`group[0].people: group "a" has a negative number of people`:                     {{Name: "a", People: -1}},
		`group[0].people: group "a" has 900000 people, and at most 250000 can be seated`: {{Name: "a", People: 900000}},
		`group[1].people: with group "b" there are more than 250000 people`:              {{Name: "a", People: 250000}, {Name: "b", People: 1}},
		"group[0].room: the group's room has more than 200 signs":                        {{Name: "a", People: 1, Room: strings.Repeat("x", 201)}},
	} {
		_, err := Gather(parties, file)
		if f, ok := err.(*seating.Fault); !ok || !strings.HasPrefix(f.Error(), want) || f.Hint == "" {
			t.Errorf("%v, want %s", err, want)
		}
	}
}

// FuzzRead: no table breaks the reader; what it takes is whole: every person is in the group that lists
// them, names fit on paper, and every fault is one line with the file's name.
func FuzzRead(f *testing.F) {
	for _, c := range rosters {
		f.Add([]byte(c.text))
	}
	for _, s := range []string{"", "name", "name,group\n\"", "sep=;\nname;group\na;b", "\xff\xfen\x00", "group,count\na,1e9\nb,-1\nc,0\n", "name,name\na,b", "\xef\xbb\xbfperson\nx"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := Read("r.csv", data)
		if err != nil {
			if fault, ok := err.(*seating.Fault); !ok || fault.File != "r.csv" || strings.ContainsAny(fault.Error(), "\n\r") {
				t.Errorf("%v", err)
			}
			return
		}
		at := 0
		for g := range r.Groups {
			group := &r.Groups[g]
			if group.First != at || group.Last <= group.First || nameFault(group.Name) != "" {
				t.Fatalf("group %d is %v", g, group)
			}
			for ; at < group.Last; at++ {
				if r.People[at].Group != int32(g) || nameFault(r.Called(at)) != "" && len(r.People[at].Name) > 0 {
					t.Fatalf("person %d is %v", at, r.People[at])
				}
			}
		}
		if at != len(r.People) || at == 0 {
			t.Fatalf("%d of %d people are in groups", at, len(r.People))
		}
		if _, err := Gather(nil, r); err != nil {
			t.Error(err)
		}
	})
}

// Numbers under a name that is not known are not passed over where they may count people.
func TestReadUncounted(t *testing.T) {
	for text, refused := range map[string]bool{
		"name,Menge\nchoir,48\nrowers,12\n":               true,
		"Name,Qty\nchoir,48\n":                            true,
		"name,Anzahl\nMaren,1\nOle,1\n":                   false, // one each, counted or not
		"name,No.\nMaren,1\nOle,2\nPer,3\n":               false, // the lines' numbers
		"name,phone\nMaren,5550142\nOle,5550143\n":        false, // more than any group has
		"name,age,group\nMaren,14,choir\nOle,15,rowers\n": false, // people, group by group
		"name,seat wish\nMaren,front\nOle,3\n":            false,
		"name,count,extra\nchoir,48,2\nrowers,12,1\n":     true,
	} {
		_, err := Read("roster.csv", []byte(text))
		var f *seating.Fault
		if errors.As(err, &f) != refused {
			t.Errorf("%q: %v", text, err)
		} else if refused && (f.Line != 1 || f.Column != 2+strings.Count(text, "count") || !strings.Contains(f.Hint, "call it count")) {
			t.Errorf("%q: %v", text, f)
		}
	}
}
