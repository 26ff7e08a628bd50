package screen

import (
	"math"
	"strings"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
)

// ViewJSON answers a Request with the View of its plan. It answers to any
// input; what it cannot work out is unknown, with the problem named.
func ViewJSON(request []byte) (out []byte) {
	defer func() {
		if fault := recover(); fault != nil {
			out = encode(brokenView("The page could not work this plan out: there is a fault in the program. Nothing shown before counts.", ""))
		}
	}()
	req, err := parseRequest(request)
	if err != nil {
		return encode(brokenView("The page asked for a view in a way that could not be read: "+err.Error(), ""))
	}
	return encode(view(req))
}

// EditJSON answers a Request for an edit with Changes.
func EditJSON(request []byte) []byte {
	return answer(request, func(req *Request, d *document, u *unitSystem) Changes {
		return edit(d, u, req.Path, req.Text)
	})
}

// ActJSON answers a Request for an action with Changes.
func ActJSON(request []byte) []byte {
	return answer(request, func(req *Request, d *document, u *unitSystem) Changes {
		if req.Do == "suggest" {
			rep := plan.EvaluateTree(req.Plan, req.size)
			return suggest(d, u, &rep, req.Path)
		}
		if req.Do == "next-stem" {
			e := &editor{d: d, u: u}
			e.nextStem(req.Text)
			return e.out
		}
		return act(d, u, req.Do, req.Path)
	})
}

// DragJSON answers a Request for a drag, or a step from the keyboard, with
// Changes.
func DragJSON(request []byte) []byte {
	return answer(request, func(req *Request, d *document, u *unitSystem) Changes {
		rep := plan.EvaluateTree(req.Plan, req.size)
		return drag(*req, d, &rep)
	})
}

// answer reads a request and never fails: where it cannot be done, the
// changes are none and the message says so.
func answer(request []byte, do func(*Request, *document, *unitSystem) Changes) (out []byte) {
	defer func() {
		if fault := recover(); fault != nil {
			out = encode(&Changes{Changes: []Change{}, Message: "Nothing was changed: there is a fault in the program."})
		}
	}()
	req, err := parseRequest(request)
	if err != nil {
		return encode(&Changes{Changes: []Change{}, Message: "Nothing was changed: " + err.Error()})
	}
	d, u := req.told()
	if d.err != nil {
		return encode(&Changes{Changes: []Change{}, Message: "Nothing was changed: " + d.err.Error()})
	}
	changes := do(req, d, u)
	if changes.Changes == nil {
		changes.Changes = []Change{}
	}
	return encode(&changes)
}

// encode writes an answer.
func encode(v interface{ appendJSON(*jsontext.Writer) }) []byte {
	size := 4 << 10
	if view, ok := v.(*View); ok {
		size = 64 << 10
		if len(view.Form) > 0 {
			size = 160 << 10
		}
	}
	w := jsontext.NewWriter(size)
	v.appendJSON(w)
	return w.Bytes()
}

// brokenView is the view of what could not be read or worked out.
func brokenView(message, path string) *View {
	return &View{
		Headline: Headline{
			Verdict: rigging.Unknown.String(), Word: headlineWords[rigging.Unknown], Sentence: message,
			Use: none, Stall: rigging.Unknown.String(),
		},
		Facts: []Fact{}, Form: []Section{}, Pieces: []Piece{}, Cautions: []Note{},
		Problems: []Note{{Path: path, Message: message}}, Standing: new(document).standing(),
		Assumed: []AssumedLine{}, Working: []Step{}, Taken: []Step{}, Steps: []JobStep{}, Units: unitOptions(), UnitsNow: systemKN.key, Words: wordOptions(), WordsNow: regionTable[wordsNZ].key,
	}
}

const longestName = 120 // characters of a plan's name over its page

// shortened cuts a text of a hostile length.
func shortened(s string, most int) string {
	for i := range s {
		if most--; most < 0 {
			return s[:i] + "…"
		}
	}
	return s
}

// hopeless is the size of a plan, bytes, that is not looked into at all. A
// smaller one that is too long still has its form, to be shortened there.
const hopeless = 4 * plan.MaxBytes

