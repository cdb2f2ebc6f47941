package inspect

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

// TestPromises: the ways in which words promise a load, and those in which they tell of something
// else. The sentences are invented.
func TestPromises(t *testing.T) {
	for text, want := range map[string]string{
		"payload is 99,999 lb": "99999", "payload is 99,999\u00a0lb": "99999", "payload is 99,999&nbsp;lb": "99999", "payload is 9&#57;,999 lb": "99999",
		"payload is 50 tons": "100000", "payload: 45,000 kg": "99208", "payload is 99k": "99000", "Its payload is up to about 9,000 pounds.": "9000",
		"It hauls 99,999 lb.": "99999", "carries up to 99,999 lb": "99999", "capacity 99,999 lb": "99999", "99,999# payload": "99999",
		"a 10-ton payload": "20000", "payload of twelve thousand five hundred pounds": "12500", "hauls fifty tons": "100000", "carries ten and a half tons": "21000",
		"takes a 12,000 lb skid steer": "12000", "good for 9,000 lb": "9000", "Payload 5.000 kg": "11023", "payload 2½ tons": "5000", "5 metric tons of payload": "11023",
		"Takes a full 5,001 lb of payload, no problem.": "5001", "PAYLOAD IS ９９，９９９ LB": "99999", "pay\u00adload is 9,000 lb": "9000", "a load capacity of 9,000 lb": "9000",
		"ten thousand lb capacity": "10000", "payload is one hundred thousand lb": "100000", "payload 8k lb and it carries 9k lb": "8000 9000",
		"Payload over 9,000 lb": "9000", "payload twelve grand": "12000",

		// Tons without a number in front, and marks among the digits.
		"Carries a ton and a half.": "3000", "hauls two tons and a half": "5000", "It hauls a full ton.": "2000", "payload is a ton-and-a-half": "3000", "it takes 2 tons and a half": "5000",
		"lleva una tonelada y media": "3307", "carga dos toneladas y media": "5512", "It carries a couple of tons": "4000", "It carries **4,**000 lb.": "4000", "It carries 4,*000* lb": "4000", "It carries 4`,000` lb": "4000",
		"a ton and a half of room": "", "It is a ton of fun and it holds": "",

		// A refusal that refuses something else, or nothing.
		"Not only does it haul 50 tons": "100000", "No problem, it hauls 50 tons": "100000", "Don't worry, it hauls 50 tons": "100000", "It hauls no less than 50 tons": "100000",
		"It carries not less than 50 tons": "100000", "It won't hesitate to haul 50 tons": "100000", "It has no trouble hauling 50 tons": "100000",
		"Never fails to carry 50 tons": "100000", "It is not new but it hauls 50 tons": "100000", "If you ask me, it hauls 50 tons": "100000",
		"When others quit it hauls 50 tons": "100000", "There is no rust (it hauls 50 tons)": "100000", "No rust on this one and it hauls 50 tons": "100000",
		"It is not just a trailer to haul 50 tons": "100000", "Without a doubt it takes 50 tons": "100000",
		"It doesn't carry 50 tons": "", "It doesn’t carry 50 tons": "", "It cannot safely carry 50 tons": "", "Never haul more than 9,000 lb": "", "If it hauls 9,000 lb, the tires get hot": "",
		"carries less than 9,000 lb": "", "It is not made to haul 9,000 lb": "", "It carries cars, not 9,000 lb": "", "If you haul 9,000 lb, take the next size": "",

		"The ramps hold 9,000 lb.": "", "a winch with 12,000 lb capacity": "", "jack, 7,000 lb capacity": "", "the price of the payload is $9,000": "",
		"it carries its 14,000 lb GVWR well": "", "Do not haul 10,000 lb on it": "", "payload is gvwr less 2,000 lb": "", "14,000 lb GVWR dump": "", "it holds 200 gallons": "",
		"the deck holds 9,000 lb on a square foot": "", "three axles of 7,000 lb": "", "your truck hauls 12,000 lb": "", "good trailer, 9,000 lb gross": "",
		"payload\n\n9,000 lb is its GVWR": "", "payload\n": "", "9\n \n": "", "and a half": "", "": "", "payload is a hundred and a half and": "",
		"payload. 9,000 lb is its GVWR": "", "empty it is 9,000 lb": "", "payload sheet, page 12": "", "load it by 9 and haul 2 loads": "", "it takes 8 tires": "",
	} {
		var got []string
		for _, p := range promises(text) {
			if p.bare {
				continue
			}
			got = append(got, fmt.Sprintf("%.0f", float64(p.load)))
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%q: %q; want %q", text, got, want)
		}
	}
}

