package publish

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"
)

// listName is the list every site holds; the name is what people look for.
const listName = "SHA256SUMS"

// noteName is the note every site holds, and noteText what it says.
const noteName = "tarepage.txt"

const noteText = `Tarepage writes this folder and replaces it whole at every build: what is changed
here by hand is lost. A build refuses the folder while it holds a file that is not
listed in SHA256SUMS. To check that the files are as they were written:

    sha256sum -c SHA256SUMS
`

// sum is a SHA-256 digest (FIPS 180-4).
type sum [sha256.Size]byte

// line is a line of the list in the text form of GNU coreutils, sha256sum: digest
// in lower-case hexadecimal, two spaces, name. Names coreutils would have to escape
// cannot be added to a Site.
func (s sum) line(path string) string {
	return hex.EncodeToString(s[:]) + "  " + path + "\n"
}

// parseList reads a list written by a build and returns the digests on it by their paths. It is
// strict, because whatever it returns may be replaced or removed: a list of any
// other form, or without the note, is somebody else's.
func parseList(text string) (map[string]sum, error) {
	listed := make(map[string]sum, strings.Count(text, "\n"))
	n := 0
	for line := range strings.Lines(text) {
		n++
		digest, path, ok := strings.Cut(line, "  ")
		path, ended := strings.CutSuffix(path, "\n")
		var s sum
		if len(digest) != 2*sha256.Size || !isHex(s[:], digest) || !ok || !ended {
			return nil, fmt.Errorf("line %d of its %s is not 64 hexadecimal digits, two spaces and a path", n, listName)
		}
		if reason := pathFault(path); reason != "" {
			return nil, fmt.Errorf("line %d of its %s names %q, which %s", n, listName, path, reason)
		}
		listed[path] = s
	}
	if _, ok := listed[noteName]; !ok {
		return nil, fmt.Errorf("its %s does not list %s, so another program wrote it", listName, noteName)
	}
	return listed, nil
}

// isHex reads hexadecimal digits into out, and reports whether they are all that.
func isHex(out []byte, digits string) bool {
	_, err := hex.Decode(out, []byte(digits))
	return err == nil
}

// pathsOn are the paths on a list that parseList takes, in order.
func pathsOn(list string) (paths []string) {
	for line := range strings.Lines(list) {
		if _, path, ok := strings.Cut(line, "  "); ok {
			paths = append(paths, strings.TrimSuffix(path, "\n"))
		}
	}
	return paths
}
