package unit

import (
	"fmt"
	"path"
	"reflect"
	"regexp"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"
)

// An everyday is what people call something that the format has under another key, or that it
// has no key for.
type everyday struct {
	// words are how they write it, separated by |: in lower case, with blanks for hyphens and
	// without a plural's s.
	words string
	// under is the section in which the word means this; empty for any place.
	under string
	// path is the key, or several with | between them, of which the first that takes the value is
	// meant; empty where there is none.
	path string
	// item is how it is written under standard, where there is no key.
	item string
}

// everydays is the table of everyday words. The first row that fits wins, and a row for the
// section comes before one for any place.
var everydays = []everyday{
	// what it is
	{"vin|vin number|serial number|id number", "", "serial", ""},
	{"brand|make model|manufacturer|builder|maker|mfg|manufactured by", "", "make", ""},
	{"type|style|category|body type|trailer type", "", "kind", ""},
	{"type|style", "jack", "jack.kind", ""},
	{"type|style", "ramps", "ramps.kind", ""},
	{"type|style", "gate", "gate.kind", ""},
	{"type|style|system", "hoist", "hoist.kind", ""},
	{"type|style", "hitch", "hitch.kind", ""},
	{"model year|year model|year built", "", "year", ""},
	{"date of manufacture|manufacture date|manufactured|month|month built|build date|built month|mfg date|production date", "", "built", ""},
	{"name|headline|heading", "", "title", ""},
	{"status|state|in stock|stock status", "", "availability", ""},
	{"sold|sold on|sold date|date sold", "", "availability", "write it as availability: sold; if it is for sale, delete the line"},
	{"spoken|spoken for|pending|sale pending|on hold|held|reserved|layaway|lay away", "", "availability", "write it as availability: spoken for; if it is for sale, delete the line"},
	{"stock number|stock no|stock id|unit number|unit", "", "stock", ""},
	{"paint color|body color|exterior color", "", "color", ""},
	{"date in|received|date received|in stock since|arrival|due|due date|eta|expected|expected date|ship|delivery date", "", "arrived", ""},
	{"inspection|dot inspection|annual inspection|inspection date|last inspection|inspection due|inspected", "", "wear.inspected", ""},
	{"note|comment|remark", "", "", "write it in words below the second line of ---, where customers read it; a note to yourself has # and a blank in front of its line"},
	{"description|history|usage|use|used for|hour|mileage|mile|registration|coupler height|hitch height|ground clearance|dump angle", "", "", "write it in words below the second line of ---"},
	{"location|row|title number|plate number|key number|lot|lot number|bay|space", "", "", "write it for yourself on a line that begins with #, as in # row 4"},
	{"hold|hidden|draft|unlisted", "", "withhold", ""},
	{"picture|image|pic|photo", "", "photos", ""},
	{"feature|included|include|extra|equipment list", "", "standard", ""},
	{"option|add on|available option", "", "options", ""},
	{"warranty left|guarantee|remaining warranty", "", "warranty", ""},
	// price and paper
	{"sale price|our price|internet price|asking|asking price|list price|amount|msrp", "", "price", ""},
	{"was|old price|previous price|before|reduced from|regular price", "", "offer.was", ""},
	{"cash|cash price", "", "offer.cash", ""},
	{"cash discount|discount", "", "", "write the price for cash, not the difference, below offer: as cash: $17,900"},
	{"fee|delivery cost|freight cost|shipping cost|doc fee|document fee|documentation fee|freight|plus|delivery|prep", "", "offer.plus", ""},
	{"obo|best offer|or best offer|negotiable", "", "offer.best-offer", ""},
	{"tax|tax included|sales tax", "", "offer.tax-included", ""},
	{"financing|finance|payment|monthly payment|rent to own|down payment|apr|term", "", "offer.financing", ""},
	{"paper|title status|ownership paper|paperwork|title type", "", "ownership.paper", ""},
	{"mso|mco|certificate of origin|statement of origin", "", "ownership.paper", "write it below ownership: as paper: MSO"},
	{"title state|title location|title in hand|lien", "", "ownership.state", ""},
	{"title brand|salvage|rebuilt", "", "ownership.brand", ""},
	// sizes
	{"overall width|total width|outside width", "", "overall-width", ""},
	{"width|wide", "", "", "write it below deck:, bed: or box: as width:; or at the left edge as overall-width: if it is that of the whole trailer"},
	{"height|overall height|total height", "", "overall-height", ""},
	{"overall|total length|overall length|length overall", "", "overall-length", ""},
	{"length|deck length|bed length|box length|size|dimension|deck size|bed size|box size|floor size|inside dimension|trailer size", "", "", "write length: and width: below deck:, bed:, box: or what else carries the load"},
	{"size|dimension", "deck", "", "write length: and width:, each on a line of its own"},
	{"size|dimension", "bed", "", "write length:, width: and height:, each on a line of its own"},
	{"size|dimension", "box", "", "write length:, width: and height:, each on a line of its own"},
	{"between fender|fender width|width between fender|inside fender", "", "deck.between-fenders", ""},
	{"deck height|height|floor height", "deck", "deck.height", ""},
	{"floor", "deck", "frame.floor", ""},
	{"material|flooring|surface", "deck", "frame.floor", ""},
	{"side|side height|sidewall|wall", "bed", "bed.height", ""},
	{"inside height|interior height|ceiling|ceiling height|headroom", "", "box.height", ""},
	{"inside width|interior width", "", "box.width", ""},
	{"door size|door width|rear door width", "", "box.door-width", ""},
	{"door opening|rear door height|rear opening|clear height", "", "box.door-height", ""},
	{"rear door|back door|ramp door|barn door", "", "box.door", ""},
	{"side door|man door|entry door|rv door", "", "box.side-door", ""},
	{"v nose|vnose|nose", "", "box.nose", ""},
	{"vent|roof vent", "", "box.roof-vents", ""},
	{"dovetail|dove tail|tail|beavertail|beaver tail", "", "deck.tail|deck.tail-kind", ""},
	{"well|well length", "", "deck.well", ""},
	{"loaded height|loaded deck height|deck height loaded|height loaded|loaded", "deck", "deck.height-loaded", ""},
	{"loaded height|loaded deck height|deck height loaded", "", "deck.height-loaded", ""},
	{"concentrated load|concentrated rating|concentrated load rating|half deck rating|deck rating|beam rating|load concentration", "", "deck.concentrated", ""},
	{"neck|detachable neck|removable neck", "", "deck.neck", ""},
	{"volume|gallon|tank size|tank capacity", "", "tank.volume", ""},
	{"capacity", "", "claimed.payload|tank.volume", ""},
	{"cubic yard|yardage|bed capacity|bed volume|dump capacity", "", "", "write length:, width: and height: below bed:, and the volume is worked out"},
	{"pump size|hose|hose reel|pump and hose", "", "tank.pump", ""},
	{"bushel|bushel capacity|hopper capacity", "", "bed.volume", ""},
	{"trap|trap door|number of trap|hopper trap|slide gate", "", "bed.traps", ""},
	{"yard|bin size|dumpster|container size", "", "bin.largest", ""},
	{"volume|size|yard|included size|volume included", "bin", "bin.included-volume|bin.largest", ""},
	{"included bin|bin included|included bin size|included bin volume|bin volume", "", "bin.included|bin.included-volume", ""},
	{"tank test|tank tested|test date|tank inspection|cargo tank inspection|cargo tank test|last test|last tested|vk test|v k|test|inspected|inspection", "tank", "tank.tested", ""},
	{"tank test|tank tested|tank test date|tank inspection|cargo tank inspection|cargo tank test|leak test|leakage test", "", "tank.tested", ""},
	{"fresh tank|fresh water tank|fresh water capacity|fresh|potable water|potable water tank|water supply tank", "", "equipment.fresh-water", ""},
	{"gray tank|grey tank|gray water tank|grey water|grey water tank|waste water|waste water tank|wastewater tank|waste tank|holding tank", "", "equipment.gray-water", ""},
	{"boat length|hull length|max boat length", "", "hull.length", ""},
	// weights
	{"weight|empty weight|curb weight|dry weight|tare|tare weight|unladen weight|shipping weight|curb", "", "weights.empty", ""},
	{"gvw|gvwr rating|gross|gross weight|gross vehicle weight|max weight", "", "weights.gvwr", ""},
	{"payload|payload capacity|load capacity|payload rating|carrying capacity|cargo capacity|cargo weight|max payload", "", "claimed.payload", ""},
	{"max load|maximum load|load plate|max load plate|plate load", "", "weights.max-load", ""},
	{"loaded weight|gross scale weight|weight loaded|scale weight loaded|heavy ticket|weight full|full weight", "", "weights.loaded", ""},
	{"tongue weight|hitch weight|pin weight|tongue", "", "weights.tongue-empty", ""},
	// hitch
	{"coupler|coupler rating|hitch rating", "", "hitch.rating", ""},
	{"tongue length|neck length|front to ball", "", "deck.front", ""},
	{"ball size|coupler size|ball|gooseneck ball|hitch ball", "", "hitch.ball", ""},
	{"size", "hitch", "hitch.ball", ""},
	{"plug|wiring|connector|trailer plug|electrical plug|light plug|harness", "", "hitch.plug", ""},
	{"pintle|lunette|eye|ring|pintle eye", "", "hitch.lunette", ""},
	{"receiver|receiver size", "", "hitch.receiver", ""},
	{"kingpin|king pin|kingpin size|pin size", "", "hitch.kingpin", ""},
	{"kingpin setting|king pin setting|setting|setback|pin setback", "", "hitch.ahead", ""},
	{"adjustable|adjustable coupler|adjustable hitch", "", "hitch.adjustable", ""},
	{"chain|safety chain", "", "hitch.chains", ""},
	// running gear
	{"axle count|number of axle", "", "axles.count", ""},
	{"axle spread|spread|axle spacing|spread axle", "", "axles.spacing", ""},
	{"wheelbase|wheel base|ball to axle", "", "axles.center", ""},
	{"axle", "", "axles", ""},
	{"axle rating|axle capacity|gawr|axle weight", "", "axles.rating", ""},
	{"capacity|weight|size", "axles", "axles.rating", ""},
	{"suspension|spring|leaf spring|torsion|ride", "", "axles.suspension", ""},
	{"hub|bearing", "", "axles.hubs", ""},
	{"drop axle|straight axle|axle type|axle style", "", "axles.suspension|axles.shape", ""},
	{"tire|tire size|tyre|tyre size", "", "tires.size", ""},
	{"load range|range", "", "tires.load-range", ""},
	{"rim|wheel material|wheel type|wheel|aluminum wheel", "", "tires.rims", ""},
	{"bolt pattern|lug pattern|lug|bolt", "", "tires.bolt-pattern", ""},
	{"tire age|dot|date code|dot code", "", "tires.made", ""},
	{"spare tire|spare wheel", "", "spare|tires.spare-place", ""},
	{"spare size", "", "tires.spare-size", ""},
	{"tread|tread depth|tire condition|tire tread", "", "wear.tread", ""},
	{"brake|brake type", "", "brakes.kind", ""},
	{"disc|drum|disc or drum", "brakes", "brakes.type", ""},
	{"drum size|brake size", "", "brakes.size", ""},
	{"abs|antilock|anti lock|anti lock brake|antilock brake", "", "brakes.abs", ""},
	{"break away|breakaway|breakaway kit|breakaway switch|breakaway battery", "", "brakes.breakaway", ""},
	{"lining|pad|brake condition", "", "wear.brakes", ""},
	{"rust|corrosion|surface rust", "", "wear.rust", ""},
	{"condition note|wear|defect|damage|problem|issue|known issue|need|repair|fault", "", "wear.defects", ""},
	{"floor condition", "", "wear.floor", ""},
	// how it is built
	{"floor|floor type|flooring|decking|deck material|deck board|floor material|wood", "", "frame.floor", ""},
	{"floor thickness|thickness|gauge|floor gauge", "", "frame.floor-thickness", ""},
	{"material|frame material|aluminum|steel|construction|built from", "", "frame.material", ""},
	{"finish|paint|powder coat|coating|galvanized|primer", "", "frame.finish", ""},
	{"skin|siding|exterior|outside|sheet metal|aluminum skin", "", "frame.skin", ""},
	{"fender|fender type|drive over fender|removable fender", "", "frame.fenders", ""},
	{"main frame|beam|i beam|frame rail|main rail|channel", "", "frame.beam", ""},
	{"crossmember|cross member|joist", "", "frame.crossmember", ""},
	{"side|side height|rail|side rail|top rail|mesh side|expanded metal", "", "sides.height|sides.kind", ""},
	{"tailgate|rear gate|spreader gate|gate type|combo gate|spreader", "", "gate.kind", ""},
	{"center gate|divider|divider gate|cut gate", "", "gate.center", ""},
	{"ramp|ramp type|loading ramp|ramp gate", "", "ramps.kind", ""},
	{"spring assist|assist|spring assisted gate", "", "ramps.spring-assisted", ""},
	{"winch mount|winch location", "", "winch.place", ""},
	{"winch type|winch capacity|winch rating", "", "winch.rating", ""},
	{"winch count|number of winche", "", "winch.count", ""},
	{"lift|ram|cylinder|scissor lift|dump lift", "", "hoist.kind|hoist.rating", ""},
	{"hoist capacity|lift capacity", "", "hoist.rating", ""},
	{"pump|power unit", "hoist", "hoist.power", ""},
	{"tarp|roll tarp|tarp kit|tarp system|mesh tarp|cover", "", "equipment.tarp", ""},
	{"tool box|toolbox|box", "", "equipment.tool-boxes", ""},
	{"tool box|toolbox", "box", "equipment.tool-boxes", ""},
	{"e track|etrack|l track|tie down track|track", "", "equipment.tracks", ""},
	{"d ring|stake pocket|tie down|tiedown|anchor", "", "tie-downs", ""},
	{"awning|serving window", "", "equipment.awning", ""},
	{"generator|solar|solar panel|shore power|outlet|electric|electrical|electrical package", "", "equipment.power", ""},
	{"tongue jack|jack type|landing gear", "", "jack.kind|jack.drive|jack.rating", ""},
	{"drop leg", "", "jack.drop-leg", ""},
	{"capacity|weight", "jack", "jack.rating", ""},
	{"capacity|pull|line pull", "winch", "winch.rating", ""},
	{"capacity", "hoist", "hoist.rating", ""},
	{"capacity", "ramps", "ramps.rating", ""},
	{"capacity", "hitch", "hitch.rating", ""},
	{"led|led light|led package", "", "lights.led", ""},
	{"work light|flood light|scene light|loading light|interior light", "", "lights.work-lights", ""},
	{"light|lighting|lamp|marker light", "", "lights", ""},
	{"reflective tape|reflector tape|reflector|tape|dot tape|conspicuity tape", "", "lights.conspicuity", ""},
	{"roller", "", "hull.rollers|hull.support", ""},
	{"bunk or roller", "", "hull.support", ""},
	{"bunk length", "", "hull.bunk-length", ""},
	{"winch stand|winch post|bow stop", "", "hull.winch-stand", ""},
	{"hook height|hooklift|hook", "", "bin.hook-height", ""},
	{"twist lock|container lock", "", "chassis.twist-locks", ""},
	{"baffle|baffled", "", "tank.baffles", ""},
	{"liquid|fuel type|product", "", "tank.liquid", ""},
	{"stake|bolster", "", "bunks.stakes", ""},
	// what has no key
	{"ladder|ladder rack|rack", "", "", "- ladder rack"},
	{"rub rail|rubrail", "", "", "- rub rail"},
	{"plate|license plate|temp tag|tag", "", "", "- license plate"},
	{"roof|window|cabinet|chain box|ladder box|battery|remote|battery charger", "", "", ""},
	{"mud flap|mudflap", "", "", "- mud flaps"},
	{"wheel chock|chock", "", "", "- wheel chock"},
	{"kayak rack|spray wand|fire extinguisher|first aid kit", "", "", ""},
}

