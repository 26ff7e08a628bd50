package job

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/page/form"
	"pullline/wasm/parts"
	"pullline/wasm/units"
)

// A builder makes the form of one plan and its report.
type builder struct {
	*form.Builder
	d        *draft.Plan
	u        *units.System
	rep      *plan.Report
	points   map[string]*pieceState // by point id
	pieces   map[string]*pieceState // by piece id, pullers as LINE/puller
	stations []parts.Option         // choices for a station
	places   []parts.Option         // choices for a piece of gear
}

// A pieceState is what the report says of a point or a piece.
type pieceState struct {
	verdict rigging.Verdict
	use     float64
}

// Form lays out every field of a plan, in the order of the job.
func Form(d *draft.Plan, u *units.System, rep *plan.Report) []parts.Section {
	b := &builder{
		Builder: form.NewBuilder(d, u, rep.Assumed, rep.Problems), d: d, u: u, rep: rep,
		points:   make(map[string]*pieceState, len(rep.Points)),
		pieces:   make(map[string]*pieceState, len(rep.Gear)),
		stations: fields.Stations(d), places: fields.GearPlaces(d),
	}
	for _, p := range rep.Points {
		b.points[p.ID] = &pieceState{p.Verdict, float64(p.Use)}
	}
	for _, g := range rep.Gear {
		b.pieces[g.ID] = &pieceState{g.Verdict, float64(g.Use)}
	}
	sections := []parts.Section{
		b.tree(), b.cut(), b.site(), b.pointList(), b.lineList(), b.people(), b.gearList(),
		b.pull(), b.giveOrTake(), b.fork(), b.about(), b.brief(), b.after(),
	}
	for _, p := range rep.Problems {
		form.Place(sections, parts.Note{Path: p.Path, Message: p.Message}, true)
	}
	for _, c := range rep.Cautions {
		if c.Path != "" && !parts.Stands(c.Code) {
			form.Place(sections, parts.Note{Code: c.Code, Path: c.Path, Message: c.Message, Source: c.Source}, false)
		}
	}
	return sections
}

// stated tells a section's verdict and use.
func (b *builder) stated(s *pieceState) (state, use string) {
	if s == nil {
		return "", ""
	}
	if !math.IsNaN(s.use) {
		use = b.d.Say("%s used", b.d.Use(s.use))
	}
	return s.verdict.String(), use
}