// view makes the view of a request's plan.
func view(req *Request) *View {
	if req.size > hopeless {
		req.Plan = nil
	}
	rep := plan.EvaluateTree(req.Plan, req.size)
	d, u := req.told()
	d.retell(&rep)
	u.reword(&rep)
	v := viewOf(d, u, &rep, req.Light)
	if req.Report {
		v.Report = &rep
	}
	v.shareLists()
	v.Side, v.Plan, v.Curve = drawings(req.Boxes, d, &rep, u)
	return v
}

// viewOf makes all of a view but the drawings; a light one is without form,
// working and standing notes.
func viewOf(d *document, u *unitSystem, rep *plan.Report, light bool) *View {
	v := &View{
		Facts:    facts(d, u, rep),
		Form:     []Section{},
		Pieces:   pieces(d, u, rep),
		Problems: make([]Note, 0, len(rep.Problems)),
		Cautions: make([]Note, 0, len(rep.Cautions)),
		Standing: []Note{},
		Assumed:  make([]AssumedLine, 0, len(rep.Assumed)),
		Working:  []Step{},
		Taken:    []Step{},
		Name:     shortened(d.text("name"), longestName),
		Units:    unitOptions(),
		UnitsNow: u.key,
		Words:    wordOptions(),
		WordsNow: regionTable[d.region].key,
		Fresh:    rep.Pull.PlannedKN.Known(),
	}
	if !light {
		v.Form, v.Working, v.Standing = buildForm(d, u, rep), workingSteps(d, u, rep), d.standing()
	}
	for _, p := range rep.Problems {
		v.Problems = append(v.Problems, Note{Path: p.Path, Message: located(d, p)})
	}
	for _, c := range rep.Cautions {
		if saidAlready(c.Code) {
			continue
		}
		v.Cautions = append(v.Cautions, Note{Code: c.Code, Path: c.Path, Message: c.Message, Short: firstSentence(c.Message), Source: c.Source})
	}
	for _, a := range rep.Assumed {
		v.Assumed = append(v.Assumed, assumedLine(d, u, a))
	}
	if !light {
		v.Taken = takenSteps(v.Assumed)
	}
	v.Headline = headline(d, u, rep, v.Pieces)
	v.Steps = jobSteps(d, rep, &v.Headline, v.Form)
	v.After, v.Stem = afterwards(d, u, rep), sharedStem(d)
	if !light {
		v.Brief = briefing(d, u, rep)
	}
	return v
}

// saidAlready says whether a caution is one that the page always shows in its
// standing notes, or beside every anchor.
func saidAlready(code string) bool {
	switch code {
	case "competent", "distance", "recoil", "power_lines", "signals", "statics", "anchor_estimate":
		return true
	}
	return false
}

func assumedLine(d *document, u *unitSystem, a plan.Assumed) AssumedLine {
	line := AssumedLine{Path: a.Path, Label: labelOf(d, a.Path), Why: a.Why, Source: a.Source}
	if _, number := takenNumber(&a); number && a.Path != "version" {
		line.Working = a.Path
	}
	if a.Basis != "" && a.Basis != "published" {
		line.Source = summary(a.Source, a.Basis)
	}
	spec, known := fieldAt(a.Path)
	switch {
	case known:
		b := formBuilder{d: d, u: u}
		line.Value = b.value(spec, a.Value)
		if spec.kind == kindNumber && line.Value != "" {
			line.Value += u.unit(spec.dim)
		}
	default:
		line.Value = written(a.Value)
	}
	if line.Value == "" || line.Value == "null" {
		line.Value = none
	}
	return line
}

// headlineVerdict is the report's verdict, but never a reassuring one over a
// report with anything missing in it: the page's own second look.
func headlineVerdict(rep *plan.Report) rigging.Verdict {
	v := rep.Verdict
	incomplete := len(rep.Problems) > 0 || len(rep.Gear) == 0 || !rep.GoverningUse.Known() ||
		!rep.Pull.PlannedKN.Known() || rep.Pull.PlannedKN < 0
	for _, g := range rep.Gear {
		v = v.Worse(g.Verdict)
		incomplete = incomplete || !g.LoadKN.Known() || !g.CapacityKN.Known()
	}
	for _, p := range rep.Points {
		v = v.Worse(p.Verdict)
		incomplete = incomplete || !p.LoadKN.Known()
	}
	if float64(rep.GoverningUse) > 1 {
		v = v.Worse(rigging.Over)
	}
	if incomplete {
		v = v.Worse(rigging.Unknown)
	}
	return v
}