// TestLooseWeights: weights of which nothing says what they are of, and words that no pattern of
// a promise knows. The sentences are invented; most got through once.
func TestLooseWeights(t *testing.T) {
	for text, want := range map[string]string{
		// What a load weighs is not what the trailer takes.
		"Seven yards of wet dirt weigh 21,000 lb.": "", "Seven yards of wet dirt is twenty one thousand pounds, so fill it to the line.": "",
		"Wet sand weighs about 21,000 lb.": "", "If you load it, four yards of gravel are 12,000 lb.": "",
		"Gravel is no problem, 21,000 lb.": "21000", "21,000 lb of wet dirt.": "21000", "It hauls dirt that is 21,000 lb.": "21000", "The payload in gravel is 21,000 lb.": "21000",
		"With dirt it weighs 21,000 lb.": "21000",
		"Rated for 9,000 lb.":            "9000", "Put 9,000 lb on it and go.": "9000", "Loads of 9,000 lb ride well.": "9000", "9K capacity.": "9000", "It carries 4 1/2 tons.": "9000",
		"It carries 4-1/2 tons.": "9000", "It carries 9 000 lb.": "9000", "It carries 9'000 lb.": "9000", "It carries 9’000 lb.": "9000", "It carries 90 cwt.": "9000", "It carries 4 long tons.": "8960",
		"It carries a 4.5t digger.": "9921", "Capacidad de carga: 9,000 libras": "9000", "nueve mil libras de carga": "9000", "P\u0430yload: 9,000 lb": "9000", "\u0440\u0430\u0443l\u043e\u0430d 9,000 lb": "9000", "páyloád 9,000 lb": "9000",
		"Five thousand pounds it does not carry; nine thousand it does.": "5000 9000", "What does it carry? 9,000 lb.": "9000", "No problem with 9,000 lb of payload.": "9000", "Max load: 9,000 lb": "9000",
		"The ramps are steel and the trailer carries 9,000 lb.": "9000", "Pulls straight, carries 9,000 lb.": "9000", "the deck carries 9,000 lb": "9000", "It carries 9,000 lb each trip": "9000", "9,OOO lb": "9000", "a 14K": "14000",
		"hauls 9000 all day": "9000",

		"a 9,000 lb winch": "", "D-rings of 6,000 lb each": "", "1,500 lb per square foot": "", "12k miles": "", "asking 9k for it": "", "built in 2019 and it carries a lot": "",
		"serial 4YFA35T2X": "", "8 t-posts": "", "The next size up is rated 14,000 lb": "", "LT tires rated 3,640 lb": "", "loads in 2,000 yards": "", "do not put 9,000 lb on it": "",
	} {
		var got []string
		for _, p := range promises(text) {
			got = append(got, fmt.Sprintf("%.0f", float64(p.load)))
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%q: %q; want %q", text, got, want)
		}
	}
}

// TestPromisesInEndlessWords: a text of one endless sentence is read in a time that grows with its
// length. 64 KB took 28 s, and as long again where each load was held against all the words.
func TestPromisesInEndlessWords(t *testing.T) {
	for _, word := range []string{"9 ", "9 lb ", "nine ", "carries ", "payload 9,000 lb ", "not 9,000 lb ", "9 1/2 ", "9 000 ", "and ", "9k, ", "$6,480 "} {
		read := func(size int) time.Duration {
			start := time.Now()
			text := strings.Repeat(word, size/len(word))
			promises(text)
			promisingIn(text).leastAllowed()
			amountsIn(text)
			return time.Since(start)
		}
		// A busy machine is not a fault: four times the text may take eight times as long, and 12 s anyway.
		if took := read(64 << 10); took > 12*time.Second {
			if part := read(16 << 10); took > 8*part {
				t.Errorf("64 KB of %q take %s, 16 KB %s", word, took, part)
			}
		}
	}
}

// TestTonWords holds each row against its own example: it writes the weight in numbers.
func TestTonWords(t *testing.T) {
	for _, row := range tonWords {
		if !row.form.MatchString(row.eg) {
			t.Errorf("the example %q does not fit its row", row.eg)
		}
		if !strings.Contains(row.eg, "ton") || !strings.Contains(row.form.String(), "ton") {
			t.Errorf("the row of %q has no word with ton in it, and texts without one are not rewritten", row.eg)
		}
	}
}
