package rigging

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/spatial/r3"
)

// bareRod is a tree without crown or taper on no stump, whose hinge is a
// thread and whose line does nothing: a rod that topples about its foot.
func bareRod(length, lean float64) Setup {
	t := Tree{Height: length, Diameter: 0.3, FormFactor: 1, Density: 900, Strength: 40 * MPa, CrownCentre: length / 2, Lean: lean}
	return Setup{Tree: t, FaceOpening: 120 * Deg, Allowance: 1,
		Lines: []Line{{Share: 1, Path: []Station{StemStation(t, 0, length/2, 0), {At: Vec{X: 50}}}}}}
}

func letFall(t *testing.T, s Setup) *Motion {
	t.Helper()
	p, err := s.Solve()
	require.NoError(t, err)
	m, err := s.Fall(p, BriskHaul)
	require.NoError(t, err)
	return m
}

// A published table of numbers: a body on a pivot that swings from 180° − 2·(90° − α)
// to hanging takes K(α) times √(I/mgz), K the complete elliptic integral of
// the first kind: Abramowitz & Stegun, Handbook of Mathematical Functions,
// 17.2 and table 17.2 (α = 75°, 80°, 85°, from memory).
func TestSwingAgainstPublishedTable(t *testing.T) {
	for alpha, want := range map[float64]float64{75: 2.76806315, 80: 3.15338525, 85: 3.83174200} {
		from := math.Pi - 2*alpha*Deg // from upright
		s := swing{inertia: 1, turn: from}
		require.True(t, s.to(math.Pi, func(turn float64) push { return push{moments{math.Sin(turn)}, 0, math.Inf(1)} }, nil))
		assert.InEpsilon(t, want, s.time, 1e-5, "%v°", alpha) // the step's own error
	}
}

// Falling times of rods against the elliptic integral by gonum:
// t = (K(m) − F(χ|m))·√(I/mgz), m = cos²(from/2), sin χ = cos(to/2)/cos(from/2)
// (pendulum of any mechanics text).
func TestFallingRod(t *testing.T) {
	for _, length := range []float64{10, 25, 40} {
		for _, deg := range []float64{0.1, 1, 2, 5, 10, 30} {
			m := letFall(t, bareRod(length, deg*Deg))
			c := math.Cos(deg * Deg / 2)
			chi := math.Asin(math.Cos(math.Pi/4) / c)
			want := (mathext.CompleteK(c*c) - mathext.EllipticF(chi, c*c)) * math.Sqrt(2*length/(3*G))
			assert.InEpsilon(t, want, m.Duration(), 1e-5, "%g m from %g°", length, deg)
			assert.InDelta(t, 90-deg, m.Landing/Deg, 1e-9)
			assert.InEpsilon(t, rod(length).Speed(deg*Deg, math.Pi/2), m.Steps[len(m.Steps)-1].Rate, 1e-5)
			got, err := rod(length).Time(deg*Deg, math.Pi/2)
			require.NoError(t, err)
			assert.InEpsilon(t, want, got, 1e-5)
		}
	}
}

func TestFallPublished(t *testing.T) {
	top := func(m *Motion) float64 { return m.Steps[len(m.Steps)-1].Rate * m.Reach }
	// OpenStax University Physics 1, ch. 10.5: a rod of 2 m let go 60° above level, g = 9.8 m/s².
	c := publishedExample(t, "top-01")
	m := letFall(t, bareRod(c.InSI("L"), math.Pi/2-c.In("start")*Deg))
	assertPrinted(t, c, "v_tip", top(m)*math.Sqrt(c.In("g")/G))
	// The same, ch. 10.8: from upright √(3gL), here from a hundredth of a degree.
	c = publishedExample(t, "top-03")
	m = letFall(t, bareRod(20, 0.01*Deg))
	assert.InEpsilon(t, c.Answer("coef").Value, top(m)/math.Sqrt(20*G), 1e-6)
}

// fallen gives random set-ups that fall, with their pull and motion.
func fallen(t *testing.T, seed uint64, n int, each func(r *rand.Rand, s Setup, p *Pull, m *Motion)) {
	t.Helper()
	r := rand.New(rand.NewPCG(31, seed))
	for done := 0; done < n; {
		s := randomSetup(r)
		p, err := s.Solve()
		if err != nil {
			continue
		}
		m, err := s.Fall(p, BriskHaul)
		var none *NoFallError
		if errors.As(err, &none) {
			assert.NotEmpty(t, err.Error())
			continue
		}
		require.NoError(t, err)
		done++
		each(r, s, p, m)
	}
}

