package rigging

import (
	"errors"
	"fmt"
	"math"
)

// A Motion is the fall as an ideal: tree and crown turn as one stiff body
// about the hinge axis, also after the hinge has broken, down to level ground
// at the height of the stump's foot. Left out are the air that brakes the
// crown, branches that break or catch, a butt that slips or jumps off the
// stump, and any bounce.
//
// The pull lines are at planned tension from the first moment, or at what less
// of it turns the tree most where a hold line takes back what they gain. They
// bring rope in no faster than the puller can: at that speed they are eased.
// Once the tree has committed and runs ahead of the puller they are slack. Hold lines
// carry what the balance of Setup asks of them until the tree commits or the hinge
// breaks, and from then on nothing. Hinge and wind act as in the balance.
type Motion struct {
	Inertia float64      // kg·m² about the hinge axis
	Commit  float64      // rad, NaN where the top lands before
	Slack   float64      // rad where the pull lines go slack, NaN where they never do or never pulled
	Closing float64      // rad where the hinge breaks, NaN where the top lands before
	Landing float64      // rad where the top lands
	Top     Vec          // m, where it lands, from the middle of the hinge
	Reach   float64      // m of the top from the hinge axis
	Steps   []MotionStep // from standing to landing
	// Soonest is how long (s) it takes from commit to landing if from then on
	// nothing holds the tree back: the hinge torn and no wind. NaN
	// where the top lands before it commits.
	Soonest float64

	fall  *fall
	pull  *Pull
	speed float64
}

// A MotionStep is the tree on its way. Work is in J, done on the tree since
// it stood: below 0 by what holds it back. Their sum is the energy of motion.
type MotionStep struct {
	Turn, Time, Rate float64 // rad, s, rad/s

	Weight, Lines, Wind, Hinge float64
}

// Energy is that of the motion, J.
func (s MotionStep) Energy() float64 { return s.Weight + s.Lines + s.Wind + s.Hinge }

// BriskHaul is the speed (m/s) at which a puller is taken to bring the line in
// at most: a machine that drives off at a brisk walk. Most winches are slower,
// and any tackle makes it slower; the quick reading leaves less time. Common
// practice, no source.
const BriskHaul = 1.5

// A NoFallError says why there is no fall to work out: at a turn (rad) the
// tree comes to a stand, or it only just balances, or its top never comes
// down to the ground.
type NoFallError struct {
	Turn     float64
	Balanced bool
	High     bool
}

func (e *NoFallError) Error() string {
	switch {
	case e.High:
		return "the stump is too high: the top never comes down to the ground"
	case e.Balanced:
		return "at planned tension the tree only just balances: when it would go cannot be said"
	}
	return fmt.Sprintf("at planned tension the tree comes to a stand at a turn of %.0f°: it does not fall", e.Turn/Deg)
}

// leastStart is the moment that sets the tree in motion as a part of that of
// its weight lying level, below which it counts as balanced.
const leastStart = 1e-5

// Inertia is the second moment of mass (kg·m²) about the hinge axis of the
// tree above a hinge at height stump (m): a thin stem, and the crown as a
// point at its centre, which is the quick reading. Where mass or centre have
// been measured it goes with the mass and with the square of the centre's
// height.
func (t Tree) Inertia(stump float64) float64 {
	above, centre := t.stemAbove(stump)
	length := t.Height - stump
	stem := StemInertia(above, length, t.FormFactor)
	if t.Sections != nil {
		stem = t.sectionInertia(stump)
	}
	stem *= t.Density
	crown := t.CrownShare * t.Density * t.StemVolume()
	axis := t.Axis()
	at := axis.Scale(t.CrownCentre - stump).Add(AtBearing(t.CrownOffsetBearing, t.CrownOffset, 0))
	// A stem that leans along the axis lies nearer to it.
	sum := stem*(1-axis.Y*axis.Y) + crown*(at.X*at.X+at.Z*at.Z)
	mass := above*t.Density + crown
	if t.Mass > 0 {
		sum *= t.Mass / mass
	}
	if t.MassCentre > 0 {
		k := (t.MassCentre - stump) / ((above*t.Density*centre+crown*t.CrownCentre)/mass - stump)
		sum *= k * k
	}
	return sum
}

