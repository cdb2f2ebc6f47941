package walkpage

import "fmt"

// What one session of the showroom takes from phones. A phone has the key, so these are not
// for customers; they keep a broken or stolen phone from filling the disk and the pages.
const (
	// mostUnitNotes and mostNotes are how many notes one unit and all units may get. A note has
	// at most 1,000 characters, and a person writes one or two at a trailer.
	mostUnitNotes = 20
	mostNotes     = 2000
	// mostUnitPhotos is how many photos one unit may get, and mostPhotoBytes how many bytes
	// those of all units may have together: 2,000 photos of 4 MB.
	mostUnitPhotos = 100
	mostPhotoBytes = int64(8 << 30)
)

// A quota is what one session took so far.
type quota struct {
	notes, photos map[string]int // by the name of the unit
	allNotes      int
	photoBytes    int64
}

// note says why a unit gets no further note.
func (q *quota) note(name string) error {
	switch {
	case q.notes[name] >= mostUnitNotes:
		return fmt.Errorf("this trailer got %d notes since the showroom was started, which is the limit; write more at the desk", mostUnitNotes)
	case q.allNotes >= mostNotes:
		return fmt.Errorf("the showroom took %d notes since it was started, which is the limit; start it again at the desk", mostNotes)
	}
	return nil
}

func (q *quota) tookNote(name string) {
	if q.notes == nil {
		q.notes = map[string]int{}
	}
	q.notes[name]++
	q.allNotes++
}

// photo says why a unit gets no further photo of so many bytes.
func (q *quota) photo(name string, bytes int64) error {
	switch {
	case q.photos[name] >= mostUnitPhotos:
		return fmt.Errorf("this trailer got %d photos since the showroom was started, which is the limit; add more at the desk", mostUnitPhotos)
	case q.photoBytes+bytes > mostPhotoBytes:
		return fmt.Errorf("the showroom took %d GB of photos since it was started, which is the limit; start it again at the desk", mostPhotoBytes>>30)
	}
	return nil
}

func (q *quota) tookPhoto(name string, bytes int64) {
	if q.photos == nil {
		q.photos = map[string]int{}
	}
	q.photos[name]++
	q.photoBytes += bytes
}
