package screen

import (
	"slices"
	"strings"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/parts"
	"pullline/wasm/scene"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// ViewJSON answers a Request with the View of its plan. It answers to any
// input; what it cannot work out is unknown, with the problem named.
func ViewJSON(request []byte) (out []byte) {
	defer func() {
		if fault := recover(); fault != nil {
			out = jsontext.Encode(brokenView("The page could not work this plan out: there is a fault in the program. Nothing shown before counts.", ""))
		}
	}()
	req, err := parseRequest(request)
	if err != nil {
		return jsontext.Encode(brokenView("The page asked for a view in a way that could not be read: "+err.Error(), ""))
	}
	return view(req).encode()
}

// EditJSON answers a Request for an edit with Changes.
func EditJSON(request []byte) []byte {
	return answer(request, func(req *Request, d *draft.Plan, u *units.System) parts.Changes {
		return edit(d, u, req.Path, req.Text)
	})
}

// ActJSON answers a Request for an action with Changes.
func ActJSON(request []byte) []byte {
	return answer(request, func(req *Request, d *draft.Plan, u *units.System) parts.Changes {
		if req.Do == "suggest" {
			rep := plan.EvaluateTo(req.Plan, req.size, plan.ToReport)
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
	return answer(request, func(req *Request, d *draft.Plan, u *units.System) parts.Changes {
		rep := plan.EvaluateTo(req.Plan, req.size, plan.ToReport)
		return drag(*req, d, &rep)
	})
}

// answer reads a request and never fails: where it cannot be done, the
// changes are none and the message says so.
func answer(request []byte, do func(*Request, *draft.Plan, *units.System) parts.Changes) (out []byte) {
	defer func() {
		if fault := recover(); fault != nil {
			out = jsontext.Encode(&parts.Changes{Changes: []parts.Change{}, Message: "Nothing was changed: there is a fault in the program."})
		}
	}()
	req, err := parseRequest(request)
	if err != nil {
		return jsontext.Encode(&parts.Changes{Changes: []parts.Change{}, Message: "Nothing was changed: " + err.Error()})
	}
	d, u := req.Settings.Told(req.Plan)
	if d.Err != nil {
		return jsontext.Encode(&parts.Changes{Changes: []parts.Change{}, Message: "Nothing was changed: " + d.Err.Error()})
	}
	changes := do(req, d, u)
	if changes.Changes == nil {
		changes.Changes = []parts.Change{}
	}
	return jsontext.Encode(&changes)
}

// encode writes a view, with room for it at once.
func (v *View) encode() []byte {
	size := 64 << 10
	if len(v.Form) > 0 {
		size = 160 << 10
	}
	w := jsontext.NewWriter(size)
	v.AppendJSON(w)
	return w.Bytes()
}

// brokenView is the view of what could not be read or worked out.
func brokenView(message, path string) *View {
	return &View{
		Headline: Headline{
			Verdict: rigging.Unknown.String(), Word: words.Headline[rigging.Unknown], Sentence: message,
			Use: units.None, AtMost: rigging.Unknown.String(), Why: []parts.Note{},
		},
		Facts: []parts.Fact{}, Form: []parts.Section{}, Pieces: []Piece{}, Cautions: []parts.Note{},
		Problems: []parts.Note{{Path: path, Message: message}}, Standing: parts.Standing(words.Locale{}),
		Assumed: []parts.Assumed{}, Working: []parts.Step{}, Taken: []parts.Step{}, Steps: []JobStep{}, Units: parts.Units(), UnitsNow: units.KN.Key, Words: parts.Words(), WordsNow: words.NZ.Key(),
	}
}

const longestName = 120 // characters of a plan's name over its page

// hopeless is the size of a plan, bytes, that is not looked into at all. A
// smaller one that is too long still has its form, to be shortened there.
const hopeless = 4 * plan.MaxBytes

// view makes the view of a request's plan.
func view(req *Request) *View {
	if req.size > hopeless {
		req.Plan = nil
	}
	rep := plan.EvaluateTree(req.Plan, req.size)
	d, u := req.Settings.Told(req.Plan)
	d.Tell(&rep, u)
	v := viewOf(d, u, &rep, req.Light)
	if req.Report {
		v.Report = &rep
	}
	v.shareLists()
	v.Side, v.Plan, v.Curve = scene.Drawings(req.Boxes, d, &rep, u)
	return v
}

// viewOf makes all of a view but the drawings; a light one is without form,
// working and standing notes.
func viewOf(d *draft.Plan, u *units.System, rep *plan.Report, light bool) *View {
	v := &View{
		Facts:    facts(d, u, rep),
		Form:     []parts.Section{},
		Pieces:   pieces(d, u, rep),
		Problems: make([]parts.Note, 0, len(rep.Problems)),
		Cautions: make([]parts.Note, 0, len(rep.Cautions)),
		Standing: []parts.Note{},
		Assumed:  make([]parts.Assumed, 0, len(rep.Assumed)),
		Working:  []parts.Step{},
		Taken:    []parts.Step{},
		Name:     words.Shortened(d.Text("name"), longestName),
		Units:    parts.Units(),
		UnitsNow: u.Key,
		Words:    parts.Words(),
		WordsNow: d.Region.Key(),
		Fresh:    rep.Pull.PlannedKN.Known(),
	}
	if !light {
		v.Form, v.Working, v.Standing = buildForm(d, u, rep), workingSteps(u, rep), parts.Standing(d.Locale)
	}
	for _, p := range rep.Problems {
		v.Problems = append(v.Problems, parts.Note{Path: p.Path, Message: fields.Located(d, p)})
	}
	for _, c := range rep.Cautions {
		if parts.Stands(c.Code) || isReason(rep, &c) {
			continue
		}
		v.Cautions = append(v.Cautions, parts.Note{Code: c.Code, Path: c.Path, Message: c.Message, Source: c.Source})
	}
	for _, a := range rep.Assumed {
		v.Assumed = append(v.Assumed, fields.Assumed(d, u, &a))
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

// isReason says whether a caution is also a reason for the verdict, in the same
// words: it stands there.
func isReason(rep *plan.Report, c *plan.Caution) bool {
	for i := range rep.Why {
		if y := &rep.Why[i]; y.Code == c.Code && y.Path == c.Path && y.Saying.Key == c.Saying.Key {
			return true
		}
	}
	return false
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

func headline(d *draft.Plan, u *units.System, rep *plan.Report, pieces []Piece) Headline {
	v := headlineVerdict(rep)
	most := mostVerdict(rep, v)
	h := Headline{
		Verdict: v.String(), Word: words.Headline[v], Governing: rep.Governing,
		Use: units.Percent(float64(rep.GoverningUse)), AtMost: most.String(), Why: make([]parts.Note, 0, len(rep.Why)),
	}
	for _, y := range rep.Why {
		if !isProblem(rep, &y) { // those stand in a list of their own
			h.Why = append(h.Why, parts.Note{Code: y.Code, Path: y.Path, Message: y.Message, State: y.Verdict.String()})
		}
	}
	if rep.Pull.HoldPullTo.Known() && !rep.NoRoom && v != rigging.Unknown {
		h.Hold, h.HoldLabel = u.Capacity(float64(rep.Pull.HoldPullTo)), d.Say("Hold the {puller} to")
		if scene.StepsByPath(rep)["pull.hold_puller_to_kN"] != nil {
			h.HoldWorking = "pull.hold_puller_to_kN"
		}
	}
	switch worst := worstRow(rep); {
	case v == rigging.Near && rep.OnlyIfHeld && h.Hold != "":
		h.Held, h.Word = true, words.OnlyIfHeld+h.Hold
	case v == rigging.Over && worst != rigging.Over:
		h.Word = words.NotLikeThis
	case v == rigging.Near && worst == rigging.Within:
		h.Word = words.LookAgain
	}
	piece := func(id string) (Piece, bool) {
		for _, p := range pieces {
			if p.ID == id {
				return p, true
			}
		}
		return Piece{}, false
	}
	governs := governing(rep, piece)
	switch {
	case v == rigging.Unknown:
		h.Parts = inWords(firstMissing(d, rep, pieces))
		h.Use = units.None // a use of part of the plan would reassure
	case h.Held: // what may come stands beside it
		h.Parts = governs
	case len(h.Why) > 0:
		h.Parts = inWords(h.Why[0].Message)
		if governs != nil && ofPiece(h.Why[0].Code) {
			h.Parts = governs
		}
		if len(rep.Problems) > 0 { // over outranks them
			h.Parts = joinParts(h.Parts, inWords("Besides: "+firstMissing(d, rep, pieces)))
		} else if n := len(h.Why); n > 1 {
			h.Parts = joinParts(h.Parts, inWords(words.CountOf(n-1, "more reason is listed below.", "more reasons are listed below.")))
		}
	default:
		h.Parts = governs
	}
	if rep.Pull.PlannedKN == 0 && v != rigging.Unknown { // nothing carries anything, so no use says anything
		steers := inWords("The line only steers: the tree needs no pull to go over, and may go before anyone is ready.")
		if h.Use = units.None; len(h.Why) > 0 {
			steers = joinParts(steers, h.Parts)
		}
		h.Parts = steers
	}
	if len(h.Parts) == 0 {
		h.Parts = inWords("A piece carries more than it may.")
	}
	h.AtMostParts = atMostParts(d, u, rep, piece, most)
	h.Sentence, h.Parts = sentence(h.Parts)
	h.AtMostText, h.AtMostParts = sentence(h.AtMostParts)
	return h
}

// worstRow is the worst verdict of any piece, puller or point as planned.
func worstRow(rep *plan.Report) rigging.Verdict {
	worst := rigging.Within
	for i := range rep.Gear {
		worst = worst.Worse(rep.Gear[i].Verdict)
	}
	for i := range rep.Points {
		worst = worst.Worse(rep.Points[i].Verdict)
	}
	return worst
}

// isProblem says whether a reason is one of the plan's problems.
func isProblem(rep *plan.Report, y *plan.Why) bool {
	for i := range rep.Problems {
		if p := &rep.Problems[i]; p.Path == y.Path && string(p.Code) == y.Code {
			return true
		}
	}
	return false
}

// ofPiece says whether a reason is that of a row of its own.
func ofPiece(code string) bool {
	switch code {
	case "piece_over", "point_over", "puller_over", "piece_near", "point_near", "puller_near":
		return true
	}
	return false
}

// governing says what the piece, puller or point with the greatest use carries.
func governing(rep *plan.Report, piece func(string) (Piece, bool)) []Part {
	p, ok := piece(rep.Governing)
	if !ok || rep.Governing == "" {
		return nil
	}
	parts := []Part{{Text: p.Title + ": "}, {p.Load, p.LoadWorking}}
	switch {
	case p.Capacity == units.None:
		parts = append(parts, Part{Text: ", and what it holds is not known."})
	case strings.HasSuffix(p.Use, "%"):
		parts = append(parts, Part{Text: " of "}, Part{p.Capacity, p.CapacityWorking}, Part{Text: ", "}, Part{p.Use, p.UseWorking}, Part{Text: " used."})
	default:
		parts = append(parts, Part{Text: " on what holds nothing."})
	}
	if p.Estimate != "" {
		parts = append(parts, Part{Text: " " + p.Estimate})
	}
	return parts
}

func inWords(text string) []Part { return []Part{{Text: text}} }

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

// firstMissing names the first thing that keeps a plan from being judged.
func firstMissing(d *draft.Plan, rep *plan.Report, pieces []Piece) string {
	if n := len(rep.Problems); n > 0 {
		text := fields.Located(d, rep.Problems[0])
		if last := text[len(text)-1]; last != '.' && last != '!' && last != '?' {
			text += "."
		}
		switch {
		case n == 2:
			text += " One more problem is listed below."
		case n > 2:
			text += " " + words.CountOf(n-1, "", "more problems are listed below.")
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

// mostVerdict is the verdict at most, never better known than the plan, and
// near at best where only a person watching keeps it so.
func mostVerdict(rep *plan.Report, planned rigging.Verdict) rigging.Verdict {
	v := rep.AtMostVerdict
	if onlyWatched(rep) {
		v = v.Worse(rigging.Near)
	}
	if planned == rigging.Unknown {
		v = v.Worse(rigging.Unknown)
	}
	return v
}

// onlyWatched tells whether the loads at most count on somebody stopping in time.
func onlyWatched(rep *plan.Report) bool {
	return slices.ContainsFunc(rep.Why, func(y plan.Why) bool { return y.Code == plan.WhyWatched })
}

// atMostParts say what the pullers can put on the gear, and first the number to
// hold the puller to: a phone has room for two lines.
func atMostParts(d *draft.Plan, u *units.System, rep *plan.Report, piece func(string) (Piece, bool), v rigging.Verdict) []Part {
	what := ""
	if p, ok := piece(rep.AtMostGoverning); ok && rep.AtMostGoverning != "" {
		what = p.Title
		if p.AtMostUse != units.None {
			what += " at " + p.AtMostUse
		}
	}
	var hold []Part
	switch {
	case rep.NoRoom:
		hold = inWords(d.Say("No room: the haul planned is more than the {puller} may be held to."))
	case rep.Pull.HoldPullTo.Known() && rep.Verdict != rigging.Unknown:
		limit := "pull.hold_puller_to_kN"
		if scene.StepsByPath(rep)[limit] == nil {
			limit = ""
		}
		hold = []Part{{Text: d.Say("Hold the {puller} to ")}, {u.Capacity(float64(rep.Pull.HoldPullTo)), limit}, {Text: "."}}
	}
	switch {
	case v == rigging.Over:
		return joinParts(hold, inWords("At most: over the limit"+words.Around(", ", what, "")+"."))
	case v == rigging.Near && onlyWatched(rep):
		return joinParts(hold, inWords("At most, if stopped in time"+words.Around(": ", what, "")+"."))
	case v == rigging.Near:
		return joinParts(hold, inWords("At most: near the limit"+words.Around(", ", what, "")+"."))
	case v == rigging.Within:
		return joinParts(hold, inWords("At most: within limits as computed"+words.Around(", ", what, "")+"."))
	}
	return joinParts(hold, inWords(d.Say("What the {puller} can put on the gear at most is not known.")))
}

const estimateNote = "An estimate."

// facts are the main numbers.
func facts(d *draft.Plan, u *units.System, rep *plan.Report) []parts.Fact {
	p, t := &rep.Pull, &rep.Tree
	moments := func(v float64) string { return u.Quantity(v, units.KilonewtonMetres, units.Up) }
	degreesOf := func(v float64) string { return u.Quantity(v, units.Degrees, units.Up) }

	allowance := ""
	switch {
	case d.Has("planned_kN"):
		allowance = "The crew's own."
	case p.Allowance.Known():
		allowance = "Allowance " + units.Significant(float64(p.Allowance), 3) + " times the largest pull needed."
	}
	peak := ""
	if p.PeakDeg.Known() {
		peak = "With the tree turned " + u.Result("pull.peak_deg", float64(p.PeakDeg)) + "."
	}
	out := []parts.Fact{
		{ID: "planned", Label: "Planned tension", Value: u.Load(float64(p.PlannedKN)), Note: allowance, Working: "pull.planned_kN"},
		{ID: "start", Label: "Pull needed to start", Value: u.Load(float64(p.StartKN)), Working: "pull.start_kN"},
		{ID: "peak", Label: "Largest pull needed", Value: u.Load(float64(p.PeakKN)), Note: peak, Working: "pull.peak_kN"},
		{ID: "hold-puller", Label: d.Say("Hold the {puller} to"), Value: u.Capacity(float64(p.HoldPullTo)), Note: d.Say("The most at the {puller} that overloads nothing, with friction or without, and no more than it is rated."), Working: "pull.hold_puller_to_kN"},
		{ID: "commit", Label: "Falls by itself from", Value: u.Result("pull.commit_deg", float64(p.CommitDeg)), Note: "Turn from standing; until then the line has to pull.", Working: "pull.commit_deg"},
	}
	var pulls int
	for _, l := range rep.Lines {
		if l.Role != "hold" {
			pulls++
		}
	}
	for i, l := range rep.Lines {
		of := ""
		at := func(field string) string { return draft.Elem("lines", i) + "." + field }
		if l.Role == "hold" {
			name := d.Say("{hold line}")
			if l.ID != l.Role {
				name += " " + l.ID
			}
			out = append(out, parts.Fact{ID: "hold-tension:" + l.ID, Label: "Tension of " + name, Value: u.Load(float64(l.TensionKN)), Working: at("tension_kN")},
				parts.Fact{ID: "hold-length:" + l.ID, Label: "Rope of " + name, Note: d.Say("Until the {scarf} closes. A line that comes tight pulls the tree off its {lay}."),
					Value: words.Sided(func(v float64) string { return u.Quantity(v, units.Metres, units.Up) }, float64(l.LengthChangeM), "to pay out", "goes slack", "stays as it is"), Working: at("length_change_m")})
			continue
		}
		if pulls > 1 {
			of = ", line " + l.ID
		}
		out = append(out,
			parts.Fact{ID: "haul:" + l.ID, Label: d.Say("Haul at the {puller}") + of, Value: u.Load(float64(l.HaulKN)), Note: advantageNote(d, &l), Working: at("haul_kN")},
			parts.Fact{ID: "travel:" + l.ID, Label: "Line comes in by" + of, Value: u.Result("haul_m", float64(l.HaulM)), Note: "Until the tree falls by itself.", Working: at("haul_m")},
			parts.Fact{ID: "rope:" + l.ID, Label: d.Say("Rope to haul at the {puller}") + of, Value: u.Result("rope_to_haul_m", float64(l.RopeToHaulM)), Note: stretchFact(u, rep, &l), Working: at("rope_to_haul_m")})
	}
	out = append(out,
		parts.Fact{ID: "drift", Label: "Drift", Value: words.Sided(degreesOf, float64(p.DriftDeg), "to the left", "to the right", d.Say("straight along the {lay}")), Note: d.Say("Which way weight and lines together push it, before the {hinge} steers. ") + estimateNote, Working: "pull.drift_deg"},
		parts.Fact{ID: "side-hold", Label: d.Say("Side hold of the {hinge}"), Value: words.Around("", units.Percent(float64(t.SideHoldUse)), usedOf(t.SideHoldUse)), Note: "An estimate: it counts on sound wood and an even cut." + words.Around(" With the hold lines slack ", knownUse(t.SideHoldSlackUse), "."), Working: "tree.side_hold_use"},
		parts.Fact{ID: "mass", Label: d.Say("Mass above the {hinge}"), Value: u.Quantity(float64(t.MassKg), units.Kilograms, units.Up), Note: massNote(d), Working: "tree.mass_kg"},
		parts.Fact{ID: "centre", Label: d.Say("Mass {centre}"), Value: u.Quantity(float64(t.MassCentreM), units.Metres, units.Nearest), Note: "Along the stem from the ground. " + estimateNote, Working: "tree.mass_centre_m"},
		parts.Fact{ID: "forward", Label: d.Say("Moment of the weight along the {lay}"), Value: words.Sided(moments, float64(t.ForwardMomentKNm), d.Say("toward the {lay}"), d.Say("against the {lay}"), "none"), Working: "tree.forward_moment_kNm"},
		parts.Fact{ID: "side", Label: "Moment of the weight sideways", Value: words.Sided(moments, float64(t.SideMomentKNm), "to the left", "to the right", "none"), Working: "tree.side_moment_kNm"},
		parts.Fact{ID: "hinge", Label: d.Say("Moment to bend the {hinge}"), Value: moments(float64(t.HingeMomentKNm)), Note: estimateNote, Working: "tree.hinge_moment_kNm"},
	)
	has := scene.StepsByPath(rep)
	for i := range out {
		if has[out[i].Working] == nil {
			out[i].Working = ""
		}
	}
	return out
}

// stretchFact says beside the rope to haul what the stretch of the line adds.
func stretchFact(u *units.System, rep *plan.Report, l *plan.LineReport) string {
	switch {
	case !rep.Brief.StopRopeM.Known() || l.ID != firstPull(rep):
		return ""
	case rep.Brief.StretchKnown:
		return u.Result("stop_rope_m", float64(rep.Brief.StopRopeM)) + " with the stretch of the line."
	}
	return "The stretch of the line is not counted in: its stiffness is not given."
}

func firstPull(rep *plan.Report) string {
	for i := range rep.Lines {
		if rep.Lines[i].Role != "hold" {
			return rep.Lines[i].ID
		}
	}
	return ""
}

// knownUse is a use as a percentage, "" where there is none.
func knownUse(n plan.Num) string {
	if !n.Known() {
		return ""
	}
	return units.Percent(float64(n))
}

func usedOf(n plan.Num) string {
	if n.Known() {
		return " used"
	}
	return ""
}

func massNote(d *draft.Plan) string {
	if d.Has("tree.mass_kg") {
		return "As given."
	}
	return estimateNote
}

func advantageNote(d *draft.Plan, l *plan.LineReport) string {
	if l.Tackle == nil || !l.IdealAdvantage.Known() || !l.ActualAdvantage.Known() {
		return ""
	}
	actual := units.Decimal(units.Round(float64(l.ActualAdvantage), 0.01, units.Down), -1)
	return d.Say("{Tackle} ") + units.Significant(float64(l.IdealAdvantage), 3) + " to 1, with friction " + actual + " to 1."
}
