package stuntfile

import _ "embed" // the fresh file

//go:embed fresh.toml
var freshText []byte

// Fresh is a new stunt file whose comments teach; it builds as it stands.
func Fresh() []byte { return append([]byte(nil), freshText...) }