// paths are the keys of the row.
func (e everyday) paths() []string { return strings.Split(e.path, "|") }

// plainWord writes a key as the table does: lower case, blanks, no plural.
func plainWord(name string) string {
	s := strings.Join(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return r == '-' || r == '_' || r == ' ' || r == '.' || r == '/' }), " ")
	if len(s) > 3 && strings.HasSuffix(s, "s") && !strings.HasSuffix(s, "ss") && !strings.HasSuffix(s, "us") {
		s = strings.TrimSuffix(s, "s")
	}
	return s
}

// everydayFor finds the row for a key that does not exist.
func everydayFor(name, section string) (everyday, bool) {
	word := plainWord(name)
	for _, place := range []string{section, ""} {
		for _, e := range everydays {
			if e.under == place && slices.Contains(strings.Split(e.words, "|"), word) {
				return e, true
			}
		}
		if section == "" {
			break
		}
	}
	return everyday{}, false
}

// advice says where what is written under an unknown key belongs. It names one key, or a few
// where the word can mean a few.
func (r *reader) advice(name, value *yaml.Node, ks *keys, section string) (remedy string, meant *key) {
	word := name.Value
	if instead := renamed[strings.TrimPrefix(section+"."+word, ".")]; instead != "" {
		return "the key is called " + instead, nil
	}
	e, known := everydayFor(word, section)
	ours := !r.yard && listKeys[section] == nil
	if remedy := r.notPublished(word, value, ours, e, known); remedy != "" {
		return remedy, nil
	}
	near := Nearest(word, ks.names)
	slip := near != "" && slipOfThePen(word, near)
	known = known && ours
	// A word of the table is not a slip, unless keys are below it as they are below the key.
	if slip && (!known || value.Kind == yaml.MappingNode) {
		return fmt.Sprintf("did you mean %q?", near), ks.byName[near]
	}
	if !ours {
		return shortList(ks), nil
	}
	if !hasLetter.MatchString(word) {
		return "write the name of a key, as in title: 18 ft equipment trailer", nil
	}
	if plainWord(word) == "size" && tireSize.MatchString(value.Value) {
		return r.belongs([]string{"tires.size"}, section, value), nil
	}
	if known {
		return r.everydayAdvice(e, name, value, section), nil
	}
	if paths := elsewhere(word); len(paths) == 1 && taken(paths[0], value) != "" {
		return r.belongs(paths, section, value), nil
	}
	if path := compound(word); path != "" {
		return r.belongs([]string{path}, section, value), nil
	}
	return elsewhereAdvice(word, value, ks, section), nil
}

