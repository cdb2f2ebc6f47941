package spreadsheet

import (
	"fmt"
	"regexp"
)

// papers are the words of a column that says which paper a trailer has and where it is. Many yards
// name that column Title, and so do others the column that customers read first. Common practice, no
// source.
var papers = regexp.MustCompile(`(?i)^((clear|clean|no|lost|open|have|got|need|needs|waiting on|waiting for|paper|electronic) )?(titles?|mso|mco|bill of sale|bos|paper|papers|paperwork)( (in hand|at bank|pending|applied for|lost|only|here))?[.?!]?$|` +
	`^(in|on) (hand|file|office|the office|safe|the safe|mail|the mail|transit)$|^(at|with) (the )?(bank|lender|dmv|auction|tag office|courthouse|state)$|` +
	`^(applied( for)?|ordered|pending|waiting|lien|lost|missing|have|got it|received|yes|no|y|n|none|here|tbd|n/?a|clear|clean|salvage|rebuilt|duplicate)[.?!]?$`)

// notATitle is the error for a cell that customers would read first, and that is about papers.
func notATitle(key, cell string) error {
	if key != "title" || !papers.MatchString(cell) {
		return nil
	}
	return fmt.Errorf("%q is about the paper, and title is what customers read first; if the whole column is about papers, name it Paper; if it is not, write what the trailer is", cell)
}
