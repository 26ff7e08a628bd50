package page

import (
	"pullline/rigging/plan"
	"pullline/wasm/draw"
	"pullline/wasm/page/brief"
	"pullline/wasm/page/job"
	"pullline/wasm/page/show"
	"pullline/wasm/parts"
)

// A View is everything the page shows for one plan.
type View struct {
	Headline show.Headline    `json:"headline"`
	Facts    []parts.Fact     `json:"facts"`
	Form     []parts.Section  `json:"form"`
	Lists    [][]parts.Option `json:"lists,omitempty"` // the choices that several fields of the form have
	Helps    []string         `json:"helps,omitempty"` // the helps that several fields have
	Pieces   []show.Piece     `json:"pieces"`          // sorted worst first
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
	Brief    *brief.Briefing  `json:"brief,omitempty"` // not in a light view
	After    *show.After      `json:"after,omitempty"` // where the plan says how the pull went
	Stem     *job.Stem        `json:"stem,omitempty"`  // where stems share a tree
	Name     string           `json:"name"`
	Units    []parts.Option   `json:"units"`            // the unit systems to choose from
	UnitsNow string           `json:"units_now"`        // the one in use
	Words    []parts.Option   `json:"words"`            // the regions whose words to choose from
	WordsNow string           `json:"words_now"`        // the one in use
	Fresh    bool             `json:"fresh"`            // false: the plan could not be computed; keep the last drawing, greyed
	Report   *plan.Report     `json:"report,omitempty"` // where the request asks for it
}