func headline(d *document, u *unitSystem, rep *plan.Report, pieces []Piece) Headline {
	v := headlineVerdict(rep)
	h := Headline{
		Verdict: v.String(), Word: headlineWords[v], Governing: rep.Governing,
		Use: percent(float64(rep.GoverningUse)), Stall: stallVerdict(rep, v).String(),
	}
	piece := func(id string) (Piece, bool) {
		for _, p := range pieces {
			if p.ID == id {
				return p, true
			}
		}
		return Piece{}, false
	}
	var governs []Part
	if p, ok := piece(rep.Governing); ok && rep.Governing != "" {
		governs = []Part{{Text: p.Title + ": "}, {p.Load, p.LoadWorking}}
		switch {
		case p.Capacity == none:
			governs = append(governs, Part{Text: ", and what it holds is not known."})
		case strings.HasSuffix(p.Use, "%"):
			governs = append(governs, Part{Text: " on "}, Part{p.Capacity, p.CapacityWorking}, Part{Text: ", "}, Part{p.Use, p.UseWorking}, Part{Text: " used."})
		default:
			governs = append(governs, Part{Text: " on what holds nothing."})
		}
		if p.Estimate != "" {
			governs = append(governs, Part{Text: " " + p.Estimate})
		}
	}
	switch v {
	case rigging.Unknown:
		h.Parts = words(firstMissing(d, rep, pieces))
		h.Use = none // a use of part of the plan would reassure
	case rigging.Over:
		h.Parts = governs
		if len(rep.Problems) > 0 {
			h.Parts = joinParts(governs, words("Besides: "+firstMissing(d, rep, pieces)))
		}
		if len(h.Parts) == 0 {
			h.Parts = words("A piece carries more than it may.")
		}
	case rigging.Within, rigging.Near:
		h.Parts = governs
		if rep.Pull.PlannedKN == 0 { // nothing carries anything, so no use says anything
			h.Parts = words("The line only steers: the tree needs no pull to go over, and may go before anyone is ready.")
			h.Use = none
		}
		if rep.Tree.SideHoldUse > 1 { // the plan's verdict is over gear, pullers and points only
			h.Parts = joinParts(words(d.say("The {hinge} is not estimated to hold the side moment: the tree may tear off to the side.")), h.Parts)
		}
	}
	h.StallParts = stallParts(d, u, rep, piece, stallVerdict(rep, v))
	h.Sentence, h.Parts = sentence(h.Parts)
	h.StallText, h.StallParts = sentence(h.StallParts)
	return h
}

func words(text string) []Part { return []Part{{Text: text}} }

// join puts two sentences one after the other.
func join(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + " " + b
}

func joinParts(a, b []Part) []Part {
	if len(a) == 0 || len(b) == 0 {
		return append(a, b...)
	}
	return append(append(a, Part{Text: " "}), b...)
}

// sentence is what parts say together, and the parts where any can be opened.
func sentence(parts []Part) (text string, opens []Part) {
	for _, p := range parts {
		text += p.Text
		if p.Working != "" {
			opens = parts
		}
	}
	return text, opens
}

// located is a problem's message with the part of the plan it lies in before
// it, unless the message names a part itself.
func located(d *document, p plan.Problem) string {
	if p.Message == "" {
		return "The plan has a problem at " + p.Path + "."
	}
	if owner := ownerOf(d, p.Path); owner != "" && !strings.Contains(p.Message, "“") {
		return owner + ": " + p.Message
	}
	return capital(p.Message)
}

// firstMissing names the first thing that keeps a plan from being judged.
func firstMissing(d *document, rep *plan.Report, pieces []Piece) string {
	if n := len(rep.Problems); n > 0 {
		text := located(d, rep.Problems[0])
		if last := text[len(text)-1]; last != '.' && last != '!' && last != '?' {
			text += "."
		}
		switch {
		case n == 2:
			text += " One more problem is listed below."
		case n > 2:
			text += " " + countOf(n-1, "", "more problems are listed below.")
		}
		return text
	}
	for _, p := range pieces {
		if p.Verdict == rigging.Unknown.String() {
			return p.Title + ": its load or what it holds is not known."
		}
	}
	return "There is not enough in the plan to judge it."
}

