package layouts

import (
	"io"

	"everyseat/layouts/tables"
	"everyseat/mosaic"
	"everyseat/seating/people"
)

// WritePeople writes who sits where into the sink: people.csv. Errors are those of the sink.
func WritePeople(p *mosaic.Plan, s *people.Seated, sink Sink) error {
	return sink.Put("people.csv", func(w io.Writer) error { return tables.People(w, p, s) })
}
