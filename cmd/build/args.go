package main

import (
	"fmt"
	"net"
	"os"
	"path/filepath"
	"strings"

	"tarepage/internal/showroom"
	"tarepage/internal/unit"
)

// usage is what help prints behind the name of the command.
const usage = ` makes the yard's site out of content/.

Behind its name stands what it is to do:

  (nothing)        read, work out, inspect and publish
  inspect          check only, write nothing
  intake CAPTIONS  make the first unit file of a recording: intake walk.vtt -stock SB-1050
  showroom         show the site live while you write, on the desk and on phones
  rule [NAME]      what a rule asks and why; without a name, all of them
  first-yard       set up a first content/ with one worked example; never over files
  editor-help      write JSON Schemas of the three kinds of file, for editors
  help             this text
  -version         which program this is, and the edition of each table

  -from DIR     the folder that holds content/ (.)
  -to DIR       where the site goes (public), or the editor files (editor-help)
  -theme DIR    templates and style of your own instead of the built-in ones
  -leave-out    publish without the units that have stops, and say so
  -json         print figures and findings as JSON
  -quiet        print only what stops a unit
  -at ADDRESS   where the showroom opens (127.0.0.1:4280, this computer only);
                -at :4280 opens it to the network
  -phone        open the showroom to the network, and show a code that leads a phone there
  -stock NUMBER the yard's number for the unit that intake writes; one that is there
                is never written over
  -into FILE    hold the recording against this unit file instead; nothing is written

Exit status: 0 nothing stops, 1 stops found, 2 could not run.
`

// command is what the arguments ask for.
type command struct {
	verb     string
	name     string // of the rule, or of the captions
	stock    string // the number of the unit that intake writes
	into     string // the unit file that intake compares with
	from, to string
	theme    string
	at       string // where the showroom opens
	phone    bool   // to the network, on purpose
	json     bool
	leaveOut bool
	quiet    bool
	toGiven  bool
}

var verbs = []string{"build", "inspect", "intake", "showroom", "rule", "first-yard", "editor-help", "help"}

// A flag takes a value, or it does not.
var valued = map[string]bool{"from": true, "to": true, "theme": true, "json": false, "leave-out": false, "quiet": false, "at": true, "phone": false, "stock": true, "into": true}

var flagNames = []string{"from", "to", "theme", "json", "leave-out", "quiet", "at", "phone", "stock", "into"}

// parse reads the arguments; flags may stand before and behind the verb.
func parse(args []string) (*command, error) {
	c := &command{from: ".", to: "public", at: showroom.Usual}
	var words []string
	seen := map[string]bool{}
	for i := 0; i < len(args); i++ {
		arg := args[i]
		if !strings.HasPrefix(arg, "-") || arg == "-" {
			words = append(words, arg)
			continue
		}
		name, value, hasValue := strings.Cut(strings.TrimPrefix(strings.TrimPrefix(arg, "-"), "-"), "=")
		if name == "h" || name == "help" {
			c.verb = "help"
			return c, nil
		}
		if name == "version" {
			c.verb = "version"
			return c, nil
		}
		takes, known := valued[name]
		switch {
		case !known:
			if near := unit.Nearest(name, flagNames); near != "" {
				return nil, fmt.Errorf("there is no flag -%s; did you mean -%s?", name, near)
			}
			return nil, fmt.Errorf("there is no flag -%s; the flags are -%s", name, strings.Join(flagNames, ", -"))
		case seen[name]:
			return nil, fmt.Errorf("flag -%s is given twice; keep one", name)
		case takes && !hasValue:
			if i++; i == len(args) {
				return nil, wants(name)
			}
			value = args[i]
		case !takes && hasValue:
			return nil, fmt.Errorf("flag -%s takes no value; write -%s alone", name, name)
		}
		if takes && value == "" {
			return nil, wants(name)
		}
		seen[name] = true
		c.set(name, value)
	}
	c.verb = "build"
	if len(words) > 0 {
		c.verb, words = words[0], words[1:]
	}
	if !contains(verbs, c.verb) {
		if near := unit.Nearest(c.verb, verbs); near != "" {
			return nil, fmt.Errorf("there is no verb %q; did you mean %q?", c.verb, near)
		}
		return nil, fmt.Errorf("there is no verb %q; the verbs are %s", c.verb, strings.Join(verbs, ", "))
	}
	if (c.verb == "rule" || c.verb == "intake") && len(words) > 0 {
		c.name, words = words[0], words[1:]
	}
	if len(words) > 0 {
		return nil, fmt.Errorf("%s takes nothing more, not %q", c.verb, words[0])
	}
	if err := c.fits(seen); err != nil {
		return nil, err
	}
	if c.verb == "intake" {
		return c, c.asks(seen)
	}
	return c, nil
}

