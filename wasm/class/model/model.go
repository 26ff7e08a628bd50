package model

import (
	"cmp"
	"slices"
	"strings"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
	"pullline/wasm/request"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// View is the model in words: what it assumes, how it computes, what it
// leaves out and when not to go by it.
type View struct {
	Title    string    `json:"title"`
	Sections []Section `json:"sections"`
	Message  string    `json:"message,omitempty"` // why there is nothing
}

// A Section is one part of it.
type Section struct {
	ID         string       `json:"id"`
	Title      string       `json:"title"`
	Paragraphs []string     `json:"paragraphs,omitempty"`
	Items      []parts.Note `json:"items,omitempty"`
	Steps      []parts.Step `json:"steps,omitempty"`  // formulas, without numbers
	Folded     bool         `json:"folded,omitempty"` // to be looked up, not read through
}

// JSON answers a request {settings} with the model in words. It answers
// to any input.
//
//codec:call request.Common View
func JSON(raw []byte) (out []byte) {
	var l words.Locale
	defer func() {
		if fault := recover(); fault != nil {
			out = jsontext.Encode(none(l, "The model could not be shown: there is a fault in the program."))
		}
	}()
	var req request.Common
	if err := req.Read(raw, req.Take); err != nil {
		return jsontext.Encode(none(l, "The page asked for the model in a way that could not be read: %s", err.Error()))
	}
	l = req.Settings.Locale()
	return jsontext.Encode(tell(&draft.Plan{Locale: req.Settings.Locale()}, req.Settings.System()))
}

const title words.Text = "The model in words"

func none(l words.Locale, message words.Text, args ...string) *View {
	return &View{Title: l.Say(title), Sections: []Section{}, Message: l.Say(message, args...)}
}

// notTrusted is when the answer is not to be gone by.
var notTrusted = []words.Text{
	"The page says Not known, or names a problem: then there is no answer, whatever else is shown.",
	"Decay, cracks, fungus, dead or frozen wood: weight and strength are not those of sound green wood. Only what is entered counts: a cavity in the {hinge}, weak places of the {stem}.",
	"A species that is not known, or one that varies widely: the figures are means; single trees differ by a fifth and more.",
	"Anything sudden: a line that snatches, a machine that drives off or jerks, a tree that sits back, a load that drops. Every number is for a steady pull; a jerk can multiply it.",
	"Gusts and wind from the side. Only a steady wind against the {lay} is counted.",
	"Roots that lift or are cut, soft or steep ground, a {stem} that splits up from the {back cut} (barber chair).",
	"A machine that slides, tips or sinks. Its traction is a guess until tried in place.",
	"Any anchor that no competent person has judged in place: {buried log}, pickets and standing trees hold by tables made on other ground, and stumps by those of standing trees.",
	"Gear that is worn, bent, mismatched or without a readable tag; wet or icy rope; ice on {block}s, rope or ground.",
	"Branches, vines or neighbouring trees that catch, and a tree that is already cut, hung up or moving.",
	"Values that were guessed. A wrong lean or height gives a wrong answer.",
}

// assumptions are what the model takes for granted, with the program's numbers.
func assumptions(l words.Locale, u *units.System) []string {
	return []string{
		l.Say("The {stem} is stiff and turns about the {hinge} like a door; nothing slides or slips. The {hinge} bends until the {scarf} closes, and is then taken as broken."),
		l.Say("The whole tree above the cut acts as one mass at its {centre}, with g = %s m/s².", units.Significant(rigging.G, 6)),
		l.Say("Ropes are straight and weightless between points. A caution says so if a line weighs more than a twentieth of its tension."),
		l.Say("Points on the ground do not move."),
		l.Say("The wind blows steadily against the {lay} on the {crown}, in air of %s kg/m³: %s if none is given.", units.Significant(rigging.AirDensity, 4), u.Quantity(rigging.UnsaidWind, units.MetresPerSecond, units.Nearest)),
		l.Say("Tensions shown are with the tree standing and the pull as planned. Judged is the greatest load from standing until the tree falls by itself, with the {pull line}s kept at planned tension."),
		l.Say("If several lines pull on one point, any of them may be slack: the worst combination counts."),
		l.Say("Loads are rounded up and capacities down, to three digits, in %s.", u.Units[units.Kilonewtons].Name),
	}
}

// verdictWords are how the verdict comes about.
func verdictWords(l words.Locale) []string {
	return []string{
		l.Say("A piece, point or {puller} is within its limit up to %s of it, near up to %s, and over above.", units.Percent(rigging.NearFrom), units.Percent(1)),
		l.Say("The verdict of the plan is the worst of: every piece, point and {puller} as planned; the bending of the {stem}; the side hold of the {hinge}; the closing of the {scarf}; where the {puller} stands; and anything out of the ordinary. All reasons are listed, worst first."),
		l.Say("The most the {puller} can do only makes a verdict worse: if a piece, a point or the {stem} is then over its limit, or there is no room, the plan is near its limits at best; if that is not known, neither is the plan."),
		l.Say("A problem leaves the whole plan not known, unless something in it is over: that stays over. Problems are a value that is missing, impossible or out of range, an unknown field, a missing link, a line that cannot pull the tree over, and a planned tension below the allowance. A caution does not change the verdict; anything out of the ordinary is a caution and also near the limit at best."),
		l.Say("The {scarf} must close after the tree falls by itself. The turn at which the tree falls by itself, divided by the turn at which the {scarf} closes, is judged like a load divided by a limit."),
		l.Say("A {puller} nearer than %s heights of the tree and within %s° of the {lay} is over: the tree lands there. At that distance in any other direction it is near the limit. Our own rule, from the two tree lengths of 29 CFR 1910.266(h)(1).", units.Significant(plan.LandingReach, 3), units.Significant(plan.LandingAngle/rigging.Deg, 3)),
	}
}

// atMostWords are what the puller can do, and friction both ways.
func atMostWords(l words.Locale) []string {
	return []string{
		l.Say("Friction is counted where it adds to a load, never where it would reduce one. It adds to the haul needed: tension grows at every {block} from the tree to the {puller}, by the efficiency of the {block} and the angle through which the rope turns."),
		l.Say("The most that reaches gear and anchors is worked out with friction and without, and the greater counts: without friction, a {tackle} of n parts puts n times the haul on its line."),
		l.Say("The most the {puller} can pull follows from what limits it: its stall; the setting of a device; its grip, taken as %s of the machine's weight, or its stall if that is less; or the pull at which the person watching stops it.", units.Percent(plan.DrivingGrip)),
		l.Say("If only a person watching stops the {puller}, the plan is near its limits at best when its stall would put something over or is not known."),
		l.Say("The pull to hold the {puller} to is the greatest haul at which no piece, no point and not the {stem} can be over, and never above its rated pull. A planned haul above it leaves no room; one above the most the {puller} can pull is near the limit too. The row of the {puller} compares the planned haul with its rated pull or its setting, whichever is less."),
	}
}

// steering is how the hinge and the hold lines are taken.
func steering(l words.Locale) []string {
	low := units.Significant(rigging.HingeReliedOn, 2)
	return []string{
		l.Say("For the pull needed, the {hinge} resists with the mean bending strength of the wood, fully plastic: factor %s on first yield. A tested strength already includes the plastic part, so it is counted twice: cautious for the pull.", units.Significant(rigging.HingePlastic, 3)),
		l.Say("To the side it holds as a beam on edge, elastic: factor %s. There it is relied on, so %s of the mean is taken, which 19 of 20 pieces reach, or the low figure of the species if it has one; a cavity takes its share off.", units.Significant(rigging.HingeElastic, 3), low),
		l.Say("Side moments are taken about the middle of the bent {hinge}, halfway between the axes of stump and {stem}. The side hold is judged at its worst: standing at planned tension, and at every turn at the pull then needed, until the tree falls by itself or the {scarf} closes."),
		l.Say("{Hold line}s carry what is needed to leave no side moment on the {hinge}, and share it if they pull to the same side. One that pulls nearly straight at the {hinge} counts for nothing. They act only while the {hinge} bends: then they are let go and carry nothing."),
		l.Say("A {hold line} is planned for the allowance times its largest tension until the {scarf} closes, or for its tension standing at planned pull, whichever is more. Made fast at both ends it must stretch as well, by its stiffness; one paid out under control does not."),
		l.Say("What the {hinge} would carry with the {hold line}s slack is shown but not judged: they must be tight before the {back cut}."),
	}
}

// bending is how the stem is taken where the pull bends it.
func bending(l words.Locale) []string {
	return []string{
		l.Say("From the {hinge} up to the highest tie, lines and weight above a height bend the {stem} there. The stress in its outer wood, over what the wood is relied on to bear, is judged like a load over a limit, planned and at most."),
		l.Say("Its thickness goes with its volume, or by the diameters measured, less the bark: %s of the diameter, from memory. The strength is the low one, as for side hold.", units.Percent(1-rigging.UnderBark)),
		l.Say("A cavity leaves a ring; a wound leaves a round that much thinner; at a fork the line is taken as tied to one of two equal {stem}s. The last two are our own rules. What nobody entered counts as sound."),
		l.Say("The wind is left out of it: it blows against the pull, and a lull would lift off what it takes."),
	}
}

// anchorWords are what holds a point.
func anchorWords(l words.Locale) []string {
	return []string{
		l.Say("Rated: the figure given. A stump or rock judged by a competent person is one."),
		l.Say("A machine: the lesser of its rated pull and the level pull its ground holds, (weight − uplift) times the tangent of the angle of grip less the slope; nothing if it would slide or lift by itself."),
		l.Say("A standing tree: a share of the moment that pulls such trees over. The pull counts with a lever of at least %s m, however low the {strop} sits. A stump is taken as the tree it was; no table here covers stumps.", units.Significant(rigging.LeastArm, 2)),
		l.Say("{Buried log} and pickets: the load at which the tables say they let go, divided by a factor of %s unless another is given. The manual sizes a log for the breaking load of its rope: a caution says so if it lets go first.", units.Significant(rigging.GroundFactor, 2)),
		l.Say("A shared anchor is as strong as its worst leg."),
	}
}

// unusualWords are what is out of the ordinary: near the limit at best.
func unusualWords(l words.Locale) []string {
	deg := func(v float64) string { return units.Significant(v/rigging.Deg, 3) + "°" }
	return []string{
		l.Say("A design factor below %s.", units.Significant(plan.LeastDesignFactor, 2)),
		l.Say("A {hinge} thicker than %s of the diameter at its thicker end, or thinner than %s at its thinner end.", units.Percent(plan.ThickHinge), units.Percent(plan.ThinHinge)),
		l.Say("A {lean} above %s, or one to the side above %s with no {hold line} against it.", deg(plan.GreatLean), deg(plan.GreatSideLean)),
		l.Say("A tree less than %s or more than %s times as high as it is thick.", units.Significant(plan.LeastSlenderness, 3), units.Significant(plan.MostSlenderness, 3)),
		l.Say("A cavity wider than a third of the {hinge} length."),
		l.Say("Lines that together pull more than %s off the {lay}.", deg(plan.FarOffLay)),
		l.Say("A line tied in the top %s of the tree.", units.Percent(1-plan.TopOfTree)),
	}
}

// linksAsked are what has to be there before anything is within.
var linksAsked = []words.Text{
	"A rope on every line. At each of its ends, on the {stem} and at the anchor, a piece that holds it, not only a {block}, or a statement that the rope itself is tied there, with the reduction for its knot or termination. The end on a machine that pulls needs neither.",
	"A {block} among the gear wherever a rope runs over one: at the {stem}, at a point or in a {tackle}.",
	"An anchor at every loaded point.",
	"For every {puller}, its rated pull and what limits it.",
}

func sayAll(l words.Locale, texts []words.Text) []string {
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = l.Say(t)
	}
	return out
}

