package rigging

import (
	"errors"
	"fmt"
	"math"
)

// A Setup is all that decides the pull.
type Setup struct {
	Tree        Tree
	Stump       float64 // m, height of the hinge
	FaceOpening float64 // rad, turn at which the face closes and the hinge breaks
	Hinge       Hinge
	Wind        float64 // m/s, blowing against the lay
	Lines       []Line

	Allowance float64 // times the peak; at least 1
	Planned   float64 // N, the crew's own planned tension; 0 where there is none
}

// A Need is what the lines carry at one turn so that the tree just goes on.
type Need struct {
	Turn    float64 // rad
	Tension float64 // N, of a line with share 1
	Length  []float64
	Hold    []float64 // N, of each line; 0 for a pull line
}

// A Pull is the pull through the whole fall. Tensions are in N, turns in
// rad; slices run like Setup.Lines.
type Pull struct {
	Body        Body
	HingeMoment float64 // N·m
	WindMoment  float64 // N·m at turn 0, against the lay
	Standing    []LineState

	Start     float64
	Peak      float64
	PeakTurn  float64
	Commit    float64   // the first turn from which no pull is needed
	Haul      []float64 // m, how much shorter each line is at commit
	PayOut    []float64 // m, greatest lengthening of each line up to a quarter turn
	AtClosing []float64 // m, lengthening of each line when the face closes
	Planned   float64
	Tension   []float64 // planned tension of each line, hold lines with their allowance and what stretches them
	HoldPeak  []float64 // N, greatest tension of each hold line until the face closes; 0 for a pull line
	Stretch   []float64 // m, greatest lengthening of each line while the hinge bends and the tree needs pulling
	Stretched []float64 // N, what that puts on a hold line made fast; 0 for the others
	Drift     float64   // rad, positive left
	Side      SideWork  // what the hinge is left to hold to the side
	SideSlack SideWork  // the same with every hold line slack, as far as the tree then goes; the zero value without one
	Curve     []Need
	Lever     float64 // m, forward moment per newton at turn 0
}

// A SideWork is what the hinge as a beam on edge is worked hardest by.
type SideWork struct {
	Moment  float64 // N·m, positive to the left
	Stress  float64 // Pa
	Turn    float64 // rad, where
	Tension float64 // N, of a line with share 1 there
}

// ErrNoPullLine says that no line of the set-up pulls.
var ErrNoPullLine = errors.New("there is no pull line")

// A CannotPullError says at which turn the lines cannot turn the tree
// further, or that no turn up to level commits it (Turn then a quarter turn).
type CannotPullError struct {
	Turn     float64
	NoCommit bool
}

func (e *CannotPullError) Error() string {
	if e.NoCommit {
		return "the tree still needs pulling when it lies level: nothing commits it to the lay"
	}
	return fmt.Sprintf("at a turn of %.0f° the pull lines have no lever toward the lay: they cannot pull the tree over from there", e.Turn/Deg)
}

// A SetupLineError is a LineError with the index of its line.
type SetupLineError struct {
	Line int
	Err  error
}

func (e *SetupLineError) Error() string { return e.Err.Error() }
func (e *SetupLineError) Unwrap() error { return e.Err }

// A fall is a set-up with what stays the same through it, and room for the
// lines' states.
type fall struct {
	*Setup
	body    Body
	hinge   float64 // N·m while it bends
	wind    float64 // N
	courses []Course
	states  []LineState

	samples  []sample  // of the curve
	balances []balance // at each, once it has been gone through
}

// newFall begins one with the body of its tree. Its lines are still to be laid.
func (s *Setup) newFall(body Body) *fall {
	return &fall{Setup: s, body: body, hinge: s.Hinge.Moment(HingePlastic, s.Tree.Strength), wind: s.Tree.WindForce(s.Wind),
		courses: make([]Course, len(s.Lines)), states: make([]LineState, len(s.Lines))}
}

func (f *fall) lay(i int) (err error) {
	f.courses[i], err = f.Lines[i].Lay()
	return err
}

