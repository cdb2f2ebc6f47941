package starter

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"tarepage/internal/amend"
	"tarepage/internal/unit"
)

// firstQuestions are what a yard's file needs first, with the keys of the answers.
var firstQuestions = []struct{ key, question string }{
	{"name", "What is your yard called?"},
	{"phone", "Which phone number should customers call?"},
	{"town", "In which town is it?"},
}

// Ask asks for name, phone and town, and writes the answers into the yard's file. An empty
// answer keeps the example; so does the end of the input.
func Ask(in io.Reader, out io.Writer, yard []byte) []byte {
	lines := bufio.NewScanner(in)
	fmt.Fprintln(out, "three questions; press Enter to leave one for later")
	for _, q := range firstQuestions {
		for {
			fmt.Fprint(out, q.question+" ")
			if !lines.Scan() {
				fmt.Fprintln(out)
				return yard
			}
			answer := strings.Join(strings.Fields(lines.Text()), " ")
			if answer == "" {
				break
			}
			next, err := amend.Apply(yard, []amend.Change{{Path: q.key, Value: answer}})
			if err == nil {
				_, problems := unit.ReadYard("yard.md", next)
				if len(problems) == 0 {
					yard = next
					break
				}
				err = fmt.Errorf("%s", problems[0].Message)
			}
			fmt.Fprintf(out, "this does not go into the file: %v\n", err)
		}
	}
	return yard
}
