package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"tarepage/internal/report"
	"tarepage/internal/showroom"
	"tarepage/internal/unit"
)

// command is what the arguments ask for.
type command struct {
	verb  string
	name  string // of the rule, or of the captions
	stock string // the number of the unit that intake writes
	into  string // the unit file that intake compares with

	captionsBy string // the command that makes captions for intake
	from, to   string
	look       string
	at         string // where the showroom opens
	phone      bool   // to the network, on purpose
	json       bool
	leaveOut   bool
	quiet      bool
	version    bool
	by         string          // how inspect groups what it found
	apply      bool            // whether sheet writes what it says
	anyway     string          // the units that sheet changes although the yard is newer
	models     bool            // whether the sheet is a maker's
	reread     bool            // read every file again
	fewer      int             // how many units may be gone from the site
	given      map[string]bool // the flags that were given
}

// A verb is one thing that the command does.
type verb struct {
	name     string
	argument string // what may follow it, as the help shows it; empty for nothing
	help     string
}

var verbs = []verb{
	{name: "build", help: "read, compute, inspect and publish; this is done without a verb too"},
	{name: "inspect", help: "check only, write nothing"},
	{name: "intake", argument: "CAPTIONS", help: "make the first unit file of a recording, from captions or a video that holds them: intake walk.vtt -stock SB-1050"},
	{name: "sheet", argument: "FILE", help: "take units, prices and sales from the yard's spreadsheet: sheet stock.xlsx"},
	{name: "showroom", help: "show the site live while you write, on the computer and on phones"},
	{name: "rule", argument: "[NAME]", help: "what a rule asks and why; without a name, all rules"},
	{name: "first-yard", help: "set up a first content/ with one worked example; never overwrite a file"},
	{name: "editor-help", help: "write JSON Schemas of the three kinds of file, for editors"},
	{name: "help", help: "show this text"},
}

// A flagDeclaration is everything about one flag. The parser, the help and the README's table
// are made from it.
type flagDeclaration struct {
	name  string
	value string // what its value is called in the help; empty for a flag without a value
	verbs []string
	help  string // code is in back quotes
	// lacks says what to write where the value is missing.
	lacks string
	// is the field of the command that it sets: a *string or a *bool.
	is func(c *command) any
}

const aFolder = "a folder after it"

