package plan

import (
	"math"
	"slices"

	"pullline/rigging"
	"pullline/rigging/plan/field"
)

// DrivingGrip is what a machine that pulls by driving makes at most, over its
// weight: more than any traction table gives, so that it is not taken low
// where it loads the anchors. From memory.
const DrivingGrip = 1.0

// haulAtMost is the greatest haul (N) that the puller of line i can make: 0 on a
// hold line that nothing pulls on, NaN where it is not known.
func (m *model) haulAtMost(i int) float64 {
	l := &m.lines[i]
	switch l.limitedBy {
	case field.Stall:
		return l.stall
	case field.Device, field.Watched:
		return l.setting
	case field.Grip:
		weight := math.NaN()
		if machine, ok := m.machineOf(l); ok {
			weight = DrivingGrip * machine.Mass * rigging.G
		}
		if math.IsNaN(weight) || l.stall < weight {
			return l.stall
		}
		return weight
	}
	if l.hold && !l.puller {
		return 0
	}
	return math.NaN()
}

// pullerHolds is what a line's puller may haul (N): the lesser of its rated pull
// and its setting.
func (l *line) pullerHolds() float64 {
	if l.setting < l.rated {
		return l.setting
	}
	return l.rated
}

// pullerPoint is the point at which a line's puller stands, −1 where unknown.
func (l *line) pullerPoint() int {
	stations := l.stations
	if l.tackle != nil && len(l.tackle.haul) > 0 {
		stations = l.tackle.haul
	}
	if len(stations) == 0 {
		return -1
	}
	return stations[len(stations)-1].point
}

// machineOf is the machine that a line's puller is on.
func (m *model) machineOf(l *line) (rigging.MachineAnchor, bool) {
	if i := l.pullerPoint(); i >= 0 {
		a, ok := m.points[i].anchor.(rigging.MachineAnchor)
		return a, ok
	}
	return rigging.MachineAnchor{}, false
}

func (e *evaluation) mostHauls() []float64 {
	hauls := make([]float64, len(e.loads))
	for i := range e.loads {
		hauls[i] = e.loads[i].mostHaul
	}
	return hauls
}

// tensionsAtMost gives every line's tension (N) in any attitude when the
// pullers make the given hauls (N). What a line's puller makes reaches the tree
// whole where nothing rubs: friction is counted on only where it costs.
func (e *evaluation) tensionsAtMost(hauls []float64) func(a *attitude) []float64 {
	fast := e.holdAtMost(hauls)
	out := make([]float64, len(hauls))
	return func(a *attitude) []float64 {
		for i := range out {
			out[i] = hauls[i] / a.lines[i].haul
			if e.m.lines[i].hold {
				out[i] = math.Max(fast[i], out[i])
			}
		}
		return out
	}
}

// holdAtMost is each hold line's tension (N) when the pull lines are hauled at
// the given hauls: as planned, with what the standing tree then asks of it in
// place of what it asks at planned tension. Any pull line may be slack meanwhile,
// so those that pull the tree the other way are left out.
func (e *evaluation) holdAtMost(hauls []float64) []float64 {
	out := make([]float64, len(hauls))
	holds, unknown := false, slices.ContainsFunc(hauls, math.IsNaN)
	for i, l := range e.m.lines {
		if l.hold {
			holds = true
			out[i] = e.m.allowance * e.pull.HoldPeak[i]
		}
	}
	if !holds {
		return out
	}
	tensions, states := make([]float64, len(hauls)), make([]rigging.LineState, len(hauls))
	for _, a := range []*attitude{e.standing, &e.atMost[len(e.turning)]} {
		for i := range states {
			states[i] = *a.lines[i].state
		}
		for _, side := range []float64{1, -1} {
			for i, l := range e.m.lines {
				tensions[i] = 0
				if !l.hold && side*states[i].Side >= 0 {
					tensions[i] = hauls[i] / a.lines[i].haul
				}
			}
			for i, t := range e.m.setup.HoldAt(e.pull, states, tensions) {
				out[i] = math.Max(out[i], t) // math.Max keeps a NaN
			}
		}
	}
	for i, l := range e.m.lines {
		if l.hold {
			out[i] += e.pull.Stretched[i]
			if unknown {
				out[i] = math.NaN()
			}
		}
	}
	return out
}