// laidFall is newFall with its lines laid; the error is a *SetupLineError.
func (s *Setup) laidFall(body Body) (*fall, error) {
	f := s.newFall(body)
	for i := range s.Lines {
		if err := f.lay(i); err != nil {
			return f, &SetupLineError{i, err}
		}
	}
	return f, nil
}

// balance is the tree at one turn as a function of the pull lines' common
// tension: forward(τ) and side(τ).
type balance struct {
	lever, sideLever float64 // of all pull lines, per newton of τ
	weightSide       float64 // N·m
	against          float64 // N·m: what the pull must overcome
	weightForward    float64
	wind             float64 // N·m against the lay
	holds            holdLines
}

func (b *balance) sideBeforeHold(tau float64) float64 { return b.weightSide + tau*b.sideLever }

func (b *balance) surplus(tau float64) float64 {
	return tau*b.lever + b.holds.forward(b.sideBeforeHold(tau)) - b.against
}

// need is the smallest τ ≥ 0 with no moment missing, and +Inf where the
// pull lines cannot supply it. The surplus is made of two straight pieces
// that meet where the side moment changes sign and the hold lines of the
// other side take over.
func (b *balance) need() float64 {
	start := b.surplus(0)
	if start >= 0 {
		return 0
	}
	if !(b.lever > 0) {
		return math.Inf(1)
	}
	corner := math.Inf(1)
	if b.sideLever != 0 {
		if c := -b.weightSide / b.sideLever; c > 0 {
			corner = c
		}
	}
	// A piece's slope is taken over a whole newton-metre-sized step within
	// it; the pieces are straight, so any step gives the same slope.
	from, at := 0.0, start
	for _, to := range []float64{corner, math.Inf(1)} {
		step := 1.0
		if !math.IsInf(to, 1) {
			step = to - from
		}
		slope := (b.surplus(from+step) - at) / step
		if slope > 0 {
			if tau := from - at/slope; tau <= to {
				return tau
			}
		}
		if math.IsInf(to, 1) {
			break
		}
		from, at = to, b.surplus(to)
	}
	return math.Inf(1)
}

// at gives the balance at a turn, with the hinge still bending or broken.
func (f *fall) at(turn float64, bending bool) (balance, error) {
	var b balance
	t := turned(turn)
	centre := f.body.Centre.turned(t.sin, t.cos)
	b.weightForward = f.body.Weight * centre.X
	b.weightSide = f.body.Weight * centre.Y * t.halfCos
	// A crown that hangs below the hinge would have the wind push the tree
	// over; nobody counts on that.
	b.wind = math.Max(0, f.wind*f.body.CrownCentre.turned(t.sin, t.cos).Z)
	b.against = b.wind - b.weightForward
	if bending {
		b.against += f.hinge
	}
	for i := range f.Lines {
		l, st := &f.Lines[i], &f.states[i]
		if err := f.courses[i].at(t, st); err != nil {
			return b, &SetupLineError{i, err}
		}
		if l.Hold {
			if bending { // once the hinge has broken there is nothing to spare
				b.holds.add(st)
			}
		} else {
			b.lever += l.Share * st.Forward
			b.sideLever += l.Share * st.Side
		}
	}
	return b, nil
}

func (f *fall) need(sm sample) (float64, error) {
	b, err := f.at(sm.turn, sm.bending)
	if err != nil {
		return 0, err
	}
	return b.need(), nil
}

// Turns of the curve: every degree up to level, and the closing of the face
// twice, with the hinge still bending and with it broken.
const curveStep = 1 * Deg

type sample struct {
	turn    float64
	bending bool
}

func (f *fall) samplesToLevel() []sample {
	out := make([]sample, 0, 93)
	closing := f.FaceOpening // past level, the hinge bends to the end
	split := false
	for i := 0; i <= 90; i++ {
		turn := float64(i) * curveStep
		if !split && turn >= closing {
			split = true
			out = append(out, sample{closing, true}, sample{closing, false})
			if turn == closing {
				continue
			}
		}
		out = append(out, sample{turn, !split})
	}
	return out
}