// notPublished is what to do with a key that is the yard's own affair or that of a proof; empty for
// another one.
func (r *reader) notPublished(word string, value *yaml.Node, ours bool, e everyday, known bool) string {
	switch {
	case strings.HasPrefix(strings.ToLower(word), "proof-") && !r.yard:
		return proofRemedy
	case ownMark.MatchString(word), ours && staysPrivate(word, value, e, known), !ours && value.Kind == yaml.ScalarNode && isPrivate(word):
		return notForCustomers(word)
	}
	return ""
}

// elsewhereAdvice says where a word belongs that the table does not have: to another section, or
// under standard.
func elsewhereAdvice(word string, value *yaml.Node, ks *keys, section string) string {
	// This is how messages write a key, not how a file writes it.
	if above, below, ok := strings.Cut(word, "."); ok && keyNamed(strings.TrimPrefix(section+"."+word, ".")) != nil {
		return fmt.Sprintf("write %s: on a line of its own, and %s: indented below it", above, below)
	}
	if paths := elsewhere(word); len(paths) == 1 {
		return "this key belongs at " + paths[0]
	} else if len(paths) > 1 && section == "" {
		return "say of what, for example " + strings.Join(paths[:min(len(paths), 4)], ", ") + "; write the section on a line of its own and " + word + ": indented below it"
	}
	if path := nearElsewhere(word); path != "" {
		return "did you mean " + path + "?"
	}
	if section != "" && len(ks.names) <= mostNamed {
		if line, ok := strings.CutPrefix(listIt("", word, value), "list it under standard:"); ok {
			return shortList(ks) + "; what has no key goes under standard:" + line
		}
		return shortList(ks) + "; " + listIt("", word, value)
	}
	return "there is no key for " + article(word) + "; " + listIt("", word, value)
}

