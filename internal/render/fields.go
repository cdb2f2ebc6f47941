package render

import (
	"html/template"

	"tarepage/internal/elevation"
	"tarepage/internal/pagedata"
	"tarepage/internal/photo"
)

// What templates receive. Each page has a struct; frame is in all of them. docs/theme.md is
// made from this file: each field needs a comment that says what it holds.

// frame is what frame.html needs for every page.
type frame struct {
	Title       string       // the page's title for browsers and search engines
	Description string       // the page in one sentence, for search engines and shared links
	Policy      string       // the content security policy: it admits the style and the scripts by their hashes
	Style       template.CSS // the style sheet, made small
	Lang        string       // the language of the page: en-US
	Foreign     bool         // whether that is a language other than English, which owners write in
	Root        string       // leads from the page to the first page of its language: "" or "../"
	Up          string       // leads on from there to the site's root, where photos and scripts are: "" or "../"
	Other       *otherPage   // the same page in the other language; nil for a site in one language
	Alternates  []otherPage  // every language of the page by its whole address; none where the yard's file gives no address
	Chooser     template.JS  // the script that goes to the language that a visitor chose; empty with Other
	Canonical   string       // the page's whole address; empty where the yard's file gives none
	Hidden      bool         // whether search engines should leave the page out
	Example     bool         // whether the yard has nothing but an invented trailer to learn from
	Feeds       bool         // whether the site has feeds, which need whole addresses
	Data        template.JS  // what the page states for programs, as JSON-LD
	Picture     *picture     // what a shared link shows; nil for none
	Units       template.JS  // the script that switches between pounds and kilograms; empty where a page has no switch
	Sheet       string       // the file with the style, by its path in the site, where a page does not carry the style itself
	Switch      string       // the file with the script that switches between the systems, by its path in the site, where a page has no Units
	Known       template.JS  // the script that keeps space for answers before the page's first picture; empty with Units
	Terms       string       // what holds for every price: the day it is from, and what prices leave out
	Yard        yardCard     // who sells
	Safety      []string     // the cautions that every page carries
}

// otherPage is the same page in a language.
type otherPage struct {
	Link string // leads to it
	Lang string // the language: es-US
	Name string // what the language calls itself
}

// picture is a picture by its whole address.
type picture struct {
	Address string // where it is
	Alt     string // what it shows, in words
	Width   int    // in pixels
	Height  int    // in pixels
}

// yardCard is who sells.
type yardCard struct {
	Name   string   // the yard's name
	Phone  string   // the phone number; empty for none
	Texts  string   // the number that takes text messages; empty for none
	Ways   string   // an https link that shows the way; empty for none
	Email  string   // the mail address; empty for none
	Street string   // street and number; empty for none
	Town   string   // town and state; empty for none
	AsOf   string   // the day on which the stock was last walked: November 20, 2026
	Hours  []string // when the yard is open, a line each
}

// gonePage is the page for addresses that lead nowhere.
type gonePage struct{ frame }

// yardPage is a page of many trailers: the yard's own, that of a kind, or the plain list.
type yardPage struct {
	frame
	Heading  string        // the page's heading
	About    template.HTML // the yard's own text, on the front page
	Find     *finder       // what the front page finds with; nil on every other page
	FindLink string        // where the front page finds among the trailers of this kind
	Kinds    []link        // the other pages of many trailers, on every page but the front
	Shown    string        // how many trailers: "15 trailers."
	More     int           // how many more cards "Show more" adds at first
	Cards    []card        // the trailers, with a drawing each, or
	Rows     []card        // the trailers in a line each
	Pages    []link        // the pages of a long list
	Programs []link        // the files that give the stock to other programs
}

// finder is what the front page finds with.
type finder struct {
	Kinds    []kindChip       // the kinds, each with its own page
	Facets   []pagedata.Facet // what else can be asked for, as chips
	Stock    string           // script: every trailer in columns
	Statics  string           // script: the calculators
	Bring    string           // script: what the customer brings
	Machines string           // script: what common machines weigh
	Search   string           // script: the search
	Words    string           // JSON: the scripts of words, each with the word from which it counts
	Compared string           // the keys of the phrases that name what a comparison adds, with commas between
	Like     string           // a stock number to search for, as an example
	More     string           // JSON: by name the scripts that are loaded when somebody asks for what is in them
	Script   string           // script: the page's own
	List     string           // the page of every trailer in a plain list
	Lot      string           // script that keeps the page on a phone; empty where the yard does not ask for it
	Blank    card             // a card with every part, for the template element that the page's script fills
}

