// Package publish puts the finished files into the target folder in one step.
//
// The new site is written to a staging folder next to the target, on the same file system,
// and exchanged with the target by a single rename. Until then the target is only read. A
// build that fails or is killed therefore leaves the old site whole, and a visitor gets the
// old site or the new one, never a mixture.
//
//	public/                    the site
//	.public.lock               held while a build writes; empty
//	.public.kept               what a build knows for the next one (see Remember)
//	.public.staging-1234567/   the container of a build that is running
//	    tarepage-staging       the mark by which the next build knows the container
//	    site/                  the new site; after the exchange, the old one
//	.public.old-1234567/       the old site between two renames, where the system cannot
//	                           exchange two folders
//
// When a build ends, the first and the third are left. The next Check or Begin removes what
// a killed build left, and puts its old site back if the target is missing. The lock keeps
// builds apart: a running build is never cleaned up, and of two builds at once the second
// waits.
//
// Every site holds the file SHA256SUMS, which lists all other files in the form that
// sha256sum of GNU coreutils writes and checks. From it the next build knows what it may
// replace. It refuses a target that is not empty and has no such list, or holds anything
// that is not on it. Many people publish a SHA256SUMS of their own, so ours also has to list
// tarepage.txt, a note that says who writes the folder. A listed file that was changed by
// hand is replaced. If the list itself was emptied or cut off, the copy of it in .public.kept
// is used instead.
//
// A file whose bytes did not change keeps its modification time, so that servers and upload
// programs see which files are new. If no file changed, the target is not touched at all.
//
// The new site survives a power cut too. All its files are forced onto the disk before the
// exchange, with one call for the whole file system where there is one (syncfs on Linux),
// and the exchange itself is forced onto the disk before anything of the old site is
// removed. Without that, a file system is free to write the exchange first and the files
// half a minute later: of 147 files, 61 were empty after a cut. On an ext4 disk the calls
// add no time that can be measured.
//
// The package knows nothing about units, figures or pages and imports nothing else of
// Tarepage but the helper for parallel work. It reads the target and what is handed to Add,
// AddFile and AddCopy, and writes only the target and the names above.
package publish
