package cells

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// months by the words that spreadsheets write for them, in the languages that are likeliest here.
var months = [12][]string{
	{"jan", "january", "januar", "ene"},
	{"feb", "february", "februar", "fév", "fev"},
	{"mar", "march", "mär", "märz", "mrz"},
	{"apr", "april", "avr", "abr"},
	{"may", "mai"},
	{"jun", "june", "juni", "juin"},
	{"jul", "july", "juli", "juil"},
	{"aug", "august", "aoû", "ago"},
	{"sep", "sept", "september"},
	{"oct", "october", "okt", "oktober"},
	{"nov", "november"},
	{"dec", "december", "dez", "dezember", "déc", "dic"},
}

// mangledDate says what a text that looks like a date probably was before a
// spreadsheet made a date of it, like `"3-5" or "5-3"`; "" for other texts.
func mangledDate(text string) string {
	if len(text) > 40 {
		return ""
	}
	t := strings.ToLower(text)
	head, tail, _ := strings.Cut(t, " ")
	if strings.Contains(tail, ":") && strings.Trim(tail, "0123456789:.apm ") == "" {
		t = head // a time of day behind the date
	}
	if head, tail, ok := strings.Cut(t, "t00:"); ok && strings.Trim(tail, "0123456789:.z") == "" {
		t = head
	}
	parts := strings.FieldsFunc(t, func(r rune) bool { return strings.ContainsRune(dateMarks, r) })
	if len(parts) < 2 || len(parts) > 3 || !datedBy(t, parts) {
		return ""
	}
	month := 0
	var numbers []int
	for _, p := range parts {
		named := slices.IndexFunc(months[:], func(words []string) bool { return slices.Contains(words, p) })
		if named >= 0 && month == 0 {
			month = named + 1
			continue
		}
		n, err := strconv.Atoi(p)
		if err != nil || n < 0 || len(p) == 3 || len(p) > 4 {
			return ""
		}
		numbers = append(numbers, n)
	}
	switch {
	case month != 0 && len(numbers) > 0:
		n := numbers[0]
		if n > 999 && len(numbers) > 1 {
			n = numbers[1]
		}
		return asRange(month, n%100)
	case len(numbers) == 3: // 2026-05-09, 5/9/2026 or 09.05.26
		a, b, year := numbers[0], numbers[1], parts[2]
		if len(parts[0]) == 4 {
			a, b, year = numbers[1], numbers[2], parts[0]
		}
		if (len(year) == 4 || len(year) == 2) && min(a, b) >= 1 && max(a, b) <= 31 && min(a, b) <= 12 {
			return asRange(a, b)
		}
	}
	return ""
}

// dateMarks are what parts days, months and years.
const dateMarks = "-/. \u00a0,"

// datedBy says whether a spreadsheet parts a date so: one mark all over, and nothing before the first part or behind
// the last. Only beside a month in words may a full stop or a comma stand before a blank: "5. Mar 2026", "Mar 5,
// 2026".
func datedBy(t string, parts []string) bool {
	first, rest, _ := strings.Cut(strings.TrimSuffix(t, parts[len(parts)-1]), parts[0])
	between := []string{rest}
	if len(parts) == 3 {
		a, b, _ := strings.Cut(rest, parts[1])
		between = []string{a, b}
	}
	if first != "" {
		return false
	}
	words := strings.ContainsFunc(t, unicode.IsLetter)
	for _, mark := range between {
		switch mark {
		case "-", "/", ".":
			if mark != between[0] {
				return false
			}
		case " ", "\u00a0", ". ", ".\u00a0", ", ", ".-":
			if !words {
				return false
			}
		default:
			return false
		}
	}
	return true
}

func asRange(a, b int) string {
	if a == b {
		return fmt.Sprintf(`"%d-%d"`, a, b)
	}
	return fmt.Sprintf(`"%d-%d" or "%d-%d"`, a, b, b, a)
}
