package rigging

import (
	"math"
	"slices"
)

// UnderBark is a stem's diameter under its bark over that over bark. From
// memory: a bark of 7 % of the diameter, thicker than most.
const UnderBark = 0.93

// A DefectKind is what is wrong with a stem at a height.
type DefectKind string

const (
	// HollowDefect is a cavity in the middle of the section: of a ring the
	// section modulus is that of the round less (c/d)⁴ of it (beam theory).
	HollowDefect DefectKind = "cavity"
	// WoundDefect goes into the stem from outside. Our own rule: what is left is
	// taken as a round that much thinner, which has room beside the wound.
	WoundDefect DefectKind = "wound"
	// ForkDefect is where the stem parts. Our own rule: the line hangs on one of
	// two equal stems, with half of the section's area. What holds the union
	// together is not in it.
	ForkDefect DefectKind = "fork"
)

// DefectKinds are all kinds.
var DefectKinds = []DefectKind{HollowDefect, WoundDefect, ForkDefect}

// A StemDefect is a section of the stem that is weaker than sound wood.
type StemDefect struct {
	Kind   DefectKind
	Height float64 // m along the stem
	Size   float64 // m: width of the cavity, depth of the wound; of a fork, of a cavity in it
}

// left is what the defect leaves of the section modulus of a round of
// diameter d (m), 0 where nothing is left.
func (f StemDefect) left(d float64) float64 {
	switch f.Kind {
	case WoundDefect:
		return cube(math.Max(0, 1-f.Size/d))
	case ForkDefect:
		one := d / math.Sqrt2
		return cube(one/d) * hollow(f.Size, one)
	}
	return hollow(f.Size, d)
}

func hollow(c, d float64) float64 { return math.Max(0, 1-cube(c/d)*c/d) }

func cube(v float64) float64 { return v * v * v }

// relied is the diameter (m) that is relied on at a height, by straight lines
// between sorted points and no thicker below the lowest than there.
func (s *StemSections) relied(points []DiameterAt, height float64) float64 {
	low := points[0]
	for _, p := range points {
		if height <= p.Height {
			if p == low {
				return p.Diameter
			}
			return low.Diameter + (p.Diameter-low.Diameter)*(height-low.Height)/(p.Height-low.Height)
		}
		low = p
	}
	return low.Diameter * math.Max(0, (s.Height-height)/(s.Height-low.Height))
}

// A StemStress is where lines and weight bend a stem the hardest.
type StemStress struct {
	Stress   float64 // Pa, infinite where nothing of the section is left
	Moment   float64 // N·m, square to the stem: of lines and weight together
	Height   float64 // m along the stem
	Turn     float64 // rad
	Diameter float64 // m under bark
	Left     float64 // what a defect leaves of the section modulus, 1 without one

	Lines, Weight Bend // of what Moment is made
}

// A Bend is a moment square to the stem (N·m) by the two ways it bends it.
type Bend struct{ Forward, Left float64 }

// A Bending is a stem made ready to be bent: from the hinge up to the highest
// place where a line is tied.
//
// At a height z the moment is that of the lines' forces at places above z and of
// the weight of all above z (the stem by its volume, the crown at its centre), as
// much of it as is square to the stem; the stress is 32·M/(π·d³), d under bark
// (beam theory), over what a defect there leaves. A measured mass or centre scales
// the weight at all heights alike. The wind is left out: it blows against the
// pull, and a lull would lift off what it takes. So are the grain, branches and
// the stem's own give.
type Bending struct {
	tree   *Tree
	points []DiameterAt // of its sections, sorted
	pieces []stemPiece
	tied   [][]float64 // m along the stem of each line's stations, NaN off the stem

	forward, left Vec     // square to the standing stem, toward the lay and to the left
	shift         Vec     // of the crown's centre off the stem axis, standing
	mass          float64 // scales the weight to a measured mass
	arm           float64 // and its moment along the stem to a measured centre too
	crown         float64 // N

	sections []section
	forces   []stemForce
}

// A section is one height looked at.
type section struct {
	height, diameter float64 // m, under bark
	left             float64 // what a defect leaves of the modulus
	modulus          float64 // m³, with the defect
	weight           float64 // N·m for stem and crown above lying level
	crown            float64 // N above it
}

