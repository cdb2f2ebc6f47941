package publish

import "golang.org/x/sys/unix"

// isMountPoint asks statx(2), Linux 5.8, which knows bind mounts too. An older
// kernel does not say, and the exchange fails there with EBUSY.
func isMountPoint(dir string) bool {
	var st unix.Statx_t
	err := unix.Statx(unix.AT_FDCWD, dir, unix.AT_SYMLINK_NOFOLLOW, 0, &st)
	return err == nil && st.Attributes&unix.STATX_ATTR_MOUNT_ROOT != 0
}
