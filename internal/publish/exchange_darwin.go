package publish

import "golang.org/x/sys/unix"

// exchange gives each of two folders the other's name in one step: renamex_np(2)
// with RENAME_SWAP, macOS 10.12. File systems without it answer ENOTSUP.
func exchange(a, b string) error {
	err := unix.RenamexNp(a, b, unix.RENAME_SWAP)
	if isOneOf(err, unix.ENOTSUP, unix.ENOSYS, unix.EINVAL) {
		return errNoExchange
	}
	return err
}
