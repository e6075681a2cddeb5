package stuntfile

import (
	"errors"
	"regexp"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/seating"
)

// badValues are what people write by mistake, and what nobody writes: the wrong kind, a huge number, a negative one,
// nothing, a word that there is not, a time that no clock shows.
var badValues = []string{
	`7`, `0`, `-7`, `99999999999`, `99999999999999999999`, `1e300`, `nan`, `true`, `2027-06-12`, `""`, `" "`, `"zzqq"`, `"-7 m"`,
	`"7"`, `"99999999999 m"`, `"-7 s"`, `"99999999 s"`, `"25:99"`, `"-7 %"`, `[]`, `[""]`, `[-7]`, `["zzqq"]`, `{}`, `{ zzqq = 7 }`,
	`"` + strings.Repeat("long", 80) + `"`,
}

// doing are words by which a hint says what to do, or what there is to choose from.
var doing = regexp.MustCompile(`\b(add|choose|count|did you mean|give|it has rows|keys here are|leave|let|look|make|measure|` +
	`move|print|put|see|take|the nearest is|there are|use|write)\b`)

// TestEveryRefusalSaysHowToMendIt puts bad values into every key that the fresh file shows, and misspells the key: what
// is refused, by the reader or by the plan, is refused at a line, in one line, with a hint that says what to do.
func TestEveryRefusalSaysHowToMendIt(t *testing.T) {
	fresh := string(Fresh())
	for _, small := range [][2]string{{"\nrows = 10 ", "\nrows = 5 "}, {"\nseats = 15 ", "\nseats = 9 "}, {`"WAVE"`, `"I"`}} {
		fresh = strings.Replace(fresh, small[0], small[1], 1)
	}
	lines := strings.Split(fresh, "\n")
	pair := regexp.MustCompile(`(\w+) = ("(?:[^"\\]|\\.)*"|\[[^#]*\]|\{[^#]*\}|[\w.:-]+)`)
	keys, refused := 0, map[string]int{}
	for i, line := range lines {
		bare := strings.TrimPrefix(line, "# ")
		key, _, ok := strings.Cut(bare, " = ")
		if !ok || strings.ContainsAny(key, " ,:") || strings.HasPrefix(bare, "sensor = ") {
			continue
		}
		for _, at := range append(pair.FindAllStringSubmatchIndex(bare, -1), inner(pair, bare)...) {
			if strings.Contains(bare[:at[2]], " #") {
				continue // it is words of the comment
			}
			keys++
			for n := range len(badValues) + 1 {
				changed := bare[:at[3]] + "x" + bare[at[3]:]
				if n < len(badValues) {
					changed = bare[:at[4]] + badValues[n] + bare[at[5]:]
				}
				edited := append([]string{}, lines...)
				edited[i] = changed
				uncomment(edited, i)
				err := refusal(strings.Join(edited, "\n"))
				if err == nil {
					continue
				}
				refused[bare[at[2]:at[3]]]++
				fault, ok := errors.AsType[*seating.Fault](err)
				switch {
				case !ok || fault.File == "" || fault.Line == 0:
					t.Errorf("%s\n\tno place: %v", changed, err)
				case strings.Contains(fault.What, "\n") || fault.What == "":
					t.Errorf("%s\n\tnot one line: %q", changed, fault.What)
				case !doing.MatchString(fault.Hint):
					t.Errorf("%s\n\t%s\n\tnothing to do in the hint %q", changed, fault.What, fault.Hint)
				}
			}
		}
	}
	if keys < 120 {
		t.Errorf("only %d keys: is the walk right?", keys)
	}
	t.Logf("%d keys, %d of them refuse something", keys, len(refused))
}

// inner are the pairs within a line's inline tables.
func inner(pair *regexp.Regexp, line string) (out [][]int) {
	for from := 0; ; {
		open := strings.Index(line[from:], "{")
		if open < 0 {
			return out
		}
		from += open + 1
		for _, at := range pair.FindAllStringSubmatchIndex(line[from:], -1) {
			for k := range at {
				at[k] += from
			}
			out = append(out, at)
		}
	}
}

// uncomment takes the # from the commented table head above a line, and from what the table cannot do without.
func uncomment(lines []string, i int) {
	for j := i - 1; j >= 0 && strings.HasPrefix(lines[j], "#"); j-- {
		bare := strings.TrimPrefix(lines[j], "# ")
		if strings.HasPrefix(bare, "[") {
			lines[j] = bare
			if bare = strings.TrimPrefix(lines[j+2], "# "); strings.HasPrefix(bare, "back = ") && j+2 != i {
				lines[j+2] = bare
			}
			return
		}
	}
}

// refusal is the error of reading or planning a stunt file.
func refusal(text string) error {
	f, err := Parse("stunt.toml", []byte(text), beside(nil))
	if err != nil {
		return err
	}
	if _, err = mosaic.Make(f.Stunt); err != nil {
		return f.Locate(err)
	}
	return nil
}
