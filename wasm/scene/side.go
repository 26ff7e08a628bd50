package scene

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"pullline/rigging"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// SideIDs begin the ids of the side view's handles.
const SideIDs = "side/"

// DrawSide draws the plan seen from the right of the lay: the tree falls to
// the right of the picture.
func (s *Scene) DrawSide(b draw.Box) *draw.Drawing {
	if !b.Drawable() {
		return nil
	}
	l, c := s.SideLayout(b), draw.New(b)
	c.Segment("ground", "", draw.Pt{X: 0, Y: l.OY}, draw.Pt{X: b.W, Y: l.OY})
	s.drops(c, l)
	if s.Tree {
		s.sideTree(c, l)
	}
	s.drawLegs(c, l.Side)
	s.drawPoints(c, l.Side)
	if s.Tree {
		s.attachments(c, l)
	}
	s.sideForces(c, l)
	s.sideAngles(c, l)
	s.scaleBar(c, l)
	s.layNote(c)
	s.sideNames(c, l)
	s.labelLegs(c, l.Side, draw.PrioForce, c.Grow(24), false)
	s.sideHandles(c, l)
	d := c.Finish(s.doc.Say("Side view, seen from the right of the {lay}; the {lay} points to the right"), s.describe())
	d.Frame, d.Legend = l.Frame(), s.legend(d.Shapes)
	return d
}

// sideNames writes the ids under the points. Points that fall on one another
// as seen from the side are named together, the rearmost first.
func (s *Scene) sideNames(c *draw.Canvas, l draw.Layout) {
	shown := make([]*Point, 0, len(s.Points))
	for i := range s.Points {
		if p := &s.Points[i]; p.Known {
			shown = append(shown, p)
		}
	}
	slices.SortStableFunc(shown, func(a, b *Point) int { return cmp.Compare(a.At.X, b.At.X) })
	prio := draw.PrioMust
	if s.now != nil {
		prio = draw.PrioForce // where the top lands comes first
	}
	for i := 0; i < len(shown); {
		first := shown[i]
		text, at, n := first.ID, l.Side(first.At), 1
		for _, p := range shown[i+1:] {
			if l.Side(p.At).Minus(at).Length() > c.Grow(14) {
				break
			}
			if p.ID != "" && text != "" {
				text += ", "
			}
			text += p.ID
			n++
		}
		mid := at.Toward(l.Side(shown[i+n-1].At), 0.5)
		c.Label(draw.Label{Text: text, Class: "label-id", At: mid, Toward: draw.Pt{X: 0, Y: 1}, Gap: c.Grow(9), Prio: prio, Near: s.now != nil})
		for range n - 1 {
			c.Label(draw.Label{Class: "label-id"})
		}
		i += n
	}
}

// drops tie points above or below the ground line to it.
func (s *Scene) drops(c *draw.Canvas, l draw.Layout) {
	for i := range s.Points {
		if p := &s.Points[i]; p.Known {
			c.Move(l.Side(p.At))
			c.Line(draw.Pt{X: l.Side(p.At).X, Y: l.OY})
		}
	}
	c.Path("drop", "")
}

// radius of the stem at a height along it: as measured, or by an even taper from the butt,
// through the diameter at breast height, to the tip.
func (s *Scene) radius(h float64) float64 {
	if s.sections != nil {
		if d, err := s.sections.DiameterAt(h); err == nil {
			return d / 2
		}
	}
	const breast = 1.3 // m, where the diameter is measured
	full := s.Height - breast
	if full < s.Height/2 {
		full = s.Height
	}
	d := s.d
	if !draw.Finite(d) {
		d = 0.02 * s.Height // not known: slender
	}
	return max(d/2*(s.Height-h)/full, 0)
}

