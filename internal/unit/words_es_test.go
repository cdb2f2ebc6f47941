package unit

import (
	"strings"
	"testing"
)

// TestWordsInSpanish: a word that the pages cannot say is a problem at its line, with what to write.
func TestWordsInSpanish(t *testing.T) {
	y, problems := ReadYard("content/yard.md", []byte("---\nname: a\nwords-es:\n  - camioneta = la troca\n  - acoplador = cople\n---\n"))
	if len(problems) > 0 || len(y.Words()) != 2 || y.Words()[0].To != "troca" {
		t.Errorf("%v, %v", y.Words(), problems)
	}
	y, problems = ReadYard("content/yard.md", []byte("---\nname: a\nwords-es:\n  - camioneta = la troca\n  - camioneta = la pickup\n  - camioneta = el mueble\n---\n"))
	if len(problems) != 2 || problems[0].At.Line != 5 || problems[1].At.Line != 6 || !strings.Contains(problems[1].Message, "does not agree") {
		t.Errorf("%v, %v", y.Words(), problems)
	}
}
