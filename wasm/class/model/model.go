package model

import (
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
	defer func() {
		if fault := recover(); fault != nil {
			out = jsontext.Encode(&View{Title: "The model in words", Sections: []Section{}, Message: "The model could not be told: there is a fault in the program."})
		}
	}()
	var req request.Common
	if err := req.Read(raw, req.Take); err != nil {
		return jsontext.Encode(&View{Title: "The model in words", Sections: []Section{}, Message: "The page asked for the model in a way that could not be read: " + err.Error()})
	}
	return jsontext.Encode(tell(&draft.Plan{Locale: req.Settings.Locale()}, req.Settings.System()))
}

// notTrusted is when the answer is not to be gone by.
var notTrusted = []string{
	"The page says Not known, or names a problem: then there is no answer, whatever else stands there.",
	"Decay, cracks, fungus, dead or frozen wood: weight and strength are then not those of sound green wood. Only what is entered counts: a cavity in the {hinge}, weak places of the {stem}.",
	"A species that is not known, or one that varies much: the figures are means; single trees differ by a fifth and more.",
	"Anything sudden: a line that snatches, a machine that drives off or jerks, a tree that sits back, a load that drops. Every number is for a steady pull; a jerk can multiply it.",
	"Gusts and wind from the side. Only a steady wind against the {lay} is counted.",
	"Roots that lift or are cut, soft or steep ground, a {stem} that splits up from the {back cut} (barber chair).",
	"A machine that slides, tips or sinks in. Its traction is a guess until it has been tried in place.",
	"Any anchor that no competent person has judged in place: {buried log}, pickets and standing trees hold by tables made on other ground, and stumps by those of standing trees.",
	"Gear that is worn, bent, mismatched or without a tag that can be read; wet or icy rope; ice on {block}s, rope or ground.",
	"Branches, vines or neighbouring trees that catch, and a tree that is cut already, hung up or moving.",
	"Values that were guessed. A lean or a height that is wrong gives an answer that is wrong.",
}

// assumptions are what the model takes for granted, with the program's numbers.
func assumptions(u *units.System) []string {
	return []string{
		"The {stem} is stiff and turns about the {hinge} like a door; nothing slides or slips. Until the {scarf} closes the {hinge} bends, then it is taken as broken.",
		"The whole tree above the cut weighs as one mass at its {centre}, with g = " + units.Significant(rigging.G, 6) + " m/s².",
		"Ropes are straight and weightless between their places. Where a line weighs more than a twentieth of its tension, a caution says so.",
		"Points on the ground stay where they are.",
		"The wind blows steadily against the {lay} on the {crown}, in air of " + units.Significant(rigging.AirDensity, 4) + " kg/m³: " + u.Quantity(rigging.UnsaidWind, units.MetresPerSecond, units.Nearest) + " where none is given.",
		"A tension shown is with the tree standing and the pull as planned. What is judged is the greatest load from standing until the tree falls by itself, the pull lines kept at planned tension.",
		"Where several lines pull on one point, any of them may be slack: the choice that loads it most counts.",
		"Loads are rounded up, what holds is rounded down, to three digits, in " + u.Units[units.Kilonewtons].Name + ".",
	}
}

// verdictWords are how the verdict comes about.
func verdictWords() []string {
	return []string{
		"A piece, point or {puller} is within its limit up to " + units.Percent(rigging.NearFrom) + " of it, near up to " + units.Percent(1) + ", over beyond.",
		"The plan's verdict is the worst of all it is judged by: every piece, point and {puller} as planned; the bending of the {stem}; the {hinge}'s side hold; the closing of the {scarf}; where the {puller} stands; and what is out of the ordinary. All reasons stand beside it, worst first.",
		"What the {puller} can do at most only makes a verdict worse: a piece, a point or the {stem} over its limit then, or no room, keeps the plan near its limits at best; not known, it leaves the plan not known.",
		"A problem leaves the whole plan not known, unless something in it is over: that stays over. Problems are a value missing, impossible or out of its range, a field nobody knows, a missing link, a line that cannot pull the tree over, and a planned tension below the allowance. A caution leaves the verdict as it is; only what is out of the ordinary is both a caution and near the limit at best.",
		"The {scarf} has to close after the tree falls by itself. The turn at which it goes over the turn at which the {scarf} closes is judged like a load over a limit.",
		"A {puller} nearer than " + units.Significant(plan.LandingReach, 3) + " heights of the tree and within " + units.Significant(plan.LandingAngle/rigging.Deg, 3) + "° of the {lay} is over: the tree lands there. As near elsewhere it is near the limit. Our own rule, from the two tree lengths of 29 CFR 1910.266(h)(1).",
	}
}