// A stemForce is what pulls at one height, square to the stem.
type stemForce struct{ height, forward, left float64 }

// bendingSteps parts the stem between hinge and tie, besides where something
// changes.
const bendingSteps = 24

// Bending makes a set-up's stem ready; ok is false where its measures are not
// known or no line is tied above the hinge.
func (s *Setup) Bending(body Body, defects []StemDefect) (b *Bending, ok bool) {
	t := &s.Tree
	axis := t.Axis()
	b = &Bending{tree: t, shift: AtBearing(t.CrownOffsetBearing, t.CrownOffset, 0), tied: make([][]float64, len(s.Lines))}
	b.left, _ = axis.Cross(Vec{X: 1}).Unit() // no stem lies along the lay
	b.forward = b.left.Cross(axis)
	if t.Sections != nil {
		var err error
		if b.points, err = t.Sections.sorted(); err != nil {
			return nil, false
		}
		b.pieces = t.Sections.pieces(b.points)
	}
	top := s.Stump
	for i := range s.Lines {
		for _, st := range s.Lines[i].Path {
			height := math.NaN()
			if st.OnStem {
				height = s.Stump + st.At.Norm()
				top = math.Max(top, height)
			}
			b.tied[i] = append(b.tied[i], height)
		}
	}
	volume, _ := b.above(s.Stump)
	b.mass = body.Mass / (t.Density*volume + body.CrownMass)
	b.crown, b.arm = G*b.mass*body.CrownMass, 1
	if level := b.level(s.Stump); level > 0 {
		b.arm = body.Weight * (body.CentreHeight - s.Stump) / level
	}
	if !(top > s.Stump) || math.IsNaN(b.arm*b.crown*top) {
		return nil, false
	}
	b.part(s.Stump, top, defects)
	return b, true
}

// part chooses the heights looked at.
func (b *Bending) part(from, to float64, defects []StemDefect) {
	heights := []float64{from, b.tree.CrownCentre}
	for i := 1; i <= bendingSteps; i++ {
		heights = append(heights, from+(to-from)*float64(i)/bendingSteps)
	}
	for _, tied := range b.tied {
		heights = append(heights, tied...)
	}
	for _, p := range b.points {
		heights = append(heights, p.Height)
	}
	for _, d := range defects {
		heights = append(heights, d.Height)
	}
	heights = slices.DeleteFunc(heights, func(h float64) bool { return !(h >= from && h <= to) })
	slices.Sort(heights)
	for _, h := range slices.Compact(heights) {
		s := b.section(h)
		for _, d := range defects {
			if d.Height == h {
				s.left = math.Min(s.left, d.left(s.diameter))
			}
		}
		s.modulus *= s.left
		b.sections = append(b.sections, s)
	}
}

// above is the volume (m³) of the stem above a height and the height of its
// centre.
func (b *Bending) above(height float64) (volume, centre float64) {
	if b.points == nil {
		return b.tree.stemAbove(height)
	}
	var moment float64
	for _, p := range b.pieces {
		v, m := p.above(height)
		volume, moment = volume+v, moment+m
	}
	return volume, moment / volume
}

// level is the moment (N·m) about a height of the weight above it were the stem
// level, by its measured mass.
func (b *Bending) level(height float64) float64 {
	volume, centre := b.above(height)
	moment := 0.0
	if volume > 0 {
		moment = G * b.mass * b.tree.Density * volume * (centre - height)
	}
	return moment + b.crown*math.Max(0, b.tree.CrownCentre-height)
}

// section is sound wood at a height.
func (b *Bending) section(height float64) section {
	d := UnderBark * b.diameter(height)
	s := section{height: height, diameter: d, left: 1, modulus: math.Pi / 32 * cube(d), weight: b.arm * b.level(height)}
	if height <= b.tree.CrownCentre {
		s.crown = b.crown
	}
	return s
}

// diameter is that over bark at a height (m): by the sections measured, or of the
// area that goes with Body's volume, A(z) = (π/4)·D²·(1 − z/H)^(1/f − 1), its
// derivative.
func (b *Bending) diameter(height float64) float64 {
	t := b.tree
	if b.points != nil {
		return t.Sections.relied(b.points, height)
	}
	return t.Diameter * math.Pow(1-height/t.Height, (1/t.FormFactor-1)/2)
}

