// Package pagedata writes the data that the scripts of pages load: every trailer of the
// stock in columns, the words to search in them, the chips to choose by, and the numbers
// that the calculators start from. It computes no figure: every number was stated or
// worked out before.
//
// The data are classic scripts that set a variable or call a function. A page that was
// opened from a folder on disk may load those and nothing else: browsers refuse fetch and
// modules there.
package pagedata

import (
	"encoding/json"

	"tarepage/internal/compute"
	"tarepage/internal/phrases"
	"tarepage/internal/unit"
)

// A Trailer is one published trailer.
type Trailer struct {
	*unit.Unit
	Work     *compute.Work
	Cautions int              // how many of its cautions are a fault or a danger
	Warnings []string         // the same in words
	Photo    string           // its first photo, small; empty for none
	Name     string           // what pages call it
	Lang     phrases.Language // the language of its texts
}

// Attribute is data for a script as the text of an attribute.
func Attribute(data any) (string, error) {
	text, err := json.Marshal(data)
	return string(text), err
}

// variable is a script that sets a variable.
func variable(name string, data any) ([]byte, error) {
	text, err := json.Marshal(data)
	if err != nil {
		return nil, err
	}
	return append(append([]byte("var "+name+"="), text...), ";\n"...), nil
}
