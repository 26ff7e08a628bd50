package screen

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"pullline/rigging"
	"pullline/wasm/draft"
)

// sideIDs begin the ids of the side view's handles.
const sideIDs = "side/"

// drawSide draws the plan seen from the right of the lay: the tree falls to
// the right of the picture.
func (s *scene) drawSide(b Box) *Drawing {
	if !b.drawable() {
		return nil
	}
	l, c := s.sideLayout(b), newCanvas(b)
	c.segment("ground", "", pt{0, l.oy}, pt{b.W, l.oy})
	s.drops(c, l)
	if s.tree {
		s.sideTree(c, l)
	}
	s.drawLegs(c, l.side)
	s.drawPoints(c, l.side)
	if s.tree {
		s.attachments(c, l)
	}
	s.sideForces(c, l)
	s.sideAngles(c, l)
	s.scaleBar(c, l)
	s.layNote(c)
	s.sideNames(c, l)
	s.labelLegs(c, l.side, prioForce, c.grow(24), false)
	s.sideHandles(c, l)
	d := c.finish(s.doc.Say("Side view, seen from the right of the {lay}; the {lay} points to the right"), s.describe())
	d.Frame, d.Legend = l.frame(), legend(d.Shapes)
	return d
}

// sideNames writes the ids under the points. Points that fall on one another
// as seen from the side are named together, the rearmost first.
func (s *scene) sideNames(c *canvas, l layout) {
	shown := make([]*scenePoint, 0, len(s.points))
	for i := range s.points {
		if p := &s.points[i]; p.known {
			shown = append(shown, p)
		}
	}
	slices.SortStableFunc(shown, func(a, b *scenePoint) int { return cmp.Compare(a.at.X, b.at.X) })
	prio := prioMust
	if s.now != nil {
		prio = prioForce // where the top lands comes first
	}
	for i := 0; i < len(shown); {
		first := shown[i]
		text, at, n := first.id, l.side(first.at), 1
		for _, p := range shown[i+1:] {
			if l.side(p.at).minus(at).length() > c.grow(14) {
				break
			}
			if p.id != "" && text != "" {
				text += ", "
			}
			text += p.id
			n++
		}
		mid := at.toward(l.side(shown[i+n-1].at), 0.5)
		c.label(caption{text: text, class: "label-id", at: mid, toward: pt{0, 1}, gap: c.grow(9), prio: prio, near: s.now != nil})
		for range n - 1 {
			c.label(caption{class: "label-id"})
		}
		i += n
	}
}

// drops tie points above or below the ground line to it.
func (s *scene) drops(c *canvas, l layout) {
	for i := range s.points {
		if p := &s.points[i]; p.known {
			c.move(l.side(p.at))
			c.line(pt{l.side(p.at).x, l.oy})
		}
	}
	c.path("drop", "")
}

// radius of the stem at a height along it: as measured, or by an even taper from the butt,
// through the diameter at breast height, to the tip.
func (s *scene) radius(h float64) float64 {
	if s.sections != nil {
		if d, err := s.sections.DiameterAt(h); err == nil {
			return d / 2
		}
	}
	const breast = 1.3 // m, where the diameter is measured
	full := s.h - breast
	if full < s.h/2 {
		full = s.h
	}
	d := s.d
	if !finite(d) {
		d = 0.02 * s.h // not known: slender
	}
	return max(d/2*(s.h-h)/full, 0)
}

func (s *scene) sideTree(c *canvas, l layout) {
	hinge, tip := l.side(s.onStem(s.stump)), l.side(s.onStem(s.h))
	s.sideCrown(c, l)
	// Plumb line over the hinge, to see the lean by.
	top := pt{hinge.x, l.toPx(0, s.stump+0.62*(s.h-s.stump)).y}
	c.segment("plumb", "", hinge, top)

	s.sideStem(c, l)

	// Height at the tip; the lean beside its plumb line.
	c.label(caption{text: s.letter("H", s.metres(s.h)), class: "label", at: tip, toward: pt{0, -1}, gap: c.grow(8), prio: prioLength})
	c.label(caption{text: s.leanText(), class: "label", at: top, toward: pt{-0.2, -1}, gap: c.grow(3), prio: prioNote})
}

