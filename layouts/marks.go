package layouts

import (
	"io"

	"everyseat/layouts/pictures"
	"everyseat/layouts/tables"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/marks"
)

// WriteMarks writes where the camera can stand into the sink: marks.csv and
// pictures/marks.png. Errors are those of the sink.
func WriteMarks(m *marks.Map, code brief.Code, sink Sink) error {
	return runAll([]job{
		{1, func() error {
			return sink.Put("marks.csv", func(w io.Writer) error { return tables.Marks(w, m) })
		}},
		{2, func() error {
			return sink.Put("pictures/marks.png", func(w io.Writer) error { return pictures.Marks(w, m, code) })
		}},
	})
}
