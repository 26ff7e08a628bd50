package rigging

import (
	"math"
	"slices"
)

// A Zone is ground where nobody should stand: a sector of a circle seen from above,
// which is convex (Half is at most a quarter turn, or half a turn for a whole
// circle).
type Zone struct {
	Apex   Vec     // only X and Y count
	Toward float64 // rad, bearing of its middle, clockwise from the lay
	Half   float64 // rad, to either side
	Reach  float64 // m
	// Chord, where it is not zero, is from the apex to the nearest point of a straight
	// line that cuts the sector off.
	Chord Vec
}

// Circle is the zone all round a place.
func Circle(centre Vec, reach float64) Zone { return Zone{Apex: centre, Half: math.Pi, Reach: reach} }

// sides are the outward normals of the two edges; a whole circle has none.
func (z *Zone) sides() [2]Vec {
	return [2]Vec{AtBearing(z.Toward-z.Half-math.Pi/2, 1, 0), AtBearing(z.Toward+z.Half+math.Pi/2, 1, 0)}
}

// edge (m) is what a place on the edge of a zone counts as inside by.
const edge = 1e-9

// Contains says whether a place lies in the zone, its edge with it.
func (z *Zone) Contains(p Vec) bool {
	from, to := z.through(p, Vec{})
	return from <= to
}

// Crosses says whether a straight way from a place in a level direction (a unit
// vector) goes through the zone between two distances (m).
func (z *Zone) Crosses(p, way Vec, from, to float64) bool {
	first, last := z.through(p, way)
	return math.Max(first, from) <= math.Min(last, to)
}

// through is the stretch of a ray from a place in a level direction (a unit vector,
// or none for the place alone) that lies in the zone: from > to where none does.
func (z *Zone) through(p, way Vec) (from, to float64) {
	q := Vec{X: p.X - z.Apex.X, Y: p.Y - z.Apex.Y}
	from, to = 0, math.Inf(1)
	none := func() (float64, float64) { return 1, 0 }
	b, c := q.Dot(way), q.Dot(q)-(z.Reach+edge)*(z.Reach+edge)
	root := b*b - c
	if way == (Vec{}) {
		if !(c <= 0) {
			return none()
		}
	} else {
		if !(root >= 0) {
			return none()
		}
		from, to = math.Max(from, -b-math.Sqrt(root)), math.Min(to, -b+math.Sqrt(root))
	}
	cut := func(at, rate float64) {
		switch at -= edge; {
		case rate > 0:
			to = math.Min(to, -at/rate)
		case rate < 0:
			from = math.Max(from, -at/rate)
		case at > 0:
			from, to = none()
		}
	}
	if z.Half < math.Pi {
		for _, out := range z.sides() {
			cut(q.Dot(out), way.Dot(out))
		}
	}
	if far := z.Chord.Norm(); far > 0 {
		cut(q.Dot(z.Chord)/far-far, way.Dot(z.Chord)/far)
	}
	return from, to
}

// Zones that hold for every pull, by the published words: whoever is not needed
// stays two tree lengths away (29 CFR 1910.266(h)(1)); a line that parts flies
// back along itself, nearly as far as it is long (Safety Alert SA 015, Snap-back
// zones); nobody stands in the bight (UK MCA MGN 308 (M+F), 2.2). The angles are our
// own.
const (
	KeepOutLengths = 2
	RecoilHalf     = 10 * Deg
)

// Recoil is where a leg of rope from one place to another flies when it parts: along
// itself and its continuation at either end, as far as it is long.
func Recoil(from, to Vec) []Zone {
	leg := to.Sub(from)
	way := math.Atan2(-leg.Y, leg.X)
	return []Zone{{Apex: from, Toward: way, Half: RecoilHalf, Reach: 2 * leg.Norm()}, {Apex: to, Toward: way + math.Pi, Half: RecoilHalf, Reach: 2 * leg.Norm()}}
}

// Landing is where a tree comes down: so far to either side of the lay, and where
// the hinge cannot hold, of all ways between the lay and where weight and lines
// draw it (drift in rad, to the left of the lay).
func Landing(reach, half, drift float64) []Zone {
	low, high := math.Min(0, -drift)-half, math.Max(0, -drift)+half
	var out []Zone
	for parts := math.Ceil((high - low) / math.Pi); low < high-1e-12; {
		step := (high - low) / parts
		out = append(out, Zone{Toward: low + step/2, Half: step / 2, Reach: reach})
		low, parts = low+step, parts-1
	}
	return out
}

// LevelDistance is how far (m) a place is from a straight run between two others, seen
// from above.
func LevelDistance(p, from, to Vec) float64 {
	run, q := level(to.Sub(from)), level(p.Sub(from))
	along := 0.0
	if length := run.Dot(run); length > 0 {
		along = math.Max(0, math.Min(1, q.Dot(run)/length))
	}
	return q.Sub(run.Scale(along)).Norm()
}

// ClearPlace is the nearest place to p that lies in no zone, with room around it;
// p itself where it does.
func ClearPlace(p Vec, zones []Zone) Vec {
	p.Z = 0
	if !slices.ContainsFunc(zones, func(z Zone) bool { return z.Contains(p) }) {
		return p
	}
	best, way := math.Inf(1), Vec{}
	look := func(bearing float64) {
		w := AtBearing(bearing, 1, 0)
		if at := outOf(zones, p, w); at < best {
			best, way = at, w
		}
	}
	const looks = 360
	for k := range looks {
		look(2 * math.Pi * float64(k) / looks)
	}
	around := way.Bearing()
	for k := -20; k <= 20; k++ {
		look(around + float64(k)*0.05*Deg)
	}
	return p.Add(way.Scale(best))
}

// roomNeeded (m) is how wide a gap between zones has to be for somebody to stand in
// its middle; further out they stand half of that from the edge.
const roomNeeded = 2.0

// outOf is how far (m) one walks in a direction to where no zone is.
func outOf(zones []Zone, p, way Vec) float64 {
	type stretch struct{ from, to float64 }
	var in []stretch
	for i := range zones {
		if from, to := zones[i].through(p, way); from <= to {
			in = append(in, stretch{from, to})
		}
	}
	slices.SortFunc(in, func(a, b stretch) int {
		if a.from < b.from {
			return -1
		}
		return 1
	})
	at := 0.0
	for _, s := range in {
		if s.from > at+roomNeeded {
			break
		}
		at = math.Max(at, s.to)
	}
	return at + roomNeeded/2
}
