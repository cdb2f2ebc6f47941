package unit

import (
	"regexp"
	"strings"
)

var stockShape = regexp.MustCompile(`^[A-Za-z0-9]+(-[A-Za-z0-9]+)*$`)

// deviceNames cannot be file names on Windows (Microsoft, "Naming Files, Paths, and
// Namespaces"); a site must unpack on any host.
var deviceNames = regexp.MustCompile(`^(con|prn|aux|nul|com[0-9]|lpt[0-9])$`)

// StockForm describes the form of a stock number.
const StockForm = "letters, digits and single dashes, at most 40 of them: SB-1043"

// NamesPage reports whether a stock number can name a unit's file and page on every kind of
// host.
func NamesPage(stock string) bool {
	return stockShape.MatchString(stock) && len(stock) <= 40 && !deviceNames.MatchString(strings.ToLower(stock))
}
