package crosscheck_test

import (
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"tarepage/internal/captions"
	"tarepage/internal/crosscheck"
	"tarepage/internal/measure"
	"tarepage/internal/walkaround"
)

var lookAt = flag.String("look", "", "a folder of NAME.vtt with NAME.want and NAME.about, whose claims are scored")

// claimLine is a claim as a label has it: its time, whether it is wrong, and its words.
var claimLine = regexp.MustCompile(`^(\d\d):(\d\d) (right|wrong|retracted|not-checkable) (.*)`)

// TestClaimsLook scores the claims of a folder of labelled talk, with -look DIR: wrong ones that are
// caught, and accusations of anything else.
func TestClaimsLook(t *testing.T) {
	if *lookAt == "" {
		t.Skip("no talk to score: give its folder with -look")
	}
	names, err := filepath.Glob(filepath.Join(*lookAt, "*.about"))
	if err != nil || len(names) == 0 {
		t.Fatalf("nothing in %s: %v", *lookAt, err)
	}
	caught, wrong, falsely := 0, 0, 0
	for _, name := range names {
		talk := strings.TrimSuffix(name, ".about") + ".vtt"
		data, err := os.ReadFile(talk)
		if err != nil {
			t.Fatal(err)
		}
		c, _, err := captions.Read(talk, data)
		if err != nil {
			t.Fatal(err)
		}
		accused := map[float64]string{}
		for _, said := range walkaround.Claims(c) {
			if w := crosscheck.Work(said, labelled(t, talk)); w.Verdict == crosscheck.Differs {
				accused[said.Start] = fmt.Sprintf("%q: %v for %v", said.Quote, w.Said, w.Right)
			}
		}
		// A payload that is heard goes into the file, where a stop compares it with the label.
		for _, said := range walkaround.Hear(c) {
			if v, ok := said.Value.(measure.Pounds); ok && said.Role == walkaround.Payload && labelled(t, talk) > 0 && v > labelled(t, talk)+50 {
				accused[said.Start] = fmt.Sprintf("%q: claimed.payload, the label leaves %v", said.Quote, labelled(t, talk))
			}
		}
		meant := map[float64]bool{} // accusations of what is wrong
		about, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(about)) {
			m := claimLine.FindStringSubmatch(strings.TrimSpace(line))
			if m == nil || m[3] != "wrong" || strings.Contains(m[4], "correct") { // taken back is not wrong
				continue
			}
			wrong++
			minutes, _ := strconv.Atoi(m[1])
			seconds, _ := strconv.Atoi(m[2])
			found := false
			for at := range accused {
				if math.Abs(at-float64(60*minutes+seconds)) < 12 {
					meant[at], found = true, true
				}
			}
			if found {
				caught++
			} else {
				t.Logf("%s: not caught: %s", filepath.Base(name), m[4])
			}
		}
		for at, what := range accused {
			if meant[at] {
				continue
			}
			falsely++
			t.Logf("%s: accused: %s", filepath.Base(name), what)
		}
	}
	fmt.Printf("claims: %d of %d wrong ones caught, %d others accused in %d talks\n", caught, wrong, falsely, len(names))
}