// The energy of motion is the work of everything else, each by its own closed
// form: weight times height lost, hinge moment times turn, and of lines
// without friction tension times rope that comes in.
func TestFallBalancesItsEnergy(t *testing.T) {
	fallen(t, 1, 150, func(r *rand.Rand, s Setup, p *Pull, m *Motion) {
		scale := p.Body.Weight * p.Body.Centre.Norm()
		assertWork := func(m *Motion) {
			for _, st := range m.Steps {
				lost := p.Body.Centre.Z - p.Body.Centre.Turned(st.Turn).Z
				// Simpson's rule in steps of 1.3° and less: a millionth of the whole.
				assert.InDelta(t, p.Body.Weight*lost, st.Weight, 1e-6*scale)
				bent := st.Turn
				if bent > m.Closing {
					bent = m.Closing
				}
				assert.InDelta(t, -p.HingeMoment*bent, st.Hinge, 1e-9*scale)
				assert.LessOrEqual(t, st.Wind, 0.0)
				assert.InDelta(t, m.Inertia*st.Rate*st.Rate/2, st.Weight+st.Lines+st.Wind+st.Hinge, 1e-9*scale)
				assert.Equal(t, st.Energy(), st.Weight+st.Lines+st.Wind+st.Hinge)
			}
		}
		assertWork(m)

		// However fast the puller, the lines do no more than tension times rope.
		pulls := []Line{}
		for _, l := range s.Lines {
			if !l.Hold {
				for k := range l.Path {
					l.Path[k].Efficiency = 1
				}
				pulls = append(pulls, l)
			}
		}
		s.Lines = pulls
		p, err := s.Solve()
		if err != nil {
			return
		}
		if m, err = s.Fall(p, 1e9); err != nil {
			return
		}
		assertWork(m)
		for _, st := range m.Steps {
			if st.Turn >= m.Slack { // where they no longer turn it
				break
			}
			work := 0.0
			for i, l := range s.Lines {
				then, err := l.At(st.Turn)
				require.NoError(t, err)
				work += l.Share * p.Planned * (p.Standing[i].Length - then.Length)
			}
			// The rope's lever changes quickly where the stem comes near a block.
			assert.InDelta(t, work, st.Lines, 1e-4*(scale+math.Abs(work)))
		}
	})
}

// Until the tree commits no line comes in faster than the puller can, and the
// lines do no more work than at planned tension.
func TestFallKeepsToThePuller(t *testing.T) {
	eased := 0
	fallen(t, 9, 60, func(r *rand.Rand, s Setup, p *Pull, m *Motion) {
		quick, err := s.Fall(p, 1e9)
		require.NoError(t, err)
		assert.LessOrEqual(t, quick.Duration(), m.Duration()*(1+1e-6))
		slow, err := s.Fall(p, 0.1)
		require.NoError(t, err, "%+v", s)
		assert.GreaterOrEqual(t, slow.Duration(), m.Duration()*(1-1e-6))
		for _, st := range slow.Steps {
			if st.Turn > m.Commit {
				break
			}
			least := math.Inf(1)
			for _, l := range s.Lines {
				if !l.Hold {
					at, err := l.At(st.Turn)
					require.NoError(t, err)
					least = math.Min(least, at.Forward)
				}
			}
			if p.Planned > 0 && least > 0 && st.Rate > 0.1/least*(1+1e-9) {
				// Only by what it falls on its own.
				need, _ := slow.Lines(st.Turn)
				assert.Less(t, need, p.Peak)
				continue
			}
			eased++
		}
	})
	assert.Greater(t, eased, 500)
}