// atMostWords are what the puller can do, and friction both ways.
func atMostWords() []string {
	return []string{
		"Friction is counted where it costs, and not where it would spare something. The haul needed goes by it: tension grows at every {block} from the tree to the {puller}, by the {block}'s efficiency and by how far the rope turns there.",
		"What reaches gear and anchors at most is worked out with that friction and with none, and the more of the two counts: a {tackle} of n parts then puts n times the haul on its line.",
		"What the {puller} makes at most follows from what limits it: its stall; the setting of a device; its grip, taken as " + units.Percent(plan.DrivingGrip) + " of the machine's weight, or its stall where that is less; or where the one watching stops it.",
		"A {puller} that only a watching person stops keeps the plan near its limits at best where its stall would put something over, or is not known.",
		"The number to hold the {puller} to is the greatest haul at which, at most, no piece, no point and not the {stem} is over, and never above its rated pull. A planned haul above it leaves no room; one above what the {puller} makes is near the limit too. The {puller}'s own row takes the planned haul against its rated pull or its setting, the lesser of them.",
	}
}

// steering is how the hinge and the hold lines are taken.
func steering() []string {
	low := units.Significant(rigging.HingeReliedOn, 2)
	return []string{
		"To size the pull the {hinge} resists by the wood's mean bending strength, fully plastic: factor " + units.Significant(rigging.HingePlastic, 3) + " on first yield. A strength from tests holds the plastic part already, so that counts it twice: cautious for the pull.",
		"To the side it holds as a beam on edge, elastic: factor " + units.Significant(rigging.HingeElastic, 3) + ". There it is relied on, so it goes by " + low + " of the mean, which 19 of 20 pieces reach, or by the species' own low figure where it has one; and a cavity takes its share of it.",
		"Side moments are taken about the middle of the bent {hinge}, half-way between the stump's axis and the {stem}'s. The side hold is judged by the worst: standing at planned tension, and at every turn at the pull then needed, until the tree falls by itself or the {scarf} closes.",
		"{Hold line}s carry what is needed so that no side moment is left on the {hinge}, and share it where they pull to the same side. One that pulls nearly straight at the {hinge} counts for nothing. They act only while the {hinge} bends: then they are let go, and nothing is asked of them.",
		"A {hold line} is planned for the allowance times its largest until the {scarf} closes, or for what it carries standing at planned tension, whichever is more. Made fast at both ends it has to stretch as well, by its stiffness; one that someone lets out under control does not.",
		"What the {hinge} would carry with the {hold line}s slack is shown beside that and not judged: they must be tight before the {back cut}.",
	}
}

// bending is how the stem is taken where the pull bends it.
func bending() []string {
	return []string{
		"From the {hinge} up to the highest tie, lines and weight above a height bend the {stem} there. The stress in its outer wood, over what the wood is relied on to bear, is judged like a load over a limit, planned and at most.",
		"Its thickness goes with its volume, or by the diameters measured, less the bark: " + units.Percent(1-rigging.UnderBark) + " of the diameter, from memory. The strength is the low one, as for side hold.",
		"A cavity leaves a ring; a wound leaves a round that much thinner; at a fork the line is taken as tied to one of two equal {stem}s. The last two are our own rules. What nobody entered counts as sound.",
		"The wind is left out of it: it blows against the pull, and a lull would lift off what it takes.",
	}
}