// everydayAdvice says where what has an everyday name belongs.
func (r *reader) everydayAdvice(e everyday, name, value *yaml.Node, section string) string {
	switch {
	case e.path != "" && e.item == "":
		return r.belongs(e.paths(), section, value)
	case e.path != "":
		r.meant = append(r.meant, e.path)
		return e.item
	case strings.HasPrefix(e.item, "write "):
		return e.item
	}
	return "there is no key for " + article(name.Value) + "; " + listIt(e.item, name.Value, value)
}

// compound finds the key for a section's name and a key in it, as in ramp length, jack capacity
// and suspension type; empty where there is none.
func compound(word string) string {
	first, last, two := cutWord(plainWord(word))
	if !two {
		return ""
	}
	for _, k := range unitKeys().order {
		if plainWord(k.name) != first || k.kids == nil {
			continue
		}
		if kid := k.kids.byName[last]; kid != nil && kid.kids == nil {
			return kid.path
		}
		if e, ok := everydayFor(last, k.name); ok && e.under == k.name && e.path != "" {
			return e.paths()[0]
		}
		return ""
	}
	if paths := elsewhere(strings.ReplaceAll(first, " ", "-")); len(paths) == 1 && slices.Contains([]string{"type", "kind", "style"}, last) {
		return paths[0]
	}
	return ""
}