func (s *Scene) sideTree(c *draw.Canvas, l draw.Layout) {
	hinge, tip := l.Side(s.OnStem(s.Stump)), l.Side(s.OnStem(s.Height))
	s.sideCrown(c, l)
	// Plumb line over the hinge, to see the lean by.
	top := draw.Pt{X: hinge.X, Y: l.ToPx(0, s.Stump+0.62*(s.Height-s.Stump)).Y}
	c.Segment("plumb", "", hinge, top)

	s.sideStem(c, l)
	s.worstBend(c, l)

	// Height at the tip; the lean beside its plumb line.
	c.Label(draw.Label{Text: s.letter("H", s.metres(s.Height)), Class: "label", At: tip, Toward: draw.Pt{X: 0, Y: -1}, Gap: c.Grow(8), Prio: draw.PrioLength})
	c.Label(draw.Label{Text: s.leanText(), Class: "label", At: top, Toward: draw.Pt{X: -0.2, Y: -1}, Gap: c.Grow(3), Prio: draw.PrioNote})
}

// worstBend marks where the pull bends the stem the hardest, with its use.
func (s *Scene) worstBend(c *draw.Canvas, l draw.Layout) {
	b := &s.rep.Stem
	if s.now != nil || !b.Use.Known() || !(b.StrengthMPa > 0 && float64(b.HeightM) >= s.Stump && float64(b.HeightM) <= s.Height) {
		c.Path("bend", "")
		c.Label(draw.Label{Class: "label-note"})
		return
	}
	at := l.Side(s.OnStem(float64(b.HeightM)))
	across := draw.Pt{X: s.Axis.Z, Y: s.Axis.X}.Times(s.radius(float64(b.HeightM))*l.Scale + c.Grow(7))
	c.Segment("bend", b.Verdict.String(), at.Minus(across), at.Plus(across))
	c.Label(draw.Label{Text: s.doc.Say("{stem} %s", units.Percent(float64(b.Use))), Class: "label-note", State: b.Verdict.String(), At: at.Minus(across), Toward: draw.Pt{X: -1, Y: -0.3}, Prio: draw.PrioNote, Working: s.opens("stem.use")})
}

func (s *Scene) sideCrown(c *draw.Canvas, l draw.Layout) {
	if !s.crown {
		c.Path("crown", "")
		return
	}
	flat := draw.Pt{X: s.Axis.X, Y: -s.Axis.Z}.Unit()
	c.Crown(l.Side(s.OnStem(s.crownH).Add(s.crownAt)), flat, s.crownHalf*math.Hypot(s.Axis.X, s.Axis.Z)*l.Scale, s.crownR*l.Scale)
}

// sideStem draws stem, stump, hinge and face.
func (s *Scene) sideStem(c *draw.Canvas, l draw.Layout) {
	// Half the width at a place on the stem, across the stem as seen.
	flat := draw.Pt{X: s.Axis.X, Y: -s.Axis.Z}.Unit()
	across := flat.Left().Times(-1) // to the right of an upright stem
	edge := func(h, side float64) draw.Pt {
		return l.Side(s.OnStem(h)).Plus(across.Times(side * s.radius(h) * l.Scale))
	}
	foot, hinge, tip := l.Side(rigging.Vec{}), l.Side(s.OnStem(s.Stump)), l.Side(s.OnStem(s.Height))
	r0 := max(s.radius(0)*l.Scale, 1)
	c.Polygon("stem", "", s.outline(edge, tip)...)
	c.Polygon("stem stump", "", draw.Pt{X: foot.X - r0, Y: foot.Y}, draw.Pt{X: foot.X - r0, Y: hinge.Y}, draw.Pt{X: foot.X + r0, Y: hinge.Y}, draw.Pt{X: foot.X + r0, Y: foot.Y})
	c.Avoid(foot, tip)
	c.Keep(draw.Rect{X0: foot.X - r0, Y0: hinge.Y - 2, X1: foot.X + r0, Y1: foot.Y})
	s.hinge(c, hinge, r0)
	if s.letters {
		c.Label(draw.Label{Text: s.letter("s", s.metres(s.Stump)), Class: "label", At: hinge.Plus(draw.Pt{X: -r0, Y: 0}), Toward: draw.Pt{X: -1, Y: 0}, Prio: draw.PrioLength, Working: s.opens("cut.stump_m")})
	}
}

