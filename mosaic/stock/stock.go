// Package stock deals with the cards there are: which seat gets which colour when
// sheets are few (Assign), which cards a person holds to show a sequence of
// colours (NewKit), and what has to be bought and made (Buy).
//
// Colours and seats are indices everywhere; a seat that shows nothing has colour
// None. All decisions are made on integers and ties go to the lower index, so the
// same input gives the same answer on every processor.
package stock

import "fmt"

// None is the colour of a seat that shows no card.
const None = -1

// Unlimited is the stock of a colour that never runs out.
const Unlimited = -1

// MaxColours bounds the palette.
const MaxColours = 64

// Making is how a card is made.
type Making string

// The makings: a sheet of coloured stock (one colour, both sides), two sheets back
// to back, or white card printed with toner. The last two may have two colours.
const (
	Sheet   Making = "sheet"
	Bonded  Making = "bonded"
	Printed Making = "printed"
)

func (m Making) check() error {
	if m != Sheet && m != Bonded && m != Printed {
		return fmt.Errorf("cards are made as %q; choose %s, %s or %s", m, Sheet, Bonded, Printed)
	}
	return nil
}
