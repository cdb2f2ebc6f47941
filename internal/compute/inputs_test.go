package compute

import (
	"fmt"
	"testing"
)

// TestInputKeys: a long list is found in as a short one is, the first input of a key each time.
func TestInputKeys(t *testing.T) {
	var keys inputKeys
	var list []*Input
	for i := range 4 * shortList {
		key := fmt.Sprintf("key %d", i%(3*shortList)) // the last quarter has keys that are there already
		if got, want := keys.find(list, key), first(list, key); got != want {
			t.Fatalf("%d inputs: %s is %v, want %v", len(list), key, got, want)
		}
		list = append(list, &Input{Key: key})
		if got := keys.find(list, key); got != first(list, key) || got == nil {
			t.Fatalf("%d inputs: %s is %v after it was added", len(list), key, got)
		}
	}
	if got := keys.find(list, "no key"); got != nil {
		t.Errorf("no key is %v", got)
	}
}

func first(list []*Input, key string) *Input {
	for _, in := range list {
		if in.Key == key {
			return in
		}
	}
	return nil
}