func tell(d *draft.Plan, u *units.System) *View {
	out := &View{Title: d.Say(title)}
	lookup := false
	add := func(id string, title words.Text) *Section {
		out.Sections = append(out.Sections, Section{ID: id, Title: d.Say(title), Folded: lookup})
		return &out.Sections[len(out.Sections)-1]
	}
	notes := func(texts []string) (list []parts.Note) {
		for _, t := range texts {
			list = append(list, parts.Note{Message: words.Capital(t)})
		}
		return list
	}
	s := add("what", "What it is")
	s.Paragraphs = []string{
		d.Say("The forces on a tree, a line, its {block}s and its anchors in balance: statics, for a tree turned slowly about its {hinge}. It gives the pull needed and the load on each piece."),
		d.Say("Every number is an estimate. Local codes and licensed practice come first. A competent, licensed person on site judges tree, anchors and gear, and gives the go-ahead."),
	}
	s = add("trust", "When not to trust the answer")
	s.Items = notes(sayAll(d.Locale, notTrusted))
	s = add("assumed", "What is assumed")
	s.Items = notes(assumptions(d.Locale, u))
	for _, part := range []struct {
		id    string
		title words.Text
		texts []string
	}{
		{"verdict", "How the verdict is reached", verdictWords(d.Locale)},
		{"at-most", "What the {puller} can do at most, and friction", atMostWords(d.Locale)},
		{"steering", "{Hinge} and {hold line}s", steering(d.Locale)},
		{"stem", "What bends the {stem}", bending(d.Locale)},
		{"anchors", "What holds a point", anchorWords(d.Locale)},
		{"unusual", "Out of the ordinary: near the limit at best", unusualWords(d.Locale)},
		{"links", "Needed before anything is within limits", sayAll(d.Locale, linksAsked)},
	} {
		s = add(part.id, part.title)
		s.Items = notes(part.texts)
	}
	s = add("left-out", "What is left out")
	var left, always []parts.Note
	for _, n := range parts.Standing(d.Locale) {
		if strings.HasPrefix(n.Code, "left-out") {
			left = append(left, n)
		} else {
			always = append(always, n)
		}
	}
	s.Items = left
	s = add("always", "For every pull")
	s.Items = always

	lookup = true
	for i, g := range plan.Formulas(d.Voice(u)) {
		s = add("formulas-"+units.Decimal(float64(i+1), 0), "")
		s.Title = g.Title
		s.Steps = bareSteps(d.Locale, g.Steps)
	}
	s = add("defaults", "Defaults")
	s.Paragraphs = []string{d.Say("Each can be typed over, and a measured value is always better. Every plan lists those it took.")}
	s.Items = defaults(d, u)
	s = add("species", "Species figures")
	s.Paragraphs = []string{d.Say("Green density with bark, green bending strength for the pull needed and as relied on, and form factor of the {stem}.")}
	s.Items = speciesNotes(d.Locale, u)
	for _, t := range []struct {
		id    string
		title words.Text
		table []rigging.Entry
		unit  string
		way   units.Direction
	}{
		{"sheaves", "Efficiency of a sheave", rigging.SheaveTable(), "", units.Down},
		{"tractions", "Traction of a machine", rigging.TractionTable(), "", units.Down},
		{"turning", "Overturning moment of a standing tree", rigging.TreeAnchorTurning(), "N·m/kg", units.Down},
		{"log-soils", "Soil factors of a {buried log}", rigging.BuriedLogSoils(), "", units.Down},
		{"picket-soils", "Soil factors of pickets", rigging.PicketSoils(), "", units.Down},
		{"hitches", "Hitch factors of a {strop}", rigging.Hitches(), "", units.Down},
		{"design", "Design factors", rigging.DesignFactors(), "", units.Up},
		{"drag", "Drag coefficient of a crown", rigging.DragCoefficients(), "", units.Up},
	} {
		s = add(t.id, t.title)
		for k, o := range offer.Entries(d.Locale, t.table, t.unit, t.way) {
			s.Items = append(s.Items, parts.Note{Message: o.Label, Source: t.table[k].Source.Text})
		}
	}
	return out
}

