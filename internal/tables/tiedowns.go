package tables

import (
	"fmt"
	"strings"

	"tarepage/internal/measure"
)

// UnmarkedChain is the grade that chain without a grade mark counts as: 30, proof coil
// (49 CFR 393.108).
const UnmarkedChain = 30

// ChainRow is the working load limit of a chain by size and grade. It is for chain that
// shows its grade or nothing: a limit that the maker has marked governs, higher or lower
// (49 CFR 393.108(b)).
type ChainRow struct {
	Size      string // as marked, in inches: "5/16"
	Diameter  measure.Inches
	MM        int
	Grade     int
	GradeName string
	WLL       measure.Pounds // working load limit
	// Kilograms is the limit as the rule prints it in kg; the two columns are rounded
	// apart and do not convert.
	Kilograms float64
	LinkMarks string // what a link is marked with: "7 / 70 / 700"
	// Cited is no embedded field here, because Grade is the chain's.
	Cited Cited
}

var chainSheet = newSheet(sheet[ChainRow]{
	name: "chains", title: "Chain: working load limits (49 CFR 393.108)", file: "chain_wll.csv",
	columns: []string{"size_in", "size_mm", "chain_grade", "grade_name", "wll_lb", "wll_kg", "link_marks", "source", "grade", "note"},
	row: func(r *row) ChainRow {
		return ChainRow{r.text("size_in"), r.inches("size_in"), r.whole("size_mm"), r.whole("chain_grade"), r.must("grade_name"),
			measure.Pounds(r.positive("wll_lb")), r.positive("wll_kg"), r.text("link_marks"), r.cited()}
	},
	key: func(c ChainRow) string { return fmt.Sprintf("%s chain grade %d", c.Size, c.Grade) },
	rules: func(rows []placed[ChainRow], fail failure) {
		last := map[int]ChainRow{}
		for _, p := range rows {
			before, ok := last[p.is.Grade]
			if ok && (p.is.Diameter <= before.Diameter || p.is.WLL <= before.WLL) {
				fail(p.line, "%s grade %d with %s stands behind %s with %s; both must rise", p.is.Size, p.is.Grade, p.is.WLL, before.Size, before.WLL)
			}
			last[p.is.Grade] = p.is
		}
	},
})

// ChainWLL returns the working load limit of a chain. Grade 0 means unmarked and is
// read as UnmarkedChain. The error names the sizes or grades that the rule lists.
//
// A larger grade number is not always stronger: the rule prints 4,500 lb for 5/16 in
// grade 80 and 4,700 lb for grade 70.
func ChainWLL(size measure.Inches, grade int) (ChainRow, error) {
	if grade == 0 {
		grade = UnmarkedChain
	}
	var sizes, grades []string
	for _, c := range chainSheet.all() {
		switch {
		case c.Diameter == size && c.Grade == grade:
			return c, nil
		case c.Diameter == size:
			grades = append(grades, fmt.Sprint(c.Grade))
		case c.Grade == grade:
			sizes = append(sizes, c.Size)
		}
	}
	switch {
	case len(grades) > 0:
		return ChainRow{}, fmt.Errorf("chain %s grade %d is not in 49 CFR 393.108; that size has grades %s", size, grade, strings.Join(grades, ", "))
	case len(sizes) > 0:
		return ChainRow{}, fmt.Errorf("chain size %s is not in 49 CFR 393.108 for grade %d; it lists %s in", size, grade, strings.Join(sizes, ", "))
	}
	return ChainRow{}, fmt.Errorf("chain %s grade %d is not in 49 CFR 393.108; write a grade of 30, 43, 70, 80 or 100", size, grade)
}

// TieDownRow is the working load limit of webbing, rope, strapping, binders and anchors.
type TieDownRow struct {
	Item string
	Size string         // in inches, as written: "1-3/4", "1-1/4 x 0.029", "any"
	WLL  measure.Pounds // 0 where there is no default rating
	// Kilograms is the limit as the rule prints it in kg; 0 when it does not.
	Kilograms float64
	// Basis is "table" for a row of 49 CFR 393.108, which holds for unmarked material;
	// "marked" for what is usually marked on it, where only the mark counts; "unrated"
	// for what has no rating unless the builder marks it.
	Basis string
	Cited
}

var tieDownSheet = newSheet(sheet[TieDownRow]{
	name: "tie-downs", title: "Tie-downs: working load limits", file: "tie_down_wll.csv",
	columns: []string{"item", "size_in", "wll_lb", "wll_kg", "basis", "source", "grade", "note"},
	row: func(r *row) TieDownRow {
		t := TieDownRow{r.must("item"), r.must("size_in"), r.pounds("wll_lb"), r.number("wll_kg"), r.must("basis"), r.cited()}
		switch t.Basis {
		case "table", "marked":
			r.positive("wll_lb")
		case "unrated":
			if t.WLL != 0 {
				r.fail(r.line, "column wll_lb: %s where the basis is unrated", t.WLL)
			}
		default:
			r.fail(r.line, "column basis: %q is none of table, marked, unrated", t.Basis)
		}
		return t
	},
	key: func(t TieDownRow) string { return t.Item + " " + t.Size },
	rules: func(rows []placed[TieDownRow], fail failure) {
		for i := 1; i < len(rows); i++ {
			if a, b := rows[i-1].is, rows[i].is; a.Item == b.Item && b.WLL < a.WLL {
				fail(rows[i].line, "%s %s with %s falls below %s with %s", b.Item, b.Size, b.WLL, a.Size, a.WLL)
			}
		}
	},
})

// TieDowns returns the working load limits of tie-downs other than chain, in the file's
// order. A tie-down is as strong as its weakest part, anchor point included (49 CFR
// 393.108(a)).
func TieDowns() []TieDownRow { return clone(tieDownSheet) }

// TieDown returns the row of an item and size as the table writes them, capitals and
// spaces aside.
func TieDown(item, size string) (TieDownRow, bool) {
	for _, t := range tieDownSheet.all() {
		if plainName(t.Item) == plainName(item) && plainName(t.Size) == plainName(size) {
			return t, true
		}
	}
	return TieDownRow{}, false
}