// No step of the motion decides when the lines go slack:
// they go slack where it runs ahead of them, and stay so. From there on beside
// it by the mean acceleration over steps of a thousandth of a second (the
// trapezoidal rule).
func TestFallGoesSlackWhereItRunsAhead(t *testing.T) {
	s := demoSetup(t)
	p, err := s.Solve()
	require.NoError(t, err)
	for _, speed := range []float64{0.3, BriskHaul, 2.2, 4} {
		m, err := s.Fall(p, speed)
		require.NoError(t, err)
		free := func(turn float64) float64 { // N·m once it has committed, the lines slack
			at, err := m.fall.at(turn, turn < s.FaceOpening)
			require.NoError(t, err)
			sum := at.weightForward - at.wind
			if turn < s.FaceOpening {
				sum -= p.HingeMoment
			}
			return sum
		}
		limit := func(turn float64) float64 {
			least := math.Inf(1)
			for _, l := range s.Lines {
				if !l.Hold {
					at, err := l.At(turn)
					require.NoError(t, err)
					least = math.Min(least, at.Forward)
				}
			}
			return speed / least
		}
		require.False(t, math.IsNaN(m.Slack))
		assert.GreaterOrEqual(t, m.Slack, m.Commit)
		at := m.At(m.Slack)
		// It turns as fast there as the line comes in, or has already turned
		// faster as it commits and the hold line lets go.
		if m.Slack > m.Commit+1e-9 {
			assert.InEpsilon(t, limit(m.Slack), at.Rate, 1e-4, "%v m/s", speed) // of a step to where they are eased, 1e-5 rad
		} else {
			assert.GreaterOrEqual(t, at.Rate, limit(m.Slack)*(1-1e-6))
		}
		turn, rate, time := m.Slack, at.Rate, at.Time
		const h = 1e-3
		for turn < m.Landing {
			a := free(turn) / m.Inertia
			b := free(turn+h*(rate+h/2*a)) / m.Inertia
			next := rate + h*(a+b)/2
			turn, rate, time = turn+h*(rate+next)/2, next, time+h
		}
		// The step that lands goes past the ground by up to a thousandth of a second.
		assert.InDelta(t, time-(turn-m.Landing)/rate, m.Duration(), 1e-3, "%v m/s", speed)
		rate -= (turn - m.Landing) / rate * free(m.Landing) / m.Inertia
		assert.InEpsilon(t, rate, m.Steps[len(m.Steps)-1].Rate, 5e-4) // a step lies across the closing face
	}
}

// The motion once more from the note on the model: vectors by gonum, and the
// equation of motion over time by the classical Runge-Kutta rule.
func TestFallAgainstReference(t *testing.T) {
	t.Parallel()
	fallen(t, 2, 12, func(r *rand.Rand, s Setup, p *Pull, m *Motion) {
		f := reference{s}
		tree := s.Tree
		rotation := func(turn float64) r3.Rotation { return r3.NewRotation(turn, r3.Vec{Y: 1}) }
		// Second moment by slices of the stem, the solid of revolution whose
		// volume above z is V(1 − z/H)^(1/f), and the crown as a point.
		axis := toR3(tree.Axis())
		volume := tree.FormFactor * math.Pi / 4 * tree.Diameter * tree.Diameter * tree.Height
		above := func(h float64) float64 { return volume * math.Pow(math.Max(0, 1-h/tree.Height), 1/tree.FormFactor) }
		inertia := 0.0
		const slices = 4000
		for i := range slices {
			lo := s.Stump + (tree.Height-s.Stump)*float64(i)/slices
			hi := s.Stump + (tree.Height-s.Stump)*float64(i+1)/slices
			at := r3.Scale((lo+hi)/2-s.Stump, axis)
			inertia += tree.Density * (above(lo) - above(hi)) * (at.X*at.X + at.Z*at.Z)
		}
		crown := r3.Add(r3.Scale(tree.CrownCentre-s.Stump, axis), toR3(AtBearing(tree.CrownOffsetBearing, tree.CrownOffset, 0)))
		inertia += tree.CrownShare * tree.Density * volume * (crown.X*crown.X + crown.Z*crown.Z)
		require.InEpsilon(t, inertia, m.Inertia, 1e-5)

		centre := toR3(p.Body.Centre)
		windAt := r3.Scale(tree.CrownCentre-s.Stump, axis)
		// With the lines pulling what turns it most, or not at all.
		accelerate := func(turn float64, pulling bool) float64 {
			bending := turn < s.FaceOpening
			body := f.balance(turn, bending)
			surplus, lever := body.surplus, body.lever
			if turn >= p.Commit { // without hold lines
				sum := p.Body.Weight * rotation(turn).Rotate(centre).X
				sum -= math.Max(0, tree.WindForce(s.Wind)*rotation(turn).Rotate(windAt).Z)
				if bending {
					sum -= p.HingeMoment
				}
				if pulling {
					sum += math.Max(0, p.Planned*lever)
				}
				return sum / inertia
			}
			if !pulling {
				return surplus(0) / inertia
			}
			best, most := 0.0, surplus(0)
			for _, width := range []float64{1, 0.04, 0.002} {
				from := best
				for i := -25; i <= 25; i++ {
					tau := from + float64(i)/25*width*p.Planned
					if v := surplus(tau); tau >= 0 && tau <= p.Planned && v > most {
						best, most = tau, v
					}
				}
			}
			return most / inertia
		}
		turn, rate, time, slack := 0.0, 0.0, 0.0, false
		const h = 2e-3
		for turn < m.Landing {
			step := func(pulling bool) (float64, float64) {
				a1 := accelerate(turn, pulling)
				a2 := accelerate(turn+h/2*rate, pulling)
				a3 := accelerate(turn+h/2*(rate+h/2*a1), pulling)
				a4 := accelerate(turn+h*(rate+h/2*a2), pulling)
				return turn + h*rate + h*h/6*(a1+a2+a3), rate + h/6*(a1+2*a2+2*a3+a4)
			}
			slowest := math.Inf(1)
			for _, l := range s.Lines {
				if !l.Hold {
					m, _ := f.line(l, turn)
					slowest = math.Min(slowest, toLay(m))
				}
			}
			limit := math.Inf(1)
			if slowest > 0 {
				limit = BriskHaul / slowest
			} else if turn >= p.Commit {
				limit = 0
			}
			before := rate
			next, quick := turn, rate
			if rate <= limit && !slack {
				next, quick = step(true)
			}
			if quick > limit || rate > limit || slack {
				next, quick = step(false)
				switch {
				case slack:
				case quick < limit:
					quick = limit
					next = turn + h*(before+quick)/2
				case turn >= p.Commit: // the rope it runs ahead of never comes tight again
					slack = true
				}
			}
			turn, rate = next, quick
			time += h
			require.Less(t, time, 1000.0)
		}
		time -= (turn - m.Landing) / rate
		rate -= (turn - m.Landing) / rate * accelerate(turn, false)
		// The reference steps over commit and closing: a part of its step.
		assert.InDelta(t, time, m.Duration(), 2e-3+1e-3*time)
		assert.InEpsilon(t, rate, m.Steps[len(m.Steps)-1].Rate, 3e-3)
		assert.InDelta(t, tree.Height-s.Stump, m.Top.Norm(), 1e-9)
		assert.InDelta(t, -s.Stump, m.Top.Z, 1e-9, "the top lies on the ground")
	})
}

