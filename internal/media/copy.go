package media

import (
	"cmp"
	"fmt"
	"io"
	"slices"
)

// A Copy is the file that is published in place of a video. It holds the pictures and the
// sound of the original, byte for byte, and tables that were written new. It is never in
// memory as a whole: it is a list of pieces, some of them places in the original.
//
// A Copy reads the original for as long as it is used. It is safe for concurrent use if the
// original is.
type Copy struct {
	from   io.ReaderAt
	pieces []piece
	size   int64
}

// A piece is a run of bytes of the copy: data, or n bytes of the original.
type piece struct {
	start int64 // the place in the copy
	n     int64
	at    int64 // the place in the original, if data is nil
	data  []byte
}

// Size is the number of bytes of the copy.
func (c *Copy) Size() int64 { return c.size }

// Of is the copy of the same original, read from another open file.
func (c *Copy) Of(from io.ReaderAt) *Copy { return &Copy{from: from, pieces: c.pieces, size: c.size} }

// Reader reads the copy from its beginning.
func (c *Copy) Reader() *io.SectionReader { return io.NewSectionReader(c, 0, c.size) }

// ReadAt implements io.ReaderAt.
func (c *Copy) ReadAt(p []byte, off int64) (n int, err error) {
	if off < 0 {
		return 0, fmt.Errorf("a copy of a video has no byte %d", off)
	}
	i, found := slices.BinarySearchFunc(c.pieces, off, func(p piece, off int64) int { return cmp.Compare(p.start, off) })
	if !found {
		i--
	}
	for ; n < len(p) && off < c.size; i++ {
		part := c.pieces[i]
		skip := off - part.start
		want := p[n:min(int64(len(p)), int64(n)+part.n-skip)]
		if part.data != nil {
			copy(want, part.data[skip:])
		} else if got, err := c.from.ReadAt(want, part.at+skip); got < len(want) {
			// The original has become shorter since it was planned.
			if err == nil || err == io.EOF {
				err = io.ErrUnexpectedEOF
			}
			return n + got, err
		}
		n, off = n+len(want), off+int64(len(want))
	}
	if n < len(p) {
		return n, io.EOF
	}
	return n, nil
}

// write adds bytes that were made new.
func (c *Copy) write(data []byte) {
	if len(data) == 0 {
		return
	}
	c.pieces = append(c.pieces, piece{start: c.size, n: int64(len(data)), data: data})
	c.size += int64(len(data))
}

// take adds bytes of the original. Runs that follow each other become one piece.
func (c *Copy) take(at, n int64) {
	if n == 0 {
		return
	}
	if last := len(c.pieces) - 1; last >= 0 && c.pieces[last].data == nil && c.pieces[last].at+c.pieces[last].n == at {
		c.pieces[last].n += n
	} else {
		c.pieces = append(c.pieces, piece{start: c.size, n: n, at: at})
	}
	c.size += n
}

// splice adds the pieces of another copy of the same original.
func (c *Copy) splice(o *Copy) {
	for _, p := range o.pieces {
		if p.data != nil {
			c.write(p.data)
		} else {
			c.take(p.at, p.n)
		}
	}
}

// Bare plans the copy of a video of size bytes that may be published. The error says in
// words why there is none: the file is damaged, or it holds something that cannot be
// looked through. Bare reads all that is published, once.
func Bare(r io.ReaderAt, size int64) (*Copy, error) {
	c, err := bare(&file{r: r, size: size})
	if err != nil {
		return nil, err
	}
	if err := c.hidden(); err != nil {
		return nil, err
	}
	return c, nil
}

func bare(f *file) (*Copy, error) {
	switch kind := videoKind(f); kind {
	case "MP4", "QuickTime":
		return bareMP4(f, kind == "QuickTime")
	case "WebM":
		return bareWebM(f)
	case "":
		return nil, fmt.Errorf("it is not a video; MP4, QuickTime and WebM are")
	default:
		return nil, fmt.Errorf("it is a file in the form of %s; MP4, QuickTime and WebM can be published", kind)
	}
}

// Limits on the work for one video. They are far above what a camera writes in a day, and
// keep a file that was made to do harm from holding up the build.
const (
	maxSamples = 1 << 21 // pictures and pieces of sound: 9 hours at 60 a second
	maxUnits   = 1 << 21 // parts of pictures whose heads are read
	maxTable   = 1 << 26 // bytes of one table of the index
)