// kindChip is a chip that leads to the page of its kind where there are no scripts.
type kindChip struct {
	pagedata.Chip
	Link string // the page of the kind
	Rare bool   // one of many kinds of which the yard has a single trailer
}

// link is a link with its words.
type link struct {
	Link  string // the page
	Name  string // its words
	Count string // how many trailers are there; empty where nobody counts
	Here  bool   // whether it is the page that the link is on
}

// card is a trailer on a page of many.
type card struct {
	Link          string        // its page
	Title         string        // what it is
	Here          string        // whether it is here
	IsHere        bool          // whether it is on the yard today
	Worn          string        // new or used
	Stock         string        // its stock number
	Price         string        // the price, or what is said in its place
	Cautions      string        // "2 cautions"; empty for none
	GVWR          string        // as the label states it
	Long          string        // how long its deck, bed or box is; empty if unknown
	Size          string        // hitch, width and axles
	Payload       string        // what it can carry; empty if unknown
	PayloadMetric string        // the same in kilograms
	Share         string        // how much of the loaded trailer is on the truck; empty where the payload is
	Line          string        // all of it except the title in one line: a page of a hundred has no room for more
	LineMetric    string        // the same in metric units
	Gone          bool          // whether it is sold
	Pick          bool          // whether it can be picked to be compared
	Compare       string        // on other pages than the front: leads to the front page with this trailer picked
	View          template.HTML // its silhouette
	Photo         string        // its first photo, small; empty for none
}

// labeled is a line with a label. Which other parts it has depends on where it is.
type labeled struct {
	Label  string // what it is
	Text   string // the value
	Metric string // the value in metric units
	From   string // where the value comes from
	Proof  string // the photo that proves the value; empty for none
	What   string // more about it; of another trailer, its page
	Source string // the rule or the table that it follows
	Figure string // its name in the links of the page of every figure; empty for what nobody worked out
}

// unitPage is the page of one trailer.
type unitPage struct {
	frame
	printLinks
	Heading       string        // what it is; a number and its unit stay on one line
	Kind          string        // its kind, as pages call it
	KindLink      string        // the page of its kind
	Facts         string        // year, make, condition, color and when it came, in one line
	Availability  string        // whether it can be bought
	AvailMark     string        // "here" or "gone", for the style; empty for anything between
	Price         string        // the price, or what is said in its place
	Excludes      string        // as of when the price holds, and what it leaves out
	Sold          bool          // whether it is sold
	Nearest       []labeled     // other trailers that come near to one that is sold
	Plate         []plate       // the four figures of the tag
	Firsts        []labeled     // what buyers ask for next: Label, Text and Metric
	Cautions      []caution     // what to know before hooking up
	Careful       string        // how many they are, for the first screen: "2 cautions"; empty for none
	Fills         []labeled     // on a dump bed, how high each material may be filled: Label, Text, Metric and What it weighs
	View          template.HTML // the trailer from the side, with its dimensions; empty where too little was measured
	Front         template.HTML // the same, for the place of photos where there are none
	ViewWords     string        // the same in words
	NotesIn       string        // "en" or "es", the language of the owner's notes; empty where all of the page is in English
	NotesSay      string        // the sentence that says so, where the page has another language
	Untimed       string        // what the times in the notes belong to, if they lead nowhere; otherwise empty
	PayloadText   string        // what it can carry; empty where nobody can say
	PayloadMetric string        // the same in kilograms
	PayloadNote   string        // what limits it
	WhyMore       string        // why somebody may quote a higher payload
	Ladder        []rung        // every limit of the payload, lowest first
	AtPayload     []labeled     // what is on the truck and on the axles at the payload
	Others        []labeled     // other figures that people quote for it
	Body          template.HTML // the walk-around
	Recording     *recording    // its own video; nil for none
	Photos        []shownPhoto  // its photos, and after them its drawing
	Specs         []specGroup   // what its file states, by section
	Proven        string        // how many of its ratings were photographed; empty for none
	Standard      []string      // what comes with it
	Options       []string      // what is available but not on it
	Try           *tryout       // the calculators; nil for a trailer that is sold or lacks a measurement
	Script        string        // script: the page's own
	Keep          string        // script that keeps the page on a phone; empty where the yard does not ask for it
	Compare       string        // leads to the front page with this trailer picked; empty for one that is sold
	Workings      string        // the page of every figure
	Worked        string        // how many figures there are
	Absent        []absent      // figures that could not be worked out
}

