package stockfile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/orderedjson"
	"tarepage/internal/unit"
)

type head struct {
	Form     string    `json:"form"`
	Schema   string    `json:"schema"`
	AsOf     string    `json:"as-of"`
	Excludes string    `json:"price-excludes,omitempty"`
	Governs  string    `json:"governs"`
	Yard     yardCard  `json:"yard"`
	Figures  []meaning `json:"figures"`
}

type yardCard struct {
	Name    string `json:"name"`
	Address string `json:"address,omitempty"`
	Phone   string `json:"phone,omitempty"`
	Email   string `json:"email,omitempty"`
	Street  string `json:"street,omitempty"`
	Town    string `json:"town,omitempty"`
}

// meaning explains a figure, once for all trailers.
type meaning struct {
	Name   string `json:"name"`
	Label  string `json:"label"`
	Unit   string `json:"unit"`
	What   string `json:"what"`
	Source string `json:"source"`
}

type row struct {
	Stock        string            `json:"stock"`
	Page         string            `json:"page"`
	URL          string            `json:"url,omitempty"`
	Title        string            `json:"title"`
	Kind         string            `json:"kind"`
	Make         string            `json:"make,omitempty"`
	Year         int               `json:"year,omitempty"`
	Serial       string            `json:"serial,omitempty"`
	Condition    string            `json:"condition"`
	Color        string            `json:"color,omitempty"`
	Availability string            `json:"availability"`
	AvailSince   string            `json:"availability-since,omitempty"`
	Arrived      string            `json:"arrived,omitempty"`
	Changed      string            `json:"changed,omitempty"`
	Price        *amount           `json:"price,omitempty"`
	Stated       ordered[stated]   `json:"stated"`
	Figures      ordered[computed] `json:"figures"`
	Cautions     []string          `json:"cautions,omitempty"`
}

type amount struct {
	Amount   json.Number `json:"amount"`
	Currency string      `json:"currency"`
	Since    string      `json:"since,omitempty"`
	About    bool        `json:"about,omitempty"`
}

// stated is a value as the trailer's file states it. Text is the author's own writing,
// where it is not the number and the unit.
type stated struct {
	Value any    `json:"value"`
	Unit  string `json:"unit,omitempty"`
	Text  string `json:"text,omitempty"`
	From  string `json:"from,omitempty"`
	About bool   `json:"about,omitempty"`
	// Proof says that a photo proves the value, and what it shows.
	Proof string `json:"proof,omitempty"`
}

// computed is a figure, rounded as its page prints it.
type computed struct {
	Value   json.Number `json:"value"`
	Unit    string      `json:"unit"`
	From    string      `json:"from"`
	Working string      `json:"working"`
	About   bool        `json:"about,omitempty"`
}

// ordered is an object that keeps the order of its keys.
type ordered[T any] []entry[T]

type entry[T any] struct {
	key   string
	value T
}

func (o ordered[T]) MarshalJSON() ([]byte, error) {
	return orderedjson.Object(func(yield func(string, T) bool) {
		for _, e := range o {
			if !yield(e.key, e.value) {
				return
			}
		}
	})
}

// governs is at the top, because a program may pass the numbers on to somebody who loads.
var governs = strings.Join(compute.Safety, " ")

// begin is the part of stock.json before the trailers; closing is the part after them.
func begin(y *unit.Yard) ([]byte, error) {
	h := head{
		Form: version, Schema: SchemaPath, AsOf: y.AsOf.Value.String(), Excludes: y.Excludes.Value, Governs: governs,
		Yard: yardCard{y.Name.Value, y.Site(), y.Phone.Value, y.Email.Value, y.Street.Value, y.Town.Value},
	}
	for _, d := range definitions() {
		h.Figures = append(h.Figures, meaning{d.Name, d.Label, d.Unit, d.What, d.Source})
	}
	top, err := json.MarshalIndent(h, "", " ")
	if err != nil {
		return nil, fmt.Errorf("stock.json: %w", err)
	}
	return append(bytes.TrimSuffix(top, []byte("\n}")), ",\n \"units\": ["...), nil
}

const closing = "\n ]\n}\n"

func dated(d unit.Day) string {
	if !d.Known() {
		return ""
	}
	return d.String()
}

func rowOf(l *Unit) row {
	u := l.Work.Unit
	r := row{
		Stock: u.Stock.Value, Page: l.Page, URL: l.Address, Title: u.Title.Value, Kind: u.Kind.Value, Make: u.Make.Value,
		Year: u.Year.Value, Serial: u.Serial.Value, Condition: u.Condition.Value, Color: u.Color.Value,
		Availability: u.Availability.Value, AvailSince: dated(u.Availability.Since()),
		Arrived: dated(u.Arrived.Value), Changed: dated(u.Changed()), Cautions: l.Cautions,
		Price: amountOf(u),
	}
	for _, g := range u.Givens() {
		if shown(g.Path) && (priced(u) || !strings.HasPrefix(g.Path, "offer.")) {
			s := statedOf(g)
			if p := u.ProofOf(g.Path); p != nil {
				s.Proof = p.Photographed(g.From)
			}
			r.Stated = append(r.Stated, entry[stated]{g.Path, s})
		}
	}
	for _, name := range figures {
		if f := l.Work.Figure(name); f != nil {
			r.Figures = append(r.Figures, entry[computed]{name, computed{json.Number(rounded(f)), f.Unit, workedOut, f.Working(), f.About}})
		}
	}
	return r
}

// amountOf is the price that the trailer's page shows, nil for none.
func amountOf(u *unit.Unit) *amount {
	if !priced(u) {
		return nil
	}
	return &amount{json.Number(bare(float64(u.Price.Value))), "USD", dated(u.Price.Since()), u.Price.About}
}

// priced reports whether the trailer's page shows a price.
func priced(u *unit.Unit) bool {
	return u.Price.Given() && u.Price.Value > 0 && u.Availability.Value != "sold"
}

func statedOf(g unit.Given) stated {
	s := stated{Text: g.Text, From: g.From.String(), About: g.About}
	if n, ok := numberOf(g.Value); ok {
		s.Value, s.Unit = json.Number(bare(n.value)), n.unit
		return s
	}
	if yes, ok := g.Value.(bool); ok {
		s.Value, s.Text = yes, ""
		return s
	}
	s.Value, s.Text = g.Text, ""
	switch v := g.Value.(type) {
	case unit.Day:
		s.Value = v.String()
	case unit.Month:
		s.Value = v.String()
	}
	return s
}
