package places

import (
	"slices"
	"strconv"

	"pullline/rigging"
	"pullline/rigging/plan"
)

// A layout is a plan seen from above: its points, and the ropes between them.
type layout struct {
	points []place
	runs   []run
}

type place struct {
	id      string
	at      rigging.Vec // level
	machine *rigging.MachineAnchor
}

// A run is the places a line goes over up to its puller, by the points' indexes; −1 is
// the stem.
type run struct {
	over   []int
	pulled bool
}

// layoutOf reads what a plan says of it; what is not right in it is the evaluation's to
// say.
func layoutOf(tree any) layout {
	var l layout
	numbers, _ := plan.Numbers(tree)
	fields, _ := tree.(map[string]any)
	list := func(of map[string]any, key string) []any {
		entries, _ := of[key].([]any)
		return entries
	}
	for i, raw := range list(fields, "points") {
		p, _ := raw.(map[string]any)
		at := "points[" + strconv.Itoa(i) + "]."
		here := place{at: rigging.AtBearing(numbers[at+"bearing_deg"].Value*rigging.Deg, numbers[at+"distance_m"].Value, 0)}
		here.id, _ = p["id"].(string)
		anchor, _ := p["anchor"].(map[string]any)
		if anchor["kind"] == "machine" {
			at += "anchor."
			here.machine = &rigging.MachineAnchor{Mass: numbers[at+"mass_kg"].Value, Traction: numbers[at+"traction"].Value, Slope: numbers[at+"slope_deg"].Value * rigging.Deg, Rated: numbers[at+"rated_kN"].Value * rigging.KN}
		}
		l.points = append(l.points, here)
	}
	for _, raw := range list(fields, "lines") {
		line, _ := raw.(map[string]any)
		tackle, _ := line["tackle"].(map[string]any)
		_, puller := line["puller"]
		r := run{pulled: puller || line["role"] != "hold"}
		for _, raw := range append(slices.Clone(list(line, "path")), list(tackle, "haul_path")...) {
			station, _ := raw.(map[string]any)
			id, named := station["point"].(string)
			at := -1
			if named {
				at = slices.IndexFunc(l.points, func(p place) bool { return p.id == id })
			}
			r.over = append(r.over, at)
		}
		l.runs = append(l.runs, r)
	}
	return l
}

func (l *layout) at(point int) rigging.Vec {
	if point < 0 {
		return rigging.Vec{}
	}
	return l.points[point].at
}

// PullerInBight says whether a puller of a plan stands inside the angle of a rope that
// does not end with it.
func PullerInBight(tree any) bool {
	l := layoutOf(tree)
	return l.pullerInBight()
}

func (l *layout) pullerInBight() bool {
	for i := range l.runs {
		if r := &l.runs[i]; r.pulled && len(r.over) > 0 && l.inBight(r.over[len(r.over)-1]) {
			return true
		}
	}
	return false
}

func (l *layout) inBight(point int) bool {
	if point < 0 {
		return false
	}
	for i := range l.runs {
		over := l.runs[i].over
		for k := 1; k+1 < len(over); k++ {
			if !slices.Contains(over[k-1:k+2], point) && (rigging.Bight{Block: l.at(over[k]), From: l.at(over[k-1]), To: l.at(over[k+1])}).Holds(l.at(point)) {
				return true
			}
		}
	}
	return false
}
