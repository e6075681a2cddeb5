package cells

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"io"
	"path"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// looks reads which cells without text are filled with a colour, and which texts are struck through, into the sheets
// of a workbook. The library gives values alone where it reads a sheet in one go, so the styles of cells are read from
// the file itself; where that cannot be done there are none.
func (b *workbook) looks(data []byte, sheets []*Sheet, fills bool) {
	styles := b.styles(fills)
	if len(styles) == 0 {
		return
	}
	archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return
	}
	parts := sheetParts(archive)
	for _, s := range sheets {
		if part, err := archive.Open(parts[s.Name]); err == nil {
			b.look(s, io.LimitReader(part, maxUnpacked), styles)
			part.Close()
		}
	}
}

// look is what of a style is read: its fill, "" for none and white, and whether it strikes a text through.
type look struct {
	fill   string
	struck bool
}

// styles are those that strike through or, if fills count, fill a cell with a colour.
func (b *workbook) styles(fills bool) map[int]look {
	out := map[int]look{}
	if b.f.Styles == nil || b.f.Styles.CellXfs == nil {
		return out
	}
	for style := range b.f.Styles.CellXfs.Xf {
		st, err := b.f.GetStyle(style)
		if err != nil || st == nil {
			continue
		}
		if st.Font != nil && st.Font.Strike {
			out[style] = look{struck: true}
		}
		if !fills || st.Fill.Type != "pattern" && st.Fill.Type != "gradient" ||
			st.Fill.Type == "pattern" && st.Fill.Pattern == 0 || len(st.Fill.Color) == 0 {
			continue
		}
		colour := strings.ToUpper(strings.TrimPrefix(st.Fill.Color[0], "#"))
		if len(colour) == 8 {
			colour = colour[2:]
		}
		if colour != "" && colour != "FFFFFF" {
			out[style] = look{colour, out[style].struck}
		}
	}
	return out
}

// sheetParts are the names of the files in a workbook by their sheets' names.
func sheetParts(archive *zip.Reader) map[string]string {
	var book struct {
		Sheets []struct {
			Name string `xml:"name,attr"`
			ID   string `xml:"id,attr"`
		} `xml:"sheets>sheet"`
	}
	var links struct {
		Links []struct {
			ID     string `xml:"Id,attr"`
			Target string `xml:"Target,attr"`
		} `xml:"Relationship"`
	}
	for name, to := range map[string]any{"xl/workbook.xml": &book, "xl/_rels/workbook.xml.rels": &links} {
		part, err := archive.Open(name)
		if err != nil {
			return nil
		}
		err = xml.NewDecoder(io.LimitReader(part, maxUnpacked)).Decode(to)
		part.Close()
		if err != nil {
			return nil
		}
	}
	out := map[string]string{}
	for _, s := range book.Sheets {
		for _, l := range links.Links {
			if l.ID == s.ID {
				out[s.Name] = strings.TrimPrefix(path.Join("/xl", l.Target), "/")
				if strings.HasPrefix(l.Target, "/") {
					out[s.Name] = strings.TrimPrefix(l.Target, "/")
				}
			}
		}
	}
	return out
}

// look marks the cells of one sheet.
func (b *workbook) look(s *Sheet, text io.Reader, styles map[int]look) {
	in := xml.NewDecoder(text)
	row, col := -1, -1
	for {
		token, err := in.RawToken()
		if err != nil {
			return
		}
		start, ok := token.(xml.StartElement)
		if !ok || start.Name.Local != "c" && start.Name.Local != "row" {
			continue
		}
		at := func(name string) string {
			i := slices.IndexFunc(start.Attr, func(a xml.Attr) bool {
				return a.Name.Local == name &&
					a.Name.Space == ""
			})
			if i < 0 {
				return ""
			}
			return start.Attr[i].Value
		}
		if start.Name.Local == "row" {
			row, col = row+1, -1
			if n, err := strconv.Atoi(at("r")); err == nil {
				row = n - 1
			}
			continue
		}
		col++
		if c, r, err := excelize.CellNameToCoordinates(at("r")); err == nil {
			row, col = r-1, c-1
		}
		style, _ := strconv.Atoi(at("s"))
		as, ok := styles[style]
		if !ok || row < 0 || col < 0 || col >= maxCols || row >= b.most.Lines {
			continue
		}
		for row >= len(s.cells) {
			s.cells = append(s.cells, nil)
		}
		if more := col + 1 - len(s.cells[row]); more > 0 {
			if b.total += more; b.total > b.most.Cells {
				return
			}
			s.cells[row] = append(s.cells[row], make([]Cell, more)...)
		}
		if c := &s.cells[row][col]; c.Text == "" {
			c.Fill = as.fill
		} else {
			c.Struck = as.struck
		}
	}
}
