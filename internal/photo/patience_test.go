package photo

import (
	"bytes"
	"errors"
	"image/color"
	"testing"
	"time"

	"tarepage/internal/media"
)

// TestPatienceOfAYard: ten thousand photos that take all the time that they get end in a time that
// is known before, and photos that take a usual time get all that they need, however many there are.
func TestPatienceOfAYard(t *testing.T) {
	head := &media.Photo{Wide: 4000, High: 3000}
	if got, want := usual(head), 4400*time.Millisecond; got != want {
		t.Fatalf("12 million pixels usually take %v, want %v", got, want)
	}
	const photos = 10_000
	var p patience
	sum := time.Duration(0)
	for range photos {
		took := p.left(head)
		p.took(head, took)
		sum += took
	}
	if most := mostOver + longest + photos*usual(head); sum > most {
		t.Errorf("%d photos take %v, more than %v", photos, sum, most)
	}
	if got := p.left(head); got != usual(head) {
		t.Errorf("the next one gets %v", got)
	}
	if got := p.left(&media.Photo{Wide: 60_000, High: 10_000}); got != longest {
		t.Errorf("a large one gets %v", got)
	}
	p = patience{}
	for range photos {
		p.took(head, usual(head))
	}
	if got := p.left(head); got != longest {
		t.Errorf("after photos that took a usual time, the next one gets %v", got)
	}
}

// TestPatienceEnds: where no time is left, a photo is a fault, and the time that it took counts.
func TestPatienceEnds(t *testing.T) {
	data := onePicture(t, color.White)
	head := media.LookAtPhoto(bytes.NewReader(data), int64(len(data)))
	var p patience
	if _, err := p.decode(data, &head); err != nil || p.over != 0 {
		t.Errorf("%v, %v over", err, p.over)
	}
	if _, err := decode(data, &head, time.Now().Add(-time.Second)); !errors.Is(err, errTooLong) {
		t.Errorf("too late: %v", err)
	}
}
