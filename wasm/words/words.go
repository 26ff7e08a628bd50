package words

import (
	"strings"

	"pullline/rigging"
	"pullline/wasm/units"
)

// A Region is where the words of the trade are at home. The zero value is
// New Zealand and Australia.
type Region int

const (
	NZ      Region = iota // New Zealand, Australia
	UK                    // United Kingdom, Ireland
	US                    // United States, Canada
	Regions               // how many there are
)

// regionTable holds each region's key in the settings, its name and the
// units it is usual to plan in there.
var regionTable = [Regions]struct {
	key   string
	label Text
	units *units.System
}{
	NZ: {"nz", "New Zealand, Australia", &units.KN},
	UK: {"uk", "United Kingdom, Ireland", &units.KN},
	US: {"us", "United States, Canada", &units.US},
}

// trade holds the words of the trade that differ from region to region: the
// one place that knows them. Labels and sentences name them in braces, with a
// capital for a capital: "{Scarf} opening". All of it is common practice, no
// source. The messages of package plan keep to words read alike everywhere.
var trade = [...]struct {
	key   string
	words [Regions]string
}{
	{"scarf", [Regions]string{"scarf", "gob", "face cut"}},
	{"hinge", [Regions]string{"hinge", "hinge", "hinge"}},
	{"back cut", [Regions]string{"back cut", "felling cut", "back cut"}},
	{"lay", [Regions]string{"lay", "felling direction", "lay"}},
	{"stem", [Regions]string{"stem", "stem", "stem"}},
	{"butt", [Regions]string{"butt", "butt", "butt"}},
	{"crown", [Regions]string{"crown", "crown", "crown"}},
	{"lean", [Regions]string{"lean", "lean", "lean"}},
	{"strop", [Regions]string{"strop", "sling", "sling"}},
	{"shackle", [Regions]string{"shackle", "shackle", "shackle"}},
	{"block", [Regions]string{"block", "pulley", "block"}},
	{"redirect", [Regions]string{"redirect block", "offset pulley", "redirect block"}},
	{"tackle", [Regions]string{"tackle", "pulley system", "block and tackle"}},
	{"dead end", [Regions]string{"dead end", "fixed end", "dead end"}},
	{"pull line", [Regions]string{"pull line", "pull line", "pull line"}},
	{"hold line", [Regions]string{"hold line", "holding line", "hold line"}},
	{"puller", [Regions]string{"puller", "puller", "puller"}},
	{"machines", [Regions]string{"winch, tractor, digger", "winch, tractor, excavator", "winch, tractor, skidder, excavator"}},
	{"buried log", [Regions]string{"buried log (deadman)", "buried log (deadman)", "buried log (deadman)"}},
	{"feller", [Regions]string{"faller", "feller", "faller"}},
	{"saw operator", [Regions]string{"saw operator", "chainsaw operator", "sawyer"}},
	{"power lines", [Regions]string{"power lines", "overhead lines", "power lines"}},
	{"fibre", [Regions]string{"fibre", "fibre", "fiber"}},
	{"centre", [Regions]string{"centre", "centre", "center"}},
	{"judgement", [Regions]string{"judgement", "judgement", "judgment"}},
}

// Key names the region in the settings.
func (r Region) Key() string { return regionTable[r].key }

// Label names the region to those who choose one.
func (r Region) Label() Text { return regionTable[r].label }

// Units are those it is usual to plan in there.
func (r Region) Units() *units.System { return regionTable[r].units }

// RegionOf is the region of the settings: the one chosen or, while none is,
// a first guess from the language a browser asks for, such as "en-GB".
func RegionOf(chosen, language string) Region {
	for r := range regionTable {
		if regionTable[r].key == chosen {
			return Region(r)
		}
	}
	_, country, _ := strings.Cut(strings.ToUpper(language), "-")
	switch country {
	case "GB", "IE":
		return UK
	case "US", "CA":
		return US
	}
	return NZ
}

// tradeWord is the region's word for a key of the trade table; a key with a
// capital gives it with one.
func (r Region) tradeWord(key string) (string, bool) {
	if key == "" {
		return "", false
	}
	first, rest := key[0]|0x20, key[1:] // the key's first letter, small
	for i := range trade {
		if k := trade[i].key; k[0] != first || k[1:] != rest {
			continue
		}
		if w := trade[i].words[r]; key[0] == first {
			return w, true
		} else {
			return Capital(w), true
		}
	}
	return "", false
}

// CommonPractice is the source of a caution that rests on no publication of
// its own but on the trade's plain practice.
var CommonPractice = Text(rigging.CommonPractice.Words())
