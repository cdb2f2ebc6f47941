package main

import (
	"bytes"
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

	"tarepage/internal/unit"
)

// papers are the photos that prove values, by the end of the file's name: what the label or the
// ticket says, a line each. The words are those that a label has by 49 CFR 567.4(g).
var papers = map[string]func(u *unit.Unit) []string{
	"label": func(u *unit.Unit) []string {
		return []string{
			"MFD BY: " + strings.ToUpper(u.Make.Value) + "   " + u.Year.Words(),
			"GVWR: " + strings.ToUpper(u.Weights.GVWR.Words()),
			"GAWR EACH AXLE: " + strings.ToUpper(u.Axles.Rating.Words()),
			"TIRES: " + u.Tires.Size.Value + "   LOAD RANGE " + u.Tires.LoadRange.Value,
			"COLD INFLATION PRESSURE: " + strings.ToUpper(u.Tires.Pressure.Words()),
			"THIS VEHICLE CONFORMS TO ALL APPLICABLE",
			"FEDERAL MOTOR VEHICLE SAFETY STANDARDS IN",
			"EFFECT ON THE DATE OF MANUFACTURE SHOWN ABOVE",
			"VIN: " + u.Serial.Value,
			"TYPE: TRAILER",
		}
	},
	"ticket": func(u *unit.Unit) []string {
		return []string{
			"CERTIFIED SCALE   TICKET " + strings.ReplaceAll(u.Weights.Empty.From.Date(), "-", "")[2:],
			u.Weights.Empty.From.Date(),
			"TRAILER ALONE, EMPTY",
			"NET  " + u.Weights.Empty.Words(),
			"",
			"JACK ON THE SCALE",
			"NET  " + u.Weights.TongueEmpty.Words(),
		}
	},
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