// Solve works the pull out. The errors are ErrNoPullLine, *SetupLineError
// and *CannotPullError.
func (s Setup) Solve() (*Pull, error) {
	f := s.newFall(s.Tree.Body(s.Stump))
	pulls := 0
	for i := range s.Lines {
		if !s.Lines[i].Hold {
			pulls++
		}
	}
	p := &Pull{Body: f.body, HingeMoment: f.hinge, WindMoment: math.Max(0, f.wind*f.body.CrownCentre.Z)}
	p.Standing = make([]LineState, len(s.Lines))
	for i := range s.Lines {
		err := f.lay(i)
		if err == nil {
			err = f.courses[i].At(0, &p.Standing[i])
		}
		if err != nil {
			p.Standing[i] = LineState{}
			return p, &SetupLineError{i, err}
		}
		if l := &s.Lines[i]; !l.Hold {
			p.Lever += l.Share * p.Standing[i].Forward
		}
	}
	if pulls == 0 {
		return p, ErrNoPullLine
	}
	if err := f.through(p); err != nil {
		return p, err
	}
	f.standing(p)
	return p, f.side(p)
}

// through fills in the curve, peak, commit, haul and the hold lines' largest
// tension through the fall.
func (f *fall) through(p *Pull) error {
	samples, n := f.samplesToLevel(), len(f.Lines)
	p.Curve = make([]Need, len(samples))
	f.samples, f.balances = samples, make([]balance, len(samples))
	room := make([]float64, 2*n*len(samples))
	lengths, holds := room[:n*len(samples)], room[n*len(samples):]
	last := -1
	for k, sm := range samples {
		b, err := f.at(sm.turn, sm.bending)
		if err != nil {
			return err
		}
		f.balances[k] = b
		need := &p.Curve[k]
		*need = Need{Turn: sm.turn, Tension: b.need(), Length: lengths[k*n : k*n+n : k*n+n], Hold: holds[k*n : k*n+n : k*n+n]}
		if math.IsInf(need.Tension, 1) {
			p.Curve = p.Curve[:k]
			return &CannotPullError{Turn: sm.turn}
		}
		side := b.sideBeforeHold(need.Tension)
		for i := range f.Lines {
			need.Length[i] = f.states[i].Length
			if f.Lines[i].Hold {
				need.Hold[i] = b.holds.on(&f.states[i], side)
			}
		}
		if need.Tension > 0 {
			last = k
		}
	}
	if last == len(samples)-1 {
		return &CannotPullError{Turn: math.Pi / 2, NoCommit: true}
	}
	p.Start = p.Curve[0].Tension

	var err error
	if p.Commit, err = f.commit(last); err != nil {
		return err
	}
	tension := func(n *Need) float64 { return n.Tension }
	p.Peak, p.PeakTurn, err = f.largest(p.Curve, tension, f.need)
	if err != nil {
		return err
	}
	if math.IsInf(p.Peak, 1) { // the lever is lost between two samples
		return &CannotPullError{Turn: p.PeakTurn}
	}
	// The hold lines' largest tension is sought while the hinge bends.
	closing := 0
	for closing < len(samples) && samples[closing].bending {
		closing++
	}
	holdPeak := make([]float64, n)
	for i := range f.Lines {
		if !f.Lines[i].Hold {
			continue
		}
		holdPeak[i], _, err = f.largest(p.Curve[:closing], func(n *Need) float64 { return n.Hold[i] },
			func(sm sample) (float64, error) {
				b, err := f.at(sm.turn, sm.bending)
				if err != nil {
					return 0, err
				}
				return b.holds.on(&f.states[i], b.sideBeforeHold(b.need())), nil
			})
		if err != nil {
			return err
		}
		if math.IsInf(holdPeak[i], 1) {
			return &CannotPullError{Turn: p.PeakTurn}
		}
	}
	return f.lengths(p, holdPeak)
}

// sampled is the place in the curve of a turn at which the hinge still bends, −1
// where it is none of the curve's.
func (f *fall) sampled(turn float64) int {
	// Up to the closing of the face they are the whole degrees, in order.
	if k := turn/curveStep + 0.5; k >= 0 && k < float64(len(f.samples)) && f.samples[int(k)] == (sample{turn, true}) {
		return int(k)
	}
	return -1
}

// bent is the balance at a turn while the hinge bends.
func (f *fall) bent(turn float64) (balance, error) {
	if k := f.sampled(turn); k >= 0 {
		return f.balances[k], nil
	}
	return f.at(turn, true)
}