func TestFallInItsOrder(t *testing.T) {
	fallen(t, 3, 100, func(r *rand.Rand, s Setup, p *Pull, m *Motion) {
		last := MotionStep{Turn: -1, Time: -1}
		for i, st := range m.Steps {
			assert.Greater(t, st.Turn, last.Turn)
			assert.Greater(t, st.Time, last.Time)
			if i > 0 {
				assert.Positive(t, st.Rate)
			}
			last = st
			at := m.At(st.Turn)
			assert.InDelta(t, st.Time, at.Time, 1e-9)
			assert.InDelta(t, st.Rate, at.Rate, 1e-9)
		}
		assert.Equal(t, m.Landing, last.Turn)
		assert.Equal(t, last, m.At(4))
		assert.Equal(t, m.Steps[0], m.At(-1))
		assert.Equal(t, m.Landing, m.TurnAt(m.Duration()+1))
		assert.Zero(t, m.TurnAt(math.NaN()))
		for range 20 {
			time := m.Duration() * r.Float64()
			at := m.At(m.TurnAt(time))
			assert.InDelta(t, time, at.Time, 1e-6)
		}
		commit := m.At(m.Commit)
		assert.LessOrEqual(t, m.Soonest, m.Duration()-commit.Time+1e-9)
		assert.Positive(t, m.Soonest)
		need, shorter := m.Lines(m.Commit)
		assert.Zero(t, need)
		for i := range s.Lines {
			assert.InDelta(t, p.Haul[i], shorter[i], 1e-9)
		}
		need, _ = m.Lines(0)
		assert.InDelta(t, p.Start, need, 1e-9*(1+p.Start))
		asksAsTheCurve(t, s, p, m)
	})
}