// anchorWords are what holds a point.
func anchorWords() []string {
	return []string{
		"Rated: its number. A stump or rock that a competent person has judged is one.",
		"A machine: the lesser of its rated pull and the level pull its ground holds, (weight − uplift) times the tangent of the angle of grip less the slope; nothing where it would slide or lift by itself.",
		"A standing tree: a share of the moment that turns such trees over. The pull counts with an arm of at least " + units.Significant(rigging.LeastArm, 2) + " m, however low the {strop} sits. A stump goes by the tree it was; no table here covers stumps.",
		"{Buried log} and pickets: what the tables say lets go, over a factor of " + units.Significant(rigging.GroundFactor, 2) + " unless another is given. The manual sizes a log for the breaking load of its rope: where it lets go before, a caution says so.",
		"A shared anchor is as strong as its worst leg.",
	}
}

// unusualWords are what is out of the ordinary: near the limit at best.
func unusualWords() []string {
	deg := func(v float64) string { return units.Significant(v/rigging.Deg, 3) + "°" }
	return []string{
		"A design factor below " + units.Significant(plan.LeastDesignFactor, 2) + ".",
		"A {hinge} thicker than " + units.Percent(plan.ThickHinge) + " of the diameter at its thicker end, or thinner than " + units.Percent(plan.ThinHinge) + " at its thinner.",
		"A {lean} above " + deg(plan.GreatLean) + ", or one to the side above " + deg(plan.GreatSideLean) + " with no {hold line} against it.",
		"A tree less than " + units.Significant(plan.LeastSlenderness, 3) + " or more than " + units.Significant(plan.MostSlenderness, 3) + " times as high as it is thick.",
		"A cavity of more than a third of the {hinge}'s length.",
		"Lines that together pull more than " + deg(plan.FarOffLay) + " off the {lay}.",
		"A line tied in the top " + units.Percent(1-plan.TopOfTree) + " of the tree.",
	}
}

// linksAsked are what has to be there before anything is within.
var linksAsked = []string{
	"On every line a rope. At each of its ends, on the {stem} and at the anchor, a piece that holds it, not only a {block}, or the word that the rope itself is tied there, with what its knot or termination takes off. The end on a machine that pulls needs neither.",
	"Wherever a rope runs over a {block}, at the {stem}, at a point or in a {tackle}, that {block} among the gear.",
	"At every point that carries a load, what holds it.",
	"For every pull, the {puller}'s rated pull and what limits it.",
}