// printLinks lead from a trailer's page to what is printed for it.
type printLinks struct {
	LotSheet string // the sheet that is pinned to the trailer
	HandOver string // the card that is ticked on the day it is sold
}

// plate is a figure of the tag.
type plate struct {
	Label  string // what it is
	Text   string // the value
	From   string // where it comes from
	Proof  string // the photo that proves it; empty for none
	Metric string // the value in metric units, where Text is rounded
	Figure string // its name in the links of the page of every figure; empty for what nobody worked out
	path   string // its key; empty for what was worked out
}

// caution is what a customer should know before hooking up.
type caution struct {
	Message string // what it is, with the numbers
	Why     string // what can happen
	Source  string // the rule
	Rule    string // its name in the links of the page that says how every number was worked out
	Danger  bool   // whether it can hurt people; the page then marks it with the red and white tape
}

// rung is one limit of the payload.
type rung struct {
	Label   string // what limits it
	Text    string // the payload under this limit alone
	Metric  string // the same in kilograms
	Working string // how it was worked out
	Governs bool   // whether it is the lowest
}

// specGroup is a section of what a trailer's file states.
type specGroup struct {
	Name string    // the section
	Rows []labeled // its values: Label, Text and From
}

// recording is a walk-around's own video. No byte of it is loaded before somebody plays it.
type recording struct {
	Video    string       // its address
	Size     string       // how large the file is, rounded up
	Length   string       // how long it plays; empty if unknown
	Day      string       // the day on which it was recorded; empty if unknown
	Wide     int          // the picture's width in pixels, so that nothing moves when it comes
	High     int          // the picture's height in pixels
	Poster   string       // the picture that is shown before it plays; empty for none
	Captions template.URL // the captions as a data address; empty for none
	Chapters template.URL // the chapters as a data address; empty for none
	Said     []said       // the captions as text, in one part for each note's time
	Script   template.JS  // plays it from a moment on
}

// said is what was said from a note's time to the next one's.
type said struct {
	At      string // 2:14
	Seconds int    // the same in seconds
	Link    string // plays the recording from there on
	Text    string // what was said
}

// shownPhoto is one photo, in a row that is swiped.
type shownPhoto struct {
	Picture   template.HTML // the photo, large, with a preview
	Place     string        // its name in links
	Nth       string        // which of how many: 1 of 5; empty where it is the only one
	Caption   string        // what is said below it; empty for nothing
	Repeats   bool          // whether a screen reader said the caption already, word for word, as the picture's own
	At        string        // the moment of the recording that shows the same: 2:14
	AtLink    string        // leads to that moment; empty where nothing does
	AtSeconds int           // the moment in seconds
	Here      bool          // whether the recording is on the page, so that a script can play it there
	made      *photo.Picture
}

// tryout is what a customer brings to a trailer's page: a machine and a truck of their own.
// Without scripts the common machines are there, worked out already.
type tryout struct {
	Rig      string    // JSON: the trailer as the calculators take it, then how large it is over all
	Statics  string    // script: the calculators
	Machines string    // script: what common machines weigh
	Bring    string    // script: what the customer brings, for every page
	Space    string    // what carries the load: deck, bed, box
	Machine  bool      // whether a machine is driven or set onto it
	Placed   bool      // whether it is measured well enough to set a machine on its drawing
	Common   []labeled // common machines, and where each can be
}

// figuresPage is every figure of one trailer with its working. The trailer's own page leads
// to it.
type figuresPage struct {
	frame
	Heading       string           // what the trailer is
	Back          string           // the trailer's page
	Forces        *forces          // one load worked step by step; nil where too little was measured
	Given         []labeled        // what the figures were worked out from, each once: Label, Text, From and Proof
	Figures       []figure         // in the order in which figures are declared
	Envelope      template.HTML    // what one load can weigh and where it can be, drawn
	EnvelopeWords []elevation.Line // the same in words
	EnvelopeLoad  string           // how long that load is
	Absent        []absent         // figures that could not be worked out
}

// forces is a trailer with its payload spread evenly, worked step by step.
type forces struct {
	Drawing  template.HTML // what presses down and what holds up
	Empty    string        // what it weighs empty
	Tongue   string        // how much of that is on the truck
	Balance  string        // how far behind the hitch it balances empty
	Payload  string        // what it may carry
	Middle   string        // how far behind the hitch the middle of an even load is
	Group    string        // how far behind the hitch the middle of the axles is
	Truck    string        // what is on the truck with that load
	TruckSum string        // how that was worked out
	Axles    string        // what is on the axles with that load
	AxlesSum string        // how that was worked out
}

