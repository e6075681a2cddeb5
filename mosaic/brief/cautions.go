package brief

import "everyseat/mosaic"

// cautions open everything that goes to the crew or to whoever must say yes. They are this project's
// advice where no code is named; local code and licensed practice decide.
func cautions(p *mosaic.Plan) []string {
	list := []string{
		"No jumping, stamping or swaying in time on the stands; nobody stands on seats.",
		"Aisles, lanes, exits and wheelchair routes stay free: no card, bag, cable or person in them.",
		"The posted occupant load and the fire official decide, whatever the survey counts.",
		"Stands are opened and closed by their custodian alone, with nobody beneath.",
		"Nothing is thrown. Cards go to the aisle after the take and are counted; the floor is swept before the stands are closed.",
		"Cables and tape are covered. Whoever walks backwards with a camera has a spotter. No ladder, and nothing flown over people.",
		"An alarm means: card down, and walk.",
		"Wheelchair and companion places go to those who need them, and they hold a card like everybody.",
		"Nobody who may not be filmed is placed in the frame. " + whereNames(p),
	}
	if len(p.Cues) > 1 {
		list = append(list, "Flashing colour can harm: cards change only at the calls, never faster than three times in a second (WCAG 2.3.1).")
	}
	return list
}

// whereNames says where people's names are.
func whereNames(p *mosaic.Plan) string {
	if NamesOnPaper(p) {
		return "Names stand on the slips of calldown.pdf alone: whoever holds one gives it back, and it is destroyed."
	}
	return "Names stay on the machine: paper carries seat codes."
}

// NamesOnPaper says whether the stunt wants names on paper and there are any.
func NamesOnPaper(p *mosaic.Plan) bool {
	return p.Stunt.People.Names && p.People != nil && p.People.Roster.Named()
}