var flags = []flagDeclaration{
	{name: "from", value: "DIR", verbs: []string{"build", "inspect", "intake", "sheet", "showroom", "first-yard", "editor-help"},
		help: "the folder that holds `content/`, default `.`", lacks: aFolder,
		is: func(c *command) any { return &c.from }},
	{name: "to", value: "DIR", verbs: []string{"build", "editor-help"},
		help: "where the site goes, default `public`; where `editor-help` writes, default `editor-help`", lacks: aFolder,
		is: func(c *command) any { return &c.to }},
	{name: "look", value: "DIR", verbs: []string{"build", "showroom"},
		help: "templates and styles of your own instead of the built-in ones", lacks: aFolder,
		is: func(c *command) any { return &c.look }},
	{name: "leave-out", verbs: []string{"build"},
		help: "publish without the units that have stops, and name them",
		is:   func(c *command) any { return &c.leaveOut }},
	{name: "fewer", value: "NUMBER", verbs: []string{"build"},
		help: "go on although exactly so many units are gone from the site; a build stops where many are", lacks: "the number of units that may be gone: -fewer 12",
		is: func(c *command) any { return &c.fewer }},
	{name: "reread", verbs: []string{"build", "inspect"},
		help: "read every file again, even where its size and times say that it did not change",
		is:   func(c *command) any { return &c.reread }},
	{name: "by", value: "GROUP", verbs: []string{"inspect"},
		help: "group what is found by `unit`, the default, or by `rule`", lacks: "unit or rule after it",
		is: func(c *command) any { return &c.by }},
	{name: "json", verbs: []string{"build", "inspect"},
		help: "print figures and findings as JSON",
		is:   func(c *command) any { return &c.json }},
	{name: "quiet", verbs: []string{"build", "inspect", "intake", "showroom", "first-yard", "editor-help"},
		help: "print only what stops a unit, and what is not read or left out",
		is:   func(c *command) any { return &c.quiet }},
	{name: "at", value: "ADDRESS", verbs: []string{"showroom"},
		help:  "where the showroom opens, default `" + showroom.Usual + "`, for this computer only; `-at " + showroom.UsualPort + "` opens it to your network, for whoever has the key that it shows",
		lacks: "an address after it: " + showroom.Usual + ", or " + showroom.UsualPort + " for phones on the same network",
		is:    func(c *command) any { return &c.at }},
	{name: "phone", verbs: []string{"showroom"},
		help: "open the showroom to your network, and show a code with a key that leads a phone there, to confirm values at the trailer; it answers to numeric addresses only",
		is:   func(c *command) any { return &c.phone }},
	{name: "stock", value: "NUMBER", verbs: []string{"intake"},
		help: "the yard's number for the unit that `intake` writes; it never overwrites a file", lacks: "the yard's number after it: SB-1050",
		is: func(c *command) any { return &c.stock }},
	{name: "into", value: "FILE", verbs: []string{"intake"},
		help: "the unit file that `intake` only compares the recording with; it writes nothing", lacks: "a unit file after it: content/units/sb-1050.md",
		is: func(c *command) any { return &c.into }},
	{name: "captions-by", value: "COMMAND", verbs: []string{"intake"},
		help:  "a speech recognizer that makes captions of a video or a sound file for `intake`: `\"recognizer {in} {out}\"`; it runs without a shell",
		lacks: `a command after it: -captions-by "recognizer {in} {out}"`,
		is:    func(c *command) any { return &c.captionsBy }},
	{name: "apply", verbs: []string{"sheet"},
		help: "write what `sheet` says; without it nothing is written",
		is:   func(c *command) any { return &c.apply }},
	{name: "anyway", value: "NUMBERS", verbs: []string{"sheet"},
		help: "change these units although the yard has something newer than the sheet, or sold them: `-anyway SB-1050,SB-1052`", lacks: "the stock numbers after it: SB-1050,SB-1052",
		is: func(c *command) any { return &c.anyway }},
	{name: "models", verbs: []string{"sheet"},
		help: "the sheet is a maker's: `sheet` makes a file in `content/models/` of each row, for all units of that model",
		is:   func(c *command) any { return &c.models }},
	{name: "version", verbs: nil,
		help: "print which program this is, and the edition of each table",
		is:   func(c *command) any { return &c.version }},
}

// renamed are the flags that had another name once, with the name that they have now.
var renamed = map[string]string{"theme": "look"}

func flagNames() []string { return names(flags, func(f flagDeclaration) string { return f.name }) }
func verbNames() []string { return names(verbs, func(v verb) string { return v.name }) }

func names[T any](list []T, of func(T) string) (out []string) {
	for _, item := range list {
		out = append(out, of(item))
	}
	return out
}

// parse reads the arguments. Flags may come before and after the verb and its argument.
func parse(args []string) (*command, error) {
	c := &command{from: ".", to: "public", at: showroom.Usual, by: report.ByUnit, given: map[string]bool{}}
	words, err := c.read(args)
	switch {
	case errors.Is(err, flag.ErrHelp):
		c.verb = "help"
		return c, nil
	case err != nil:
		return nil, err
	case c.version:
		c.verb = "version"
		return c, nil
	}
	c.verb = "build"
	if len(words) > 0 {
		c.verb, words = words[0], words[1:]
	}
	i := slices.IndexFunc(verbs, func(v verb) bool { return v.name == c.verb })
	if i < 0 {
		return nil, unknown("verb", strconv.Quote, c.verb, verbNames(), "the verbs are "+strings.Join(verbNames(), ", "))
	}
	if verbs[i].argument != "" && len(words) > 0 {
		c.name, words = words[0], words[1:]
	}
	if len(words) > 0 {
		return nil, fmt.Errorf("%s takes nothing more, not %q", c.verb, words[0])
	}
	return c, c.check()
}