// bareSteps writes formulas with their letters explained, without numbers.
func bareSteps(l words.Locale, list []plan.Working) []parts.Step {
	out := make([]parts.Step, len(list))
	for i := range list {
		w := &list[i]
		out[i] = parts.Step{Path: w.Path, Name: w.Name, Formula: w.Formula, Source: w.Source, Values: make([]string, len(w.Values))}
		for k, v := range w.Values {
			out[i].Values[k] = v.Symbol + " = " + cmp.Or(l.Given("%s, %s", v.Name, v.Unit), v.Name)
		}
	}
	return out
}

// speciesNotes are the figures of every species, their sources by number,
// and then the sources.
func speciesNotes(l words.Locale, u *units.System) (out []parts.Note) {
	var sources []string
	for _, t := range rigging.SpeciesTable() {
		n := parts.Note{Message: l.Of(l.Say(words.Text(t.Name)), strings.Join([]string{
			u.Quantity(t.Density.Value, units.KilogramsPerCubicMetre, units.Up), u.Quantity(t.Strength.Value/rigging.MPa, units.Megapascals, units.Up),
			u.Quantity(t.StrengthLow.Value/rigging.MPa, units.Megapascals, units.Down), units.Significant(t.FormFactor.Value, 3),
		}, ", "))}
		for _, f := range [...]rigging.Figure{t.Density, t.Strength, t.StrengthLow, t.FormFactor} {
			text := l.Source(f.Source)
			k := slices.Index(sources, text)
			if k < 0 {
				k = len(sources)
				sources = append(sources, text)
			}
			n.Source = words.Listed(n.Source, "("+units.Decimal(float64(k+1), 0)+")")
		}
		out = append(out, n)
	}
	for k, text := range sources {
		out = append(out, parts.Note{Message: "(" + units.Decimal(float64(k+1), 0) + ") " + text})
	}
	return out
}