// hinge draws the face cut: its two planes from the hinge forward. The arms
// are longer than the cut is deep, so that the angle can be seen.
func (s *Scene) hinge(c *draw.Canvas, hinge draw.Pt, r0 float64) {
	at := draw.Pt{X: hinge.X + r0*0.4, Y: hinge.Y}
	if draw.Finite(s.face) {
		arm := max(r0*1.8, c.Grow(13))
		left := max(s.face-s.turned, 0) // of the opening
		up, down := sincosPt(left-s.face/2), sincosPt(-s.face/2)
		c.Move(at.Plus(up.Times(arm)))
		c.Line(at)
		c.Line(at.Plus(down.Times(arm)))
		c.Path("hinge", "")
		c.Angle("angle", at, down, up, arm*0.8)
		text, face := "", ""
		if left > 0 {
			text = s.doc.Say("{scarf} %s", s.AngleOf(left))
		}
		if s.turned == 0 { // later what is left of it
			face = s.opens("cut.face_opening_deg")
		}
		c.Label(draw.Label{Text: text, Class: "label-note", At: at.Plus(draw.Pt{X: arm, Y: 0}), Toward: draw.Pt{X: 1, Y: -0.3}, Prio: draw.PrioNote, Working: face})
	} else {
		c.Path("hinge", "")
		c.Path("angle", "")
	}
	c.Circle("hinge", "", at, c.Grow(2.5))
}

// sincosPt is the direction on screen at an angle counter-clockwise from
// the right.
func sincosPt(rad float64) draw.Pt {
	sin, cos := math.Sincos(rad)
	return draw.Pt{X: cos, Y: -sin}
}

// attachments marks where lines meet the stem, with the height along it.
func (s *Scene) attachments(c *draw.Canvas, l draw.Layout) {
	flat := draw.Pt{X: s.Axis.X, Y: -s.Axis.Z}.Unit()
	out := flat.Left() // to the left of an upright stem
	foot := l.Side(rigging.Vec{})
	r := c.Grow(3.5)
	// The dimensions stand outside the crown, side by side.
	off := s.radius(s.Stump)*l.Scale + c.Grow(12)
	if s.crown {
		if w := s.crownR*l.Scale + c.Grow(6); w < c.Grow(36) {
			off = max(off, w)
		}
	}
	places := make([]Station, 0, 8)
	for i := range s.Lines {
		for _, st := range s.Lines[i].Stations {
			if st.Stem && st.Known {
				at := l.Side(st.At)
				c.Circle("attach", "", at, r)
				c.Keep(draw.Around(at, r))
				places = append(places, st)
			}
		}
	}
	// The highest is measured nearest to the stem: its number then stands
	// above the next one's line.
	slices.SortStableFunc(places, func(a, b Station) int { return cmp.Compare(b.H, a.H) })
	for i, st := range places {
		// One so near above leaves no room for another number.
		if i > 0 && (places[i-1].H-st.H)*l.Scale < c.Font {
			c.Path("dim", "")
			c.Label(draw.Label{Class: "label"})
			continue
		}
		at := l.Side(st.At)
		end := at.Plus(out.Times(off))
		c.Dimension(foot.Plus(out.Times(off)), end, at, out)
		c.Label(draw.Label{Text: s.letter("h", s.metres(st.H)), Class: "label", At: end, Along: foot.Plus(out.Times(off)),
			Slide: true, Early: true, Toward: out, Gap: c.Grow(3), Prio: draw.PrioLength})
		off += c.Grow(11)
	}
}