// stallVerdict is the verdict at stall, never better known than the plan.
func stallVerdict(rep *plan.Report, planned rigging.Verdict) rigging.Verdict {
	v := rep.StallVerdict
	for _, g := range rep.Gear {
		// A puller at its own stall is past its rating by its nature.
		if g.Kind != "puller" && !isPuller(rep, g.ID) {
			v = v.Worse(g.StallVerdict)
		}
	}
	if planned == rigging.Unknown || len(rep.Problems) > 0 {
		v = v.Worse(rigging.Unknown)
	}
	return v
}

func isPuller(rep *plan.Report, id string) bool {
	for _, l := range rep.Lines {
		if id == l.ID+"/puller" {
			return true
		}
	}
	return false
}

func stallParts(d *document, u *unitSystem, rep *plan.Report, piece func(string) (Piece, bool), v rigging.Verdict) []Part {
	what := ""
	if p, ok := piece(rep.StallGoverning); ok && rep.StallGoverning != "" {
		what = p.Title
		if p.StallUse != none {
			what += " at " + p.StallUse
		}
	}
	var hold []Part
	if rep.Pull.HoldPullTo.Known() {
		limit := "pull.hold_puller_to_kN"
		if stepsByPath(rep)[limit] == nil {
			limit = ""
		}
		hold = []Part{{Text: d.say("Hold the {puller} to ")}, {u.holds(float64(rep.Pull.HoldPullTo)), limit}, {Text: "."}}
	}
	switch v {
	case rigging.Over: // what to do first: a phone has room for two lines
		return joinParts(hold, words("If it pulls until it stalls: over the limit"+with(", ", what, "")+"."))
	case rigging.Near:
		return words("If it pulls until it stalls: near the limit" + with(", ", what, "") + ".")
	case rigging.Within:
		return words("If it pulls until it stalls: still within limits as computed" + with(", ", what, "") + ".")
	}
	return words(d.say("What happens when the {puller} pulls until it stalls is not known."))
}

// sided puts a signed quantity into words: so much one way or the other.
func sided(text func(float64) string, v float64, positive, negative, nought string) string {
	shown := text(math.Abs(v))
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return none
	case shown == text(0):
		return nought
	case v > 0:
		return shown + " " + positive
	}
	return shown + " " + negative
}

const estimateNote = "An estimate."

