package photo

import (
	"bytes"
	"compress/gzip"
	"context"
	_ "embed"
	"fmt"
	"image"
	"io"
	"sync"

	"github.com/tetratelabs/wazero"
	"github.com/tetratelabs/wazero/api"
	"github.com/tetratelabs/wazero/imports/wasi_snapshot_preview1"
)

// libwebp is Google's encoder, version 1.4.0, compiled to WebAssembly as it is in
// github.com/gen2brain/webp v0.5.5 (lib/Makefile there makes it). That module itself is
// not used: it takes the machine's own library where it finds one, and the bytes would
// then depend on the machine.
//
//go:embed libwebp/webp.wasm.gz
var libwebp []byte

// encoder is the encoder made ready. Making it ready takes a third of a second, so a
// build with nothing to encode never does.
type encoder struct {
	runtime wazero.Runtime
	code    wazero.CompiledModule
}

var webpEncoder = sync.OnceValues(func() (*encoder, error) {
	ctx := context.Background()
	r, err := gzip.NewReader(bytes.NewReader(libwebp))
	if err != nil {
		return nil, err
	}
	wasm, err := io.ReadAll(r)
	if err != nil {
		return nil, err
	}
	e := &encoder{runtime: wazero.NewRuntime(ctx)}
	if _, err := wasi_snapshot_preview1.Instantiate(ctx, e.runtime); err != nil {
		return nil, err
	}
	e.code, err = e.runtime.CompileModule(ctx, wasm)
	return e, err
})

// method is libwebp's measure of effort, 0 to 6. docs/notes/photos.md has what each costs.
const method = 2

// encodeWebP encodes an opaque picture at a quality of 1 to 100. Several may run at once.
func encodeWebP(m *image.RGBA, quality int) ([]byte, error) { return encodeWebPBy(m, quality, method) }

func encodeWebPBy(m *image.RGBA, quality, method int) ([]byte, error) {
	e, err := webpEncoder()
	if err != nil {
		return nil, fmt.Errorf("webp: %w", err)
	}
	ctx := context.Background()
	// A module of its own for each picture: its memory goes with it.
	mod, err := e.runtime.InstantiateModule(ctx, e.code, wazero.NewModuleConfig().WithName("").WithStartFunctions("_initialize"))
	if err != nil {
		return nil, fmt.Errorf("webp: %w", err)
	}
	defer mod.Close(ctx)
	in, err := alloc(ctx, mod, uint64(len(m.Pix)))
	if err != nil {
		return nil, err
	}
	if !mod.Memory().Write(in, m.Pix) {
		return nil, errNoRoom
	}
	size, err := alloc(ctx, mod, 8)
	if err != nil {
		return nil, err
	}
	const rgba, lossy, free = 0, 0, 0
	res, err := mod.ExportedFunction("encode").Call(ctx, uint64(in), uint64(m.Rect.Dx()), uint64(m.Rect.Dy()), uint64(size),
		rgba, uint64(quality), uint64(method), lossy, free)
	if err != nil {
		return nil, fmt.Errorf("webp: %w", err)
	}
	n, ok := mod.Memory().ReadUint32Le(size)
	if !ok || n == 0 {
		return nil, fmt.Errorf("webp: a picture of %d x %d was refused", m.Rect.Dx(), m.Rect.Dy())
	}
	out, ok := mod.Memory().Read(uint32(res[0]), n)
	if !ok {
		return nil, errNoRoom
	}
	return bytes.Clone(out), nil
}

var errNoRoom = fmt.Errorf("webp: the encoder ran out of memory")

func alloc(ctx context.Context, mod api.Module, n uint64) (uint32, error) {
	res, err := mod.ExportedFunction("malloc").Call(ctx, n)
	if err != nil {
		return 0, fmt.Errorf("webp: %w", err)
	}
	if res[0] == 0 {
		return 0, errNoRoom
	}
	return uint32(res[0]), nil
}