// cutWord cuts words before the last one.
func cutWord(words string) (first, last string, two bool) {
	i := strings.LastIndexByte(words, ' ')
	if i < 0 {
		return words, "", false
	}
	return words[:i], words[i+1:], true
}

// mostNamed is how many keys a message names. More are a wall that nobody reads.
const mostNamed = 8

// shortList names the keys of a section.
func shortList(ks *keys) string {
	return "the keys here are " + strings.Join(ks.names, ", ")
}

// belongs says where a value is written, with the value if the key takes it, otherwise with
// the key's example. Of several keys it is the first that takes the value.
func (r *reader) belongs(paths []string, section string, value *yaml.Node) string {
	k, line := keyNamed(paths[0]), ""
	for _, path := range paths {
		if text := taken(path, value); text != "" {
			k = keyNamed(path)
			line = k.name + ": " + text
			if _, _, note := split(k.example); note != "" && !strings.Contains(text, "(") {
				line += ", with a note after it such as (" + note + ")"
			}
			break
		}
	}
	switch {
	case line != "":
	case k.path == "serial" && value.Kind == yaml.ScalarNode && value.Value != "":
		// The example's number would be copied, and belongs to no trailer of the yard's.
		line = "serial: " + shorten(value.Value)
	case len(k.choices) > 0 && len(k.choices) <= mostNamed && value.Kind == yaml.ScalarNode && value.Value != "":
		// So would a choice that the owner did not make.
		line = k.name + ": and one of these: " + strings.Join(k.choices, ", ")
	default:
		line = k.name + ": " + k.example
	}
	r.meant = append(r.meant, k.path)
	switch {
	case k.list:
		return "this goes under " + k.path + ", each on a line of its own after a dash"
	case k.kids != nil:
		return "this goes under " + k.path + ": " + strings.Join(k.kids.names[:min(len(k.kids.names), 4)], ", ") + " are keys there"
	}
	above, _, below := cutLast(k.path)
	switch {
	case !below && section == "":
		return "write it as " + line
	case !below:
		return "write it at the left edge as " + line
	case above == section:
		return "write it as " + line
	case keyNamed(above).list:
		return "it belongs to one of the items of " + above + ": write it as " + line + " below the line that begins with a dash"
	}
	return "write it below " + above + ": as " + line
}

