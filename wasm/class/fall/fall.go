package fall

import (
	"cmp"
	"math"
	"slices"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
	"pullline/wasm/fields"
	"pullline/wasm/parts"
	"pullline/wasm/scene"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// View is what the page shows of the fall of a plan at one turn.
type View struct {
	Picture *draw.Drawing `json:"picture,omitempty"`
	Curve   *draw.Drawing `json:"curve,omitempty"`  // pull needed over the turn
	Course  *draw.Drawing `json:"course,omitempty"` // turn over time
	Facts   []parts.Fact  `json:"facts"`            // of this turn, the time left first
	Whole   []parts.Fact  `json:"whole"`            // of the whole fall, the time to walk away first
	Events  []scene.Event `json:"events"`           // in their order, from standing to the ground
	// Not in a light answer.
	Fields   []parts.Field `json:"fields,omitempty"`
	Working  []parts.Step  `json:"working"`
	Problems []parts.Note  `json:"problems"` // of the plan
	Notes    []parts.Note  `json:"notes"`    // cautions, and what it leaves out

	DurationS float64 `json:"duration_s"`
	EndDeg    float64 `json:"end_deg"`
	TurnDeg   float64 `json:"turn_deg"`
	TimeS     float64 `json:"time_s"`
	Now       string  `json:"now"` // the turn in words, to be said aloud
	// Fresh is false where there is no fall to show; Message says why.
	Fresh   bool   `json:"fresh"`
	Message string `json:"message,omitempty"`
}

// One press of an arrow key, degrees, and with Shift.
const (
	turnStep = 1
	fineStep = 0.1
)

// Accepted speeds of a line, m/s.
const (
	leastHaul = 0.02
	mostHaul  = 5
)

// JSON answers a request for the fall of a plan. It answers to any input.
//
//codec:call asked View
func JSON(request []byte) (out []byte) {
	defer func() {
		if fault := recover(); fault != nil {
			out = jsontext.Encode(none("The fall could not be worked out: there is a fault in the program. Nothing shown before counts."))
		}
	}()
	req, err := parse(request)
	if err != nil {
		return jsontext.Encode(none("The page asked for a fall in a way that could not be read: " + err.Error()))
	}
	return jsontext.Encode(work(req))
}

func none(message string) *View {
	return &View{Facts: []parts.Fact{}, Whole: []parts.Fact{}, Events: []scene.Event{}, Working: []parts.Step{}, Problems: []parts.Note{}, Notes: []parts.Note{}, Message: message}
}

// work shows the fall of a request's plan.
func work(req *asked) *View {
	d := draft.Of(req.Plan)
	d.Locale = req.Settings.Locale()
	u := req.Settings.System()
	out := none("")
	haul, ok := rigging.BriskHaul, true
	field := parts.Field{Path: "speed", Label: "The line comes in no faster than", Unit: u.Units[units.MetresPerSecond].Name, Kind: "number", Text: req.Speed,
		Default: u.Field(rigging.BriskHaul, units.MetresPerSecond, units.Nearest),
		Help:    "At the tree. Usual here is a machine that drives off at a brisk walk; most winches are slower. Slower takes longer to bring the tree over, and then leaves more time after that."}
	if req.Speed != "" {
		haul, ok = u.Parse(req.Speed, units.MetresPerSecond)
		if ok = ok && haul >= leastHaul && haul <= mostHaul; !ok {
			field.Problem = "Type a number from " + u.Field(leastHaul, units.MetresPerSecond, units.Nearest) + " to " + u.Field(mostHaul, units.MetresPerSecond, units.Nearest) + u.Suffix(units.MetresPerSecond) + "."
			haul = rigging.BriskHaul
		}
	}
	rep, m, err := plan.Fall(req.Plan, req.Size, haul)
	d.Tell(&rep, u)
	if !req.Light {
		out.Fields = []parts.Field{field}
		for _, p := range rep.Problems {
			out.Problems = append(out.Problems, parts.Note{Path: p.Path, Message: fields.Located(d, p)})
		}
		out.notes(d)
	}
	switch {
	case !ok:
		out.Message = "The speed of the line cannot be used, so no fall is shown."
		return out
	case err == plan.ErrNotSolved:
		out.Message = "No fall can be shown: the pull could not be worked out from what is given."
		return out
	case err != nil:
		out.Message = "No fall can be shown: " + d.Words(err.Error()) + "."
		return out
	}
	now := &scene.Falling{Motion: m}
	f := faller{Plan: d, u: u, rep: &rep, m: m, now: now, out: out}
	f.turn(req)
	f.show(req)
	return out
}

// A faller fills in an answer.
type faller struct {
	*draft.Plan
	u   *units.System
	rep *plan.Report
	m   *rigging.Motion
	now *scene.Falling
	out *View
}

// turn finds the turn asked for.
func (f *faller) turn(req *asked) {
	turn := req.Turn * rigging.Deg
	switch {
	case req.Step != 0:
		step := float64(turnStep)
		if req.Fine {
			step = fineStep
		}
		turn = units.Snap(req.Turn+float64(req.Step)*step, step) * rigging.Deg
	case !math.IsNaN(req.Time):
		turn = f.m.TurnAt(req.Time)
	case !math.IsNaN(req.X) && !math.IsNaN(req.Y) && req.Box.Drawable():
		f.now.Step = f.m.At(0)
		turn = scene.FallScene(f.Plan, f.rep, f.u, f.now).TurnOf(req.Box, draw.Pt{X: req.X, Y: req.Y})
	}
	f.now.Step = f.m.At(turn)
	need, shorter := f.m.Lines(f.now.Step.Turn)
	f.now.Need, f.now.Shorter = need/rigging.KN, shorter
}

func (f *faller) show(req *asked) {
	out, m, at := f.out, f.m, &f.now.Step
	out.Fresh = true
	out.DurationS, out.EndDeg = m.Duration(), m.Landing/rigging.Deg
	out.TurnDeg, out.TimeS = at.Turn/rigging.Deg, at.Time
	f.events()
	f.now.Events = out.Events
	out.Facts, out.Whole = f.facts(), f.whole()
	for _, list := range [][]parts.Fact{out.Facts, out.Whole} {
		for i := range list {
			// The turn is what was asked for, and "none" is no number.
			if fact := &list[i]; fact.ID != "turn" && fact.Value != units.None && fact.Value != "none" {
				fact.Working = fact.ID
			}
		}
	}
	s := scene.FallScene(f.Plan, f.rep, f.u, f.now)
	out.Picture, out.Curve, out.Course = s.DrawFall(req.Box), s.DrawCurve(req.CurveBox), s.DrawCourse(req.CourseBox)
	out.Now = "Turned " + s.TurnText() + ", " + scene.Seconds(at.Time, units.Nearest) + " from the start, " + scene.Seconds(m.Duration()-at.Time, units.Down) + " left"
	if !req.Light {
		f.working()
	}
}

func (f *faller) events() {
	add := func(id, label, path string, turn float64) {
		if math.IsNaN(turn) {
			return
		}
		st := f.m.At(turn)
		deg := st.Turn / rigging.Deg
		f.out.Events = append(f.out.Events, scene.Event{ID: id, Label: f.Words(label), Text: f.u.Quantity(deg, units.Degrees, units.WayOf(path)) + ", " + scene.Seconds(st.Time, units.Nearest), Deg: deg, TimeS: st.Time})
	}
	add("stand", "stands", "", 0)
	add("commit", "falls by itself", "pull.commit_deg", f.m.Commit)
	if f.m.Slack > f.m.Commit+rigging.Deg/4 { // else it is the same moment
		add("slack", "rope goes slack", "", f.m.Slack)
	}
	add("face", "{scarf} closes", "", f.m.Closing)
	add("land", "top lands", "", f.m.Landing)
	list := f.out.Events
	slices.SortStableFunc(list, func(a, b scene.Event) int { return cmp.Compare(a.Deg, b.Deg) })
}

// facts are the numbers of this turn.
func (f *faller) facts() []parts.Fact {
	m, at, u := f.m, &f.now.Step, f.u
	need := u.Load(f.now.Need)
	note := ""
	switch {
	case math.IsInf(f.now.Need, 1):
		need, note = units.None, "The line has no lever here."
	case f.now.Need == 0 && at.Turn >= m.Commit:
		need, note = "none", "It falls by itself."
	case f.now.Need == 0:
		need = "none"
	}
	out := []parts.Fact{
		{ID: "left", Label: "Until the top lands", Value: scene.Seconds(m.Duration()-at.Time, units.Down)},
		{ID: "need", Label: "Pull needed here", Value: need, Note: note},
	}
	for i := range f.rep.Lines {
		l := &f.rep.Lines[i]
		if i >= len(f.now.Shorter) {
			break
		}
		shorter := f.now.Shorter[i]
		if l.Role == "hold" {
			held := ""
			if f.letGo() {
				held = f.Say("Let go: it holds nothing from here.")
			}
			out = append(out, parts.Fact{ID: "hold:" + l.ID, Label: f.Say("Rope of {hold line}") + f.which(l), Note: held,
				Value: words.Sided(func(v float64) string { return u.Quantity(v, units.Metres, units.Up) }, -shorter, "to pay out", "goes slack", "stays as it is")})
			continue
		}
		fact := parts.Fact{ID: "haul:" + l.ID, Label: "Rope hauled in" + f.which(l), Note: "At the tree, less what a {tackle} or {block} multiplies."}
		if at.Turn > m.Slack {
			slack := shorter
			shorter = f.shorter(i)
			fact.Note = "Slack by " + u.Quantity(slack-shorter, units.Metres, units.Nearest) + " if the {puller} stopped when it went slack."
		} else if l.IdealAdvantage.Known() {
			fact.Note = u.Quantity(shorter*float64(l.IdealAdvantage), units.Metres, units.Up) + " at the {puller}."
		}
		fact.Note, fact.Value = f.Words(fact.Note), u.Quantity(max(shorter, 0), units.Metres, units.Up)
		out = append(out, fact)
	}
	return append(out, parts.Fact{ID: "speed", Label: "Speed of the top", Value: u.Quantity(at.Rate*m.Reach, units.MetresPerSecond, units.Up)},
		parts.Fact{ID: "time", Label: "Since the pull began", Value: scene.Seconds(at.Time, units.Nearest)},
		parts.Fact{ID: "turn", Label: "Turned", Value: u.Quantity(at.Turn/rigging.Deg, units.Degrees, units.Nearest)})
}

// letGo says whether the hold lines have been let go: the tree falls by itself, or
// the hinge has broken.
func (f *faller) letGo() bool {
	return f.now.Step.Turn >= f.m.Commit || f.now.Step.Turn >= f.m.Closing
}

// shorter is by how much line i is shorter here than standing, m; a pull line
// comes in no further than where it goes slack.
func (f *faller) shorter(i int) float64 {
	if f.rep.Lines[i].Role != "hold" && f.now.Step.Turn > f.m.Slack {
		_, then := f.m.Lines(f.m.Slack)
		return then[i]
	}
	return f.now.Shorter[i]
}

// ropes derives what has come in of each line, or has to be paid out.
func (f *faller) ropes(step func(path, name, formula, result, source string, values ...string)) {
	for i := range f.now.Shorter {
		l, shorter := &f.rep.Lines[i], f.shorter(i)
		path, name, result := "haul:"+l.ID, "Rope hauled in", f.u.Quantity(max(shorter, 0), units.Metres, units.Up)
		if l.Role == "hold" {
			path, name, result = "hold:"+l.ID, "Rope of {hold line}", f.u.Quantity(math.Abs(shorter), units.Metres, units.Up)
		}
		step(path, name+f.which(l), "Δ = |ℓ₀ − ℓ|", result, "geometry: the line's whole path between its places",
			"ℓ₀ = "+f.u.Figure(f.m.Rope(i), units.Metres)+" (standing)", "ℓ = "+f.u.Figure(f.m.Rope(i)-shorter, units.Metres)+" (here)")
	}
}

// which names a line where its role does not.
func (f *faller) which(l *plan.LineReport) string {
	if l.ID == l.Role || l.ID == "" {
		return ""
	}
	return " " + l.ID
}

// whole are the numbers of the whole fall.
func (f *faller) whole() []parts.Fact {
	m, u := f.m, f.u
	land := m.At(m.Landing)
	commit := m.At(m.Commit)
	away := parts.Fact{ID: "away", Label: "Time to walk away", Value: units.None, Note: "It is pulled to the ground: it never falls by itself before."}
	if !math.IsNaN(m.Soonest) {
		away.Value = scene.Seconds(m.Soonest, units.Down)
		away.Note = "From where it falls by itself, if the {hinge} tears there. If it holds until the {scarf} closes: " + scene.Seconds(land.Time-commit.Time, units.Down) + "."
		if math.IsNaN(m.Closing) {
			away.Note = "From where it falls by itself, if the {hinge} tears there. If it holds: " + scene.Seconds(land.Time-commit.Time, units.Down) + "."
		}
		away.Note = f.Words(away.Note)
	}
	side := words.Sided(func(v float64) string { return u.Quantity(v, units.Metres, units.Up) }, m.Top.Y, "to the left", "to the right", "")
	where := f.Say("Ahead of the stump, along the {lay}")
	if side != "" {
		where += ", " + side
	}
	return []parts.Fact{
		away,
		{ID: "total", Label: "From the first pull to the ground", Value: scene.Seconds(land.Time, units.Down), Note: f.Say("At the quickest: a slow {puller} takes longer until it falls by itself.")},
		{ID: "reach", Label: "Top lands at", Value: u.Quantity(m.Top.X, units.Metres, units.Up), Note: where + ". Broken pieces fly farther."},
		{ID: "impact", Label: "Speed of the top as it lands", Value: u.Quantity(land.Rate*m.Reach, units.MetresPerSecond, units.Up)},
		{ID: "energy", Label: "Energy as it lands", Value: u.Quantity(land.Energy()/1000, units.Kilojoules, units.Up)},
	}
}

// notes are the cautions, and what the fall leaves out.
func (out *View) notes(d *draft.Plan) {
	add := func(code, message, source string) {
		message = d.Words(message)
		out.Notes = append(out.Notes, parts.Note{Code: code, Message: message, Source: source})
	}
	add("away", "Go when it starts to go. The escape route is cleared before the first cut, and leads diagonally back and to the side, away from the {lay}; walk it at once, and look back only from its end.", "WAC 296-305-07016 (diagonally away from the felling line); the rest "+string(words.CommonPractice))
	add("butt", "Stay well to the side of the {butt}: it can jump back off the stump or slide when the {hinge} breaks. Nothing here tells where the {butt} goes.", "OAR 437-007-0810(9) keeps 25 ft away and to the side")
	add("reach", "Nobody is within two tree lengths who is not needed for the pull. The top sweeps its whole arc, and what breaks off flies on.", plan.SourceTwoLengths)
	add("ideal", "An ideal fall, not a forecast: one stiff body turning about the stump down to level ground. Left out: the air that slows a crown, branches that catch or break, other trees, a {hinge} that tears unevenly, a {butt} that slips or jumps, slopes, and any bounce.", "what this model covers")
	add("pull", "The line is taken at planned tension from the first moment and comes in no faster than given; once the tree falls by itself it runs ahead of the {puller} and the rope goes slack. A {hold line} acts until then, but no longer than the {hinge} bends: it is let go when the {hinge} breaks. A quick reading: it leaves less time than a slow pull does.", "what this model covers")
}

// working derives the numbers of this turn.
func (f *faller) working() {
	m, at, u := f.m, &f.now.Step, f.u
	step := func(path, name, formula, result, source string, values ...string) {
		for i := range values {
			values[i] = f.Words(values[i])
		}
		f.out.Working = append(f.out.Working, parts.Step{Path: path, Name: f.Words(name), Formula: formula, Values: values, Result: result, Source: source})
	}
	joule := func(v float64) string { return u.Figure(v/1000, units.Kilojoules) }
	inertia := units.Significant(m.Inertia, 3) + "\u00a0kg·m²"
	rate := units.Significant(at.Rate, 3) + "\u00a0rad/s"
	if need := f.now.Need; draw.Finite(need) && !(at.Turn >= m.Commit) {
		b := m.Moments(at.Turn)
		moment := func(v float64) string { return u.Figure(v/rigging.KNm, units.KilonewtonMetres) }
		step("need", "Pull needed here", "T = (Mₕ + M_w − M_g − M_s) / k, at least 0", u.Load(need), "moment balance about the {hinge}",
			"Mₕ = "+moment(b.Hinge)+" ({hinge})", "M_w = "+moment(b.Wind)+" (wind)", "M_g = "+moment(b.Weight)+" (weight toward the {lay})",
			"M_s = "+moment(b.Hold)+" (hold lines toward the {lay})", "k = "+u.Figure(b.Lever, units.Metres)+" (lever of the pull lines)")
	}
	f.ropes(step)
	step("inertia", "How hard it is to turn about the {hinge}: second moment of mass", "I = ∫r²·dm", inertia, "integral calculus: a thin stem, the crown as a point at its centre",
		"m = "+u.Quantity(float64(f.rep.Tree.MassKg), units.Kilograms, units.Nearest)+" (mass above the {hinge})")
	step("work", "Energy of the motion here", "E = A_g + A_t + A_w + A_h", joule(at.Energy()), "the work of all that acts, from standing to here",
		"A_g = "+joule(at.Weight)+" (weight, times the height its {centre} has lost)", "A_t = "+joule(at.Lines)+" (lines, tension times rope)",
		"A_w = "+joule(at.Wind)+" (wind)", "A_h = "+joule(at.Hinge)+" ({hinge}, its moment times the turn until it breaks)")
	step("rate", "Rate of turn", "ω = √(2·E/I)", rate, "energy of a body that turns", "E = "+joule(at.Energy()), "I = "+inertia)
	step("speed", "Speed of the top", "v = ω·L", u.Quantity(at.Rate*m.Reach, units.MetresPerSecond, units.Up), "circular motion", "ω = "+rate, "L = "+u.Quantity(m.Reach, units.Metres, units.Nearest)+" (top from the {hinge})")
	turned := func(turn float64) string { return u.Quantity(turn/rigging.Deg, units.Degrees, units.Nearest) }
	during := func(path, name, result string, from, to float64) {
		step(path, name, "t = ∫dφ/ω", result, "the definition of the rate of turn, summed up step by step", "from φ = "+turned(from), "to φ = "+turned(to))
	}
	land := m.At(m.Landing)
	during("left", "Until the top lands", scene.Seconds(m.Duration()-at.Time, units.Down), at.Turn, m.Landing)
	during("time", "Since the pull began", scene.Seconds(at.Time, units.Nearest), 0, at.Turn)
	during("total", "From the first pull to the ground", scene.Seconds(land.Time, units.Down), 0, m.Landing)
	if !math.IsNaN(m.Soonest) {
		during("away", "Time to walk away, the {hinge} torn and no wind", scene.Seconds(m.Soonest, units.Down), m.Commit, m.Landing)
	}
	step("impact", "Speed of the top as it lands", "v = ω·L", u.Quantity(land.Rate*m.Reach, units.MetresPerSecond, units.Up), "circular motion",
		"ω = "+units.Significant(land.Rate, 3)+"\u00a0rad/s", "L = "+u.Quantity(m.Reach, units.Metres, units.Nearest)+" (top from the {hinge})")
	step("energy", "Energy as it lands", "E = A_g + A_t + A_w + A_h", u.Quantity(land.Energy()/1000, units.Kilojoules, units.Up), "the work of all that acts, from standing to the ground",
		"A_g = "+joule(land.Weight)+" (weight)", "A_t = "+joule(land.Lines)+" (lines)", "A_w = "+joule(land.Wind)+" (wind)", "A_h = "+joule(land.Hinge)+" ({hinge})")
	step("reach", "Where the top lands", "cos(φ + λ) = −s/L, x = L·sin(φ + λ)", u.Quantity(m.Top.X, units.Metres, units.Up), "geometry: the top comes down to level ground",
		"λ = "+u.Quantity((math.Acos(m.Top.Z/m.Reach)-m.Landing)/rigging.Deg, units.Degrees, units.Nearest)+" ({lean} toward the {lay}; below 0 away from it)",
		"s = "+u.Quantity(-m.Top.Z, units.Metres, units.Nearest)+" (stump)", "L = "+u.Quantity(m.Reach, units.Metres, units.Nearest)+" (top from the {hinge})")
}