// lengths compares the lines' lengths through the fall with those standing,
// and leaves the hold lines' largest tension, with allowance, in p.Tension.
func (f *fall) lengths(p *Pull, holdPeak []float64) error {
	n := len(f.Lines)
	room := make([]float64, 6*n)
	for _, list := range []*[]float64{&p.Haul, &p.PayOut, &p.AtClosing, &p.Tension, &p.Stretch, &p.Stretched} {
		*list, room = room[:n:n], room[n:]
	}
	p.HoldPeak = holdPeak
	if _, err := f.at(p.Commit, false); err != nil {
		return err
	}
	for i := range f.Lines {
		standing := p.Standing[i].Length
		p.Haul[i] = standing - f.states[i].Length
		for k := range p.Curve {
			longer := p.Curve[k].Length[i] - standing
			p.PayOut[i] = math.Max(p.PayOut[i], longer)
			if f.samples[k].bending {
				p.AtClosing[i] = longer
			}
		}
		p.Tension[i] = f.Allowance * holdPeak[i]
	}
	// A line made fast at both ends grows with the tree: T = EA·ΔL/L₀, Hooke.
	for _, turn := range Degrees(f.whileBending(p)) {
		known := f.sampled(turn)
		if known < 0 {
			if _, err := f.at(turn, true); err != nil {
				return err
			}
		}
		for i := range f.Lines {
			length := f.states[i].Length
			if known >= 0 {
				length = p.Curve[known].Length[i]
			}
			p.Stretch[i] = math.Max(p.Stretch[i], length-p.Standing[i].Length)
		}
	}
	for i, l := range f.Lines {
		if l.Hold && !l.Tended && p.Stretch[i] > 0 {
			p.Stretched[i] = math.NaN()
			if l.Stiffness > 0 {
				p.Stretched[i] = l.Stiffness * p.Stretch[i] / p.Standing[i].Length
			}
		}
	}
	return nil
}

// whileBending is the turn up to which the hinge both bends and is needed.
func (f *fall) whileBending(p *Pull) float64 { return math.Min(p.Commit, f.FaceOpening) }

// Degrees lists the turns at each whole degree from 0 up to a turn (rad, at most
// a full one), and that turn itself.
func Degrees(to float64) []float64 {
	out := make([]float64, 0, 92)
	for i := 0; i < 360 && float64(i)*curveStep < to; i++ {
		out = append(out, float64(i)*curveStep)
	}
	return append(out, to)
}

// commit narrows down where the need ends between sample last and the next.
func (f *fall) commit(last int) (float64, error) {
	if last < 0 {
		return 0, nil
	}
	needed, free := f.samples[last], f.samples[last+1]
	for free.turn-needed.turn > 1e-9 {
		mid := sample{(needed.turn + free.turn) / 2, free.bending}
		tau, err := f.need(mid)
		if err != nil {
			return 0, err
		}
		if tau > 0 {
			needed = mid
		} else {
			free = mid
		}
	}
	return free.turn, nil
}

// largest finds the largest value over the curve, narrowed down between the
// neighbours of the largest sample by golden-section search.
func (f *fall) largest(curve []Need, of func(*Need) float64, at func(sample) (float64, error)) (value, turn float64, err error) {
	best, samples := -1, f.samples[:len(curve)]
	for k := range samples {
		if v := of(&curve[k]); best < 0 || v > value {
			best, value, turn = k, v, samples[k].turn
		}
	}
	if best < 0 || value == 0 {
		return 0, 0, nil
	}
	bending := samples[best].bending
	lo, hi := turn, turn
	if best > 0 && samples[best-1].bending == bending {
		lo = samples[best-1].turn
	}
	if best+1 < len(samples) && samples[best+1].bending == bending {
		hi = samples[best+1].turn
	}
	const golden = 0.6180339887498949 // (√5 − 1)/2
	a, b := hi-golden*(hi-lo), lo+golden*(hi-lo)
	va, err := at(sample{a, bending})
	if err != nil {
		return 0, 0, err
	}
	vb, err := at(sample{b, bending})
	if err != nil {
		return 0, 0, err
	}
	for hi-lo > 1e-6 {
		if va > vb {
			hi, b, vb = b, a, va
			a = hi - golden*(hi-lo)
			va, err = at(sample{a, bending})
		} else {
			lo, a, va = a, b, vb
			b = lo + golden*(hi-lo)
			vb, err = at(sample{b, bending})
		}
		if err != nil {
			return 0, 0, err
		}
	}
	for _, c := range []struct{ v, t float64 }{{va, a}, {vb, b}} {
		if c.v > value {
			value, turn = c.v, c.t
		}
	}
	return value, turn, nil
}

