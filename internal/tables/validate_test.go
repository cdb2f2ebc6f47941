package tables

import (
	"errors"
	"fmt"
)

// A refuser checks the text of a whole table; every sheet is one.
type refuser interface {
	refuse(data []byte) error
	named() string
}

func (s *sheet[R]) named() string { return s.file }

func (s *sheet[R]) refuse(data []byte) error {
	_, err := s.read(data)
	return err
}

// Validate reads every table and reports every fault with its file and line: a blank
// source, an unknown grade, a key given twice, a table that falls where it must rise.
func Validate() error {
	var faults []error
	for _, s := range sheets {
		if _, err := s.table(); err != nil {
			faults = append(faults, err)
		}
	}
	return errors.Join(faults...)
}

// read checks data as if it were the table of that file name.
func read(name string, data []byte) error {
	for _, s := range sheets {
		if r := s.(refuser); r.named() == name {
			return r.refuse(data)
		}
	}
	return fmt.Errorf("%s is not the name of a table", name)
}

func bulkDensity(material string) (BulkDensityRow, bool) {
	for _, b := range bulkSheet.all() {
		if b.Material == material {
			return b, true
		}
	}
	return BulkDensityRow{}, false
}
