package amend

import (
	"strings"
	"testing"
)

func TestAddItem(t *testing.T) {
	item := []Change{{"file", "media/a.jpg"}, {"proves", "weights.gvwr, axles.rating"}}
	for _, c := range []struct{ name, before, after string }{
		{"no list", "---\nstock: A\n---\nwords\n", "---\nstock: A\nproof:\n  - file: media/a.jpg\n    proves: weights.gvwr, axles.rating\n---\nwords\n"},
		{"an empty one", "---\nproof:  # photos\nstock: A\n---\n", "---\nproof:  # photos\n  - file: media/a.jpg\n    proves: weights.gvwr, axles.rating\nstock: A\n---\n"},
		{"one item, a comment and a key after it", "---\nproof:\n    - file: media/b.jpg\n      shows: label\n\n# next\nstock: A\n---\n",
			"---\nproof:\n    - file: media/b.jpg\n      shows: label\n    - file: media/a.jpg\n      proves: weights.gvwr, axles.rating\n\n# next\nstock: A\n---\n"},
		{"dashes in the key's column", "---\nproof:\n- file: media/b.jpg\n  shows: label\nstock: A\n---\n",
			"---\nproof:\n- file: media/b.jpg\n  shows: label\n- file: media/a.jpg\n  proves: weights.gvwr, axles.rating\nstock: A\n---\n"},
		{"lines of Windows", "---\r\nstock: A\r\n---\r\n", "---\r\nstock: A\r\nproof:\r\n  - file: media/a.jpg\r\n    proves: weights.gvwr, axles.rating\r\n---\r\n"},
		{"a list in brackets", "---\nproof: [x]\n---\n", ""},
		{"a value", "---\nproof: x\n---\n", ""},
		{"no front matter", "words\n", ""},
	} {
		got, err := AddItem([]byte(c.before), "proof", item)
		if string(got) != c.after || (err == nil) != (c.after != "") {
			t.Errorf("%s: %v\n%s\nwant\n%s", c.name, err, got, c.after)
		}
		if err != nil && strings.Contains(err.Error(), "yaml") {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}
