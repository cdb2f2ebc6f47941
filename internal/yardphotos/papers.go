package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"strings"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"tarepage/internal/measure"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

// papers are the photos that prove values, by the end of the file's name: what the label or the
// ticket says, a line each. A label has the words of 49 CFR 567.4(g) and, after each GAWR, the
// tires, rims and cold pressure of 571.110 S4.3.3 or 571.120 S5.3. Of the rims a unit states
// only the diameter, in its tire size. The makers are invented, so no VIN begins with a code
// that a real one has.
var papers = map[string]func(u *unit.Unit) []string{
	"label": labelLines,
	"ticket": func(u *unit.Unit) []string {
		return []string{
			"CERTIFIED SCALE   TICKET " + strings.ReplaceAll(u.Weights.Empty.From.Date(), "-", "")[2:],
			u.Weights.Empty.From.Date(),
			"TRAILER " + u.Stock.Value + " ALONE, EMPTY",
			"NET  " + u.Weights.Empty.Words(),
			"",
			"JACK ON THE SCALE",
			"NET  " + u.Weights.TongueEmpty.Words(),
		}
	},
}

func labelLines(u *unit.Unit) []string {
	made := u.Year.Words()
	if u.Built.Given() {
		made = fmt.Sprintf("%02d/%d", u.Built.Value.Month, u.Built.Value.Year)
	}
	both := func(w unit.Weight) string {
		return strings.ToUpper(w.Value.InKilograms().Limit() + " (" + w.Value.Limit() + ")")
	}
	tires := fmt.Sprintf("WITH %s(%s) TIRES", u.Tires.Size.Value, u.Tires.LoadRange.Value)
	if size, err := tables.ParseTireSize(u.Tires.Size.Value); err == nil {
		tires += fmt.Sprintf(", %.0f IN RIMS", float64(size.Rim))
	}
	pressure := u.Tires.Pressure.Value
	cold := fmt.Sprintf("AT %.0f KPA (%s) COLD", measure.Down(pressure.Kilopascals(), 5), strings.ToUpper(pressure.Near()))
	if u.Tires.PerAxle.Value == 4 {
		cold += ", DUAL"
	}
	return []string{
		"MFD BY: " + strings.ToUpper(u.Make.Value) + "   " + made,
		"GVWR: " + both(u.Weights.GVWR),
		"GAWR, ALL AXLES: " + both(u.Axles.Rating),
		tires,
		cold,
		"THIS VEHICLE CONFORMS TO ALL APPLICABLE",
		"FEDERAL MOTOR VEHICLE SAFETY STANDARDS IN",
		"EFFECT ON THE DATE OF MANUFACTURE SHOWN ABOVE",
		"VIN: " + u.Serial.Value,
		"TYPE: TRAILER",
	}
}

// paperPhoto is a finished JPEG file of a label or a ticket.
func paperPhoto(u *unit.Unit, what string) ([]byte, error) {
	const wide, high = 1280, 860
	m := image.NewRGBA(image.Rect(0, 0, wide, high))
	draw.Draw(m, m.Bounds(), image.NewUniform(color.RGBA{0x3c, 0x40, 0x44, 0xff}), image.Point{}, draw.Src)
	sheet := image.Rect(70, 60, wide-70, high-60)
	draw.Draw(m, sheet, image.NewUniform(color.RGBA{0xf1, 0xee, 0xe4, 0xff}), image.Point{}, draw.Src)
	bold, err := lettering(gobold.TTF)
	if err != nil {
		return nil, err
	}
	plain, err := lettering(goregular.TTF)
	if err != nil {
		return nil, err
	}
	at := sheet.Min.Y + 80
	for i, line := range papers[what](u) {
		d := font.Drawer{Dst: m, Src: image.NewUniform(color.RGBA{0x1c, 0x1c, 0x20, 0xff}), Face: plain, Dot: fixed.P(sheet.Min.X+50, at)}
		if i < 3 || strings.HasPrefix(line, "NET") || strings.HasPrefix(line, "VIN") {
			d.Face = bold
		}
		d.DrawString(line)
		at += 68
	}
	var b bytes.Buffer
	err = jpeg.Encode(&b, m, &jpeg.Options{Quality: 78})
	return b.Bytes(), err
}

// lettering is a typeface at the size of the letters on a paper.
func lettering(data []byte) (font.Face, error) {
	f, err := opentype.Parse(data)
	if err != nil {
		return nil, err
	}
	return opentype.NewFace(f, &opentype.FaceOptions{Size: 36, DPI: 72})
}
