package camera

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"everyseat/seating"
	"everyseat/testdata/judges"
)

// outsideScene is one scene of testdata/opencv/project-input.json.
type outsideScene struct {
	Name    string
	Section struct {
		Name                 string
		Rows, Seats          int
		Pitch, Rise, Run     float64
		FirstRow             float64 `json:"first_row"`
		SeatBoard            float64 `json:"seat_board"`
		Across, Away, Facing float64
		Radius               float64
	}
	Card struct {
		Width, Height, Tilt float64
		Held                string
		ToMark              bool `json:"to_mark"`
	}
	View struct {
		Position, Aim [3]float64
		Degrees       float64
		Picture       [2]int
	}
}

func outsideScenes(t *testing.T) []outsideScene {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(reference, "opencv/project-input.json"))
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Scenes []outsideScene }
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	return file.Scenes
}

// build makes our scene and view from the same measures that the script reads.
func (o *outsideScene) build(t *testing.T) (*Scene, *View) {
	t.Helper()
	x := o.Section
	s := &Scene{
		Stands: build(t, seating.SectionSpec{
			Name: x.Name, Rows: x.Rows, Seats: []int{x.Seats}, Pitch: metres(x.Pitch), Rise: metres(x.Rise), Run: metres(x.Run),
			FirstRow: metres(x.FirstRow), SeatBoard: metres(x.SeatBoard), Radius: metres(x.Radius),
			Place: &seating.Place{Across: metres(x.Across), Away: metres(x.Away), Facing: x.Facing},
		}),
		Card: Card{
			Width: metres(o.Card.Width), Height: metres(o.Card.Height), ToMark: o.Card.ToMark, Tilt: o.Card.Tilt * math.Pi / 180,
			Held: map[string]Held{"eyes": Eyes, "chin": Chin, "overhead": Overhead}[o.Card.Held],
		},
	}
	p, aim := seating.Point(o.View.Position), seating.Point(o.View.Aim)
	s.Mark = &p
	m := mark(p[0], -p[1], p[2])
	m.Aim, m.Picture, m.Lens.FieldOfView = &aim, o.View.Picture, o.View.Degrees
	return s, view(t, m, s)
}

// outsideGap is how far our corners are from OpenCV's, at most: in metres and in pixels.
func outsideGap(t *testing.T, rows []map[string]string, name string, s *Scene, v *View) (world, picture float64, corners int) {
	t.Helper()
	for _, row := range rows {
		if row["scene"] != name {
			continue
		}
		sec := &s.Stands.Sections[0]
		seat := sec.Rows[int(number(t, row["row"]))].First + int(number(t, row["place"]))
		q, ok := s.CardQuad(seat)
		if !ok {
			t.Fatalf("seat %d has no card", seat)
		}
		p := q[int(number(t, row["corner"]))]
		for i, axis := range []string{"x", "y", "z"} {
			world = math.Max(world, math.Abs(p[i]-number(t, row[axis])))
		}
		at, depth := v.Project(p)
		if depth <= 0 {
			t.Fatalf("seat %d is behind the lens", seat)
		}
		picture = math.Max(picture, math.Max(math.Abs(at[0]-number(t, row["u"])), math.Abs(at[1]-number(t, row["v"]))))
		corners++
	}
	return world, picture, corners
}

// Corners in the world and in the picture against OpenCV's projectPoints 4.6.0 (Debian
// python3-opencv): testdata/opencv/project.csv. COMPUTED by project.py beside it.
func TestProjectLikeOpenCV(t *testing.T) {
	rows := table(t, "opencv/project.csv")
	total := 0
	for _, o := range outsideScenes(t) {
		s, v := o.build(t)
		world, picture, n := outsideGap(t, rows, o.Name, s, v)
		total += n
		t.Logf("%s: %d corners, largest difference %.1e m, %.1e px", o.Name, n, world, picture)
		if n != 4*o.Section.Rows*o.Section.Seats || world > 1e-9 || picture > 1e-6 {
			t.Errorf("%s: %d corners, %g m and %g px off", o.Name, n, world, picture)
		}
	}
	if total != len(rows) || total < 400 {
		t.Errorf("compared %d corners of %d", total, len(rows))
	}
}

// The comparison must see a card one millimetre off, a mirrored section, a lens
// half a percent off and a camera that rolls.
func TestProjectMutantsDiffer(t *testing.T) {
	rows := table(t, "opencv/project.csv")
	mutants := map[string]func(s *Scene, v *View){
		"a card moved 1 mm": func(s *Scene, v *View) { s.Stands.Seats[3].Position[0] += 0.001 },
		"a section mirrored": func(s *Scene, v *View) {
			for i := range s.Stands.Seats {
				s.Stands.Seats[i].Position[0] *= -1
				s.Stands.Seats[i].Facing *= -1
			}
		},
		"a longer lens": func(s *Scene, v *View) { v.Focal *= 1.005 },
		"a camera that rolls": func(s *Scene, v *View) {
			r := v.Rotation
			for i := range 3 {
				v.Rotation[0][i] = r[0][i] + 1e-4*r[1][i]
			}
		},
	}
	for _, o := range outsideScenes(t) {
		for name, spoil := range mutants {
			s, v := o.build(t)
			spoil(s, v)
			if _, picture, _ := outsideGap(t, rows, o.Name, s, v); picture < 1e-3 {
				t.Errorf("%s: %s differs by %g px only", o.Name, name, picture)
			}
		}
	}
}

// The committed table is what the script and OpenCV say today.
func TestOpenCVTableIsFresh(t *testing.T) {
	const python = "/usr/bin/python3"
	script := filepath.Join(reference, "opencv/project.py")
	if err := exec.Command(python, "-c", "import cv2").Run(); err != nil {
		judges.Missing(t, "python3-opencv is missing")
	}
	out, err := exec.Command(python, script).Output()
	if err != nil {
		t.Fatal(err)
	}
	fresh, kept := readTable(t, bytes.NewReader(out)), table(t, "opencv/project.csv")
	if len(fresh) != len(kept) {
		t.Fatalf("%d lines now, %d in the table", len(fresh), len(kept))
	}
	for i := range kept {
		for _, column := range []string{"x", "y", "z", "u", "v"} {
			if math.Abs(number(t, fresh[i][column])-number(t, kept[i][column])) > 1e-7 {
				t.Fatalf("line %d, %s: %s now, %s in the table", i, column, fresh[i][column], kept[i][column])
			}
		}
	}
}