// read sets the flags and returns the other arguments.
func (c *command) read(args []string) (words []string, err error) {
	set := flag.NewFlagSet(name(), flag.ContinueOnError)
	set.SetOutput(io.Discard)
	var wrong error // what is wrong with a value, in our words
	for i := range flags {
		set.Var(&flagValue{c: c, of: &flags[i], wrong: &wrong}, flags[i].name, flags[i].help)
	}
	// A FlagSet stops at the first argument that is not a flag; it goes on after that one.
	for len(args) > 0 {
		if err := set.Parse(args); err != nil {
			if wrong != nil {
				return nil, wrong
			}
			return nil, explained(err)
		}
		parsed := args[:len(args)-set.NArg()]
		args = set.Args()
		if len(parsed) > 0 && parsed[len(parsed)-1] == "--" {
			return append(words, args...), nil // no flags come after it
		}
		if len(args) > 0 {
			words, args = append(words, args[0]), args[1:]
		}
	}
	return words, nil
}

// flagValue sets a field of the command, once.
type flagValue struct {
	c     *command
	of    *flagDeclaration
	wrong *error
}

func (v *flagValue) String() string { return "" }

// IsBoolFlag tells the FlagSet which flags have no value.
func (v *flagValue) IsBoolFlag() bool { return v.of != nil && v.of.value == "" }

func (v *flagValue) Set(text string) error {
	*v.wrong = v.refuse(text)
	if *v.wrong != nil {
		return *v.wrong
	}
	v.c.given[v.of.name] = true
	switch field := v.of.is(v.c).(type) {
	case *string:
		*field = text
	case *bool:
		*field = true
	case *int:
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 {
			*v.wrong = fmt.Errorf("flag -%s needs %s; %q is not a number of units", v.of.name, v.of.lacks, text)
			return *v.wrong
		}
		*field = n
	}
	return nil
}

func (v *flagValue) refuse(text string) error {
	switch {
	case v.c.given[v.of.name]:
		return fmt.Errorf("flag -%s is given twice; keep one", v.of.name)
	case v.of.value == "" && text != "true":
		return fmt.Errorf("flag -%s takes no value; write -%s alone", v.of.name, v.of.name)
	case v.of.value != "" && text == "":
		return v.of.wants()
	}
	return nil
}

func (f *flagDeclaration) wants() error { return fmt.Errorf("flag -%s needs %s", f.name, f.lacks) }

// explained says in our words what a FlagSet found wrong. Its words are those of Go's
// package flag; a test script has each of them.
func explained(err error) error {
	if name, ok := strings.CutPrefix(err.Error(), "flag needs an argument: -"); ok {
		for i := range flags {
			if flags[i].name == name {
				return flags[i].wants()
			}
		}
	}
	name, ok := strings.CutPrefix(err.Error(), "flag provided but not defined: -")
	if !ok {
		return err
	}
	if now := renamed[name]; now != "" {
		return fmt.Errorf("the flag -%s is now called -%s; write -%s", name, now, now)
	}
	return unknown("flag", func(s string) string { return "-" + s }, name, flagNames(), "the flags are -"+strings.Join(flagNames(), ", -"))
}

// unknown says that there is no flag or verb of a name, and names the nearest one.
func unknown(what string, write func(string) string, name string, known []string, all string) error {
	if near := unit.Nearest(name, known); near != "" {
		return fmt.Errorf("there is no %s %s; did you mean %s?", what, write(name), write(near))
	}
	return fmt.Errorf("there is no %s %s; %s", what, write(name), all)
}

// check refuses flags that the verb would ignore, and what does not fit together.
func (c *command) check() error {
	for _, f := range flags {
		if c.given[f.name] && !slices.Contains(f.verbs, c.verb) {
			return fmt.Errorf("%s does not take -%s", c.verb, f.name)
		}
	}
	if c.by != report.ByUnit && c.by != report.ByRule {
		return fmt.Errorf("-by %q is not a way to group; write -by unit or -by rule", c.by)
	}
	if c.phone {
		return c.openToPhones()
	}
	switch c.verb {
	case "intake":
		return c.checkIntake()
	case "sheet":
		return c.checkSheet()
	}
	return nil
}
