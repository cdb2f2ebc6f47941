package publish

import (
	"errors"
	"os"

	"golang.org/x/sys/windows"
)

// tryLock takes the lock file for this build. It returns no release if another build
// holds it. The file is shared with nobody and goes with its last handle, so Windows
// removes that of a killed build.
func tryLock(path string) (release func(), err error) {
	name, err := windows.UTF16PtrFromString(path)
	if err != nil {
		return nil, err
	}
	attrs := uint32(windows.FILE_ATTRIBUTE_NORMAL)
	if info, err := os.Lstat(path); err != nil || info.Size() == 0 {
		attrs |= windows.FILE_FLAG_DELETE_ON_CLOSE // a file with something in it is not ours to remove
	}
	h, err := windows.CreateFile(name, windows.GENERIC_READ|windows.GENERIC_WRITE|windows.DELETE,
		0, nil, windows.OPEN_ALWAYS, attrs, 0)
	if errors.Is(err, windows.ERROR_SHARING_VIOLATION) || errors.Is(err, windows.ERROR_DELETE_PENDING) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	return func() { windows.CloseHandle(h) }, nil
}
