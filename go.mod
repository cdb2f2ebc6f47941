module tarepage

go 1.26.0

require (
	github.com/adrg/frontmatter v0.2.0
	github.com/agnivade/levenshtein v1.2.1
	github.com/asticode/go-astisub v0.34.0
	github.com/bcicen/go-units v1.0.5
	github.com/bep/imagemeta v1.0.1
	github.com/dop251/goja v0.0.0-20260917113740-793a2a65c13b
	github.com/fsnotify/fsnotify v1.10.1
	github.com/google/licensecheck v0.3.1
	github.com/makiuchi-d/gozxing v0.1.1
	github.com/mmcdole/gofeed v1.4.2
	github.com/piglig/go-qr v1.1.0
	github.com/piprate/json-gold v0.9.1
	github.com/rogpeppe/go-internal v1.16.0
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3
	github.com/tdewolff/minify/v2 v2.24.25
	github.com/tetratelabs/wazero v1.12.0
	github.com/xuri/excelize/v2 v2.11.1
	github.com/yuin/goldmark v1.8.7
	go.yaml.in/yaml/v4 v4.0.0
	golang.org/x/image v0.48.0
	golang.org/x/net v0.62.0
	golang.org/x/sync v0.25.0
	golang.org/x/sys v0.50.0
	golang.org/x/term v0.48.0
	golang.org/x/text v0.44.0
	golang.org/x/tools v0.52.0
	gonum.org/v1/gonum v0.17.0
	pgregory.net/rapid v1.3.0
)

require (
	github.com/BurntSushi/toml v0.3.1 // indirect
	github.com/Knetic/govaluate v3.0.0+incompatible // indirect
	github.com/asticode/go-astikit v0.20.0 // indirect
	github.com/asticode/go-astits v1.8.0 // indirect
	github.com/bcicen/bfstree v1.0.0 // indirect
	github.com/cayleygraph/quad v1.3.0 // indirect
	github.com/dlclark/regexp2/v2 v2.5.2 // indirect
	github.com/go-sourcemap/sourcemap v2.1.3+incompatible // indirect
	github.com/google/pprof v0.0.0-20230207041349-798e818bf904 // indirect
	github.com/mmcdole/goxpp/v2 v2.0.0 // indirect
	github.com/pquerna/cachecontrol v0.2.0 // indirect
	github.com/richardlehane/mscfb v1.0.9 // indirect
	github.com/richardlehane/msoleps v1.0.6 // indirect
	github.com/tdewolff/parse/v2 v2.8.20 // indirect
	github.com/tiendc/go-deepcopy v1.7.2 // indirect
	github.com/xuri/efp v0.0.3-0.20260924042702-217b81952dec // indirect
	github.com/xuri/nfp v0.0.2-0.20250530014748-2ddeb826f9a9 // indirect
	golang.org/x/crypto v0.58.0 // indirect
	golang.org/x/mod v0.42.0 // indirect
	golang.org/x/xerrors v0.0.0-20231012003039-104605ab7028 // indirect
	gopkg.in/check.v1 v1.0.0-20190902080502-41f04d3bba15 // indirect
	gopkg.in/yaml.v2 v2.3.0 // indirect
)
