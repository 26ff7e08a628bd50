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

// lean: the weight of a tree that leans back, or whose crown hangs back,
// has a lever about the hinge, and the pull has to overcome it.
var lean = bench{
	id:    "lean",
	title: "{Lean}, {crown} and pull",
	idea: "If a tree leans back, or its {crown} hangs back, its weight lies behind the {hinge}. The line must lift that weight over and bend the {hinge}. " +
		"One degree of lean costs more than most people guess.",
	inputs: []input{
		{key: "lean_deg", label: "{Lean} back, away from the {lay}", dim: units.Degrees, low: -10, high: 20, start: "5", step: 0.5, fine: 0.1,
			help: "Negative for a tree that leans toward the {lay}."},
		{key: "crown_offset_m", label: "{Crown} hangs back by", dim: units.Metres, low: -4, high: 4, start: "2", step: 0.5, fine: 0.1,
			help: "How far its middle is off the {stem}. Negative toward the {lay}."},
		{key: "diameter_cm", label: "Diameter at breast height", dim: units.Centimetres, low: 20, high: 100, start: "50", step: 1, fine: 0.5},
		{key: "attach_m", label: "Height of the line on the {stem}", dim: units.Metres, low: 4, high: 23, start: "14", step: 0.5, fine: 0.1},
		{key: "distance_m", label: "Distance of the anchor", dim: units.Metres, low: 10, high: 32, start: "26", step: 0.5, fine: 0.1},
	},
	question: "What tension starts this tree moving?",
	guess: func(b *work) marking.Wanted {
		s := b.kept.(leanState)
		against := s.weight*s.behind + s.hinge
		return marking.Wanted{Value: s.start, Dim: units.Kilonewtons, Way: units.Up, Tolerance: 0.08, Slips: []marking.Slip{
			{Value: b.inKN((s.mass/1000*s.behind + s.hinge) / s.lever), Says: "That takes the mass for the weight: a mass of one tonne weighs 9.81 kN."},
			{Value: against / b.in["attach_m"], Says: "That is with the height of the line as its lever. The lever is how far the line passes from the {hinge}."},
			{Value: s.weight * s.behind / s.lever, Says: "That leaves out the {hinge}, which is to be bent as well."},
			{Value: against, Says: "That is a moment: it is still to be divided by the lever of the line."},
			{Value: s.weight*s.behind + s.hinge/s.lever, Says: "Only one of the two moments was divided by the lever of the line."},
		}}
	},
	solve: solveLean,
	draw:  drawLean,
	curve: func(b *work) curve {
		at := func(offset float64) func(x float64) float64 {
			return func(x float64) float64 {
				start, err := leanSetup(x, offset, b.in["diameter_cm"], b.in["attach_m"], b.in["distance_m"]).Start()
				if err != nil {
					return math.NaN()
				}
				return start / rigging.KN
			}
		}
		of := curve{x: "lean_deg", nameX: "{lean} back", nameY: "tension that starts it", dimY: units.Kilonewtons, way: units.Up,
			lines: []curveLine{{class: "curve", at: at(b.in["crown_offset_m"])}}}
		if b.in["crown_offset_m"] != 0 {
			of.lines = append(of.lines, curveLine{class: "curve-hold", name: "{crown} even", at: at(0)})
		}
		return of
	},
}

// leanState is a leaning tree and what it takes: kg, m, kN and kN·m. behind
// is how far its mass centre lies behind the hinge.
type leanState struct {
	mass, weight, behind, hinge, lever, start float64
	centre                                    rigging.Vec // m
	lost                                      bool        // the line cannot pull it over
}

// leanSetup is an invented conifer 25 m high, cut level with the anchor, its
// hinge that of the guide.
func leanSetup(backDeg, offset, diameterCM, attach, distance float64) rigging.Setup {
	species, _ := rigging.FindSpecies("unknown_conifer")
	// The bench's diameters are all within what the crown's share covers.
	crown, _ := rigging.CrownShare(species.Conifer, false, diameterCM*rigging.CM)
	tree := rigging.Tree{Height: treeHeight, Diameter: diameterCM * rigging.CM, FormFactor: species.FormFactor.Value,
		Density: species.Density.Value, Strength: species.Strength.Value, CrownShare: crown.Value, CrownCentre: rigging.CrownMiddle * treeHeight,
		CrownOffset: math.Abs(offset), Lean: math.Abs(backDeg) * rigging.Deg}
	if offset > 0 {
		tree.CrownOffsetBearing = math.Pi
	}
	if backDeg > 0 {
		tree.LeanBearing = math.Pi
	}
	return rigging.Setup{Tree: tree, FaceOpening: 70 * rigging.Deg, Hinge: rigging.GuideHinge(tree.Diameter), Allowance: 1,
		Lines: []rigging.Line{{Share: 1, Path: []rigging.Station{
			rigging.StemStation(tree, 0, attach, 1), {At: rigging.AtBearing(0, distance, 0), Efficiency: 1}}}}}
}

