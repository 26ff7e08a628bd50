package rigging

import (
	"math"
	"strconv"
)

// Basis says how well a figure is founded.
type Basis string

// The bases, best first.
const (
	Published      Basis = "published"                  // read in the publication named
	GroupFigure    Basis = "published group figure"     // published for a group of species or things, not for this one
	Derived        Basis = "derived"                    // worked out here from published figures by the formula named
	FromMemory     Basis = "from memory"                // recalled, not checked against the publication named
	CommonPractice Basis = "common practice, no source" // a rule of the trade
)

// Words says a basis to the crew. All that users read of one comes from here.
func (b Basis) Words() string {
	switch b {
	case GroupFigure:
		return "published for a group, not for this one alone"
	case Derived:
		return "worked out from published figures"
	case FromMemory:
		return "from memory, not yet checked against the publication"
	case CommonPractice:
		return "common practice; no published source"
	}
	return string(b)
}

// Source says where a figure comes from and how well it is founded.
type Source struct {
	Text  string `json:"text"`
	Basis Basis  `json:"basis"`
}

// Words is a source as the crew reads it, with how well it is founded where
// that is not by the publication named.
func (s Source) Words() string {
	if s.Basis == Published {
		return s.Text
	}
	return s.Text + ", " + s.Basis.Words()
}

// An Entry is one line of a table of the trade. Value is the figure to use:
// where the source gives a range, its cautious end. Low and High are the ends
// of that range; both are 0 where there is none.
type Entry struct {
	Key    string  `json:"key"`
	Name   string  `json:"name"`
	Value  float64 `json:"value"`
	Low    float64 `json:"low,omitempty"`
	High   float64 `json:"high,omitempty"`
	Note   string  `json:"note,omitempty"`
	Source Source  `json:"source"`
}

// TableError says that a table or rule does not cover what was given.
type TableError struct {
	What     string // what was given, in plain words
	Given    string // its value with unit
	Accepted string // what the table or rule takes
	Fault    string // a key of what is wrong, "" where no plan's anchor comes to it
}

// Error gives all three in one sentence.
func (e *TableError) Error() string { return e.What + " is " + e.Given + "; accepted: " + e.Accepted }

// findEntry is the entry of that key in a table.
func findEntry(table []Entry, key string) (Entry, bool) {
	for i := range table {
		if table[i].Key == key {
			return table[i], true
		}
	}
	return Entry{}, false
}

// copied is a table for a caller to keep: a change to it reaches no other.
func copied(table []Entry) []Entry { return append([]Entry(nil), table...) }

// short writes a number for a message, to the digits given.
func short(v float64, digits int) string { return strconv.FormatFloat(v, 'g', digits, 64) }

// givenText is the text of a number that was given, or says that it is none.
func givenText(v float64, text string) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "not a finite number"
	}
	return text
}

// outsideTable is the error that v, in the unit named, is outside a table.
func outsideTable(what string, v float64, unit, accepted string) error {
	if unit != "" {
		unit = " " + unit
	}
	return &TableError{What: what, Given: givenText(v, short(v, 4)+unit), Accepted: accepted}
}

// anchorFault is outsideTable with a key of what is wrong.
func anchorFault(fault, what string, v float64, unit, accepted string) error {
	err := outsideTable(what, v, unit, accepted).(*TableError)
	err.Fault = fault
	return err
}

// positive is an error unless v is a finite number above nothing.
func positive(what string, v float64, unit string) error {
	if v > 0 && v <= math.MaxFloat64 {
		return nil
	}
	return outsideTable(what, v, unit, "a finite number above 0")
}

// notNegative is an error unless v is a finite number of 0 or more.
func notNegative(what string, v float64, unit string) error {
	if v >= 0 && v <= math.MaxFloat64 {
		return nil
	}
	return outsideTable(what, v, unit, "a finite number of 0 or more")
}
