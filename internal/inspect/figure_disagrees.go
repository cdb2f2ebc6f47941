package inspect

import (
	"fmt"
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

var figureDisagrees = &Rule{
	Name: "figure-disagrees", Severity: Stop,
	Title:  "a checked figure in the notes agrees with what was worked out",
	Why:    "A customer reads the sentence and loads by that number.",
	Source: "the unit file's format, docs/unit-file.md: checked figures",
	Remedy: "correct the number, or leave the words empty so that the figure is filled in",
	check: func(c *Case, f *Findings) {
		for _, link := range c.figureLinks() {
			fig := c.Work.Figure(link.Name)
			if fig == nil || link.Text == "" {
				continue
			}
			says, ok, err := Agrees(link.Text, fig)
			switch {
			case err != nil:
				f.add(link.Pos, "%q does not read as %s: %v", link.Text, fig.Name, err).
					fix("write it like %s, or leave the words empty", fig.Text)
			case !ok:
				f.add(link.Pos, "the text says %s; %s is %s (%s)", says, fig.Name, fig.Text, fig.Working()).
					figures(says, fig.Text)
			}
		}
	},
}

// Agrees reads the number in a checked figure's words and compares it with the
// figure: to the precision written, "about" allows 2.5%. It returns the number as it
// was read.
func Agrees(words string, fig *compute.Figure) (says string, ok bool, err error) {
	if strings.TrimSpace(words) == fig.Text {
		return fig.Text, true, nil
	}
	switch fig.Unit {
	case "lb":
		w, err := measure.ParseWeight(words)
		return agree(w, measure.Pounds(fig.Value), measure.Pounds(fig.Step()), fig, err)
	case "ft":
		w, err := measure.ParseLength(words)
		return agree(w, measure.Feet(fig.Value).Inches(), measure.Feet(fig.Step()).Inches(), fig, err)
	case "degrees":
		w, err := measure.ParseAngle(words)
		return agree(w, measure.Degrees(fig.Value), measure.Degrees(fig.Step()), fig, err)
	case "%":
		w, err := measure.ParseShare(words)
		return agree(w, measure.Share(fig.Value/100), measure.Share(fig.Step()/100), fig, err)
	case "sq ft":
		w, err := measure.ParseArea(words)
		return agree(w, measure.SquareFeet(fig.Value), measure.SquareFeet(fig.Step()), fig, err)
	}
	if fig.Unit == "USD" {
		w, err := measure.ParseMoney(words)
		return agree(w, measure.Dollars(fig.Value), measure.Dollars(fig.Step()), fig, err)
	}
	w, err := measure.ParsePlain(words, fig.Unit)
	return agree(w, measure.Plain(fig.Value), measure.Plain(fig.Step()), fig, err)
}

func agree[U measure.Unit](w measure.Written[U], worked, step U, fig *compute.Figure, err error) (string, bool, error) {
	if err != nil {
		return "", false, err
	}
	ok := measure.Agrees(w.Value, worked, step, w.About)
	// Within the step, but on the wrong side of a limit or a load, is not agreeing.
	if !w.About {
		ok = ok && !(fig.Limit() && !measure.NotOver(w.Value, worked)) && !(fig.Load() && !measure.NotOver(worked, w.Value))
	}
	return fmt.Sprint(w.Value), ok, nil
}