func tell(d *draft.Plan, u *units.System) *View {
	out := &View{Title: "The model in words"}
	lookup := false
	add := func(id, title string) *Section {
		out.Sections = append(out.Sections, Section{ID: id, Title: d.Words(title), Folded: lookup})
		return &out.Sections[len(out.Sections)-1]
	}
	notes := func(texts []string, source string) (list []parts.Note) {
		for _, t := range texts {
			list = append(list, parts.Note{Message: words.Capital(d.Words(t)), Source: source})
		}
		return list
	}
	s := add("what", "What it is")
	s.Paragraphs = []string{
		d.Say("The forces on a tree, a line, its {block}s and its anchors that pull against each other and stay in balance: statics, for a tree turned slowly about its {hinge}. It says how much pull is needed and what each piece then carries."),
		d.Say("Every number is an estimate. Local codes and licensed practice come first. Soundness of tree, anchors and gear, and the go-ahead, are for a competent, licensed person on the spot."),
	}
	s = add("trust", "When not to trust the answer")
	s.Items = notes(notTrusted, "")
	s = add("assumed", "What is assumed")
	s.Items = notes(assumptions(u), "")
	for _, part := range []struct {
		id, title string
		texts     []string
	}{
		{"verdict", "How the verdict comes about", verdictWords()},
		{"at-most", "What the {puller} can do at most, and friction", atMostWords()},
		{"steering", "{Hinge} and {hold line}s", steering()},
		{"stem", "What bends the {stem}", bending()},
		{"anchors", "What holds a point", anchorWords()},
		{"unusual", "Out of the ordinary: near the limit at best", unusualWords()},
		{"links", "What has to be there: without it, not known", linksAsked},
	} {
		s = add(part.id, part.title)
		s.Items = notes(part.texts, "")
	}
	s = add("left-out", "What is left out")
	var left, always []parts.Note
	for _, n := range parts.Standing(d.Locale) {
		if strings.HasPrefix(n.Code, "left-out") {
			n.Message = words.Capital(strings.TrimPrefix(n.Message, "Left out: "))
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
		s = add("formulas-"+units.Decimal(float64(i+1), 0), g.Title)
		s.Steps = bareSteps(g.Steps)
	}
	s = add("defaults", "Taken where nothing was given")
	s.Paragraphs = []string{"Each of them can be typed over, and a measured value is always better. Every plan lists those it took."}
	s.Items = defaults(d, u)
	s = add("species", "Figures of the species")
	s.Paragraphs = []string{d.Say("Green weight with bark, bending strength of the green wood to size the pull by and to rely on, and form factor of the {stem}.")}
	s.Items = speciesNotes(u)
	for _, t := range []struct {
		id, title string
		table     []rigging.Entry
		unit      string
		way       units.Direction
	}{
		{"sheaves", "Efficiency of a sheave", rigging.SheaveTable(), "", units.Down},
		{"tractions", "Traction of a machine", rigging.TractionTable(), "", units.Down},
		{"turning", "Turning moment of a standing tree", rigging.TreeAnchorTurning(), "N·m/kg", units.Down},
		{"log-soils", "Soil factors of a {buried log}", rigging.BuriedLogSoils(), "", units.Down},
		{"picket-soils", "Soil factors of pickets", rigging.PicketSoils(), "", units.Down},
		{"hitches", "Hitch factors of a {strop}", rigging.Hitches(), "", units.Down},
		{"design", "Design factors", rigging.DesignFactors(), "", units.Up},
		{"drag", "Drag of a crown", rigging.DragCoefficients(), "", units.Up},
	} {
		s = add(t.id, t.title)
		for k, o := range offer.Entries(d.Locale, t.table, t.unit, t.way) {
			s.Items = append(s.Items, parts.Note{Message: o.Label, Source: t.table[k].Source.Text})
		}
	}
	return out
}

// bareSteps writes formulas with their letters explained, without numbers.
func bareSteps(list []plan.Working) []parts.Step {
	out := make([]parts.Step, len(list))
	for i := range list {
		w := &list[i]
		out[i] = parts.Step{Path: w.Path, Name: w.Name, Formula: w.Formula, Source: w.Source, Values: make([]string, len(w.Values))}
		for k, v := range w.Values {
			out[i].Values[k] = v.Symbol + " = " + v.Name + words.Around(", ", v.Unit, "")
		}
	}
	return out
}

// speciesNotes are the figures of every species, their sources by number,
// and then the sources.
func speciesNotes(u *units.System) (out []parts.Note) {
	var sources []string
	for _, t := range rigging.SpeciesTable() {
		n := parts.Note{Message: t.Name + ": " + strings.Join([]string{
			u.Quantity(t.Density.Value, units.KilogramsPerCubicMetre, units.Up), u.Quantity(t.Strength.Value/rigging.MPa, units.Megapascals, units.Up),
			u.Quantity(t.StrengthLow.Value/rigging.MPa, units.Megapascals, units.Down), units.Significant(t.FormFactor.Value, 3),
		}, ", ")}
		for _, f := range [...]rigging.Figure{t.Density, t.Strength, t.StrengthLow, t.FormFactor} {
			text := f.Source.Words()
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
		text := line.Label + ": "
		if i < len(larger.Assumed) && larger.Assumed[i].Path == a.Path && larger.Assumed[i].Value == a.Value {
			text += line.Value + ", "
		}
		out = append(out, parts.Note{Message: text + line.Why, Source: line.Source})
	}
	return out
}