// figure is a figure with its working.
type figure struct {
	Name    string   // its name in links and in JSON
	Label   string   // what pages call it
	Text    string   // the value
	Metric  string   // the value in metric units, where Text is rounded
	Working string   // the formula with the numbers in it
	What    string   // what the figure is
	Source  string   // the rule or the practice that it follows
	Notes   []string // what to know about it
	From    string   // what it was worked out from, by numbers in the list Given: 1, 3–5
}

// absent is a figure that could not be worked out.
type absent struct {
	Label string // what pages call it
	Needs string // what to weigh or to measure
}

// printedPage is what every printed page of a trailer begins with.
type printedPage struct {
	frame
	Heading string // what the trailer is
	Stock   string // its stock number
	Serial  string // its serial number; empty if unknown
	Back    string // the trailer's page
}

// lotSheet is pinned to a trailer and read from two meters away.
type lotSheet struct {
	printedPage
	Big          string        // what it is, in the largest letters: 28 ft deck-over
	Availability string        // whether it can be bought
	Price        string        // the price, or what is said in its place
	Excludes     string        // as of when the price holds, and what it leaves out
	Numbers      []labeled     // what it weighs, carries and measures: Label, Text and Metric
	Code         template.HTML // a QR code of the trailer's page; empty without an address
	Address      string        // the whole address of the trailer's page; empty without one
	Cautions     []string      // what to know before hooking up
	Proven       string        // how many ratings have a photo as proof; empty for none
	View         template.HTML // the trailer from the side, with its dimensions; empty where too little was measured
}

// handOver is gone through next to the trailer, pen in hand. An empty text leaves a line to
// write on: what the yard has not recorded is read off the trailer that day.
type handOver struct {
	printedPage
	Numbers      []labeled // what it weighs, carries and measures: Label, Text and Metric
	Pressure     string    // the cold tire pressure
	PressureFrom string    // where the pressure comes from
	Wheels       string    // tire size, and how many on each axle
	Torque       []string  // the stages of the wheel torque in order, in lb-ft
	TorqueMetric string    // the same in newton meters
	TorqueFrom   string    // the stud, and where the torque comes from
	Rechecks     []string  // after how many miles to tighten the wheels again
	Coupled      string    // the key of the phrase about its hitch
	Ball         string    // the ball's size
	Chains       string    // how many safety chains, and their strength
	Chained      string    // the key of the phrase about them; empty for none
	Brakes       string    // how the brakes work: electric, electric-over-hydraulic, surge, air, none
	Breakaway    bool      // whether it has a breakaway device
	Points       []labeled // the tie-down points: Label and Text
	PointsText   string    // what the rated points count for together
	Tail         bool      // whether it has a tail, a gate or ramps
	Cautions     []string  // what to know before hooking up
}

// howPage is the page that says how every number was worked out.
type howPage struct {
	frame
	Steps     *link        // a trailer whose figures are worked step by step; nil for none
	Figures   []definition // the figures
	Stops     []definition // the rules that keep a trailer off the site
	Cautions  []definition // the rules that warn
	Grades    []grade      // how well a row of a table is known
	Weakest   string       // the grade that is not enough to pass a tire
	Tables    []table      // the tables
	Clauses   []clause     // the laws and standards that are cited
	Unchecked []string     // what no figure and no rule covers
	States    []definition // state rules that are known but not applied: Name, What and Source
}

// definition is a figure or a rule.
type definition struct {
	Name    string   // its name in links
	Title   string   // what a rule asks
	Label   string   // what pages call a figure
	Formula string   // a figure's formula
	What    string   // what a figure is
	Why     string   // what happens where a rule is broken
	Source  string   // the clause or the practice that it follows
	Clauses []clause // the documents that the source cites
}

// clause is a law or a standard.
type clause struct {
	Document string // its name and what it is about
	Edition  string // the edition that was read
	Since    string // what changed since, or that nobody checked
}

// grade says how well a row of a table is known.
type grade struct {
	Name    string // S1, S2, S3 or M
	Meaning string // in words
}

// table is one of the tables.
type table struct {
	Title   string   // what it holds
	Rows    string   // how many rows
	Graded  string   // how many rows have which grade
	Sources []string // where its rows come from
}
