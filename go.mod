module tarepage

go 1.26.0

require (
	github.com/BurntSushi/toml v0.3.1 // indirect
	github.com/adrg/frontmatter v0.2.0 // indirect
	github.com/asticode/go-astikit v0.20.0 // indirect
	github.com/asticode/go-astisub v0.34.0 // indirect
	github.com/asticode/go-astits v1.8.0 // indirect
	github.com/fsnotify/fsnotify v1.10.1 // indirect
	github.com/rogpeppe/go-internal v1.16.0 // indirect
	github.com/tdewolff/minify/v2 v2.24.25 // indirect
	github.com/tdewolff/parse/v2 v2.8.20 // indirect
	github.com/yuin/goldmark v1.8.7 // indirect
	go.yaml.in/yaml/v4 v4.0.0 // indirect
	golang.org/x/net v0.61.0 // indirect
	golang.org/x/sys v0.50.0 // indirect
	golang.org/x/text v0.44.0 // indirect
	golang.org/x/tools v0.52.0 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
	gopkg.in/yaml.v2 v2.3.0 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)
