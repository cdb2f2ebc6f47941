package testyard

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
)

// AsOf is the day on which the yard last walked its stock.
const AsOf = "2026-11-20"

// A File is one file of a yard. Its path begins in the folder that holds content/.
type File struct {
	Name string // content/units/pv-00001.md
	Data []byte
}

// Yard makes a yard of n units: content/yard.md, the models and the units, in the order
// of their paths. No unit has a stop.
func Yard(n int) []File {
	var out []File
	for _, m := range models {
		out = append(out, File{"content/models/" + m.name + ".md", []byte("---\n" + m.text + "---\n\nWhat the units of this model share.\n")})
	}
	for i := range n {
		out = append(out, File{UnitFile(i), Unit(i)})
	}
	return append(out, File{"content/yard.md", []byte(yard)})
}

// Write writes a yard of n units into a folder.
func Write(dir string, n int) error {
	for _, sub := range []string{"content/models", "content/units"} {
		if err := os.MkdirAll(filepath.Join(dir, filepath.FromSlash(sub)), 0o755); err != nil {
			return err
		}
	}
	for _, f := range Yard(n) {
		if err := os.WriteFile(filepath.Join(dir, filepath.FromSlash(f.Name)), f.Data, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// UnitFile is the path of unit i.
func UnitFile(i int) string { return fmt.Sprintf("content/units/pv-%05d.md", i) }

// Stock is the stock number of unit i.
func Stock(i int) string { return fmt.Sprintf("PV-%05d", i) }

// Page is the path of unit i's page in the site.
func Page(i int) string { return fmt.Sprintf("u/pv-%05d.html", i) }

// Unit is the file of unit i.
func Unit(i int) []byte {
	r := rand.New(rand.NewPCG(uint64(i), 0x7a5e))
	p := &patterns[i%len(patterns)]
	v := p.variants[r.IntN(len(p.variants))]
	color := pick(r, colors)
	year := 2025 + r.IntN(2)
	condition := "new"
	if p.used {
		condition, year = "used", 2016+r.IntN(8)
	}
	made := min(year, 2025)
	arrived := fmt.Sprintf("2026-%02d-%02d", 1+r.IntN(10), 1+r.IntN(27))
	weighed := arrived[:8] + fmt.Sprintf("%02d", 1+dayOf(arrived))
	availability := [...]string{"on the yard", "on the yard", "on the yard", "on the yard", "on the yard", "sold", "sold", "spoken for", "on order", "on the yard"}[r.IntN(10)]

	var b strings.Builder
	b.WriteString("---\n")
	line := func(key, value string) { fmt.Fprintf(&b, "%s: %s\n", key, value) }
	line("stock", Stock(i))
	title := v.title + ", " + pick(r, extras)
	line("title", title)
	if p.model != "" {
		line("model", p.model)
	} else {
		line("kind", p.kind)
		line("make", pick(r, makes))
		line("year", fmt.Sprint(year))
		line("serial", serial(i, year))
		line("condition", condition)
	}
	line("availability", availability)
	if availability != "sold" && r.IntN(40) > 0 {
		line("price", dollars(p.price+50*r.IntN(40)))
	}
	line("arrived", arrived)
	line("color", color)
	b.WriteString(v.text)
	fmt.Fprintf(&b, "weights:\n  gvwr: %s (tag)\n  empty: %s (scale ticket %s)\n  tongue-empty: %s (scale ticket %s)\n",
		pounds(v.gvwr), pounds(v.empty+10*r.IntN(7)), weighed, pounds(v.tongue+5*r.IntN(5)), weighed)
	b.WriteString(strings.ReplaceAll(p.rest, "MADE", fmt.Sprintf("week %d %d", 1+r.IntN(50), made)))
	if p.model == "" {
		equipment(&b, r)
	}
	seconds := 0
	if r.IntN(3) > 0 {
		seconds = 150 + r.IntN(300)
		fmt.Fprintf(&b, "recording:\n  length: %d:%02d\n", seconds/60, seconds%60)
	}
	b.WriteString("---\n\n")
	// Most notes are short and a few are long.
	part := r.Float64()
	talk(&b, r, 150+int(part*part*620), seconds)
	return []byte(b.String())
}

// equipment writes what is standard and what is an option, or leaves either out.
func equipment(b *strings.Builder, r *rand.Rand) {
	for _, list := range []struct {
		key   string
		items []string
	}{{"standard", standard}, {"options", options}} {
		if r.IntN(3) == 0 {
			continue
		}
		b.WriteString(list.key + ":\n")
		from := r.IntN(len(list.items) - 3)
		for _, item := range list.items[from : from+1+r.IntN(3)] {
			b.WriteString("  - " + item + "\n")
		}
	}
}

func dayOf(date string) int {
	var y, m, d int
	_, _ = fmt.Sscanf(date, "%d-%d-%d", &y, &m, &d)
	return d
}

func pick[T any](r *rand.Rand, list []T) T { return list[r.IntN(len(list))] }

// thousands writes a whole number with commas: 14,000.
func thousands(n int) string {
	if n < 1000 {
		return fmt.Sprint(n)
	}
	return thousands(n/1000) + fmt.Sprintf(",%03d", n%1000)
}

func pounds(n int) string  { return thousands(n) + " lb" }
func dollars(n int) string { return "$" + thousands(n) }

// serial is a VIN with a correct check digit (49 CFR 565.15(c), Tables III and IV) that no
// trailer can have. Its first character is 0, and ISO 3780 gives 0 to no part of the world, so
// that no maker can have the code 0J9 (from memory; the standard was not read for this). Every
// serial in the demo, the docs and the tests begins so.
func serial(i, year int) string {
	const digits = "0123456789"
	model := []byte("RP000")
	for at, n := 4, i/1000; at >= 2; at, n = at-1, n/10 {
		model[at] = digits[n%10]
	}
	vin := fmt.Sprintf("0J9%s0%cT644%03d", model, "GHJKLMNPRST"[year-2016], i%1000)
	values := map[rune]int{'J': 1, 'R': 9, 'P': 7, 'G': 7, 'H': 8, 'K': 2, 'L': 3, 'M': 4, 'N': 5, 'S': 2, 'T': 3}
	sum := 0
	for at, c := range vin {
		value, letter := values[c]
		if !letter {
			value = int(c - '0')
		}
		sum += value * [...]int{8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2}[at]
	}
	return vin[:8] + string("0123456789X"[sum%11]) + vin[9:]
}

// talk writes the notes of a unit, with at least the given number of words.
func talk(b *strings.Builder, r *rand.Rand, words, seconds int) {
	said := 0
	order := r.Perm(len(sentences))
	next := 0
	sentence := func() string {
		s := sentences[order[next%len(order)]]
		next++
		said += len(strings.Fields(s))
		return s
	}
	if seconds > 0 {
		b.WriteString("## Walk-around\n\n")
		at := 5 + r.IntN(20)
		for range 4 + r.IntN(4) {
			if at >= seconds {
				break
			}
			fmt.Fprintf(b, "- %d:%02d %s\n", at/60, at%60, sentence())
			at += 10 + r.IntN(45)
		}
		b.WriteString("\n")
	}
	b.WriteString("It carries [?](worked:payload), and *that* is the number to plan with. " + sentence() + "\n\n")
	for n := 0; said < words; n++ {
		switch {
		case n%5 == 3:
			fmt.Fprintf(b, "### %s\n\n", pick(r, headings))
		case n%7 == 5:
			b.WriteString("| part | state |\n| --- | --- |\n")
			for range 3 {
				part := pick(r, parts)
				fmt.Fprintf(b, "| %s | %s |\n", part, pick(r, states))
				said += 3
			}
			b.WriteString("\n")
			continue
		case n%6 == 4:
			for range 2 + r.IntN(3) {
				b.WriteString("- " + sentence() + "\n")
			}
			b.WriteString("\n")
			continue
		}
		for range 2 + r.IntN(4) {
			b.WriteString(sentence() + "\n")
		}
		b.WriteString("\n")
	}
}