// sideForces draws weight and what the lines do to the stem, to one scale of
// force; the labels of tensions stand on the legs.
func (s *Scene) sideForces(c *draw.Canvas, l draw.Layout) {
	weight := float64(s.rep.Tree.WeightKN)
	top := 0.0
	if weight > 0 && draw.Finite(weight) {
		top = weight
	}
	s.stemPulls(func(_ Station, _ rigging.Vec, kN float64) { top = max(top, kN) })
	perKN := 0.3 * c.H / draw.RoundAbove(top)
	if room := l.OY - l.Side(s.centre).Y; s.hasCentre && room > 0 && weight > 0 {
		perKN = min(perKN, room/draw.RoundAbove(weight)) // it ends above the ground
	}
	if s.hasCentre && weight > 0 && draw.Finite(weight) {
		at := l.Side(s.centre)
		c.Arrow("weight", "", at, at.Plus(draw.Pt{X: 0, Y: weight * perKN}))
		c.CentreMark(at)
		if s.letters {
			c.Label(draw.Label{Text: s.letter("x", s.metres(s.centre.X)) + ", " + s.letter("z", s.metres(float64(s.rep.Tree.MassCentreM))), Class: "label", At: at, Toward: draw.Pt{X: 1, Y: 0}, Gap: c.Grow(9), Prio: draw.PrioForce, Working: s.opens("tree.forward_m")})
		}
		c.Label(draw.Label{Text: s.letter("W", s.u.Load(weight)), Class: "label-force", At: at.Plus(draw.Pt{X: 0, Y: weight * perKN}), Along: at, Slide: true, Early: true,
			Toward: draw.Pt{X: 1, Y: 0}, Gap: c.Grow(3) + s.radius(s.Stump)*l.Scale, Prio: draw.PrioForce, Working: s.opens("tree.weight_kN")})
	}
	s.stemPulls(func(st Station, u rigging.Vec, kN float64) {
		// Shorter than this an arrow could not be told from a dot.
		d := draw.Pt{X: u.X, Y: -u.Z}.Times(kN * perKN)
		if least := c.Grow(16); d.Length() < least {
			d = d.Unit().Times(least)
		}
		at := l.Side(st.At)
		c.Arrow("force", "", at, at.Plus(d))
	})
}

// stemPulls calls f for every rope that pulls on the stem, with the unit
// vector away from it and the tension in kN.
func (s *Scene) stemPulls(f func(st Station, u rigging.Vec, kN float64)) {
	for i := range s.Lines {
		for k := range s.Lines[i].Legs {
			leg := &s.Lines[i].Legs[k]
			if !leg.known() || !draw.Finite(leg.Tension) || leg.Tension <= 0 {
				continue
			}
			for _, e := range [...][2]Station{{leg.From, leg.To}, {leg.To, leg.From}} {
				if d := e[1].At.Sub(e[0].At); e[0].Stem && d.Norm() > 1e-6 {
					f(e[0], d.Scale(1/d.Norm()), leg.Tension)
				}
			}
		}
	}
}

// sideAngles marks how steeply each line rises to the stem. The number is
// the true slope; the arc is drawn where the view shows it nearly so.
func (s *Scene) sideAngles(c *draw.Canvas, l draw.Layout) {
	for i := range s.Lines {
		for k := range s.Lines[i].Legs {
			leg := &s.Lines[i].Legs[k]
			if leg.Hauling || leg.From.Stem == leg.To.Stem || !leg.known() {
				continue
			}
			low, high := leg.From, leg.To
			if low.Stem {
				low, high = high, low
			}
			a, b := l.Side(low.At), l.Side(high.At)
			d := b.Minus(a)
			flat := draw.Pt{X: math.Copysign(1, d.X), Y: 0}
			r := min(c.Grow(34), d.Length()*0.4)
			seen := math.Abs(math.Atan2(d.Y, math.Abs(d.X)))
			true_ := leg.Elevation()
			mid := flat.Plus(d.Unit()).Unit()
			text := ""
			if r > c.Grow(10) {
				text = s.letter("ε", s.AngleOf(true_))
			}
			if math.Abs(seen-true_) < 6*rigging.Deg {
				c.Angle("angle", a, flat, d, r)
			} else {
				c.Path("angle", "")
				if text != "" {
					text = s.doc.Say("%s up", text)
				}
			}
			// Far enough out that the number fits between the arms.
			room := c.Font * 1.7 / max(math.Tan(seen/2), 0.05) / 2
			at := a.Plus(mid.Times(min(max(r, room), d.Length()*0.6)))
			if strings.HasSuffix(text, "up") {
				at = a.Plus(mid.Times(c.Grow(12)))
			}
			c.Label(draw.Label{Text: text, Class: "label", At: at, Toward: flat, Gap: c.Grow(3), Prio: draw.PrioAngle, Near: true, Working: s.opens(draft.Elem(draft.Elem("lines", s.Lines[i].row)+".legs", k) + ".slope_deg")})
		}
	}
}