// taken is a value as the key with that path takes it, or "".
func taken(path string, value *yaml.Node) string {
	k := keyNamed(path)
	if k.kids != nil || k.list || value.Kind != yaml.ScalarNode || len(value.Value) > 60 {
		return ""
	}
	text := strings.TrimSpace(value.Value)
	if k.choices != nil {
		if slices.ContainsFunc(k.choices, func(c string) bool { return sameWords(c, text) }) {
			return text
		}
		return meantChoice(k, text)
	}
	if k.kind == "text" && (!hasLetter.MatchString(text) || sayNothing[strings.ToLower(text)]) || strings.ContainsAny(text, ":#\n\"'") {
		return ""
	}
	if new(Unit).leafAt(path).read(text, k) != nil {
		return ""
	}
	return text
}

// sayNothing are values that say only that something is there.
var sayNothing = map[string]bool{"yes": true, "no": true, "true": true, "false": true, "none": true, "included": true, "available": true, "standard": true, "optional": true}

// fieldAt is the field of the key with that path. Below a list, such as photos.alt, it is that of an
// item that the unit does not have yet.
func (u *Unit) fieldAt(path string) reflect.Value {
	v, ks := reflect.ValueOf(u).Elem(), unitKeys()
	for name := range strings.SplitSeq(path, ".") {
		if v.Kind() == reflect.Slice {
			v = reflect.New(v.Type().Elem()).Elem()
		}
		k := ks.byName[name]
		v = v.Field(k.index)
		if ks = k.kids; k.list && listKeys[name] != nil {
			ks = listKeys[name]()
		}
	}
	return v
}

