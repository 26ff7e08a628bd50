// Package screen turns a plan and its report into what the page shows:
// words, numbers written out in the user's units, the form, the tables and
// the drawings. The page only places what it is given here; it holds no
// formula, limit, unit or word of the trade of its own.
package screen

import (
	"pullline/rigging/plan"
	"pullline/wasm/draw"
)

// A View is everything the page shows for one plan.
type View struct {
	Headline Headline      `json:"headline"`
	Facts    []Fact        `json:"facts"`
	Form     []Section     `json:"form"`
	Lists    [][]Option    `json:"lists,omitempty"` // the choices that several fields of the form have
	Helps    []string      `json:"helps,omitempty"` // the helps that several fields have
	Pieces   []Piece       `json:"pieces"`          // sorted worst first
	Side     *draw.Drawing `json:"side,omitempty"`
	Plan     *draw.Drawing `json:"plan,omitempty"`
	Curve    *draw.Drawing `json:"curve,omitempty"`
	Problems []Note        `json:"problems"`
	Cautions []Note        `json:"cautions"`
	Standing []Note        `json:"standing"` // always shown: estimates, the competent person, local codes, what the model leaves out
	Assumed  []AssumedLine `json:"assumed"`
	Working  []Step        `json:"working"`
	Taken    []Step        `json:"taken"` // what was assumed, as steps that those of the working lead on to
	Steps    []JobStep     `json:"steps"`
	Brief    *Brief        `json:"brief,omitempty"` // not in a light view
	After    *After        `json:"after,omitempty"` // where the plan says how the pull went
	Stem     *Stem         `json:"stem,omitempty"`  // where stems share a tree
	Name     string        `json:"name"`
	Units    []Option      `json:"units"`            // the unit systems to choose from
	UnitsNow string        `json:"units_now"`        // the one in use
	Words    []Option      `json:"words"`            // the regions whose words to choose from
	WordsNow string        `json:"words_now"`        // the one in use
	Fresh    bool          `json:"fresh"`            // false: the plan could not be computed; keep the last drawing, greyed
	Report   *plan.Report  `json:"report,omitempty"` // where the request asks for it
}

// Headline is the verdict in sight at all times.
type Headline struct {
	Verdict    string `json:"verdict"`  // within, near, over, unknown: for data-verdict, shape and pattern
	Word       string `json:"word"`     // the word shown
	Sentence   string `json:"sentence"` // the governing piece and its use, or what is missing
	Governing  string `json:"governing"`
	Use        string `json:"use"`
	AtMost     string `json:"at_most"`      // verdict word key at most
	AtMostText string `json:"at_most_text"` // one sentence
	// Held says that the verdict is near only because the puller must be held: a
	// state of its own to the eye.
	Held bool `json:"held,omitempty"`
	// Hold is the number to hold the puller to, "" where there is none or no room
	// for one, and HoldWorking its step.
	Hold        string `json:"hold,omitempty"`
	HoldLabel   string `json:"hold_label,omitempty"`
	HoldWorking string `json:"hold_working,omitempty"`
	// Why are all reasons for the verdict, worst first.
	Why []Note `json:"why"`
	// The same two in parts, where any of them opens its working.
	Parts       []Part `json:"parts,omitempty"`
	AtMostParts []Part `json:"at_most_parts,omitempty"`
}

// A Part is a piece of a sentence. Working is the path of the step that gives
// it, "" where it is words.
type Part struct {
	Text    string `json:"text"`
	Working string `json:"working,omitempty"`
}

// A Fact is one main number with its name.
type Fact struct {
	ID    string `json:"id"`
	Label string `json:"label"`
	Value string `json:"value"` // with unit
	Note  string `json:"note,omitempty"`
	// Working is the path of the step of the working that gives it.
	Working string `json:"working,omitempty"`
}

// A Section is a part of the form, possibly one of a list (a point, a line,
// a piece of gear) and possibly holding further sections.
type Section struct {
	ID       string    `json:"id"` // the JSON path it edits: "tree", "points[0]"
	Title    string    `json:"title"`
	Help     string    `json:"help,omitempty"`
	Fields   []Field   `json:"fields,omitempty"`
	Sections []Section `json:"sections,omitempty"`
	Actions  []Action  `json:"actions,omitempty"`
	Notes    []Note    `json:"notes,omitempty"`   // problems and cautions beside what they concern
	Summary  string    `json:"summary,omitempty"` // one line for the folded section
	State    string    `json:"state,omitempty"`   // verdict key of the point or piece, if it has one
	// Problems counts the problems in this section and all below it, also
	// those that stand at their field: a folded section shows it.
	Problems int `json:"problems,omitempty"`
}