// layNote says which way the tree shall fall, in the lower right corner.
func (s *Scene) layNote(c *draw.Canvas) {
	y := c.H - c.Grow(8)
	a := draw.Pt{X: c.W - c.Grow(44), Y: y}
	c.Arrow("lay", "", a, draw.Pt{X: c.W - c.Grow(8), Y: y})
	c.Label(draw.Label{Text: s.doc.Say("{lay}"), Class: "label-note", At: a, Toward: draw.Pt{X: -1, Y: 0}, Prio: draw.PrioMust})
}

func (s *Scene) sideHandles(c *draw.Canvas, l draw.Layout) {
	if s.Tree {
		s.leanHandle(c, SideIDs, l.Side(s.OnStem(s.Height)), "x")
		for i := range s.Lines {
			for _, st := range s.Lines[i].Stations {
				if !st.Stem || !st.Known {
					continue
				}
				at := l.Side(st.At)
				c.Handle(draw.Handle{
					ID:    SideIDs + "stem/" + strconv.Itoa(i) + "/" + strconv.Itoa(st.index),
					Label: s.doc.Say("Height of %s on the {stem}: %s", s.lineName(&s.Lines[i]), s.metres(st.H)),
					X:     at.X, Y: at.Y, Axes: "y",
					Paths: []string{draft.Elem(draft.Elem("lines", i)+".path", st.index) + ".stem_m"},
				})
			}
		}
	}
	s.pointHandles(c, SideIDs, l.Side, "x")
}

func (s *Scene) leanHandle(c *draw.Canvas, view string, at draw.Pt, axes string) {
	c.Handle(draw.Handle{ID: view + "lean",
		Label: s.doc.Say("Top of the tree: %s", s.leanWords()),
		X:     at.X, Y: at.Y, Axes: axes, Paths: []string{"tree.lean_deg", "tree.lean_bearing_deg"}})
}

func (s *Scene) pointHandles(c *draw.Canvas, view string, see func(rigging.Vec) draw.Pt, axes string) {
	for i := range s.Points {
		p := &s.Points[i]
		if !p.Known {
			continue
		}
		at := see(p.At)
		base := draft.Elem("points", i)
		c.Handle(draw.Handle{ID: view + "point/" + strconv.Itoa(i),
			Label: s.doc.Say("Point %s: %s", s.pointName(p), s.where(p)),
			X:     at.X, Y: at.Y, Axes: axes,
			Paths: []string{base + ".bearing_deg", base + ".distance_m"}})
	}
}

// where is a point's bearing and distance in words.
func (s *Scene) where(p *Point) string {
	bearing, distance := s.degrees(p.At.Bearing()/rigging.Deg), s.metres(p.At.Horizontal())
	if p.At.Z != 0 {
		return s.doc.Say("bearing %s, distance %s, rise %s", bearing, distance, s.metres(p.At.Z))
	}
	return s.doc.Say("bearing %s, distance %s", bearing, distance)
}