// barePlan leaves out whatever can be: what the program takes for it are the
// defaults. Its numbers are invented.
const barePlan = `{"version": 1,
 "tree": {"height_m": 20, "diameter_cm": 40, "lean_deg": 0},
 "points": [{"id": "a", "bearing_deg": 0, "distance_m": 40, "anchor": {"kind": "machine", "mass_kg": 5000, "traction": 0.5, "rated_kN": 50}},
  {"id": "b", "bearing_deg": 5, "distance_m": 40, "anchor": {"kind": "tree", "diameter_cm": 40, "height_m": 20, "sling_height_m": 1}},
  {"id": "c", "bearing_deg": 9, "distance_m": 40, "anchor": {"kind": "buried_log", "depth_m": 1.5, "length_m": 1.5, "diameter_cm": 40}},
  {"id": "d", "bearing_deg": 13, "distance_m": 40, "anchor": {"kind": "pickets", "rows": [1]}},
  {"id": "e", "bearing_deg": 90, "distance_m": 40, "anchor": {"kind": "stump", "diameter_cm": 40, "height_m": 20, "sling_height_m": 1}}],
 "lines": [{"id": "pull", "role": "pull", "path": [{"stem_m": 10}, {"point": "b"}, {"point": "a"}], "tackle": {"stages": [{"parts": 2}]}, "puller": {"rated_kN": 10}},
  {"id": "hold", "role": "hold", "path": [{"stem_m": 10}, {"point": "e"}]}],
 "gear": [{"id": "rope", "kind": "wire_rope", "line": "pull", "wll_kN": 10},
  {"id": "sling", "kind": "sling", "line": "pull", "place": "stem", "wll_kN": 10},
  {"id": "hold rope", "kind": "wire_rope", "line": "hold", "wll_kN": 10}]}`

// defaults are what is taken where nothing was given. A value that follows
// from the tree's size is told by its rule only.
func defaults(d *draft.Plan, u *units.System) []parts.Note {
	of := func(text string) plan.Report {
		rep := plan.Evaluate([]byte(text))
		d.Tell(&rep, u)
		return rep
	}
	rep := of(barePlan)
	larger := of(strings.Replace(barePlan, `"height_m": 20, "diameter_cm": 40`, `"height_m": 30, "diameter_cm": 60`, 1))
	var out []parts.Note
	seen := map[string]bool{}
	for i, a := range rep.Assumed {
		line := fields.Assumed(d, u, &a)
		if spec, known := fields.At(a.Path); known {
			if told := spec.Path + a.Why; seen[told] {
				continue
			} else {
				seen[told] = true
			}
			line.Label = words.Capital(d.Say(spec.Label))
		}
		text := d.Of(line.Label, line.Why)
		if i < len(larger.Assumed) && larger.Assumed[i].Path == a.Path && larger.Assumed[i].Value == a.Value {
			text = d.Say("%s: %s, %s", line.Label, line.Value, line.Why)
		}
		out = append(out, parts.Note{Message: text, Source: line.Source})
	}
	return out
}