// standing fills in what is reported at turn 0: planned tension, the hold
// lines' tension and the drift.
func (f *fall) standing(p *Pull) {
	p.Planned = f.Allowance * p.Peak
	if f.Planned > 0 {
		p.Planned = f.Planned
	}
	b, _ := f.at(0, true) // the states were computed before without error
	planned := b.sideBeforeHold(p.Planned)
	for i := range f.Lines {
		if f.Lines[i].Hold {
			p.Tension[i] = math.Max(p.Tension[i], b.holds.on(&f.states[i], planned)) + p.Stretched[i]
		} else {
			p.Tension[i] = f.Lines[i].Share * p.Planned
		}
	}
	left := b.holds.left(planned)
	forward := b.weightForward + p.Planned*b.lever + b.holds.forward(planned)
	if left != 0 || forward != 0 {
		p.Drift = math.Atan2(left, forward)
	}
}

// side fills in what works the hinge hardest to the side: standing at planned
// tension, and as the tree turns at what it then needs, until the hinge
// breaks or is no longer needed.
func (f *fall) side(p *Pull) error {
	turns := Degrees(f.whileBending(p))
	if err := f.sideWork(&p.Side, p.Planned, turns, false); err != nil {
		return err
	}
	for _, l := range f.Lines {
		if l.Hold {
			// Without hold lines it may commit later. Once it has, the weight
			// alone is on the hinge, and works it less as it bends.
			rest := Degrees(math.Min(f.FaceOpening, math.Pi/2))
			return f.sideWork(&p.SideSlack, p.Planned, append(turns, rest[len(turns)-1:]...), true)
		}
	}
	return nil
}

// sideWork takes in turns from standing on, with slack hold lines as far as the
// pull lines can then turn the tree.
func (f *fall) sideWork(w *SideWork, planned float64, turns []float64, slack bool) error {
	for _, turn := range turns {
		b, err := f.bent(turn)
		if err != nil {
			return err
		}
		if slack {
			b.holds = holdLines{}
		}
		if turn == 0 {
			w.work(f, &b, turn, planned)
		}
		need := b.need()
		if math.IsInf(need, 1) {
			break
		}
		w.work(f, &b, turn, need)
	}
	return nil
}

// work takes in one more turn and tension. Of a hinge thicker at one end the
// smaller moment may be the harder one, where the two go to different sides.
func (w *SideWork) work(f *fall, b *balance, turn, tension float64) {
	moment := b.holds.left(b.sideBeforeHold(tension))
	stress := f.Hinge.SideStress(moment, f.Tree.Cavity)
	// One that is not known stays so: nothing is above it.
	if math.IsNaN(stress) || stress > w.Stress || stress == w.Stress && math.Abs(moment) > math.Abs(w.Moment) {
		*w = SideWork{moment, stress, turn, tension}
	}
}

// HoldAt is the tension (N) of each hold line with the tree standing and
// the pull lines at the given tensions (N); 0 for pull lines. The lines are as
// states has them at turn 0, such as Pull.Standing.
func (s Setup) HoldAt(p *Pull, states []LineState, tensions []float64) []float64 {
	var holds holdLines
	side := p.Body.Weight * p.Body.Centre.Y
	for i := range s.Lines {
		if s.Lines[i].Hold {
			holds.add(&states[i])
		} else {
			side += tensions[i] * states[i].Side
		}
	}
	out := make([]float64, len(s.Lines))
	for i := range s.Lines {
		if s.Lines[i].Hold {
			out[i] = holds.on(&states[i], side)
		}
	}
	return out
}