// describe tells in words what both views show.
func (s *Scene) describe() string {
	out := ""
	say := func(t words.Text, args ...string) { out = words.Join(out, s.doc.Say(t, args...)) }
	if s.Tree {
		say("Tree %s high, %s.", s.metres(s.Height), s.leanWords())
	} else {
		say("The height of the tree is not known, so no tree is drawn.")
	}
	if w := s.rep.Tree.WeightKN; s.hasCentre && w.Known() {
		weighs := [2][2]words.Text{
			{"Its weight of %s acts %s ahead of the {hinge} and %s to the left.", "Its weight of %s acts %s ahead of the {hinge} and %s to the right."},
			{"Its weight of %s acts %s behind the {hinge} and %s to the left.", "Its weight of %s acts %s behind the {hinge} and %s to the right."},
		}
		say(weighs[below(s.centre.X)][below(s.centre.Y)], s.u.Load(float64(w)), s.metres(math.Abs(s.centre.X)), s.metres(math.Abs(s.centre.Y)))
	}
	for i := range s.Lines {
		l := &s.Lines[i]
		if l.Hold {
			say("{Hold line} %s: %s.", s.lineName(l), s.pathWords(l))
		} else {
			say("{Pull line} %s: %s.", s.lineName(l), s.pathWords(l))
		}
		for k := range l.Legs {
			leg := &l.Legs[k]
			if leg.Hauling || !leg.known() || leg.From.Stem == leg.To.Stem {
				continue
			}
			if draw.Finite(leg.Tension) {
				say("It rises %s to the {stem} at a tension of %s.", s.AngleOf(leg.Elevation()), s.u.Load(leg.Tension))
			} else {
				say("It rises %s to the {stem}.", s.AngleOf(leg.Elevation()))
			}
		}
		l.TurnsAt(func(from, block, to Station) {
			g := Included(from.At, block.At, to.At)
			if !draw.Finite(g) {
				return
			}
			say("The rope makes an angle of %s at %s.", s.AngleOf(g), s.pointName(&s.Points[block.Point]))
		})
	}
	for i := range s.Points {
		p := &s.Points[i]
		switch {
		case !p.Known:
			say("The place of point %s is not known.", s.pointName(p))
		case p.Rep != nil && p.Rep.LoadKN.Known():
			say("Point %s: %s, load %s.", s.pointName(p), s.where(p), s.u.Load(float64(p.Rep.LoadKN)))
		default:
			say("Point %s: %s.", s.pointName(p), s.where(p))
		}
	}
	s.peopleWords(say)
	return out
}

// below is 1 for a number below nought, else 0.
func below(v float64) int {
	if v < 0 {
		return 1
	}
	return 0
}

// pathWords is the route of a line, with its tackle and where that is hauled.
func (s *Scene) pathWords(l *sceneLine) string {
	path, haul := s.route(l.Stations), s.route(l.haul)
	advantage := l.tackleText()
	switch {
	case !l.tackle && path == "":
		return s.doc.Say("no route yet")
	case !l.tackle:
		return path
	case advantage == "" && haul == "":
		return s.doc.Say("%s with a {tackle}", path)
	case haul == "":
		return s.doc.Say("%s with a {tackle} of %s", path, advantage)
	case advantage == "":
		return s.doc.Say("%s with a {tackle}, hauled along %s", path, haul)
	}
	return s.doc.Say("%s with a {tackle} of %s, hauled along %s", path, advantage, haul)
}

// route names stations in their order, "" for none.
func (s *Scene) route(stations []Station) string {
	out := ""
	for _, st := range stations {
		at := s.doc.Say("a place not known")
		switch {
		case st.Stem:
			at = s.doc.Say("{stem} at %s", s.metres(st.H))
		case st.Point >= 0:
			at = s.pointName(&s.Points[st.Point])
		}
		if out == "" {
			out = at
		} else {
			out = s.doc.Say("%s to %s", out, at)
		}
	}
	return out
}
