package rigging

import (
	"fmt"
	"math"
)

// A Toppling body turns about a foot that stays put, with no hinge, line or
// air to slow it: how long a tree takes to fall, and how fast its top
// arrives, at most.
type Toppling struct {
	Mass    float64 // kg
	Centre  float64 // m from the foot to the mass centre
	Inertia float64 // kg·m², second moment of mass about the foot
}

// StemInertia is the second moment of mass about its foot of a thin stem of
// mass m (kg), height H (m) and form factor f, m·H²·2/((1/f + 1)(1/f + 2)):
// mH²/3 for the cylinder, mH²/6 for the paraboloid and mH²/10 for the cone
// (integral calculus).
func StemInertia(mass, height, formFactor float64) float64 {
	p := 1 / formFactor
	return mass * height * height * 2 / ((p + 1) * (p + 2))
}

// Speed is the rate of turn (rad/s) at angle to, measured from plumb, of a
// body let go at rest at angle from: all the height lost has become motion,
// ω² = 2·m·g·z·(cos from − cos to)/I.
func (t Toppling) Speed(from, to float64) float64 {
	return math.Sqrt(math.Max(0, 2*t.Mass*G*t.Centre*(math.Cos(from)-math.Cos(to))/t.Inertia))
}

// Time is how long (s) it takes from rest at angle from to angle to, both
// from plumb, 0 < from < to ≤ π/2: θ″ = (m·g·z/I)·sin θ. A body let go
// upright never falls.
func (t Toppling) Time(from, to float64) (float64, error) {
	if !(from > 0) || !(to > from) || to > math.Pi/2 {
		return 0, fmt.Errorf("a body falls from an angle above 0 to a larger one up to a right angle, not from %g to %g rad", from, to)
	}
	weight := t.Mass * G * t.Centre
	if rate := weight / t.Inertia; !(rate > 0) || math.IsInf(rate, 0) {
		return 0, fmt.Errorf("mass, centre and inertia have to be above 0 and finite")
	}
	if from < leastTurn*100 {
		return 0, fmt.Errorf("a body let go at %g rad stands all but upright: it has no falling time", from)
	}
	s := swing{inertia: t.Inertia, turn: from}
	gravity := func(turn float64) push { return push{moments{byWeight: weight * math.Sin(turn)}, 0, math.Inf(1)} }
	if !s.to(to, gravity, nil) {
		return 0, fmt.Errorf("a body let go at %g rad does not reach %g rad", from, to)
	}
	return s.time, nil
}

// moments are what turns a body, N·m, or the work done by each, J; positive
// the way it turns.
type moments [4]float64

const (
	byWeight = iota
	byLines
	byWind
	byHinge
)

func (m *moments) sum() float64 { return m[0] + m[1] + m[2] + m[3] }

func (m *moments) add(k float64, n *moments) {
	for i := range m {
		m[i] += k * n[i]
	}
}

// A swing is a rigid body on its way round an axis, under moments that depend
// on its turn alone. Its work is then an integral over the turn, E(φ) = ∫M dφ,
// and so is its time, t = ∫dφ/ω with ω = √(2E/I): no force is ever taken at a
// wrong place.
type swing struct {
	inertia float64 // kg·m²
	turn    float64 // rad
	time    float64 // s
	work    moments // J; its sum is the energy of motion
}

// A push is what turns the body at a turn. Its lines pull no more than brings
// it to the energy of motion limit (J), and are then eased as far as to the
// moment idle (N·m).
type push struct {
	moments
	idle, limit float64
}

// Steps of a swing. Away from a turn of rest 1/ω changes with the energy, so
// the step is a part of the turn over which the energy would double.
const (
	leastTurn = 1e-7    // rad, of the first step out of rest
	mostTurn  = 2.25e-2 // rad
	stepShare = 0.2
	leastEase = 1e-5  // rad, to which the turn where lines are eased is found
	mostSteps = 20000 // a swing takes about 200
)

func (s *swing) energy() float64 { return s.work.sum() }

// rate is the rate of turn (rad/s).
func (s *swing) rate() float64 { return math.Sqrt(2 * math.Max(0, s.energy()) / s.inertia) }

// to carries the swing on to a turn and calls each after every step with what
// turns the body from there on, to be changed where that changes. It is
// false where the body comes to a stand on the way, at s.turn, or where a
// number is not finite.
//
// Energy and time over a step are by Simpson's rule, the energy half way from
// the parabola through the three moments. Out of rest the first step has an
// even acceleration.
func (s *swing) to(end float64, at func(turn float64) push, each func(p *push)) bool {
	p0, most := at(s.turn), mostTurn
	for range mostSteps {
		if !(s.turn < end) {
			return s.turn == end
		}
		e0, pull := s.energy(), p0.sum()
		if e0 > p0.limit*(1+1e-6) { // it runs ahead of its lines
			pull += p0.idle - p0.moments[byLines]
		}
		h := math.Min(most, math.Max(leastTurn, stepShare*e0/math.Abs(pull)))
		if math.Abs(e0/p0.limit-1) <= 1e-6 { // it is the limit that the energy follows
			h = mostTurn / 4
		}
		next := s.turn + h
		if !(next < end-leastTurn) { // no sliver is left over
			next, h = end, end-s.turn
		}
		mid, p1 := at(s.turn+h/2), at(next)
		half := e0 + h/24*(5*p0.sum()+8*mid.sum()-p1.sum())
		full := e0 + h/6*(p0.sum()+4*mid.sum()+p1.sum())
		over := math.Max(half-mid.limit, full-p1.limit)
		if over > 1e-9*e0 && e0 < p0.limit*(1-1e-6) && h > leastEase {
			// To where the lines are first eased, as far as a straight line tells.
			most = h / 2
			if gap := p0.limit - e0; p0.limit < 2*p1.limit && p1.limit < 2*p0.limit { // no jump
				most = h * math.Min(0.9, math.Max(0.1, gap/(gap+over)))
			}
			continue
		}
		most = mostTurn
		if half > mid.limit {
			eased := h / 24 * (5*(p0.moments[byLines]-p0.idle) + 8*(mid.moments[byLines]-mid.idle) - (p1.moments[byLines] - p1.idle))
			half = math.Max(mid.limit, half-math.Max(0, eased))
		}
		work := s.work
		work.add(h/6, &p0.moments)
		work.add(h*4/6, &mid.moments)
		work.add(h/6, &p1.moments)
		if over := work.sum() - p1.limit; over > 0 {
			eased := work[byLines] - s.work[byLines] - h/6*(p0.idle+4*mid.idle+p1.idle)
			work[byLines] -= math.Min(over, math.Max(0, eased))
		}
		e1 := work.sum()
		if !(half > 0) || !(e1 > 0) || math.IsInf(e1, 0) {
			return false
		}
		slow := func(e float64) float64 { return math.Sqrt(s.inertia / (2 * e)) } // s/rad
		if e0 > 0 {
			s.time += h / 6 * (slow(e0) + 4*slow(half) + slow(e1))
		} else {
			s.time += 2 * h * slow(e1)
		}
		s.turn, s.work, p0 = next, work, p1
		if each != nil {
			each(&p0)
		}
	}
	return false
}
