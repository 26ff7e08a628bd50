package bench

import (
	"math"

	"pullline/rigging"
	"pullline/wasm/class/marking"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// slings: what a sling holds follows the hitch and its angles.
var slings = bench{
	id:    "slings",
	title: "Choked and basket {strop}s",
	idea: "The tag of a {strop} gives the limit of one straight leg. Choked it holds less: the sharper it is bent back at the choke, the less. " +
		"As a basket it holds up to twice as much, less the wider its legs spread.",
	inputs: []input{
		{key: "hitch", label: "Hitch", start: "choked_textile", options: []parts.Choice{
			{Value: "straight", Label: "straight pull"},
			{Value: "choked_textile", Label: "choked, webbing or roundsling"},
			{Value: "choked_wire_rope", Label: "choked, wire rope"},
			{Value: "choked_natural_fibre", Label: "choked, natural {fibre} rope"},
			{Value: hitchBasket, Label: "basket"}}},
		{key: "choke_deg", label: "Angle of choke", dim: units.Degrees, high: 180, start: "80", step: 1, fine: 0.1, when: chokedHitch,
			help: "Between the pulling part and the part it runs through: about 135° where it can settle by itself."},
		{key: "included_deg", label: "Angle between the legs", dim: units.Degrees, high: 170, start: "60", step: 1, fine: 0.1,
			when: func(b *work) bool { return b.text["hitch"] == hitchBasket }},
		{key: "wll_t", label: "Working load limit on the tag, one straight leg", dim: units.TonnesForce, low: 0.1, high: 50, start: "2", step: 0.5, fine: 0.1},
	},
	question: "What pull does the {strop} hold as rigged?",
	guess: func(b *work) marking.Wanted {
		s := b.kept.(slingState)
		want := marking.Wanted{Value: s.holds, Dim: units.Kilonewtons, Way: units.Down, Tolerance: 0.05}
		if s.hitch == hitchBasket {
			want.Slips = []marking.Slip{
				{Value: 2 * s.straight, Says: "That is twice a straight leg: it is so only with the legs side by side."},
				{Value: 2 * s.straight * math.Cos(s.angle), Says: "The cosine is of half the angle, not the whole."},
				{Value: 2 * s.straight * math.Sin(s.angle/2), Says: "Sine in place of cosine of half the angle."},
			}
		} else {
			want.Slips = []marking.Slip{
				{Value: s.straight * s.hitchFactor, Says: "That leaves out the angle of choke."},
				{Value: s.straight * s.factor, Says: "That leaves out that a choked {strop} holds less than a straight one, whatever the angle."},
			}
		}
		want.Slips = append(want.Slips,
			marking.Slip{Value: s.straight, Says: "That is what it holds in a straight pull."},
			marking.Slip{Value: b.inKN(s.wll * s.hitchFactor * s.factor), Says: "That is tonnes taken for kilonewtons: a tonne weighs 9.81 kN."})
		return want
	},
	solve: func(b *work) {
		s := slingAt(b.text["hitch"], b.in["wll_t"], b.in["choke_deg"], b.in["included_deg"])
		b.kept = s
		b.fact("holds", "The {strop} holds as rigged", b.u.Capacity(s.holds))
		w := parts.Let("W", b.u.Capacity(s.straight)).Of("straight leg")
		b.worked("straight", "Straight leg", b.u.Capacity(s.straight), "W = WLL·g", "by definition of the tag",
			parts.Let("WLL", b.u.Quantity(s.wll, units.TonnesForce, units.Down)).Of("on the tag"), parts.Let("g", "9.80665 m/s²"))
		switch {
		case s.hitch == hitchBasket:
			b.step("holds", "Holds as a basket", "P = 2·W·cos(γ/2)", b.u.Capacity(s.holds), "statics: each leg carries P/(2·cos(γ/2))", w, parts.Let("γ", b.degrees(s.angle)).Of("angle between the legs"))
			b.note("bend", "It holds only round something thick enough: a sharp bend, at the shackle too, takes more off.", words.CommonPractice)
			b.note("wide", "Keep the angle well under 120°: there a basket holds no more than one leg.", "Arboriculture Australia, Tree Rescue Manual, 2022, p. 173")
		case s.choked():
			b.stepAs("holds", b.Say("Holds choked"), "P = W·k·c", b.u.Capacity(s.holds), b.Say("%s; angle of choke: %s", b.Source(s.source), b.Source(rigging.ChokeBands()[0].Source)),
				w, parts.Let("k", units.Significant(s.hitchFactor, 3)).Of("choked"), parts.Let("c", units.Significant(s.factor, 3)).Of("angle of choke φ = %s", b.degrees(s.angle)))
			b.note("tag", "The maker's tag or sheet comes first: it may ask for less.", words.CommonPractice)
		default:
			b.step("holds", "Holds in a straight pull", "P = W", b.u.Capacity(s.holds), "by definition of the tag", w)
		}
		b.worked("factor", "Hold ÷ a straight leg", hundredths(s.hitchFactor*s.factor, units.Down), "P/W", "proportion", parts.Let("P", b.u.Capacity(s.holds)), w)
		b.leftOut("Left out: sharp edges, bark and knots under the {strop}, wear, jerks.")
	},
	draw: drawSlings,
	curve: func(b *work) curve {
		s := b.kept.(slingState)
		of := curve{x: "wll_t", nameX: "limit on the tag", nameY: "holds as rigged", dimY: units.Kilonewtons, way: units.Down}
		at := func(x float64) float64 { return slingAt(s.hitch, x, s.angle/rigging.Deg, s.angle/rigging.Deg).holds }
		if s.choked() {
			of.x, of.nameX = "choke_deg", "angle of choke"
		} else if s.hitch == hitchBasket {
			of.x, of.nameX = "included_deg", "angle between the legs"
		}
		if of.x != "wll_t" {
			at = func(x float64) float64 { return slingAt(s.hitch, s.wll, x, x).holds }
		}
		of.lines = []curveLine{{class: "curve", at: at}, {class: "planned", name: "one straight leg", at: func(float64) float64 { return s.straight }}}
		if of.x == "wll_t" {
			of.lines = of.lines[:1]
		}
		return of
	},
}

const hitchBasket = "basket"

func chokedHitch(b *work) bool {
	s := slingState{hitch: b.text["hitch"]}
	return s.choked()
}

type slingState struct {
	hitch           string
	wll             float64 // t
	straight, holds float64 // kN
	// hitchFactor is that of the hitch, factor what its angle (rad) does.
	hitchFactor, factor, angle float64
	source                     rigging.Source
}

func (s *slingState) choked() bool { return s.hitch != "straight" && s.hitch != hitchBasket }

// slingAt is a sling by its hitch, limit (t) and the angles (degrees) of its
// choke and between its legs.
func slingAt(hitch string, wll, choke, included float64) slingState {
	s := slingState{hitch: hitch, wll: wll, straight: wll * rigging.TonneForce / rigging.KN, hitchFactor: 1, factor: 1}
	switch {
	case hitch == hitchBasket:
		s.angle = included * rigging.Deg
		s.factor = rigging.BasketFactor(s.angle)
	case s.choked():
		s.angle = choke * rigging.Deg
		entry, known := rigging.FindHitch(hitch)
		factor, err := rigging.ChokeFactor(s.angle)
		s.hitchFactor, s.factor, s.source = entry.Value, factor, entry.Source
		if !known || err != nil {
			s.factor = math.NaN()
		}
	}
	s.holds = rigging.Capacity(s.straight, s.hitchFactor, s.factor)
	return s
}

func drawSlings(b *work, c *draw.Canvas) (title, desc string) {
	s := b.kept.(slingState)
	unit := math.Min(c.W/360, c.H/300)
	stem := draw.Pt{X: c.W * 0.3, Y: c.H / 2}
	r := 46 * unit
	c.Circle("stem", "", stem, r)
	c.Keep(draw.Around(stem, r*0.7))
	holds := parts.Let("P", b.secret(b.u.Capacity(s.holds)))
	pull := func(from, dir draw.Pt) draw.Pt {
		to := from.Plus(dir.Times(86 * unit))
		c.Arrow("load", "", from, to)
		c.Along("label-force", holds.String(), from, to, dir.Left(), draw.PrioMust)
		return to
	}
	// round draws the sling round the stem from p, touching it at half an
	// angle above and below the line between them.
	round := func(p, q draw.Pt, half float64) (one, two draw.Pt) {
		sin, cos := math.Sincos(half)
		one, two = stem.Plus(draw.Pt{X: sin, Y: -cos}.Times(r)), stem.Plus(draw.Pt{X: sin, Y: cos}.Times(r))
		c.Move(p)
		c.Line(one)
		c.Arc(r, r, 0, true, false, two)
		c.Line(q)
		c.Path("rope", "")
		c.Avoid(p, one)
		c.Avoid(q, two)
		return one, two
	}
	switch {
	case s.hitch == hitchBasket:
		half := s.angle / 2
		sin, cos := math.Sincos(half)
		long := 140 * unit
		// Where the legs do not meet within that, a bar holds them apart.
		top, bottom := stem.Plus(draw.Pt{X: long, Y: 0}), stem.Plus(draw.Pt{X: long, Y: 0})
		if r < long*sin {
			top.X = stem.X + r/sin
			bottom = top
		} else {
			apart := (r - long*sin) / cos
			top.Y, bottom.Y = top.Y-apart, bottom.Y+apart
			c.Segment("anchor", "", top, bottom)
		}
		one, two := round(top, bottom, half)
		hook := draw.Pt{X: top.X, Y: stem.Y}
		pull(hook, draw.Pt{X: 1, Y: 0})
		c.Circle("sheave", "", hook, c.Grow(5))
		if top == bottom {
			c.AngleMark(hook, one.Minus(top), two.Minus(top), c.Grow(34), "γ = "+b.degrees(s.angle))
		} else {
			c.Label(draw.Label{Text: "γ = " + b.degrees(s.angle), Class: "label", At: draw.Pt{X: (stem.X + r + top.X) / 2, Y: stem.Y}, Prio: draw.PrioAngle})
		}
		b.grab(c, "legs", b.Say("Where the legs of the basket meet; angle between them, %s", b.degrees(s.angle)), top, "-included_deg", "-included_deg", func(p draw.Pt) {
			d := p.Minus(stem)
			if d.Y > 0 && top == bottom {
				d.Y = -d.Y
			}
			far := max(d.Length(), r*1.0001)
			b.set("included_deg", 2*(math.Asin(r/far)-math.Atan2(-d.Y, d.X))/rigging.Deg, false)
		})
	case s.choked():
		eye := stem.Plus(draw.Pt{X: r * math.Sqrt2, Y: 0})
		_, running := round(eye, eye, math.Pi/4)
		down := running.Minus(eye).Unit()
		sin, cos := math.Sincos(s.angle)
		// The pulling part is turned from the running part away from the stem.
		dir := draw.Pt{X: down.X*cos + down.Y*sin, Y: down.Y*cos - down.X*sin}
		body := eye.Plus(dir.Times(46 * unit))
		c.Segment("rope", "", eye, body)
		end := pull(body, dir)
		c.Label(draw.Label{Text: b.Say("choked: × %s, this angle: × %s", units.Significant(s.hitchFactor, 3), units.Significant(s.factor, 3)), Class: "label-note", At: draw.Pt{X: c.W / 2, Y: c.Grow(18)}, Prio: draw.PrioLength})
		c.AngleMark(eye, down, dir, c.Grow(24), "φ = "+b.degrees(s.angle))
		c.Circle("sheave", "", eye, c.Grow(6))
		b.grab(c, "pull", b.Say("The pulling part; angle of choke, %s", b.degrees(s.angle)), end, "choke_deg", "choke_deg", func(p draw.Pt) {
			d := p.Minus(eye)
			turn := math.Atan2(d.X*down.Y-d.Y*down.X, d.X*down.X+d.Y*down.Y) / rigging.Deg
			if turn < -90 {
				turn += 360
			}
			b.set("choke_deg", turn, false)
		})
	default:
		eye := stem.Plus(draw.Pt{X: r, Y: 0})
		hook := eye.Plus(draw.Pt{X: 96 * unit, Y: 0})
		c.Segment("rope", "", eye, hook)
		c.Circle("sheave", "", hook, c.Grow(5))
		c.Circle("attach", "", eye, c.Grow(5))
		pull(hook, draw.Pt{X: 1, Y: 0})
	}
	return b.Say("A {strop} round a {stem}"), b.Say("Seen along the {stem}: a {strop} of %s holds %s as rigged.", b.u.Quantity(s.wll, units.TonnesForce, units.Down), b.secret(b.u.Capacity(s.holds)))
}
