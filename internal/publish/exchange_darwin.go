package publish

import (
	"errors"

	"golang.org/x/sys/unix"
)

// exchange gives each of two folders the other's name in one step: renamex_np(2)
// with RENAME_SWAP, macOS 10.12. File systems without it answer ENOTSUP.
func exchange(a, b string) error {
	err := unix.RenamexNp(a, b, unix.RENAME_SWAP)
	if errors.Is(err, unix.ENOTSUP) || errors.Is(err, unix.ENOSYS) || errors.Is(err, unix.EINVAL) {
		return errNoExchange
	}
	return err
}