func (s *scene) sideCrown(c *canvas, l layout) {
	if !s.crown {
		c.path("crown", "")
		return
	}
	flat := pt{s.axis.X, -s.axis.Z}.unit()
	c.crown(l.side(s.onStem(s.crownH).Add(s.crownAt)), flat, s.crownHalf*math.Hypot(s.axis.X, s.axis.Z)*l.scale, s.crownR*l.scale)
}

// sideStem draws stem, stump, hinge and face.
func (s *scene) sideStem(c *canvas, l layout) {
	// Half the width at a place on the stem, across the stem as seen.
	flat := pt{s.axis.X, -s.axis.Z}.unit()
	across := flat.left().times(-1) // to the right of an upright stem
	edge := func(h, side float64) pt {
		return l.side(s.onStem(h)).plus(across.times(side * s.radius(h) * l.scale))
	}
	foot, hinge, tip := l.side(rigging.Vec{}), l.side(s.onStem(s.stump)), l.side(s.onStem(s.h))
	r0 := max(s.radius(0)*l.scale, 1)
	c.polygon("stem", "", s.outline(edge, tip)...)
	c.polygon("stem stump", "", pt{foot.x - r0, foot.y}, pt{foot.x - r0, hinge.y}, pt{foot.x + r0, hinge.y}, pt{foot.x + r0, foot.y})
	c.avoid(foot, tip)
	c.solid = append(c.solid, rect{foot.x - r0, hinge.y - 2, foot.x + r0, foot.y})
	s.hinge(c, hinge, r0)
	if s.doc.Letters {
		c.label(caption{text: s.letter("s", s.metres(s.stump)), class: "label", at: hinge.plus(pt{-r0, 0}), toward: pt{-1, 0}, prio: prioLength, working: s.opens("cut.stump_m")})
	}
}

// hinge draws the face cut: its two planes from the hinge forward. The arms
// are longer than the cut is deep, so that the angle can be seen.
func (s *scene) hinge(c *canvas, hinge pt, r0 float64) {
	at := pt{hinge.x + r0*0.4, hinge.y}
	if finite(s.face) {
		arm := max(r0*1.8, c.grow(13))
		left := max(s.face-s.turned, 0) // of the opening
		up, down := sincosPt(left-s.face/2), sincosPt(-s.face/2)
		c.move(at.plus(up.times(arm)))
		c.line(at)
		c.line(at.plus(down.times(arm)))
		c.path("hinge", "")
		c.angle("angle", at, down, up, arm*0.8)
		text, face := "", ""
		if left > 0 {
			text = s.doc.Say("{scarf} ") + s.angleOf(left)
		}
		if s.turned == 0 { // later what is left of it
			face = s.opens("cut.face_opening_deg")
		}
		c.label(caption{text: text, class: "label-note", at: at.plus(pt{arm, 0}), toward: pt{1, -0.3}, prio: prioNote, working: face})
	} else {
		c.path("hinge", "")
		c.path("angle", "")
	}
	c.circle("hinge", "", at, c.grow(2.5))
}

// sincosPt is the direction on screen at an angle counter-clockwise from
// the right.
func sincosPt(rad float64) pt {
	sin, cos := math.Sincos(rad)
	return pt{cos, -sin}
}

// crown is an ellipse about its centre, its first half-axis along the
// direction given.
func (c *canvas) crown(at, dir pt, half, wide float64) {
	half, wide = max(half, 0.5), max(wide, 0.5)
	deg := math.Atan2(dir.y, dir.x) / rigging.Deg
	a, b := at.plus(dir.times(half)), at.minus(dir.times(half))
	c.move(a)
	c.arc(half, wide, deg, true, true, b)
	c.arc(half, wide, deg, true, true, a)
	c.close()
	c.path("crown", "")
}