func solveLean(b *work) {
	setup := leanSetup(b.in["lean_deg"], b.in["crown_offset_m"], b.in["diameter_cm"], b.in["attach_m"], b.in["distance_m"])
	pull, err := setup.Solve()
	s := leanState{mass: pull.Body.Mass, weight: pull.Body.Weight / rigging.KN, behind: -pull.Body.Centre.X, centre: pull.Body.Centre,
		hinge: pull.HingeMoment / rigging.KNm, lever: pull.Lever, start: pull.Start / rigging.KN, lost: err != nil}
	b.kept = s
	W, x, M, k := parts.Let("W", b.u.Load(s.weight)), parts.Let("x", b.metres(s.behind)), parts.Let("M", b.moment(s.hinge)), parts.Let("k", b.metres(s.lever))
	start := b.u.Load(s.start)
	if s.lost {
		start = units.None
	}
	b.fact("start", "Tension that starts it", start)
	if s.lost {
		b.note("lost", "This line cannot pull the tree over all the way. There is no number for that.", leverStatics)
	} else {
		b.fact("peak", "Greatest tension through the fall", b.u.Load(pull.Peak/rigging.KN))
		b.fact("commit", "Falls by itself from", b.Say("%s of turn", b.degrees(pull.Commit)))
	}
	b.fact("weight", "Weight above the {hinge}, of %s", b.u.Load(s.weight), b.u.Quantity(s.mass, units.Kilograms, units.Up))
	b.fact("behind", "Its lever behind the {hinge}", b.metres(s.behind))
	b.fact("hinge", "Moment that bends the {hinge}", b.moment(s.hinge))
	b.step("weight", "Weight", "W = m·g", b.u.Load(s.weight), "standard gravity 9.80665 m/s²", parts.Let("m", b.u.Quantity(s.mass, units.Kilograms, units.Up)).Of("mass above the {hinge}"))
	b.step("behind", "Lever of the weight", "x = z·sin λ + o·c", b.metres(s.behind), "{centre} of two masses",
		parts.Let("z", b.metres(pull.Body.CentreHeight)).Of("height of the {centre} of mass along the stem"), parts.Let("λ", b.given("lean_deg")).Of("{lean} back"), parts.Let("o", b.given("crown_offset_m")).Of("{crown} back"),
		parts.Let("c", units.Percent(pull.Body.CrownMass/pull.Body.Mass)).Of("of the mass is {crown}"))
	b.stepAs("hinge", b.Say("Bending the {hinge}"), "M = σ·b·t²/4", b.moment(s.hinge), b.Say("beam theory, fully plastic; hinge by %s", hingeGuideSource()),
		parts.Let("σ", b.u.Quantity(setup.Tree.Strength/rigging.MPa, units.Megapascals, units.Up)).Of("bending strength, green"), parts.Let("b", b.centis(setup.Hinge.Length)).Of("80 % of the diameter"),
		parts.Let("t", b.centis(setup.Hinge.Left)).Of("10 % of the diameter"))
	b.step("start", "Tension that starts it", "T = (W·x + M)/k, 0 where that is less", start, leverStatics, W, x, M, k.Of("how far the line passes from the {hinge}"))
	if !s.lost {
		b.step("peak", "Greatest tension through the fall", "the largest of T(φ) = (W·x(φ) + M)/k(φ), M = 0 once the face has closed", b.u.Load(pull.Peak/rigging.KN),
			"the same solution as for a plan", parts.Let("φ", b.degrees(pull.PeakTurn)).Of("turn of the tree where it is greatest"))
		b.step("commit", "Falls by itself from", "the first φ from which T(φ) stays 0", b.degrees(pull.Commit), "the same solution as for a plan", W, M)
	}
	switch {
	case s.lost:
	case pull.Peak == 0:
		if b.hidden {
			break // it would be the answer
		}
		b.note("steers_only", "This tree needs no pull: gravity takes it toward the {lay}. The line only steers, and the tree may go before anyone is ready.", leverStatics)
	case s.behind > 0:
		b.note("sit_back", "Until the line is tight this tree sits back on the saw. Nobody cuts it up to the {hinge} before it is held.", words.CommonPractice)
	}
	b.note("planned", "A pull is not planned at what just starts the tree: take an allowance on the greatest tension, 1.5 times or more.", words.CommonPractice)
	b.leftOut("The tree is an invented conifer, %s high; mass and strength are the highest figures of the table. Side lean, roots and decay are left out, and wind: a plan counts %s against the {lay} where none is given.", b.metres(treeHeight), b.u.Quantity(rigging.UnsaidWind, units.MetresPerSecond, units.Nearest))
}

// centis writes a length given in metres that is measured in centimetres.
func (b *work) centis(m float64) string {
	return b.u.Quantity(m/rigging.CM, units.Centimetres, units.Nearest)
}

// hingeGuideSource is where the usual measures of a hinge are from.
func hingeGuideSource() string {
	e, _ := rigging.FindHingeGuide("hinge_thickness")
	return e.Source.Text
}

