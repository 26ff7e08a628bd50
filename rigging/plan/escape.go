package plan

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan/text"
)

// The saw operator's two ways out: diagonally back from the lay (WAC 296-305-07016),
// 45° back and to the side (felling courses, from memory), for at least 25 ft from
// the butt (OAR 437-007-0810(9)).
const (
	escapeOff    = 135 * rigging.Deg
	escapeLength = 25 * rigging.Foot
	// EscapeSource is where the ways out are from.
	EscapeSource = "WAC 296-305-07016; OAR 437-007-0810(9); 45° from memory"
	// escapeRoom (m) is how near anything may be to a way out; our own rule.
	escapeRoom = 1.0
	// escapeStart (m) is where it begins to count: all ropes and the hinge meet before.
	escapeStart = 2.0
)

// An EscapeReport is one way out for the saw operator.
type EscapeReport struct {
	BearingDeg Num    `json:"bearing_deg"`
	DistanceM  Num    `json:"distance_m"`
	Blocked    string `json:"blocked"` // code of what blocks it, "" where nothing on the plan does
	By         string `json:"by"`      // id of that line, point or person
}

// escapes are the ways out, to the right and to the left.
func (e *evaluation) escapes() []EscapeReport {
	out := make([]EscapeReport, 0, 2)
	for _, bearing := range []float64{escapeOff, 2*math.Pi - escapeOff} {
		x := EscapeReport{BearingDeg: Num(bearing / rigging.Deg), DistanceM: Num(escapeLength)}
		x.Blocked, x.By = e.blocked(rigging.AtBearing(bearing, 1, 0))
		out = append(out, x)
	}
	return out
}

// blocked says what stands in a way out, or flies there.
func (e *evaluation) blocked(way rigging.Vec) (code, by string) {
	all := e.hazards()
	for i := range all {
		// What flies back along a rope comes to the stump itself, which way ever one goes.
		if h := &all[i]; (h.danger == dangerBight || h.danger == dangerFlight) && h.Crosses(rigging.Vec{}, way, escapeStart, escapeLength) {
			return h.danger, e.m.lines[h.line].id
		}
	}
	for i := range e.m.lines {
		places := e.placesOf(&e.m.lines[i])
		for k := 1; k < len(places); k++ {
			for d := escapeStart; d <= escapeLength; d += escapeRoom / 2 {
				if rigging.LevelDistance(way.Scale(d), places[k-1], places[k]) < escapeRoom {
					return "rope", e.m.lines[i].id
				}
			}
		}
	}
	near := func(at rigging.Vec) bool {
		along := math.Max(escapeStart, math.Min(escapeLength, at.Dot(way)))
		return at.Sub(way.Scale(along)).Horizontal() < escapeRoom
	}
	for i := range e.m.points {
		if p := &e.m.points[i]; near(p.at) {
			return "point", p.id
		}
	}
	for i := range e.m.people {
		if b := &e.m.people[i]; b.kind != sawOperator && near(b.at) {
			return "person", b.id
		}
	}
	return "", ""
}

// waysBlocked is how many of the ways out are.
func (e *evaluation) waysBlocked() (n int) {
	for _, x := range e.ways {
		if x.Blocked != "" {
			n++
		}
	}
	return n
}

// noWayOut says that the saw operator has none left.
func (e *evaluation) noWayOut() bool { return len(e.ways) > 0 && e.waysBlocked() == len(e.ways) }

// cautionEscapes warns of a way out that is blocked.
func (e *evaluation) cautionEscapes() {
	if e.noWayOut() {
		e.caution("no_escape", "people", EscapeSource)
		return
	}
	for _, x := range e.ways {
		if x.Blocked != "" {
			e.caution("escape_blocked", "people", EscapeSource, text.Amount{Value: float64(x.BearingDeg), Unit: "°"}, quote(x.By))
		}
	}
}