// sectionInertia is ∫z²dV of the stem above a height, z from there, m⁵: by
// parts 2·∫z·V(z)dz with V the volume above z, by Simpson's rule.
func (t Tree) sectionInertia(from float64) float64 {
	const parts = 128 // an even number
	step, sum := (t.Height-from)/parts, 0.0
	for i := 1; i < parts; i++ { // nothing at either end
		// Of the last centimetre nothing is said.
		if v, _ := t.stemAbove(from + float64(i)*step); v > 0 {
			sum += float64(2+2*(i%2)) * float64(i) * step * v
		}
	}
	return 2 * sum * step / 3
}

// acting is what acts on the tree.
type acting struct {
	bending   bool // the hinge resists
	committed bool
	slack     bool // the pull lines are, and stay so
	free      bool // no wind
}

// push is what turns the tree at a turn.
func (m *Motion) push(turn float64, a acting) push {
	f := m.fall
	b, err := f.at(turn, a.bending)
	if err != nil { // the lines meet a place they cannot be drawn to
		return push{moments: moments{math.NaN()}}
	}
	p := push{moments: moments{byWeight: b.weightForward}, limit: math.Inf(1)}
	if a.bending {
		p.moments[byHinge] = -f.hinge
	}
	if !a.free {
		p.moments[byWind] = -b.wind
	}
	hold := func(tension float64) float64 { return b.holds.forward(b.sideBeforeHold(tension)) }
	if a.committed {
		hold = func(float64) float64 { return 0 }
	}
	p.idle = hold(0)
	p.moments[byLines] = p.idle
	planned := m.pull.Planned
	if !(planned > 0) || a.slack {
		return p
	}
	for _, tension := range [...]float64{planned, -b.weightSide / b.sideLever} { // the corner of balance.need
		if tension > 0 && tension <= planned {
			p.moments[byLines] = math.Max(p.moments[byLines], tension*b.lever+hold(tension))
		}
	}
	// Of several pull lines the one that comes in slowest.
	slowest := math.Inf(1)
	for i := range f.Lines {
		if !f.Lines[i].Hold {
			slowest = math.Min(slowest, f.states[i].Forward)
		}
	}
	switch {
	case slowest > 0:
		p.limit = m.Inertia / 2 * (m.speed / slowest) * (m.speed / slowest)
	case a.committed: // rope no longer comes in
		p.limit = 0
	}
	return p
}

// Fall lets the tree of a solved pull fall, its lines hauled in at no more
// than a speed (m/s, above 0). The errors are *NoFallError
// and one of a mass or speed that is none.
func (s Setup) Fall(p *Pull, speed float64) (*Motion, error) {
	f, err := s.laidFall(p.Body)
	if err != nil {
		return nil, err
	}
	nan := math.NaN()
	m := &Motion{Inertia: s.Tree.Inertia(s.Stump), Commit: nan, Slack: nan, Closing: nan, Soonest: nan, fall: f, pull: p, speed: speed}
	if !(m.Inertia > 0 && m.Inertia <= math.MaxFloat64 && speed > 0) {
		return nil, errors.New("the tree's mass and the speed of the line have to be above 0 and finite")
	}
	tip := s.Tree.Axis().Scale(s.Tree.Height - s.Stump)
	m.Reach = math.Hypot(tip.X, tip.Z)
	// The top stands Reach·cos(φ + lean along the lay) above the hinge.
	m.Landing = math.Acos(-s.Stump/m.Reach) - math.Atan2(tip.X, tip.Z)
	if !(m.Landing > 0) {
		return nil, &NoFallError{High: true}
	}
	m.Top = tip.turned(math.Sincos(m.Landing))
	if p.Commit < m.Landing {
		m.Commit = p.Commit
	}
	if s.FaceOpening < m.Landing {
		m.Closing = s.FaceOpening
	}
	a := acting{bending: true}
	if start := m.push(0, a); !(start.sum() > leastStart*p.Body.Weight*p.Body.Centre.Norm()) {
		return nil, &NoFallError{Balanced: true}
	}
	w := swing{inertia: m.Inertia}
	m.Steps = make([]MotionStep, 0, 256)
	m.take(&w)
	if !m.run(&w, a, true) {
		return nil, &NoFallError{Turn: w.turn}
	}
	if at := m.At(m.Commit); m.Commit < m.Landing {
		m.Soonest = w.time - at.Time
		free := swing{inertia: m.Inertia, turn: at.Turn, work: moments{at.Weight, at.Lines, at.Wind, at.Hinge}}
		if m.run(&free, acting{free: true}, false) {
			m.Soonest = math.Min(m.Soonest, free.time)
		}
	}
	return m, nil
}