// A bent is the stem at one turn: what is the same at all its heights.
type bent struct {
	forces              []stemForce
	down                stemForce // of each newton of weight on the stem axis
	offForward, offLeft float64   // N·m about the two axes for each newton of the crown's
}

// at has the lines pull at tensions (N) in states at a turn (rad).
func (b *Bending) at(turn float64, states []*LineState, tensions []float64) bent {
	t := turned(turn)
	back := func(v Vec) Vec { return v.turned(-t.sin, t.cos) }
	b.forces = b.forces[:0]
	for i, tied := range b.tied {
		for k, height := range tied {
			if !math.IsNaN(height) {
				f := back(states[i].Force(k)).Scale(tensions[i])
				b.forces = append(b.forces, stemForce{height, f.Dot(b.forward), f.Dot(b.left)})
			}
		}
	}
	down := back(Vec{Z: -1})
	off := b.shift.Cross(down)
	return bent{b.forces, stemForce{0, down.Dot(b.forward), down.Dot(b.left)}, off.Dot(b.forward), off.Dot(b.left)}
}

// bends is what lines and weight make of a section.
func (at *bent) bends(s *section) (lines, weight Bend) {
	for _, f := range at.forces {
		if arm := f.height - s.height; arm > 0 {
			lines.Forward, lines.Left = lines.Forward+arm*f.forward, lines.Left+arm*f.left
		}
	}
	// What bends it forward turns it about the left, what bends it left about the way
	// back.
	return lines, Bend{s.weight*at.down.forward + s.crown*at.offLeft, s.weight*at.down.left - s.crown*at.offForward}
}

// moment is that at a section (N·m), square to the stem.
func (at *bent) moment(s *section) float64 {
	lines, weight := at.bends(s)
	return math.Hypot(lines.Forward+weight.Forward, lines.Left+weight.Left)
}

// Greatest is the greatest stress over attitudes 0 to n − 1, each given by its turn
// (rad) and its lines' states and tensions (N). A tension that is not known leaves
// the stress so, NaN.
func (b *Bending) Greatest(n int, attitude func(k int) (turn float64, states []*LineState, tensions []float64)) StemStress {
	var worst StemStress
	which, section := -1, 0
	for k := range n {
		turn, states, tensions := attitude(k)
		at := b.at(turn, states, tensions)
		for i := range b.sections {
			if worst.take(turn, &at, &b.sections[i]) {
				which, section = k, i
			}
		}
	}
	if which < 0 || worst.Left < 1 || math.IsNaN(worst.Stress) || math.IsInf(worst.Stress, 1) {
		return worst
	}
	turn, states, tensions := attitude(which)
	at := b.at(turn, states, tensions)
	for _, to := range []int{section - 1, section + 1} {
		if to >= 0 && to < len(b.sections) {
			b.narrow(&worst, turn, &at, b.sections[section].height, b.sections[to].height)
		}
	}
	return worst
}

// narrow seeks the greatest stress between two heights looked at, where it has at
// most one hump, by golden-section search.
func (b *Bending) narrow(worst *StemStress, turn float64, at *bent, near, far float64) {
	const golden = 0.6180339887498949 // (√5 − 1)/2
	for math.Abs(far-near) > MM {
		one, two := b.section(far+golden*(near-far)), b.section(near+golden*(far-near))
		worst.take(turn, at, &one)
		worst.take(turn, at, &two)
		if at.moment(&one)/one.modulus > at.moment(&two)/two.modulus {
			far = two.height
		} else {
			near = one.height
		}
	}
}

// take says whether the section's stress is the new greatest.
func (w *StemStress) take(turn float64, at *bent, s *section) bool {
	moment := at.moment(s)
	stress := 0.0
	if moment != 0 {
		stress = moment / s.modulus
	}
	if !(stress > w.Stress) && !(math.IsNaN(stress) && !math.IsNaN(w.Stress)) {
		return false
	}
	*w = StemStress{Stress: stress, Moment: moment, Height: s.height, Turn: turn, Diameter: s.diameter, Left: s.left}
	w.Lines, w.Weight = at.bends(s)
	return true
}