func (u *Unit) leafAt(path string) leaf { return u.fieldAt(path).Addr().Interface().(leaf) }

// spoilMeant marks the fields of the keys that unknown keys probably meant, so that they do not
// also count as missing.
func (r *reader) spoilMeant(u *Unit) {
	for _, path := range r.meant {
		if k := keyNamed(path); !k.list {
			spoilBelow(k, u.fieldAt(path))
		}
	}
}

// cutLast cuts a path before its last name.
func cutLast(path string) (above, name string, below bool) {
	i := strings.LastIndexByte(path, '.')
	if i < 0 {
		return "", path, false
	}
	return path[:i], path[i+1:], true
}

// listKeys are the keys of the entries of lists, by the names of the lists.
var listKeys = map[string]func() *keys{"photos": photoKeys, "proof": proofKeys, "waive": waiverKeys}

// keyNamed is the key of a unit file with that path, or nil.
func keyNamed(path string) *key {
	ks := unitKeys()
	var k *key
	for _, name := range strings.Split(path, ".") {
		if ks == nil {
			return nil
		}
		if k = ks.byName[name]; k == nil {
			return nil
		}
		if ks = k.kids; k.list && listKeys[name] != nil {
			ks = listKeys[name]()
		}
	}
	return k
}

// slipOfThePen reports whether a word is a name with a slip in it, and not another word that
// shares some letters with it: a winch is not a hitch.
func slipOfThePen(word, name string) bool {
	w, n := strings.ToLower(word), strings.ToLower(name)
	if w == n || swapped(w, n) || len(w) >= 4 && strings.HasPrefix(n, w) {
		return true
	}
	switch d := distanceOf(w, n); {
	case d <= 1:
		return len(w) >= 4 || len(w) == 3 && w[0] == n[0]
	case d == 2:
		return len(w) >= 6 && w[0] == n[0]
	default:
		return d == 3 && len(w) >= 10 && w[0] == n[0]
	}
}

// elsewhere finds the keys of that name in other sections.
func elsewhere(name string) (paths []string) {
	for _, k := range Keys() {
		// What the maker claims is seldom meant.
		if tail := k.Path[strings.LastIndexByte(k.Path, '.')+1:]; tail == name && !strings.HasPrefix(k.Path, "claimed.") {
			paths = append(paths, k.Path)
		}
	}
	return paths
}

// nearElsewhere finds a key in any section that the word is a slip of.
func nearElsewhere(word string) string {
	var names []string
	for _, k := range Keys() {
		names = append(names, k.Path[strings.LastIndexByte(k.Path, '.')+1:])
	}
	if near := Nearest(word, names); near != "" && slipOfThePen(word, near) {
		if paths := elsewhere(near); len(paths) == 1 {
			return paths[0]
		}
	}
	return ""
}

