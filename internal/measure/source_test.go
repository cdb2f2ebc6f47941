package measure_test

import (
	"testing"

	"tarepage/internal/measure"
)

// TestSources: what a note in the author's own words is. The notes are invented.
func TestSources(t *testing.T) {
	for note, want := range map[string]measure.Origin{
		"the driver said 0:40": measure.Said, "told at 0:40": measure.Said, "said0:40": measure.Said, "tag; said 0:40": measure.Said,
		"TOLD by the office": measure.Said, "the driver": measure.Said, "according to the ad": measure.Said, "he read the tag": measure.Said,
		"el chofer": measure.Said, "plate, the driver's": measure.Other, "owner's manual": measure.Other,
		"guess": measure.Estimate, "a guess off the tag": measure.Estimate, "tag, I think": measure.Estimate, "tag?": measure.Estimate,
		"from memory": measure.Estimate, "est.": measure.Estimate, "test sheet": measure.Other,
		"the tag": measure.Other, "label says so": measure.Other, "plate": measure.Other,
	} {
		if got := measure.ParseProvenance(note); got.Origin != want || got.Text != note {
			t.Errorf("%q: %d %q; want %d", note, got.Origin, got.Text, want)
		}
	}
	for note, want := range map[string]bool{
		"tag": true, "scale ticket 2026-11-03": true, "tape": true, "from the model": true, "maker’s sheet": true,
		"plate": true, "the tag": true, "kingpin plate": true, "lunette ring, stamp": true, "plate under the paint": true, "Sticker in the door": true,
		"stamped": true, "scale": true, "the maker's brochure": true, "la placa": true, "owner's manual": true,
		"": false, "said 1:42": false, "guess": false, "estimate": false, "since 2026-11-03": false, "the driver": false,
		"Bob": false, "online": false, "another one like it": false, "stagecoach": false,
		"my neighbor's cousin's plate": false, "Ramon says on the tag": false, "AI model": false, "spec on the internet": false, "tag of the trailer next to it": false,
		"tag, I reckon": false, "from the ball park": false, "the frame feels strong": false, "photo of a similar trailer with a tag": false, "scale ticket of the sister trailer": false,
		"no tag": false, "tag missing": false, "not on the label": false, "without a plate": false, "sin placa": false,
		// Labels of something else, and of the trailer in other words.
		"price tag": false, "truck tag": false, "tag of SB-1004": false, "sale tag": false, "license plate": false, "license tag": false, "the tag of the truck": false,
		"tow vehicle tag": false, "old tag": false, "label maker": false, "shipping label": false, "hang tag": false, "name plate of the winch": false, "dealer's sticker": false,
		"tag on the truck": false, "tag off my old one": false, "bumper sticker": false, "placa de la camioneta": false, "etiqueta de precio": false,
		"VIN tag": true, "the maker's label": true, "tag on the tongue": true, "certification label on the left side": true, "data plate": true, "tag of the trailer": true,
		"silver tag by the neck": true, "GVWR label": true, "tag and plate": true, "truck scale ticket": true, "placa del remolque": true,
		"tаg": false, "tag, ѕаіԁ 0:40": false, "tag sa\u0323id": false, "ｔａｇ": false, "𝐭𝐚𝐠": false,
	} {
		if got := measure.ParseProvenance(note).NamesPlace(); got != want {
			t.Errorf("%q: %v", note, got)
		}
	}
	for text, want := range map[string]string{
		"sаid 0:40": "sаid", "the tаg": "tаg", "tag": "", "calcomanía de la báscula": "", "бирка": "", "tag бирка": "", "sa\u0323id": "sa\u0323id", "5 µm": "", "½ in": "",
	} {
		if got := measure.LookAlike(text); got != want {
			t.Errorf("%q: %q", text, got)
		}
	}
}

// TestAxleTagIsNoLabel: the tag of an axle, in any number, tells of the axle and not of the trailer.
// 49 CFR 567.4(g): the certification label is the trailer's.
func TestAxleTagIsNoLabel(t *testing.T) {
	for note, want := range map[string]measure.Place{
		"axle tag": measure.OnAxle, "axle tags": measure.OnAxle, "tags on the axles": measure.OnAxle, "plate on the kingpin": measure.OnHitch | measure.OnLabel,
		"coupler tag": measure.OnHitch, "tire placard": measure.OnTire, "wheel label": measure.OnWheel, "the tag": measure.OnLabel,
	} {
		if got := measure.ParseProvenance(note).Places(); got != want {
			t.Errorf("%q: %b; want %b", note, got, want)
		}
	}
}
