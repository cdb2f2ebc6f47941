package publish

import "golang.org/x/sys/unix"

// exchange gives each of two folders the other's name in one step: renameat2(2) with
// RENAME_EXCHANGE, Linux 3.15. Kernels and file systems without it answer ENOSYS or
// EINVAL, and the filters of some containers EPERM.
func exchange(a, b string) error {
	err := unix.Renameat2(unix.AT_FDCWD, a, unix.AT_FDCWD, b, unix.RENAME_EXCHANGE)
	if isOneOf(err, unix.ENOSYS, unix.EINVAL, unix.EPERM, unix.ENOTSUP) {
		return errNoExchange
	}
	return err
}
