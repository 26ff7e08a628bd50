// Package screen turns a plan and its report into what the page shows:
// words, numbers written out in the user's units, the form, the tables and
// the drawings. The page only places what it is given here; it holds no
// formula, limit, unit or word of the trade of its own.
package screen

import (
	"pullline/rigging/plan"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
)

// A View is everything the page shows for one plan.
type View struct {
	Headline Headline         `json:"headline"`
	Facts    []parts.Fact     `json:"facts"`
	Form     []parts.Section  `json:"form"`
	Lists    [][]parts.Option `json:"lists,omitempty"` // the choices that several fields of the form have
	Helps    []string         `json:"helps,omitempty"` // the helps that several fields have
	Pieces   []Piece          `json:"pieces"`          // sorted worst first
	Side     *draw.Drawing    `json:"side,omitempty"`
	Plan     *draw.Drawing    `json:"plan,omitempty"`
	Curve    *draw.Drawing    `json:"curve,omitempty"`
	Problems []parts.Note     `json:"problems"`
	Cautions []parts.Note     `json:"cautions"`
	Standing []parts.Note     `json:"standing"` // always shown: estimates, the competent person, local codes, what the model leaves out
	Assumed  []parts.Assumed  `json:"assumed"`
	Working  []parts.Step     `json:"working"`
	Taken    []parts.Step     `json:"taken"` // what was assumed, as steps that those of the working lead on to
	Steps    []JobStep        `json:"steps"`
	Brief    *Brief           `json:"brief,omitempty"` // not in a light view
	After    *After           `json:"after,omitempty"` // where the plan says how the pull went
	Stem     *Stem            `json:"stem,omitempty"`  // where stems share a tree
	Name     string           `json:"name"`
	Units    []parts.Option   `json:"units"`            // the unit systems to choose from
	UnitsNow string           `json:"units_now"`        // the one in use
	Words    []parts.Option   `json:"words"`            // the regions whose words to choose from
	WordsNow string           `json:"words_now"`        // the one in use
	Fresh    bool             `json:"fresh"`            // false: the plan could not be computed; keep the last drawing, greyed
	Report   *plan.Report     `json:"report,omitempty"` // where the request asks for it
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
	Why []parts.Note `json:"why"`
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