// A Field is one typed value of the plan.
type Field struct {
	Path    string   `json:"path"`
	Label   string   `json:"label"`
	Unit    string   `json:"unit,omitempty"`
	Kind    string   `json:"kind"`              // number, text, long (several lines), choice, flag
	Text    string   `json:"text"`              // as typed or, for a good number, in the user's unit; choice: the value; flag: "true" or ""
	Default string   `json:"default,omitempty"` // what is taken while the field is empty, with "" if nothing is
	Founded string   `json:"founded,omitempty"` // how well that is founded, in words; "" where nothing is to be said
	Help    string   `json:"help,omitempty"`
	Options []Option `json:"options,omitempty"`
	Suggest []Option `json:"suggest,omitempty"` // published values offered by name for a number; choosing one types its value
	// OptionsOf and SuggestOf stand for Options and Suggest where several
	// fields have the same: the number in View.Lists, counted from 1. HelpOf
	// stands for Help, by the number in View.Helps.
	OptionsOf int    `json:"options_of,omitempty"`
	SuggestOf int    `json:"suggest_of,omitempty"`
	HelpOf    int    `json:"help_of,omitempty"`
	Measure   bool   `json:"measure,omitempty"` // there are ways to measure it: the call measure
	Problem   string `json:"problem,omitempty"`
}

// An Option is one choice.
type Option struct {
	Value string `json:"value"`
	Label string `json:"label"`
}

// An Action adds or removes a part of the plan.
type Action struct {
	Do    string `json:"do"`   // add, remove, up, down …: passed back unchanged
	Path  string `json:"path"` // passed back unchanged
	Label string `json:"label"`
}

// A Piece is a row of the table of all pieces, pullers and points.
type Piece struct {
	ID            string  `json:"id"`
	Title         string  `json:"title"`
	Where         string  `json:"where"`
	Verdict       string  `json:"verdict"`
	Word          string  `json:"word"`
	Load          string  `json:"load"`
	Capacity      string  `json:"capacity"`
	Use           string  `json:"use"`
	UseShare      float64 `json:"use_share"` // 0 to 1 of the bar's length; the bar ends at 1.25 of capacity
	AtMostLoad    string  `json:"at_most_load"`
	AtMostUse     string  `json:"at_most_use"`
	AtMostVerdict string  `json:"at_most_verdict"`
	AtMostWord    string  `json:"at_most_word"`
	Path          string  `json:"path"`               // form section to open
	Estimate      string  `json:"estimate,omitempty"` // said beside it: an estimate until a competent person has judged the anchor
	// The paths of the steps of the working that give its numbers.
	LoadWorking     string `json:"load_working,omitempty"`
	CapacityWorking string `json:"capacity_working,omitempty"`
	UseWorking      string `json:"use_working,omitempty"`
	AtMostWorking   string `json:"at_most_working,omitempty"`
}

// A Note is a problem or a caution in plain words.
type Note struct {
	Code    string `json:"code,omitempty"`
	Path    string `json:"path,omitempty"` // field or section it concerns
	Message string `json:"message"`
	Short   string `json:"short,omitempty"` // the first sentence of a longer one, for the pull sheet
	State   string `json:"state,omitempty"` // of a reason: the verdict it keeps the plan at
	Source  string `json:"source,omitempty"`
}

// AssumedLine is one default taken. Working is the path of its step, "" where
// it is no number.
type AssumedLine struct {
	Path    string `json:"path"`
	Label   string `json:"label"`
	Value   string `json:"value"`
	Why     string `json:"why"`
	Source  string `json:"source,omitempty"`
	Working string `json:"working,omitempty"`
}

// A Step is the working of one number, ready to show.
type Step struct {
	Path    string   `json:"path"`
	Name    string   `json:"name"`
	Formula string   `json:"formula"`
	Values  []string `json:"values"`
	From    []string `json:"from,omitempty"` // for each value the path of the step it comes from, "" where it was given
	Result  string   `json:"result"`
	Source  string   `json:"source"`
}

// A Change is one step of editing the plan object, applied by the page in
// order: set puts a value (making objects on the way), delete removes a key
// or an array element, insert appends to an array (making it if need be).
type Change struct {
	Op    string `json:"op"`
	At    []any  `json:"at"` // keys and indexes: ["points", 0, "distance_m"]
	Value any    `json:"value,omitempty"`
}

// Changes answers edit, act and drag. Focus names the field or section to
// show next. Message, if any, says why nothing was changed.
type Changes struct {
	Changes []Change `json:"changes"`
	Focus   string   `json:"focus,omitempty"`
	Message string   `json:"message,omitempty"`
}