func drawLean(b *work, c *draw.Canvas) (title, desc string) {
	s := b.kept.(leanState)
	lean := -b.in["lean_deg"] * rigging.Deg
	shift := -b.in["crown_offset_m"]
	l := sideBox(c, 15.5, 32.5, treeHeight, 3.4)
	foot := l.ToPx(0, 0)
	c.Segment("ground", "", draw.Pt{X: 0, Y: foot.Y}, draw.Pt{X: c.W, Y: foot.Y})
	c.Segment("plumb", "", foot, l.ToPx(0, treeHeight*0.97))
	on := drawTree(c, l, treeHeight, b.in["diameter_cm"]*rigging.CM, lean, shift)
	attach, anchor := b.in["attach_m"], l.ToPx(b.in["distance_m"], 0)
	high := on(attach)
	c.Segment("rope", "", high, anchor)
	u := anchor.Minus(high).Unit()
	d := foot.Minus(high)
	lever := high.Plus(u.Times(d.X*u.X + d.Y*u.Y))
	c.Segment("planned", "", foot, lever)
	centre := l.ToPx(s.centre.X, s.centre.Z)
	c.Segment("drop", "", centre, draw.Pt{X: centre.X, Y: foot.Y + c.Grow(14)})
	c.Arrow("weight", "", centre, centre.Plus(draw.Pt{X: 0, Y: c.H * 0.16}))
	c.CentreMark(centre)
	c.Circle("hinge", "", foot, c.Grow(4))
	c.Circle("attach", "", high, c.Grow(5))
	c.Keep(draw.Around(high, c.Grow(5)), draw.Around(foot, c.Grow(5)))
	c.AnchorMark(anchor)
	// Which way the labels beside the stem go: away from the rope.
	c.Label(draw.Label{Text: "W = " + b.u.Load(s.weight), Class: "label-force", At: centre.Plus(draw.Pt{X: 0, Y: c.H * 0.16}), Toward: draw.Pt{X: -1, Y: 0}, Prio: draw.PrioMust})
	c.Label(draw.Label{Text: "x = " + b.metres(s.behind), Class: "label", At: draw.Pt{X: min(foot.X, centre.X), Y: foot.Y + c.Grow(14)}, Toward: draw.Pt{X: -1, Y: 0}, Gap: c.Grow(3), Prio: draw.PrioMust})
	c.Label(draw.Label{Text: "M = " + b.moment(s.hinge), Class: "label", At: draw.Pt{X: max(foot.X, centre.X) + c.Grow(4), Y: foot.Y + c.Grow(14)}, Toward: draw.Pt{X: 1, Y: 0}, Prio: draw.PrioMust})
	c.Along("label-force", "T = "+b.secret(b.u.Load(s.start)), high, anchor, draw.Pt{X: 1, Y: -1}, draw.PrioMust)
	c.Label(draw.Label{Text: "k = " + b.metres(s.lever), Class: "label", At: foot, Along: lever, Slide: true, Toward: draw.Pt{X: 1, Y: 0.6}, Gap: c.Grow(3), Prio: draw.PrioMust})
	c.Label(draw.Label{Text: "h = " + b.given("attach_m"), Class: "label", At: high, Toward: draw.Pt{X: 1, Y: -1}, Prio: draw.PrioAngle})
	tip := on(treeHeight)
	c.Angle("angle", foot, draw.Pt{X: 0, Y: -1}, tip.Minus(foot), treeHeight*0.9*l.Scale)
	c.Label(draw.Label{Text: "λ = " + b.given("lean_deg"), Class: "label", At: l.ToPx(0, treeHeight*0.95), Toward: draw.Pt{X: 1, Y: -0.5}, Gap: c.Grow(4), Prio: draw.PrioMust})
	b.grab(c, "lean", b.Say("Top of the tree, leaning back %s", b.given("lean_deg")), tip, "-lean_deg", "", func(p draw.Pt) {
		x, z := l.FromPx(p)
		b.set("lean_deg", math.Atan2(-x, max(z, 0.1))/rigging.Deg, false)
	})
	middle := on(rigging.CrownMiddle * treeHeight)
	b.grab(c, "crown", b.Say("Middle of the {crown}, hanging back %s", b.given("crown_offset_m")), middle.Plus(draw.Pt{X: shift * l.Scale, Y: 0}), "-crown_offset_m", "", func(p draw.Pt) {
		b.set("crown_offset_m", (middle.X-p.X)/l.Scale, false)
	})
	return b.Say("A tree that leans, with a line to pull it over, seen from the side"), b.Say("A tree leans back %s and its {crown} hangs back %s. Its weight of %s acts %s behind the {hinge}; the line passes %s from the {hinge}. It starts at %s.", b.given("lean_deg"), b.given("crown_offset_m"), b.u.Load(s.weight), b.metres(s.behind), b.metres(s.lever), b.secret(b.u.Load(s.start)))
}
