package spreadsheet

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
)

// What the XML of a workbook may look like. Excelize keeps each open element, and each attribute of one
// tag, in memory, so a file of some kilobytes can ask for gigabytes and minutes. A worksheet nests about
// ten elements deep, and a cell has at most 32,767 letters.
const (
	maxDepth = 64
	maxMarks = 10_000_000 // tags and texts of all parts
	maxRun   = 4 << 20    // bytes from one tag to the next, so of one tag and its text
)

var errRun = errors.New("a tag or a text in it is too long")

// shapely reads the parts of a packed workbook once, with little memory, and tells of XML that is of a
// shape that no program for sheets writes. What is not a packed file, and a part that is not XML, is left
// to excelize, which reads with the same decoder and stops at the same place. All parts together are read
// up to most bytes.
func shapely(data []byte, most int64) error {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil
	}
	left, marks := most, 0
	for _, part := range z.File {
		if strings.HasSuffix(part.Name, "/") {
			continue
		}
		in, err := part.Open()
		if err != nil {
			continue
		}
		bounded := &io.LimitedReader{R: in, N: left}
		err = shape(bounded, &marks)
		left = bounded.N
		if err := errors.Join(err, in.Close()); err != nil && !errors.Is(err, zip.ErrChecksum) {
			return fmt.Errorf("its part %q: %w; open it in the program that made it, copy the columns that you need into a new sheet, and save that", part.Name, err)
		}
	}
	return nil
}

// shape reads one part, up to the first thing in it that is not XML.
func shape(part io.Reader, marks *int) error {
	d := xml.NewDecoder(&runs{in: part})
	d.CharsetReader = func(name string, _ io.Reader) (io.Reader, error) {
		return nil, fmt.Errorf("%w: %q", errCharset, name)
	}
	depth := 0
	for {
		// A raw token is read without the stack of open elements.
		t, err := d.RawToken()
		switch {
		case errors.Is(err, errRun), errors.Is(err, errCharset):
			return err
		case err != nil:
			return nil
		}
		switch t.(type) {
		case xml.StartElement:
			if depth++; depth > maxDepth {
				return fmt.Errorf("its elements are nested more than %d deep", maxDepth)
			}
		case xml.EndElement:
			depth--
		}
		if *marks++; *marks > maxMarks {
			return fmt.Errorf("it has more than %d tags and texts", maxMarks)
		}
	}
}

var errCharset = errors.New("it is not written in UTF-8 but in")

// A runs reads bytes, and fails where too many come between the beginnings of two tags. What comes before
// the first one is not counted: a picture has none.
type runs struct {
	in  io.Reader
	tag bool
	now int
}

func (r *runs) Read(p []byte) (int, error) {
	n, err := r.in.Read(p)
	first := bytes.IndexByte(p[:n], '<')
	if first < 0 {
		first = n
	}
	if r.tag {
		r.now += first
	}
	if r.now > maxRun {
		return 0, errRun
	}
	if first < n {
		r.tag, r.now = true, n-bytes.LastIndexByte(p[:n], '<')
	}
	return n, err
}
