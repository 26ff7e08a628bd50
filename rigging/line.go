package rigging

import (
	"fmt"
	"math"
	"slices"
)

// A Station is one place of a line's path: the dead end, a block, or where
// the pull is applied. At is from the middle of the hinge with the tree
// standing; a station on the stem turns with it.
type Station struct {
	OnStem     bool
	At         Vec     // m
	Efficiency float64 // of the block here, 0 < η ≤ 1; not used at the two ends
}

// StemStation is the place at a height (m, along the stem from the ground)
// on a tree cut at stump.
func StemStation(t Tree, stump, height, efficiency float64) Station {
	return Station{OnStem: true, At: t.Axis().Scale(height - stump), Efficiency: efficiency}
}

// A Line is a rope from its dead end to its hauling end. Share is its part
// of the pull, 1 for a single pull line; a hold line only answers to what
// pushes the tree to a side. Tended says that someone lets a hold line out
// under control; one that is made fast stretches as the tree turns, by its
// Stiffness (N, the EA of the rope; where it is not above 0 it is not known, and
// then neither is the tension, NaN).
type Line struct {
	Path      []Station
	Share     float64
	Hold      bool
	Tended    bool
	Stiffness float64
}

// A LineError says which station of a line keeps it from being computed.
type LineError struct {
	Station int // index in the path, −1 for the whole line
	Fault   LineFault
	Message string
}

// A LineFault is what keeps a line from being computed.
type LineFault int

// The faults of a line.
const (
	TooShort   LineFault = iota // fewer than two stations
	OffStem                     // it never touches the stem
	EndsOnStem                  // its hauling end is on the stem
	NoLength                    // a station at the place of the one before it
)

func (e *LineError) Error() string { return e.Message }

// lastOnStem is the index of the station whose onward leg carries the
// tension that stands for the line.
func (l Line) lastOnStem() (int, error) {
	for i := len(l.Path) - 1; i >= 0; i-- {
		if l.Path[i].OnStem {
			if i == len(l.Path)-1 {
				return 0, &LineError{i, EndsOnStem, "the path ends on the stem; it must end at a point on the ground, where the pull is applied"}
			}
			return i, nil
		}
	}
	return 0, &LineError{-1, OffStem, "the path never touches the stem"}
}

// A LineState is a line at one turn of the tree, per newton of the tension
// in the leg that leaves the stem toward the hauling end.
type LineState struct {
	Length   float64   // m, of the whole path
	Forward  float64   // m, moment about the hinge axis, positive toward the lay
	Side     float64   // m, moment about the middle of the bent hinge that turns the stem to the left
	Arm      float64   // m from the hinge to the farthest place on the stem
	Places   []Vec     // stations
	Units    []Vec     // direction of leg i, from station i to station i+1
	Lengths  []float64 // of leg i
	Multiple []float64 // tension of leg i
}

// At gives the line at a turn (rad). Tensions rise from the dead end toward
// the hauling end by SheaveRatio at every block. The error is a *LineError.
func (l Line) At(turn float64) (LineState, error) {
	c, err := l.Lay()
	if err != nil {
		return LineState{}, err
	}
	var st LineState
	err = c.At(turn, &st)
	return st, err
}

// A Course is a line looked through once, to be followed through many turns.
type Course struct {
	line *Line
	ref  int // index of the station whose onward leg stands for the line
}

// Lay looks a line through. The error is a *LineError.
func (l *Line) Lay() (Course, error) {
	if n := len(l.Path); n < 2 {
		return Course{}, &LineError{-1, TooShort, fmt.Sprintf("the path has %d stations; it needs at least two", n)}
	}
	ref, err := l.lastOnStem()
	return Course{l, ref}, err
}

// At is Line.At into a state of this course, whose room is used again. A state
// that was at another turn before is quicker: legs between points that stand on
// the ground stay as they are.
func (c Course) At(turn float64, st *LineState) error { return c.at(turned(turn), st) }

// A turning is a turn (rad) of the tree with its sine and cosine, and those of
// its half.
type turning struct{ turn, sin, cos, half, halfCos float64 }

func turned(turn float64) turning {
	if k := turn/Deg + 0.5; k >= 0 && k < float64(len(wholeDegrees)) && wholeDegrees[int(k)].turn == turn {
		return wholeDegrees[int(k)]
	}
	return newTurning(turn)
}

func newTurning(turn float64) turning {
	t := turning{turn: turn}
	t.sin, t.cos = math.Sincos(turn)
	t.half, t.halfCos = math.Sincos(turn / 2)
	return t
}

// wholeDegrees are the turns most asked for, 0° to 90°.
var wholeDegrees = func() (t [91]turning) {
	for i := range t {
		t[i] = newTurning(float64(i) * Deg)
	}
	return t
}()