func (m *Motion) take(w *swing) {
	m.Steps = append(m.Steps, MotionStep{w.turn, w.time, w.rate(), w.work[byWeight], w.work[byLines], w.work[byWind], w.work[byHinge]})
}

// run carries a swing on until the top lands, from one change of what acts to
// the next.
func (m *Motion) run(w *swing, a acting, keep bool) bool {
	each := func(p *push) {
		if keep {
			m.take(w)
		}
		if a.committed && w.energy() > p.limit*(1+1e-9) {
			a.slack = true
			p.moments[byLines], p.limit = p.idle, math.Inf(1)
			if keep { // since the step began
				m.Slack = m.Steps[len(m.Steps)-2].Turn
			}
		}
	}
	for w.turn < m.Landing {
		a.committed = w.turn >= m.Commit
		a.bending = a.bending && !(w.turn >= m.Closing)
		end := m.Landing
		for _, e := range [2]float64{m.Commit, m.Closing} {
			if e > w.turn && e < end {
				end = e
			}
		}
		if !w.to(end, func(turn float64) push { return m.push(turn, a) }, each) {
			return false
		}
	}
	return true
}

// Duration is how long (s) the top takes from standing to the ground.
func (m *Motion) Duration() float64 { return m.Steps[len(m.Steps)-1].Time }

// At is the tree at a turn between standing and landing; one outside is
// taken as the nearer of the two, and one that is no number as standing. Between two steps the acceleration is taken
// as even.
func (m *Motion) At(turn float64) MotionStep {
	last := len(m.Steps) - 1
	if !(turn > 0) {
		return m.Steps[0]
	}
	if turn >= m.Landing {
		return m.Steps[last]
	}
	// The two steps about the turn.
	low, high := 0, last
	for high-low > 1 {
		if mid := (low + high) / 2; m.Steps[mid].Turn > turn {
			high = mid
		} else {
			low = mid
		}
	}
	a, b := &m.Steps[low], &m.Steps[high]
	k := (turn - a.Turn) / (b.Turn - a.Turn)
	mix := func(x, y float64) float64 { return x + k*(y-x) }
	s := MotionStep{Turn: turn, Rate: math.Sqrt(mix(a.Rate*a.Rate, b.Rate*b.Rate)),
		Weight: mix(a.Weight, b.Weight), Lines: mix(a.Lines, b.Lines), Wind: mix(a.Wind, b.Wind), Hinge: mix(a.Hinge, b.Hinge)}
	// (a.Rate + b.Rate)/2 is the mean rate over the whole step, to its own error.
	s.Time = a.Time + (b.Time-a.Time)*k*(a.Rate+b.Rate)/(a.Rate+s.Rate)
	return s
}

// TurnAt is the turn (rad) at a time (s) since standing.
func (m *Motion) TurnAt(time float64) float64 {
	if !(time > 0) {
		return 0
	}
	low, high := 0.0, m.Landing
	if time >= m.Duration() {
		return high
	}
	for range 50 { // to well under a billionth of the turn
		if mid := (low + high) / 2; m.At(mid).Time < time {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

// Moments gives the balance at a turn with the pull lines at what the tree asks
// of them there, or slack once it has committed.
func (m *Motion) Moments(turn float64) Moments {
	need, _ := m.Lines(turn)
	if math.IsInf(need, 0) {
		need = 0
	}
	at, _ := m.fall.MomentsAt(m.pull, turn, need) // what fell has them at every turn
	return at
}

// Rope is the length (m) of a line's path with the tree standing.
func (m *Motion) Rope(line int) float64 { return m.pull.Standing[line].Length }

// Lines gives what the tree asks of the lines at a turn: the pull needed (N,
// of a line with share 1; none once it has committed, +Inf where the lines
// have no lever), and by how much each line is shorter than standing (m;
// below 0 where it is longer).
func (m *Motion) Lines(turn float64) (need float64, shorter []float64) {
	b, err := m.fall.at(turn, !(turn > m.Closing))
	shorter = make([]float64, len(m.fall.Lines))
	for i := range shorter {
		shorter[i] = m.pull.Standing[i].Length - m.fall.states[i].Length
		if err != nil {
			shorter[i] = math.NaN()
		}
	}
	switch {
	case err != nil:
		need = math.NaN()
	case !(turn >= m.Commit):
		need = b.need()
	}
	return need, shorter
}