// asksAsTheCurve compares what the tree asks of the lines as it falls with the
// curve of the pull. As the face closes the hinge still bends.
func asksAsTheCurve(t *testing.T, s Setup, p *Pull, m *Motion) {
	t.Helper()
	closed := false
	for _, c := range p.Curve {
		if c.Turn >= m.Landing || closed && c.Turn == s.FaceOpening {
			continue
		}
		closed = closed || c.Turn == s.FaceOpening
		need, shorter := m.Lines(c.Turn)
		if c.Turn < p.Commit {
			assert.InDelta(t, c.Tension, need, 1e-9*(1+c.Tension), "turn %v", c.Turn/Deg)
			at := m.Moments(c.Turn)
			scale := 1 + p.Body.Weight*p.Body.Centre.Norm() + c.Tension*50
			assert.InDelta(t, 0, math.Min(0, at.Forward-at.Hinge-at.Wind), 1e-9*scale, "turn %v", c.Turn/Deg)
		} else {
			assert.Zero(t, need)
		}
		for i := range s.Lines {
			assert.InDelta(t, p.Standing[i].Length-c.Length[i], shorter[i], 1e-9)
		}
	}
}

// A face that closes before the tree goes by itself.
func TestFallPastAClosedFace(t *testing.T) {
	tree := Tree{Height: 25, Diameter: 0.6, FormFactor: 0.42, Density: 900, Strength: 40 * MPa, CrownShare: 0.2, CrownCentre: 16, Lean: 12 * Deg, LeanBearing: math.Pi}
	s := Setup{Tree: tree, Stump: 0.4, FaceOpening: 7 * Deg, Hinge: Hinge{0.5, 0.06, 0.06}, Allowance: 1.5,
		Lines: []Line{{Share: 1, Path: []Station{StemStation(tree, 0.4, 12, 0), {At: Vec{X: 40}}}}}}
	p, err := s.Solve()
	require.NoError(t, err)
	require.Greater(t, p.Commit, s.FaceOpening)
	asksAsTheCurve(t, s, p, letFall(t, s))
}

// What helps the fall on makes it sooner, what holds it back later.
func TestFallSooner(t *testing.T) {
	sooner := func(seed uint64, ready func(s *Setup), change func(s *Setup)) {
		t.Helper()
		compared := 0
		fallen(t, seed, 60, func(r *rand.Rand, s Setup, p *Pull, m *Motion) {
			ready(&s)
			p, err := s.Solve()
			if err != nil {
				return
			}
			if s.Planned = p.Planned; s.Planned == 0 && seed == 5 {
				return
			}
			before, err := s.Fall(p, BriskHaul)
			if err != nil {
				return
			}
			change(&s)
			if p, err = s.Solve(); err != nil {
				return
			}
			after, err := s.Fall(p, BriskHaul)
			if err != nil {
				return
			}
			compared++
			assert.Less(t, after.Duration(), before.Duration(), "%d", seed)
		})
		assert.Greater(t, compared, 25)
	}
	noHold := func(s *Setup) {
		s.Lines = s.Lines[:1]
		s.Lines[0] = Line{Share: 1, Path: []Station{StemStation(s.Tree, s.Stump, s.Tree.Height*0.5, 0), {At: AtBearing(0, 50, 0)}}}
	}
	// More lean forward, with the weight alone to turn it.
	sooner(4, func(s *Setup) {
		s.Tree.Lean, s.Tree.LeanBearing, s.Tree.CrownOffset, s.Wind = 12*Deg, 0, 0, 0
		s.Hinge.Left, s.Hinge.Right = 0.01, 0.01
		noHold(s)
	}, func(s *Setup) { s.Tree.Lean += 2 * Deg })
	// The crew pulls harder.
	sooner(5, noHold, func(s *Setup) { s.Planned *= 1.3 })
	// A thinner hinge.
	sooner(6, noHold, func(s *Setup) { s.Hinge.Left *= 0.8; s.Hinge.Right *= 0.8 })
	// A wind against the lay that drops.
	sooner(7, func(s *Setup) { noHold(s); s.Wind = 8 }, func(s *Setup) { s.Wind = 0 })
}

// Wood of another density on the same set-up without hinge, wind and line
// falls alike: mass cancels (Galilei).
func TestFallOfAnyMass(t *testing.T) {
	light, heavy := bareRod(20, 5*Deg), bareRod(20, 5*Deg)
	heavy.Tree.Density *= 3
	assert.InEpsilon(t, letFall(t, light).Duration(), letFall(t, heavy).Duration(), 1e-9)
}