// attachments marks where lines meet the stem, with the height along it.
func (s *scene) attachments(c *canvas, l layout) {
	flat := pt{s.axis.X, -s.axis.Z}.unit()
	out := flat.left() // to the left of an upright stem
	foot := l.side(rigging.Vec{})
	r := c.grow(3.5)
	// The dimensions stand outside the crown, side by side.
	off := s.radius(s.stump)*l.scale + c.grow(12)
	if s.crown {
		if w := s.crownR*l.scale + c.grow(6); w < c.grow(36) {
			off = max(off, w)
		}
	}
	places := make([]station, 0, 8)
	for i := range s.lines {
		for _, st := range s.lines[i].stations {
			if st.stem && st.known {
				at := l.side(st.at)
				c.circle("attach", "", at, r)
				c.solid = append(c.solid, around(at, r))
				places = append(places, st)
			}
		}
	}
	// The highest is measured nearest to the stem: its number then stands
	// above the next one's line.
	slices.SortStableFunc(places, func(a, b station) int { return cmp.Compare(b.h, a.h) })
	for i, st := range places {
		// One so near above leaves no room for another number.
		if i > 0 && (places[i-1].h-st.h)*l.scale < c.font {
			c.path("dim", "")
			c.label(caption{class: "label"})
			continue
		}
		at := l.side(st.at)
		end := at.plus(out.times(off))
		c.dimension(foot.plus(out.times(off)), end, at, out)
		c.label(caption{text: s.letter("h", s.metres(st.h)), class: "label", at: end, along: foot.plus(out.times(off)),
			slide: true, early: true, toward: out, gap: c.grow(3), prio: prioLength})
		off += c.grow(11)
	}
}

// dimension draws a line from foot to end with ticks, tied to the place
// measured.
func (c *canvas) dimension(foot, end, place, out pt) {
	t := out.times(c.grow(4))
	c.move(foot.minus(t))
	c.line(foot.plus(t))
	c.move(foot)
	c.line(end)
	c.move(end.plus(t))
	c.line(place.plus(out.times(c.grow(5))))
	c.path("dim", "")
	c.avoid(foot, end)
	if n := len(c.strokes); n > 0 {
		c.strokes[n-1].light = true
	}
}

// sideForces draws weight and what the lines do to the stem, to one scale of
// force; the labels of tensions stand on the legs.
func (s *scene) sideForces(c *canvas, l layout) {
	weight := float64(s.rep.Tree.WeightKN)
	top := 0.0
	if weight > 0 && finite(weight) {
		top = weight
	}
	s.stemPulls(func(_ station, _ rigging.Vec, kN float64) { top = max(top, kN) })
	perKN := 0.3 * c.h / niceForce(top)
	if room := l.oy - l.side(s.centre).y; s.hasCentre && room > 0 && weight > 0 {
		perKN = min(perKN, room/niceForce(weight)) // it ends above the ground
	}
	if s.hasCentre && weight > 0 && finite(weight) {
		at := l.side(s.centre)
		c.arrow("weight", "", at, at.plus(pt{0, weight * perKN}))
		c.centreMark(at)
		if s.doc.Letters {
			c.label(caption{text: s.letter("x", s.metres(s.centre.X)) + ", " + s.letter("z", s.metres(float64(s.rep.Tree.MassCentreM))), class: "label", at: at, toward: pt{1, 0}, gap: c.grow(9), prio: prioForce, working: s.opens("tree.forward_m")})
		}
		c.label(caption{text: s.letter("W", s.u.Load(weight)), class: "label-force", at: at.plus(pt{0, weight * perKN}), along: at, slide: true, early: true,
			toward: pt{1, 0}, gap: c.grow(3) + s.radius(s.stump)*l.scale, prio: prioForce, working: s.opens("tree.weight_kN")})
	}
	s.stemPulls(func(st station, u rigging.Vec, kN float64) {
		// Shorter than this an arrow could not be told from a dot.
		d := pt{u.X, -u.Z}.times(kN * perKN)
		if least := c.grow(16); d.length() < least {
			d = d.unit().times(least)
		}
		at := l.side(st.at)
		c.arrow("force", "", at, at.plus(d))
	})
}

// stemPulls calls f for every rope that pulls on the stem, with the unit
// vector away from it and the tension in kN.
func (s *scene) stemPulls(f func(st station, u rigging.Vec, kN float64)) {
	for i := range s.lines {
		for k := range s.lines[i].legs {
			leg := &s.lines[i].legs[k]
			if !leg.known() || !finite(leg.tension) || leg.tension <= 0 {
				continue
			}
			for _, e := range [...][2]station{{leg.from, leg.to}, {leg.to, leg.from}} {
				if d := e[1].at.Sub(e[0].at); e[0].stem && d.Norm() > 1e-6 {
					f(e[0], d.Scale(1/d.Norm()), leg.tension)
				}
			}
		}
	}
}

