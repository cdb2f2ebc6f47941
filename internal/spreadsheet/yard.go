package spreadsheet

import (
	"errors"
	"fmt"
	"path/filepath"

	"tarepage/internal/amend"
	"tarepage/internal/files"
	"tarepage/internal/unit"
)

// ReadFile reads a sheet from a file.
func ReadFile(name string) (*Table, error) {
	data, err := files.ReadUpTo(name, MaxBytes)
	if err != nil {
		return nil, fmt.Errorf("sheet %w", err)
	}
	if len(data) > MaxBytes {
		return nil, fmt.Errorf("sheet %q has more than %d MB; save it without pictures", name, MaxBytes>>20)
	}
	return Read(filepath.Base(name), data)
}

// keptFile is where a yard keeps which column is which key.
func keptFile(from string, models bool) string {
	if models {
		return filepath.Join(from, "content", ModelsKeptName)
	}
	return filepath.Join(from, "content", KeptName)
}

// For is what a sheet means to the yard in a folder, with the columns as the yard keeps them.
// Models says that the sheet is a maker's.
func For(from string, table *Table, yard *unit.Stock, models bool) (Plan, error) {
	file := keptFile(from, models)
	text, err := readKept(from, file)
	if err != nil {
		return Plan{}, err
	}
	var kept map[string]string
	if text != nil {
		if kept, err = ParseKept(filepath.Base(file), text); err != nil {
			return Plan{}, err
		}
	}
	past, err := pastOf(from)
	if err != nil {
		return Plan{}, err
	}
	read := Make
	if models {
		read = Models
	}
	p := read(table, Match(table.Header, kept), yard, past)
	p.kept = kept
	return p, nil
}

// readKept reads a file of the yard, and not one elsewhere that a link leads to; nil if there is
// none.
func readKept(from, file string) ([]byte, error) {
	if err := files.NoLinks(from, file); err != nil {
		return nil, err
	}
	return files.Read(file)
}

// pastOf reads what earlier sheets said to a yard.
func pastOf(from string) (Past, error) {
	text, err := readKept(from, filepath.Join(from, "content", PastName))
	if err != nil || text == nil {
		return nil, err
	}
	return ParsePast(text)
}

// Write writes the new files, the edits and the columns into the yard's folder. Nothing is
// written if a new file cannot be, or if an edit does not fit its file. What an edited file was
// before is kept next to content/.
func (p *Plan) Write(from string) error {
	if err := p.inPlace(from); err != nil {
		return err
	}
	changed, before := map[string][]byte{}, map[string][]byte{}
	var order []string
	for _, e := range p.Edits {
		name := filepath.Join(from, filepath.FromSlash(e.File))
		if before[name] == nil {
			text, err := files.Read(name)
			if err != nil {
				return err
			}
			before[name], changed[name] = text, text
			order = append(order, name)
		}
		text, err := amend.Apply(changed[name], []amend.Change{e.Change})
		if err != nil {
			return fmt.Errorf("%s: %w", e.File, err)
		}
		changed[name] = text
	}
	var written []string
	for _, n := range p.New {
		name := filepath.Join(from, filepath.FromSlash(n.File))
		if err := files.WriteNew(name, n.Text); err != nil {
			return errors.Join(err, files.Remove(written))
		}
		written = append(written, name)
	}
	for _, name := range order {
		if err := files.ReplaceKeeping(from, name, before[name], changed[name]); err != nil {
			return err
		}
	}
	if err := files.Replace(keptFile(from, p.Models), keepColumns(p.Columns, p.kept)); err != nil || p.Models {
		return err
	}
	past, err := p.remember().Bytes()
	if err != nil {
		return err
	}
	return files.Replace(filepath.Join(from, "content", PastName), past)
}

// inPlace refuses to write where a link leads out of the yard.
func (p *Plan) inPlace(from string) error {
	names := []string{keptFile(from, p.Models), filepath.Join(from, "content", PastName)}
	for _, e := range p.Edits {
		names = append(names, filepath.Join(from, filepath.FromSlash(e.File)))
	}
	for _, n := range p.New {
		names = append(names, filepath.Join(from, filepath.FromSlash(n.File)))
	}
	for _, name := range names {
		if err := files.NoLinks(from, name); err != nil {
			return err
		}
	}
	return nil
}