// tireSize matches the size of a tire, which no deck has: ST205/75R15, 235/80R16.
var tireSize = regexp.MustCompile(`(?i)^\s*(?:ST|LT|P)?\s?[0-9]{3}/[0-9]{2}\s?-?[RDB]\s?[0-9]{2}`)

var hasLetter = regexp.MustCompile(`[A-Za-z]`)

var safeItem = regexp.MustCompile(`^[A-Za-z0-9][^:#\n]*$`)

// itemFor is the line under standard for something without a key.
func itemFor(item, word string, value *yaml.Node) string {
	if item != "" {
		return item
	}
	out := strings.NewReplacer("-", " ", "_", " ").Replace(shorten(word))
	if value != nil && value.Kind == yaml.ScalarNode {
		switch v := strings.TrimSpace(value.Value); {
		case v == "", strings.EqualFold(v, "yes"), strings.EqualFold(v, "true"), strings.EqualFold(v, out):
		case safeItem.MatchString(v) && len(v) <= 40:
			out += ", " + v
		}
	}
	return "- " + out
}

// article is a word with its article: a tarp, an awning.
func article(word string) string {
	out := strings.NewReplacer("-", " ", "_", " ").Replace(shorten(word))
	switch {
	case len(out) > 3 && strings.HasSuffix(out, "s") && !strings.HasSuffix(out, "ss"), strings.HasSuffix(out, "ing"), strings.EqualFold(out, "ac"):
		return out
	case out != "" && strings.ContainsRune("aeiouAEIOU", rune(out[0])):
		return "an " + out
	}
	return "a " + out
}

// below suggests how to write under its keys what somebody wrote after a section's own key:
// "winch: electric, 12,000 lb" is kind: electric and rating: 12,000 lb.
func (k *key) below(text string) string {
	low := strings.ToLower(text)
	var lines []string
	if file := k.belowFile(text); file != "" {
		return "write below it " + file
	}
	for _, kid := range k.kids.order {
		if len(lines) > 2 || kid.kids != nil {
			break
		}
		if kid.choices != nil && Everyday(kid.path, text) != "" {
			lines = append(lines, kid.name+": "+Everyday(kid.path, text))
			continue
		}
		if kid.kind == "yes or no" && low == kid.name {
			lines = append(lines, kid.name+": yes")
		}
		for _, c := range kid.choices {
			if c != "none" && strings.Contains(low, strings.ToLower(c)) {
				lines = append(lines, kid.name+": "+c)
				break
			}
		}
		if kid.kind == "weight" {
			if m := weightInText.FindString(text); m != "" && len(lines) < 3 && !strings.Contains(strings.Join(lines, " "), m) {
				lines = append(lines, kid.name+": "+m)
			}
		}
	}
	if lines == nil {
		for _, kid := range k.kids.order {
			if kid.kids == nil && kid.example != "" {
				return "write its keys indented below, such as " + kid.name + ": " + kid.example
			}
		}
		return "write its keys indented below"
	}
	return k.writeBelow(lines)
}

// writeBelow says to write the lines below the key. For a section in a section it shows both lines:
// owners see no other example of three levels.
func (k *key) writeBelow(lines []string) string {
	if blanks := strings.Repeat("  ", strings.Count(k.path, ".")); blanks != "" && len(lines) == 1 {
		return fmt.Sprintf("write two lines, %q and %q", blanks+k.name+":", blanks+"  "+lines[0])
	}
	return "write below it " + strings.Join(lines, " and ")
}

// belowFile is the key of the section that names files with that ending, with the file; "" for none.
func (k *key) belowFile(text string) string {
	for _, kid := range k.kids.order {
		if slices.Contains(endings[kid.path], strings.ToLower(path.Ext(text))) {
			return kid.name + ": " + mediaFolder + strings.TrimPrefix(text, mediaFolder)
		}
	}
	return ""
}

var weightInText = regexp.MustCompile(`(?i)[0-9][0-9,.]*k? ?(?:lbs?|kg)\b`)
