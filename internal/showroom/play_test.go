package showroom

import (
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"
)

// TestRecordingIsPlayed: the showroom answers with ranges of a recording on the disk (RFC 9110,
// 14.2: 206 and Content-Range), and with 404 once the file is gone.
func TestRecordingIsPlayed(t *testing.T) {
	file := filepath.Join(t.TempDir(), "walk.MP4")
	if err := os.WriteFile(file, []byte("0123456789"), 0o644); err != nil {
		t.Fatal(err)
	}
	h := still(t, &Site{File: one.File, Disk: func(path string) (string, error) {
		if path == "media/walk.MP4" {
			return file, nil
		}
		return "", fs.ErrNotExist
	}}, nil)
	req := httptest.NewRequest(http.MethodGet, "http://127.0.0.1/media/walk.MP4", nil)
	req.RemoteAddr = desk
	req.Host = "127.0.0.1"
	req.Header.Set("Range", "bytes=2-4")
	w := httptest.NewRecorder()
	h.ServeHTTP(w, req)
	if w.Code != http.StatusPartialContent || w.Body.String() != "234" || w.Header().Get("Content-Range") != "bytes 2-4/10" || w.Header().Get("Content-Type") != "video/mp4" {
		t.Errorf("%d %q %v", w.Code, w.Body, w.Header())
	}
	if err := os.Remove(file); err != nil {
		t.Fatal(err)
	}
	if w := ask(h, http.MethodGet, "127.0.0.1", "/media/walk.MP4"); w.Code != http.StatusNotFound {
		t.Errorf("a recording that is gone: %d", w.Code)
	}
}
