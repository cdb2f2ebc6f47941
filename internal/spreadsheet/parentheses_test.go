package spreadsheet

import (
	"strings"
	"testing"

	"tarepage/internal/unit"
)

// TestWordsInParentheses: a cell that a unit file could not hold is named, and not written.
func TestWordsInParentheses(t *testing.T) {
	for _, doc := range unit.Keys() {
		if doc.Path != "deck.length" && doc.Path != "weights.gvwr" {
			continue
		}
		_, err := Column{Key: doc.Path, Unit: map[string]string{"length": "ft", "weight": "lb"}[doc.Kind]}.value("20 (16+4)", doc)
		if err == nil || !strings.Contains(err.Error(), "write 20 alone") {
			t.Errorf("%s takes words in parentheses: %v", doc.Path, err)
		}
	}
}