func TestFallMirrored(t *testing.T) {
	fallen(t, 8, 40, func(r *rand.Rand, s Setup, p *Pull, m *Motion) {
		other := letFall(t, mirrored(s))
		// The search for commit ends within 1e-9 rad.
		assert.InEpsilon(t, m.Duration(), other.Duration(), 1e-6)
		assert.InDelta(t, m.Top.Y, -other.Top.Y, 1e-9)
		assert.InDelta(t, m.Top.X, other.Top.X, 1e-9)
	})
}

func TestNoFall(t *testing.T) {
	tree := Tree{Height: 25, Diameter: 0.6, FormFactor: 0.42, Density: 900, Strength: 40 * MPa, CrownShare: 0.2, CrownCentre: 16, Lean: 4 * Deg, LeanBearing: math.Pi}
	s := Setup{Tree: tree, Stump: 0.4, FaceOpening: 70 * Deg, Hinge: Hinge{0.5, 0.06, 0.06}, Allowance: 1,
		Lines: []Line{{Share: 1, Path: []Station{StemStation(tree, 0.4, 12, 0), {At: Vec{X: 40}}}}}}
	refused := func() *NoFallError {
		p, err := s.Solve()
		require.NoError(t, err)
		m, err := s.Fall(p, BriskHaul)
		var none *NoFallError
		require.ErrorAs(t, err, &none)
		assert.Nil(t, m)
		assert.NotEmpty(t, err.Error())
		return none
	}
	// With no more than the pull that balances it, it does not move.
	assert.True(t, refused().Balanced)
	s.Planned = 1 * KN
	assert.True(t, refused().Balanced)
	// A little more, and it goes.
	s.Planned, s.Allowance = 0, 1.01
	letFall(t, s)

	// Enough to start it, not enough for its peak further on: a line whose
	// lever shrinks, up to an anchor on a bank.
	s.Lines[0].Path[1].At = Vec{X: 14, Z: 20}
	s.Hinge.Left, s.Hinge.Right, s.Tree.Density, s.Tree.Lean, s.FaceOpening = 0.1, 0.1, 50, 0, 20*Deg
	p, err := s.Solve()
	require.NoError(t, err)
	require.Greater(t, p.Peak, p.Start*1.01)
	s.Planned = p.Start * 1.001
	stand := refused()
	assert.False(t, stand.Balanced)
	assert.Positive(t, stand.Turn)
	assert.Less(t, stand.Turn, p.Commit)

	// A stem that lies over to the side, on a high stump.
	s = bareRod(10, 60*Deg)
	s.Stump, s.Tree.LeanBearing, s.Tree.Lean = 4.9, math.Pi/2, 60*Deg
	s.Planned = 1 * KN
	p, err = s.Solve()
	if err == nil {
		_, err = s.Fall(p, BriskHaul)
	}
	assert.Error(t, err)

	// Numbers that are none never make a fall.
	s = bareRod(20, 5*Deg)
	p, err = s.Solve()
	require.NoError(t, err)
	s.Tree.Density = math.NaN()
	_, err = s.Fall(p, BriskHaul)
	assert.Error(t, err)
}

func TestInertiaOfSectionsAndMeasuredMass(t *testing.T) {
	tree := Tree{Height: 27, Diameter: 0.8, FormFactor: 1. / 3, Density: 900, CrownShare: 0.2, CrownCentre: 18, Lean: 3 * Deg, LeanBearing: 2, CrownOffset: 1}
	want := tree.Inertia(0.6)
	measured := tree
	measured.Sections = &StemSections{Height: 27}
	for h := 0.0; h < 26.95; h += 0.25 {
		measured.Sections.Points = append(measured.Sections.Points, DiameterAt{h, 0.8 * (1 - h/27)})
	}
	measured.Diameter, measured.FormFactor = math.NaN(), math.NaN() // neither counts
	// 128 parts of a stem made of cones.
	assert.InEpsilon(t, want, measured.Inertia(0.6), 1e-4)
	b := tree.Body(0.6)
	tree.Mass, tree.MassCentre = 2*b.Mass, 0.6+1.1*(b.CentreHeight-0.6)
	assert.InEpsilon(t, 2*1.1*1.1*want, tree.Inertia(0.6), 1e-9)
	// Never less than with all of it in one place.
	assert.Greater(t, want, b.Mass*(b.Centre.X*b.Centre.X+b.Centre.Z*b.Centre.Z))
}

func BenchmarkFallDemo(b *testing.B) {
	s := demoSetup(b)
	p, err := s.Solve()
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Fall(p, BriskHaul); err != nil {
			b.Fatal(err)
		}
	}
}