func (c Course) at(t turning, st *LineState) error {
	path := c.line.Path
	n := len(path)
	laid := len(st.Places) == n
	if !laid {
		st.room(n)
	}
	for i := range path {
		if s := &path[i]; s.OnStem {
			st.Places[i] = s.At.turned(t.sin, t.cos)
		} else if !laid {
			st.Places[i] = s.At
		}
	}
	st.Length = 0
	for i := range st.Units {
		if !laid || path[i].OnStem || path[i+1].OnStem {
			leg := st.Places[i+1].Sub(st.Places[i])
			length := leg.Norm()
			if !(length >= shortestLeg) || math.IsInf(length, 0) {
				st.Places = st.Places[:0] // not laid
				return &LineError{i + 1, NoLength, "this station is at the same place as the one before it"}
			}
			st.Units[i], st.Lengths[i] = leg.Scale(1/length), length
		}
		st.Length += st.Lengths[i]
	}
	st.Multiple[c.ref] = 1
	for i := c.ref + 1; i < n-1; i++ {
		st.Multiple[i] = st.Multiple[i-1] * c.ratio(st, i)
	}
	for i := c.ref - 1; i >= 0; i-- {
		st.Multiple[i] = st.Multiple[i+1] / c.ratio(st, i+1)
	}
	c.levers(t, st)
	return nil
}

// levers fills in the moments of the line on the stem.
func (c Course) levers(t turning, st *LineState) {
	st.Forward, st.Side, st.Arm = 0, 0, 0
	for i := range c.line.Path {
		if !c.line.Path[i].OnStem {
			continue
		}
		a, f := st.Places[i], st.Force(i)
		st.Forward += float64(a.Z*f.X) - float64(a.X*f.Z)
		// The middle of the bent hinge lies along (cos φ/2, 0, −sin φ/2),
		// half-way between the stump's own axis and the stem's; the moment
		// a×f about it, turned round.
		st.Side += float64(t.halfCos*(float64(a.Z*f.Y)-float64(a.Y*f.Z))) + float64(t.half*(float64(a.X*f.Y)-float64(a.Y*f.X)))
		st.Arm = math.Max(st.Arm, a.Norm())
	}
}

// room makes the slices of a state for a path of n stations, unless it has them.
func (st *LineState) room(n int) {
	if cap(st.Places) == n && len(st.Units) == n-1 {
		st.Places = st.Places[:n]
		return
	}
	vecs, numbers := make([]Vec, 2*n-1), make([]float64, 2*n-2)
	st.Places, st.Units = vecs[:n:n], vecs[n:]
	st.Lengths, st.Multiple = numbers[:n-1:n-1], numbers[n-1:]
}

// Through gives the line at each of several turns (rad). The error is a
// *LineError.
func (c Course) Through(turns []float64) ([]LineState, error) {
	n, states := len(c.line.Path), make([]LineState, len(turns))
	vecs, numbers := make([]Vec, (2*n-1)*len(turns)), make([]float64, (2*n-2)*len(turns))
	for k := range states {
		st := &states[k]
		st.Places, st.Units, vecs = vecs[:n:n], vecs[n:2*n-1:2*n-1], vecs[2*n-1:]
		st.Lengths, st.Multiple, numbers = numbers[:n-1:n-1], numbers[n-1:2*n-2:2*n-2], numbers[2*n-2:]
		if k == 0 {
			st.Places = st.Places[:0] // not laid yet
		} else {
			copy(st.Places, states[0].Places)
			copy(st.Units, states[0].Units)
			copy(st.Lengths, states[0].Lengths)
		}
		if err := c.At(turns[k], st); err != nil {
			return nil, err
		}
	}
	return states, nil
}

// WithoutFriction gives states of the course at turns (rad) as they would be
// with blocks that have no friction: the tension is the same in every leg. Places
// and directions are those of the states given, not copies.
func (c Course) WithoutFriction(turns []float64, states []LineState) []LineState {
	out, whole := slices.Clone(states), make([]float64, len(c.line.Path)-1)
	for i := range whole {
		whole[i] = 1
	}
	for k := range out {
		out[k].Multiple = whole
		c.levers(turned(turns[k]), &out[k])
	}
	return out
}

func (c Course) ratio(st *LineState, station int) float64 {
	return sheaveRatio(c.line.Path[station].Efficiency, st.halfCosine(station))
}

// halfCosine is cos(γ/2) of the angle γ between the legs at a station.
func (st *LineState) halfCosine(station int) float64 {
	cosine := -st.Units[station-1].Dot(st.Units[station])
	return math.Sqrt(math.Max(0, (1+cosine)/2))
}

// Included is the angle (rad) between the two legs at a station with a
// block, 0 to π.
func (st *LineState) Included(station int) float64 {
	return 2 * math.Acos(math.Min(1, st.halfCosine(station)))
}

// Force is the pull of the rope on station i, per newton of the line's
// tension.
func (st *LineState) Force(i int) Vec {
	var f Vec
	if i > 0 {
		f = f.Sub(st.Units[i-1].Scale(st.Multiple[i-1]))
	}
	if i < len(st.Units) {
		f = f.Add(st.Units[i].Scale(st.Multiple[i]))
	}
	return f
}

// End is the tension of the last leg, per newton of the line's tension.
func (st *LineState) End() float64 { return st.Multiple[len(st.Multiple)-1] }

// Highest is the greatest tension of any leg, per newton of the line's.
func (st *LineState) Highest() float64 {
	var m float64
	for _, v := range st.Multiple {
		m = math.Max(m, v)
	}
	return m
}
