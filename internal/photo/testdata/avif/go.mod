module avif

go 1.26.0

require github.com/gen2brain/avif v0.4.4

require (
	github.com/ebitengine/purego v0.8.3 // indirect
	github.com/tetratelabs/wazero v1.9.0 // indirect
)