// centreMark is the quartered circle that stands for a centre of mass.
func (c *canvas) centreMark(at pt) {
	r := c.grow(6)
	c.circle("centre", "", at, r)
	for _, k := range [...]float64{1, -1} {
		c.move(at)
		c.line(at.plus(pt{k * r, 0}))
		c.arc(r, r, 0, false, true, at.plus(pt{0, k * r}))
		c.close()
	}
	c.path("centre-mark", "")
	c.solid = append(c.solid, around(at, r))
}

// sideAngles marks how steeply each line rises to the stem. The number is
// the true slope; the arc is drawn where the view shows it nearly so.
func (s *scene) sideAngles(c *canvas, l layout) {
	for i := range s.lines {
		for k := range s.lines[i].legs {
			leg := &s.lines[i].legs[k]
			if leg.hauling || leg.from.stem == leg.to.stem || !leg.known() {
				continue
			}
			low, high := leg.from, leg.to
			if low.stem {
				low, high = high, low
			}
			a, b := l.side(low.at), l.side(high.at)
			d := b.minus(a)
			flat := pt{math.Copysign(1, d.x), 0}
			r := min(c.grow(34), d.length()*0.4)
			seen := math.Abs(math.Atan2(d.y, math.Abs(d.x)))
			true_ := leg.elevation()
			mid := flat.plus(d.unit()).unit()
			text := ""
			if r > c.grow(10) {
				text = s.letter("ε", s.angleOf(true_))
			}
			if math.Abs(seen-true_) < 6*rigging.Deg {
				c.angle("angle", a, flat, d, r)
			} else {
				c.path("angle", "")
				if text != "" {
					text += " up"
				}
			}
			// Far enough out that the number fits between the arms.
			room := c.font * 1.7 / max(math.Tan(seen/2), 0.05) / 2
			at := a.plus(mid.times(min(max(r, room), d.length()*0.6)))
			if strings.HasSuffix(text, "up") {
				at = a.plus(mid.times(c.grow(12)))
			}
			c.label(caption{text: text, class: "label", at: at, toward: flat, gap: c.grow(3), prio: prioAngle, near: true, working: s.opens(draft.Elem(draft.Elem("lines", s.lines[i].row)+".legs", k) + ".slope_deg")})
		}
	}
}

// layNote says which way the tree shall fall, in the lower right corner.
func (s *scene) layNote(c *canvas) {
	y := c.h - c.grow(8)
	a := pt{c.w - c.grow(44), y}
	c.arrow("lay", "", a, pt{c.w - c.grow(8), y})
	c.label(caption{text: s.doc.Say("{lay}"), class: "label-note", at: a, toward: pt{-1, 0}, prio: prioMust})
}

func (s *scene) sideHandles(c *canvas, l layout) {
	if s.tree {
		s.leanHandle(c, sideIDs, l.side(s.onStem(s.h)), "x")
		for i := range s.lines {
			for _, st := range s.lines[i].stations {
				if !st.stem || !st.known {
					continue
				}
				at := l.side(st.at)
				c.handle(Handle{
					ID:    sideIDs + "stem/" + strconv.Itoa(i) + "/" + strconv.Itoa(st.index),
					Label: "Height of " + s.lineName(&s.lines[i]) + " on the stem: " + s.metres(st.h),
					X:     at.x, Y: at.y, Axes: "y",
					Paths: []string{draft.Elem(draft.Elem("lines", i)+".path", st.index) + ".stem_m"},
				})
			}
		}
	}
	s.pointHandles(c, sideIDs, l.side, "x")
}

func (s *scene) leanHandle(c *canvas, view string, at pt, axes string) {
	c.handle(Handle{ID: view + "lean",
		Label: "Top of the tree: " + s.leanWords(),
		X:     at.x, Y: at.y, Axes: axes, Paths: []string{"tree.lean_deg", "tree.lean_bearing_deg"}})
}

