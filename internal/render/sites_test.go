package render_test

import (
	"fmt"
	"io/fs"
	"os"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/render"
	"tarepage/internal/unit"
	theme "tarepage/themes/default"
)

// made is every file of a yard's site, by its path.
func made(t testing.TB, root fs.FS) map[string]string {
	t.Helper()
	files, err := makeSite(root)
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func makeSite(root fs.FS) (map[string]string, error) {
	stock, problems, err := unit.Read(root)
	if err != nil {
		return nil, err
	}
	works := compute.Stock(stock)
	files := map[string]string{}
	_, err = render.Site(theme.Files, render.Input{Stock: stock, Works: works, Findings: inspect.Stock(stock, works, problems)},
		render.AddFunc(func(path string, data []byte) error { files[path] = string(data); return nil }))
	return files, err
}

var makeDemo = sync.OnceValues(func() (map[string]string, error) { return makeSite(os.DirFS("../..")) })

// demo is the site of the demo yard. It is made once for all tests, which only read it.
func demo(t testing.TB) map[string]string {
	t.Helper()
	files, err := makeDemo()
	if err != nil {
		t.Fatal(err)
	}
	return files
}

var (
	samplesOnce sync.Once
	samples     map[string]map[string]string
)

// yards are yards whose pages state what can be stated: the demo, trailers with their
// troubles, a recording of their own and one on another host, and no address.
func yards(t testing.TB) map[string]map[string]string {
	t.Helper()
	demo(t)
	samplesOnce.Do(func() { samples = makeSamples(t) })
	return samples
}

func makeSamples(t testing.TB) map[string]map[string]string {
	sold := strings.NewReplacer("stock: EX-1", "stock: EX-2", "on the yard", "sold", "$5,200", "$6,300").Replace(sound)
	metric := strings.NewReplacer("stock: EX-1", "stock: EX-3", "7,000 lb (tag)", "3,175 kg (tag)", "2,000 lb (scale", "about 907 kg (scale", "price: $5,200\n", "").Replace(sound)
	weak := strings.NewReplacer("stock: EX-1", "stock: EX-4", "ball: 2 in\n", "ball: 2 in\n  ball-rating: 6,000 lb\n").Replace(sound)
	film := strings.NewReplacer("stock: EX-1", "stock: EX-5", "standard:", "recording:\n  length: 3:00\n  video: media/walk 1.mp4\nstandard:").Replace(sound)
	else_ := strings.NewReplacer("stock: EX-1", "stock: EX-6", "standard:", "recording:\n  length: 3:00\n  id: walk-6\nstandard:").Replace(sound)
	due := strings.NewReplacer("stock: EX-1", "stock: EX-7", "on the yard", "on order", "price: $5,200", "price: $5,900 (since 2026-11-12)\narrived: 2026-12-15").Replace(sound)
	root := fstest.MapFS{"content/media/walk 1.mp4": {Data: []byte("x")},
		"content/yard.md": {Data: []byte(strings.Replace(yard, "phone:", "address: https://Yard.example/a b\nstreet: 1 Example <Road>\ntown: Dunnock Gap\nvideo-link: https://video.example/{id}?t={s}\nphone:", 1))}}
	for i, text := range []string{sound, sold, metric, weak, film, else_, due} {
		root[fmt.Sprintf("content/units/ex-%d.md", i+1)] = &fstest.MapFile{Data: []byte(text)}
	}
	bare := made(t, root)
	root["content/yard.md"] = &fstest.MapFile{Data: []byte(strings.Replace(string(root["content/yard.md"].Data), "/a b", "/a/b", 1))}
	return map[string]map[string]string{"demo": demo(t), "samples": made(t, root), "without an address": bare}
}
