package mosaic

// What tests outside the package, which draw their stunts from package fair, ask of every plan.
var (
	CheckLedger = checkLedger
	CheckStock  = checkStock
)