// wants says what a flag without its value lacks.
func wants(name string) error {
	switch name {
	case "at":
		return fmt.Errorf("flag -at needs an address behind it: %s, or :4280 for phones on the same network", showroom.Usual)
	case "stock":
		return fmt.Errorf("flag -stock needs the yard's number behind it: SB-1050")
	case "into":
		return fmt.Errorf("flag -into needs a unit file behind it: content/units/sb-1050.md")
	}
	return fmt.Errorf("flag -%s needs a folder behind it", name)
}

func (c *command) set(name, value string) {
	switch name {
	case "from":
		c.from = value
	case "to":
		c.to, c.toGiven = value, true
	case "theme":
		c.theme = value
	case "at":
		c.at = value
	case "stock":
		c.stock = value
	case "into":
		c.into = value
	case "phone":
		c.phone = true
	case "json":
		c.json = true
	case "leave-out":
		c.leaveOut = true
	case "quiet":
		c.quiet = true
	}
}

// fits refuses a flag that the verb would drop in silence.
func (c *command) fits(seen map[string]bool) error {
	takes := map[string][]string{
		"build":       {"from", "to", "theme", "json", "leave-out", "quiet"},
		"first-yard":  {"from", "quiet"},
		"editor-help": {"from", "to", "quiet"},
		"inspect":     {"from", "json", "quiet"},
		"intake":      {"from", "quiet", "stock", "into"},
		"showroom":    {"from", "theme", "quiet", "at", "phone"},
	}[c.verb]
	for _, name := range flagNames {
		if seen[name] && !contains(takes, name) {
			return fmt.Errorf("%s does not take -%s", c.verb, name)
		}
	}
	if c.phone {
		return c.open(seen["at"])
	}
	return nil
}

// open makes the address one that a phone can reach: that of -at, or the usual port.
func (c *command) open(given bool) error {
	if !given {
		_, port, _ := net.SplitHostPort(showroom.Usual)
		c.at = ":" + port
		return nil
	}
	host, port, err := net.SplitHostPort(c.at)
	if ip := net.ParseIP(host); err == nil && (host == "localhost" || ip != nil && ip.IsLoopback()) {
		return fmt.Errorf("-at %s is this computer alone, where no phone comes; with -phone write -at :%s", c.at, port)
	}
	return nil // Listen says what is wrong with it
}

// asks refuses an intake that does not say what to read or where to write.
func (c *command) asks(seen map[string]bool) error {
	switch {
	case c.name == "":
		return fmt.Errorf("intake needs the captions behind it: intake walk.vtt -stock SB-1050")
	case seen["into"] && seen["stock"]:
		return fmt.Errorf("intake -into takes no -stock: the file has its number, and nothing is written")
	case seen["into"]:
		return nil
	case !seen["stock"]:
		return fmt.Errorf("intake needs the yard's number for the unit: -stock SB-1050, or -into FILE to compare with one that is there")
	case !unit.NamesPage(c.stock):
		return fmt.Errorf("stock number %q cannot name a page; use %s", c.stock, unit.StockForm)
	}
	return nil
}

func contains(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}

// contentDir is the folder that is read; the site may not land in it.
func contentDir(from string) string { return filepath.Join(from, "content") }

// name is what the command is called; a test of it is called after it.
func name() string {
	return strings.TrimSuffix(strings.TrimSuffix(filepath.Base(os.Args[0]), ".exe"), ".test")
}

// program is how the command is called again, for hints: by Go from the project's own
// folder, or by the name of the binary.
func program() string {
	if name() == "build" {
		return "go run ./cmd/build"
	}
	return name()
}
