// Package fonts holds the type that paper and pictures are set in: Noto Sans, cut down to Latin,
// Greek and Cyrillic letters with all their accents, and the signs that are used. Where it comes
// from is told in README.md beside it.
package fonts

import _ "embed" // for the files

// Regular and Bold are TrueType files; nobody may change them.
var (
	//go:embed NotoSans-Regular.ttf
	Regular []byte
	//go:embed NotoSans-Bold.ttf
	Bold []byte
)
