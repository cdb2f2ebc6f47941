package render

import (
	"strings"
	"testing"
)

// TestTagsInAttributes: what an attribute has in its quotes is not taken for a tag.
func TestTagsInAttributes(t *testing.T) {
	for _, value := range []string{`"</style><style>*{}"`, `'a > b'`, `"it's > <script>"`} {
		page := `<body><button value=` + value + `>x</button><p>7,000 lb</p>`
		if got := string(bilingual([]byte(page), nil)); !strings.Contains(got, `<p data-si="`) && !strings.Contains(got, `<data value="`) {
			t.Errorf("after value=%s a weight has no metric twin: %s", value, got)
		}
	}
}