// limitHaul finds the number to hold the puller of the first pull line to: the
// largest haul at which, friction or none, no piece, no point and not the stem is over, the
// other pull lines in proportion, hold lines with pullers of their own hauled as
// hard as these can, and never above what the pullers are rated.
func (e *evaluation) limitHaul() {
	main := e.mainLine()
	share := make([]float64, len(e.loads)) // of each pull line's haul
	scale := math.Inf(1)
	for i, l := range e.m.lines {
		if l.hold {
			continue
		}
		ll := &e.loads[i]
		share[i] = ll.haul * ll.tension
		if e.pull.Planned == 0 { // the line only steers
			share[i] = ll.haul * l.share
		}
		scale = math.Min(scale, l.rated/share[i]) // math.Min keeps a NaN
	}
	tensions := func(scale float64) func(*attitude) []float64 {
		hauls := make([]float64, len(share))
		for i := range share {
			if hauls[i] = scale * share[i]; e.m.lines[i].hold {
				hauls[i] = e.loads[i].mostHaul
			}
		}
		return e.tensionsAtMost(hauls)
	}
	// Nearly everything grows in proportion. What does not is a machine's grip
	// under uplift, a hold line, and what a hold line pulls at whatever the haul.
	scale = largestWithin(func(scale float64) float64 { return e.worstUse(e.tally(e.atMost, tensions(scale))) }, scale)
	// The stem is seldom the first to be over. Its own weight may bend it the other
	// way, so that its stress does fall with a little pull, and rises only once.
	scale = largestWithin(func(scale float64) float64 { return e.stemUse(e.bent(e.atMost, tensions(scale))) }, scale)
	if math.IsNaN(scale) {
		return
	}
	if rated := e.m.lines[main].rated; scale == rated/share[main] {
		e.holdTo = rated // to the last digit
	} else {
		e.holdTo = scale * share[main]
	}
	e.noRoom = e.pull.Planned > 0 && scale < 1-1e-9
}

// largestWithin is the largest s from 0 up to most at which use(s), which once it
// rises with s does not fall again, is at most 1; NaN where there is none.
func largestWithin(use func(float64) float64, most float64) float64 {
	const slack = 1 + 1e-12 // of rounding
	hi := most
	atHi := use(hi)
	if atHi <= slack {
		return hi
	}
	lo, atLo := 0.0, use(0)
	if math.IsNaN(atHi) || !(atLo <= slack) {
		return math.NaN()
	}
	// Regula falsi, with a halving now and then where it is slow.
	for k := 0; k < 80 && hi-lo > 1e-12*hi; k++ {
		mid := lo + (hi-lo)*(1-atLo)/(atHi-atLo)
		if k%3 == 2 || !(mid > lo && mid < hi) {
			mid = (lo + hi) / 2
		}
		at := use(mid)
		switch {
		case math.IsNaN(at):
			return math.NaN()
		case at <= slack:
			lo, atLo = mid, at
			if at >= 1-1e-12 {
				return lo
			}
		default:
			hi, atHi = mid, at
		}
	}
	return lo
}

// worstUse is the greatest use of any piece or point in a tally; NaN where one is
// not known. The pullers themselves are left out.
func (e *evaluation) worstUse(t *tally) float64 {
	worst := 0.0
	for i, g := range e.m.gear {
		capacity := g.capacity
		if g.barred {
			capacity = math.NaN()
		}
		worst = math.Max(worst, rigging.Use(t.pieces[i].value, capacity)) // math.Max keeps a NaN
	}
	for i := range t.points {
		p := &t.points[i]
		if p.unheld {
			return math.NaN()
		}
		worst = math.Max(worst, p.use.value)
	}
	return worst
}