func (s *scene) pointHandles(c *canvas, view string, see func(rigging.Vec) pt, axes string) {
	for i := range s.points {
		p := &s.points[i]
		if !p.known {
			continue
		}
		at := see(p.at)
		base := draft.Elem("points", i)
		c.handle(Handle{ID: view + "point/" + strconv.Itoa(i),
			Label: "Point " + s.pointName(p) + ": " + s.where(p),
			X:     at.x, Y: at.y, Axes: axes,
			Paths: []string{base + ".bearing_deg", base + ".distance_m"}})
	}
}

// where is a point's bearing and distance in words.
func (s *scene) where(p *scenePoint) string {
	bearing, distance := p.at.Bearing()/rigging.Deg, p.at.Horizontal()
	text := "bearing " + s.degrees(bearing) + ", distance " + s.metres(distance)
	if p.at.Z != 0 {
		text += ", rise " + s.metres(p.at.Z)
	}
	return text
}

func (c *canvas) handle(h Handle) {
	if !finite(h.X) || !finite(h.Y) {
		return
	}
	h.X, h.Y = tenth(h.X), tenth(h.Y)
	c.handles = append(c.handles, h)
}

// describe tells in words what both views show.
func (s *scene) describe() string {
	var b strings.Builder
	say := func(parts ...string) {
		if b.Len() > 0 {
			b.WriteByte(' ')
		}
		for _, p := range parts {
			b.WriteString(p)
		}
		b.WriteByte('.')
	}
	if s.tree {
		say("Tree ", s.metres(s.h), " high, ", s.leanWords())
	} else {
		say("The tree's height is not known, so no tree is drawn")
	}
	if w := s.rep.Tree.WeightKN; s.hasCentre && w.Known() {
		say("Its weight of ", s.u.Load(float64(w)), " acts ", s.metres(math.Abs(s.centre.X)), ahead(s.centre.X, " ahead of", " behind"),
			" the hinge and ", s.metres(math.Abs(s.centre.Y)), ahead(s.centre.Y, " to the left", " to the right"))
	}
	for i := range s.lines {
		l := &s.lines[i]
		kind := "Pull line "
		if l.hold {
			kind = "Hold line "
		}
		say(kind, s.lineName(l), ": ", s.pathWords(l))
		for k := range l.legs {
			leg := &l.legs[k]
			if leg.hauling || !leg.known() || leg.from.stem == leg.to.stem {
				continue
			}
			if finite(leg.tension) {
				say("It rises ", s.angleOf(leg.elevation()), " to the stem at a tension of ", s.u.Load(leg.tension))
			} else {
				say("It rises ", s.angleOf(leg.elevation()), " to the stem")
			}
		}
		l.turnsAt(func(from, block, to station) {
			g := included(from.at, block.at, to.at)
			if !finite(g) {
				return
			}
			say("The rope makes an angle of ", s.angleOf(g), " at ", s.pointName(&s.points[block.point]))
		})
	}
	for i := range s.points {
		p := &s.points[i]
		if !p.known {
			say("Where point ", s.pointName(p), " lies is not known")
			continue
		}
		if p.rep != nil && p.rep.LoadKN.Known() {
			say("Point ", s.pointName(p), ": ", s.where(p), ", load ", s.u.Load(float64(p.rep.LoadKN)))
		} else {
			say("Point ", s.pointName(p), ": ", s.where(p))
		}
	}
	return b.String()
}

func ahead(v float64, yes, no string) string {
	if v < 0 {
		return no
	}
	return yes
}

func (s *scene) pathWords(l *sceneLine) string {
	var b strings.Builder
	add := func(st station) {
		if b.Len() > 0 {
			b.WriteString(" to ")
		}
		switch {
		case st.stem:
			b.WriteString("stem at " + s.metres(st.h))
		case st.point >= 0:
			b.WriteString(s.pointName(&s.points[st.point]))
		default:
			b.WriteString("a place not known")
		}
	}
	for _, st := range l.stations {
		add(st)
	}
	if l.tackle {
		b.WriteString(s.doc.Say(" with a {tackle}"))
		if t := l.tackleText(); t != "" {
			b.WriteString(" of " + t)
		}
		if len(l.haul) > 0 {
			b.WriteString(" hauled along")
		}
	}
	for _, st := range l.haul {
		add(st)
	}
	if b.Len() == 0 {
		return "no path yet"
	}
	return b.String()
}
