package tables

import (
	"regexp"

	"tarepage/internal/measure"
)

// HitchBallRow says that a ball of a diameter is used with a kind of hitch, or what the
// hitch has in place of a ball.
type HitchBallRow struct {
	Hitch   string         // bumper-pull, gooseneck, fifth-wheel, pintle
	Ball    measure.Inches // 0 where there is no ball
	Instead string         // "2 in kingpin" where there is no ball
	Cited
}

var hitchBallSheet = newSheet(sheet[HitchBallRow]{
	name: "hitch-balls", title: "Which ball goes with which hitch", file: "hitch_ball.csv",
	columns: []string{"hitch", "ball_in", "instead", "source", "grade", "note"},
	row: func(r *row) HitchBallRow {
		h := HitchBallRow{Hitch: r.must("hitch"), Instead: r.text("instead"), Cited: r.cited()}
		if r.text("ball_in") != "" {
			h.Ball = r.inches("ball_in")
		}
		if (h.Ball == 0) == (h.Instead == "") {
			r.fail(r.line, "give either ball_in or instead")
		}
		return h
	},
	key: func(h HitchBallRow) string { return h.Hitch + " " + h.Ball.String() + " " + h.Instead },
})

// HitchBalls returns the rows of a kind of hitch, the smallest ball first; none for a
// kind that is not listed. It is common practice without a source: the stamp on the ball
// and the plate on the coupler govern.
func HitchBalls(hitch string) []HitchBallRow {
	var out []HitchBallRow
	for _, h := range hitchBallSheet.all() {
		if h.Hitch == hitch {
			out = append(out, h)
		}
	}
	return out
}

// TongueBandRow is the share of the loaded trailer's weight that should be on the hitch.
// Sources differ: Low and High are the narrowest band among them, which is the advice, and
// Least and Most the widest, which nobody's advice leaves.
type TongueBandRow struct {
	Hitch       string // bumper-pull, gooseneck, fifth-wheel, pintle
	Low, High   measure.Share
	Least, Most measure.Share
	Checked     string // the day the guidance was looked at, yyyy-mm-dd
	Cited
}

var isoDay = regexp.MustCompile(`^20[0-9]{2}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$`)

var tongueBandSheet = newSheet(sheet[TongueBandRow]{
	name: "tongue-bands", title: "Tongue weight as a share of the loaded trailer", file: "tongue_band.csv",
	columns: []string{"hitch", "low_percent", "high_percent", "least_percent", "most_percent", "checked", "source", "grade", "note"},
	row: func(r *row) TongueBandRow {
		low, high := percents(r, "low_percent", "high_percent")
		least, most := percents(r, "least_percent", "most_percent")
		t := TongueBandRow{r.must("hitch"), low, high, least, most, r.must("checked"), r.cited()}
		if t.Least > t.Low || t.Most < t.High {
			r.fail(r.line, "the widest band %s to %s does not hold the narrowest, %s to %s", t.Least, t.Most, t.Low, t.High)
		}
		if !isoDay.MatchString(t.Checked) {
			r.fail(r.line, "column checked: %q is not a date; write it as 2026-11-25", t.Checked)
		}
		if t.Most >= 1 {
			r.fail(r.line, "column most_percent: %s is the whole trailer or more", t.Most)
		}
		return t
	},
	key: func(t TongueBandRow) string { return "tongue band of " + t.Hitch },
})

// TongueBand returns the band of a kind of hitch, as general guidance. The tow vehicle's
// manual governs where it states another. It reports false for a kind not listed.
func TongueBand(hitch string) (TongueBandRow, bool) {
	for _, t := range tongueBandSheet.all() {
		if t.Hitch == hitch {
			return t, true
		}
	}
	return TongueBandRow{}, false
}
