// Package publish puts the finished files into the target folder in one step.
//
// The new site is written to a staging folder beside the target, so on the same
// file system, and exchanged with the target by a single rename. Until then the
// target is only read. A build that fails or is killed therefore leaves the old
// site whole; a visitor is served the old site or the new one, never a mixture.
//
//	public/                    the site
//	.public.lock               held while a build writes; empty
//	.public.staging-1234567/   the container of a build under way
//	    tarepage-staging       the mark by which the next build knows it
//	    site/                  the new site, after the exchange the old one
//	.public.old-1234567/       the old site between two renames, where the
//	                           system cannot exchange two folders
//
// All but the first are gone when a build ends. What a killed build left is
// removed, and its old site put back if the target is missing, by the next Check
// or Swap. The lock keeps builds apart: one under way is never cleaned up, and of
// two at once the second waits.
//
// Every site holds the file SHA256SUMS, in the form sha256sum of the GNU coreutils
// writes and checks, which lists all other files. By it the next build knows what
// it may replace: a target that is not empty and has no such list, or holds
// anything that is not on it, is refused. Many people publish a SHA256SUMS of
// their own, so ours also has to list tarepage.txt, a note that says who writes
// the folder. A listed file that was changed by hand is replaced.
//
// A file whose bytes did not change keeps its modification time, so that servers
// and upload programs see which files are new. If no file changed, the target is
// not touched at all.
//
// Safe means safe against a failed or killed build, not against a power cut: the
// files are not forced to the disk one by one, which would cost a minute on a slow
// one. After a power cut sha256sum -c SHA256SUMS finds what was lost, and the next
// build, which compares bytes and not dates, writes it again.
//
// The package knows nothing of units, figures or pages and imports nothing of
// Tarepage. It reads the target and the files named to AddFile, and writes only
// the target and the names above.
package publish
