package places

import (
	"math"
	"slices"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
)

// An Answer has the places asked for, bearing by bearing.
type Answer struct {
	Cells []Cell `json:"cells"`
	// Best is the place with the best verdict and then the least use of those that
	// nothing rules out; null where there is none.
	Best     *Best          `json:"best"`
	Problems []plan.Problem `json:"problems"`
}

// A Cell is one place: what the report says of the plan with the point there.
type Cell struct {
	BearingDeg plan.Num        `json:"bearing_deg"`
	DistanceM  plan.Num        `json:"distance_m"`
	Verdict    rigging.Verdict `json:"verdict"`
	Use        plan.Num        `json:"use"` // of the piece, puller or point worked hardest
	Why        string          `json:"why"` // code of the first reason for the verdict, "" without one
	// RuledOut is why the point cannot stand there, "" where it can: over, cannot_pull,
	// lands (the tree lands on the puller), bight (the puller stands inside the angle of
	// a rope), lifts or slides (the machine), no_room (between what may be needed and
	// what may be too much), unknown.
	RuledOut string `json:"ruled_out"`
}

// Best is the best place.
type Best struct {
	BearingDeg plan.Num        `json:"bearing_deg"`
	DistanceM  plan.Num        `json:"distance_m"`
	Verdict    rigging.Verdict `json:"verdict"`
	Use        plan.Num        `json:"use"`
}

// Reasons that rule a place out.
const (
	Over       = "over"
	CannotPull = "cannot_pull"
	Lands      = "lands"
	InBight    = "bight"
	Lifts      = "lifts"
	Slides     = "slides"
	NoRoom     = "no_room"
	Unknown    = "unknown"
)

// A Grid is the places asked about, each list from the least.
type Grid struct {
	Bearings  []float64 // °, clockwise from the lay
	Distances []float64 // m
}

// JSON answers {"plan": …, "point": "M", "bearings_deg": [from, to, step], "distances_m":
// [from, to, step]} with an Answer.
func JSON(request []byte) []byte {
	q := plan.ReadRequest(request, "point", "bearings_deg", "distances_m")
	point := q.Text("point")
	away := field.PointDistance.Row().Range
	away.Above = false // a list may begin at the stem
	bearings, okB := q.Numbers("bearings_deg", 3, field.Range{Min: -360, Max: 720, Unit: "°"})
	distances, okD := q.Numbers("distances_m", 3, away)
	a := Answer{Cells: []Cell{}}
	if okB && okD {
		g := Grid{steps(bearings), steps(distances)}
		a = On(q.Tree, q.Size, point, g)
		if n := len(g.Bearings) * len(g.Distances); n == 0 || n > plan.MaxVariations {
			q.TooMany("distances_m", n, plan.MaxVariations)
		} else if a.Cells == nil {
			q.NoSuch("point", point)
		}
	}
	a.Cells = append([]Cell{}, a.Cells...)
	a.Problems = append(slices.Clone(q.Problems), a.Problems...)
	plan.TellProblems(a.Problems, &text.Voice{})
	return jsontext.Encode(&a)
}

// steps are the numbers from one to another, no more than may be asked for.
func steps(fromToStep []float64) []float64 {
	from, to, step := fromToStep[0], fromToStep[1], fromToStep[2]
	if !(step > 0) || to < from {
		return nil
	}
	n := int(math.Min((to-from)/step+1e-9, plan.MaxVariations)) + 1
	out := make([]float64, n)
	for i := range out {
		out[i] = from + float64(i)*step
	}
	return out
}