// facts are the main numbers.
func facts(d *document, u *unitSystem, rep *plan.Report) []Fact {
	p, t := &rep.Pull, &rep.Tree
	degree := func(v plan.Num) string { return u.quantity(float64(v), degrees, nearest) }
	moments := func(v float64) string { return u.quantity(v, moment, upward) }
	degreesOf := func(v float64) string { return u.quantity(v, degrees, upward) }

	allowance := ""
	switch {
	case d.has("planned_kN"):
		allowance = "The crew's own."
	case p.Allowance.Known():
		allowance = "Allowance " + significant(float64(p.Allowance), 3) + " times the largest pull needed."
	}
	peak := ""
	if p.PeakDeg.Known() {
		peak = "With the tree turned " + degree(p.PeakDeg) + "."
	}
	out := []Fact{
		{ID: "planned", Label: "Planned tension", Value: u.load(float64(p.PlannedKN)), Note: allowance, Working: "pull.planned_kN"},
		{ID: "start", Label: "Pull needed to start", Value: u.load(float64(p.StartKN)), Working: "pull.start_kN"},
		{ID: "peak", Label: "Largest pull needed", Value: u.load(float64(p.PeakKN)), Note: peak, Working: "pull.peak_kN"},
		{ID: "hold-puller", Label: d.say("Hold the {puller} to"), Value: u.holds(float64(p.HoldPullTo)), Note: d.say("The most at the {puller} that no piece and no point is overloaded by."), Working: "pull.hold_puller_to_kN"},
		{ID: "commit", Label: "Falls by itself from", Value: degree(p.CommitDeg), Note: "Turn from standing; until then the line has to pull.", Working: "pull.commit_deg"},
	}
	var pulls int
	for _, l := range rep.Lines {
		if l.Role != "hold" {
			pulls++
		}
	}
	for i, l := range rep.Lines {
		of := ""
		at := func(field string) string { return elem("lines", i) + "." + field }
		if l.Role == "hold" {
			name := d.say("{hold line}")
			if l.ID != l.Role {
				name += " " + l.ID
			}
			out = append(out, Fact{ID: "hold-tension:" + l.ID, Label: "Tension of " + name, Value: u.load(float64(l.TensionKN)), Working: at("tension_kN")},
				Fact{ID: "hold-length:" + l.ID, Label: "Rope of " + name, Note: d.say("Until the {scarf} closes. A line that comes tight pulls the tree off its {lay}."),
					Value: sided(func(v float64) string { return u.quantity(v, metres, upward) }, float64(l.LengthChangeM), "to pay out", "goes slack", "stays as it is"), Working: at("length_change_m")})
			continue
		}
		if pulls > 1 {
			of = ", line " + l.ID
		}
		out = append(out,
			Fact{ID: "haul:" + l.ID, Label: d.say("Haul at the {puller}") + of, Value: u.load(float64(l.HaulKN)), Note: advantageNote(d, &l), Working: at("haul_kN")},
			Fact{ID: "travel:" + l.ID, Label: "Line comes in by" + of, Value: u.quantity(float64(l.HaulM), metres, upward), Note: "Until the tree falls by itself.", Working: at("haul_m")},
			Fact{ID: "rope:" + l.ID, Label: d.say("Rope to haul at the {puller}") + of, Value: u.quantity(float64(l.RopeToHaulM), metres, upward), Working: at("rope_to_haul_m")})
	}
	out = append(out,
		Fact{ID: "drift", Label: "Drift", Value: sided(degreesOf, float64(p.DriftDeg), "to the left", "to the right", d.say("straight along the {lay}")), Note: d.say("Which way weight and lines together push it, before the {hinge} steers. ") + estimateNote, Working: "pull.drift_deg"},
		Fact{ID: "side-hold", Label: d.say("Side hold of the {hinge}"), Value: with("", percent(float64(t.SideHoldUse)), usedOf(t.SideHoldUse)), Note: "An estimate: it counts on sound wood and an even cut.", Working: "tree.side_hold_use"},
		Fact{ID: "mass", Label: d.say("Mass above the {hinge}"), Value: u.quantity(float64(t.MassKg), kilograms, upward), Note: massNote(d), Working: "tree.mass_kg"},
		Fact{ID: "centre", Label: d.say("Mass {centre}"), Value: u.quantity(float64(t.MassCentreM), metres, nearest), Note: "Along the stem from the ground. " + estimateNote, Working: "tree.mass_centre_m"},
		Fact{ID: "forward", Label: d.say("Moment of the weight along the {lay}"), Value: sided(moments, float64(t.ForwardMomentKNm), d.say("toward the {lay}"), d.say("against the {lay}"), "none"), Working: "tree.forward_moment_kNm"},
		Fact{ID: "side", Label: "Moment of the weight sideways", Value: sided(moments, float64(t.SideMomentKNm), "to the left", "to the right", "none"), Working: "tree.side_moment_kNm"},
		Fact{ID: "hinge", Label: d.say("Moment to bend the {hinge}"), Value: moments(float64(t.HingeMomentKNm)), Note: estimateNote, Working: "tree.hinge_moment_kNm"},
	)
	has := stepsByPath(rep)
	for i := range out {
		if has[out[i].Working] == nil {
			out[i].Working = ""
		}
	}
	return out
}

func usedOf(n plan.Num) string {
	if n.Known() {
		return " used"
	}
	return ""
}

func massNote(d *document) string {
	if d.has("tree.mass_kg") {
		return "As given."
	}
	return estimateNote
}

func advantageNote(d *document, l *plan.LineReport) string {
	if l.Tackle == nil || !l.IdealAdvantage.Known() || !l.ActualAdvantage.Known() {
		return ""
	}
	actual := decimal(roundWay(float64(l.ActualAdvantage), 0.01, downward), -1)
	return d.say("{Tackle} ") + significant(float64(l.IdealAdvantage), 3) + " to 1, with friction " + actual + " to 1."
}
