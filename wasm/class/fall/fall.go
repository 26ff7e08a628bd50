package fall

import (
	"cmp"
	"errors"
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
	var l words.Locale
	defer func() {
		if fault := recover(); fault != nil {
			out = jsontext.Encode(none(l.Say("The fall could not be worked out: there is a fault in the program. Ignore everything shown before.")))
		}
	}()
	req, err := parse(request)
	if err != nil {
		return jsontext.Encode(none(l.Say("The page asked for a fall in a way that could not be read: %s", err.Error())))
	}
	l = req.Settings.Locale()
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
	field := parts.Field{Path: "speed", Label: d.Say("Greatest line speed"), Unit: u.Units[units.MetresPerSecond].Name, Kind: "number", Text: req.Speed,
		Default: u.Field(rigging.BriskHaul, units.MetresPerSecond, units.Nearest),
		Help:    d.Say("At the tree. The default is a machine that drives off at a brisk walk; most winches are slower. A slower line takes longer to bring the tree over, and leaves more time after that.")}
	if req.Speed != "" {
		haul, ok = u.Parse(req.Speed, units.MetresPerSecond)
		if ok = ok && haul >= leastHaul && haul <= mostHaul; !ok {
			field.Problem = d.Say("Type a number from %s to %s.", u.Field(leastHaul, units.MetresPerSecond, units.Nearest), u.Field(mostHaul, units.MetresPerSecond, units.Nearest)+u.Suffix(units.MetresPerSecond))
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
		out.Message = d.Say("The line speed cannot be used, so no fall is shown.")
		return out
	case err == plan.ErrNotSolved:
		out.Message = d.Say("No fall can be shown: the pull cannot be computed from what is given.")
		return out
	case err != nil:
		out.Message = d.Say("No fall can be shown: %s.", noFall(d, err))
		return out
	}
	now := &scene.Falling{Motion: m}
	f := faller{Plan: d, u: u, rep: &rep, m: m, now: now, out: out}
	f.turn(req)
	f.show(req)
	return out
}

// noFall says why there is no fall.
func noFall(d *draft.Plan, err error) string {
	var stands *rigging.NoFallError
	if errors.As(err, &stands) && !stands.High && !stands.Balanced {
		return d.Say("at planned tension the tree stops at a turn of %s°: it does not fall", units.Decimal(math.Round(stands.Turn/rigging.Deg), 0))
	}
	return d.Error(err)
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
			if fact := &list[i]; fact.ID != "turn" && fact.Value != units.None && fact.Value != f.Say(noPull) {
				fact.Working = fact.ID
			}
		}
	}
	s := scene.FallScene(f.Plan, f.rep, f.u, f.now)
	out.Picture, out.Curve, out.Course = s.DrawFall(req.Box), s.DrawCurve(req.CurveBox), s.DrawCourse(req.CourseBox)
	out.Now = f.Say("Turned %s, %s from the start, %s left", s.TurnText(), scene.Seconds(at.Time, units.Nearest), scene.Seconds(m.Duration()-at.Time, units.Down))
	if !req.Light {
		f.working()
	}
}

func (f *faller) events() {
	add := func(id string, label words.Text, path string, turn float64) {
		if math.IsNaN(turn) {
			return
		}
		st := f.m.At(turn)
		deg := st.Turn / rigging.Deg
		f.out.Events = append(f.out.Events, scene.Event{ID: id, Label: f.Say(label), Text: f.Say("%s, %s", f.u.Quantity(deg, units.Degrees, units.WayOf(path)), scene.Seconds(st.Time, units.Nearest)), Deg: deg, TimeS: st.Time})
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

const noPull words.Text = "none"

// facts are the numbers of this turn.
func (f *faller) facts() []parts.Fact {
	m, at, u := f.m, &f.now.Step, f.u
	need := u.Load(f.now.Need)
	note := ""
	switch {
	case math.IsInf(f.now.Need, 1):
		need, note = units.None, f.Say("The line has no lever here.")
	case f.now.Need == 0 && at.Turn >= m.Commit:
		need, note = f.Say(noPull), f.Say("It falls by itself.")
	case f.now.Need == 0:
		need = f.Say(noPull)
	}
	out := []parts.Fact{
		{ID: "left", Label: f.Say("Until the top lands"), Value: scene.Seconds(m.Duration()-at.Time, units.Down)},
		{ID: "need", Label: f.Say("Pull needed here"), Value: need, Note: note},
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
			out = append(out, parts.Fact{ID: "hold:" + l.ID, Label: f.of(l, holdRope, holdRopeOf), Note: held,
				Value: f.Sided(func(v float64) string { return u.Quantity(v, units.Metres, units.Up) }, -shorter, "%s to pay out", "%s slack", "no change")})
			continue
		}
		fact := parts.Fact{ID: "haul:" + l.ID, Label: f.of(l, hauledIn, hauledInOf), Note: f.Say("At the tree; a {tackle} or doubled line takes in more.")}
		if at.Turn > m.Slack {
			slack := shorter
			shorter = f.shorter(i)
			fact.Note = f.Say("Slack by %s if the {puller} stopped when it went slack.", u.Quantity(slack-shorter, units.Metres, units.Nearest))
		} else if l.IdealAdvantage.Known() {
			fact.Note = f.Say("%s at the {puller}.", u.Quantity(shorter*float64(l.IdealAdvantage), units.Metres, units.Up))
		}
		fact.Value = u.Quantity(max(shorter, 0), units.Metres, units.Up)
		out = append(out, fact)
	}
	return append(out, parts.Fact{ID: "speed", Label: f.Say("Speed of the top"), Value: u.Quantity(at.Rate*m.Reach, units.MetresPerSecond, units.Up)},
		parts.Fact{ID: "time", Label: f.Say("Since the pull began"), Value: scene.Seconds(at.Time, units.Nearest)},
		parts.Fact{ID: "turn", Label: f.Say("Turned"), Value: u.Quantity(at.Turn/rigging.Deg, units.Degrees, units.Nearest)})
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

// step adds a step of the working.
func (f *faller) step(path string, name, formula words.Text, result string, source words.Text, values ...parts.Value) {
	s := parts.Step{Path: path, Name: f.Say(name), Formula: f.Say(formula), Values: make([]string, len(values)), Result: result, Source: f.Say(source)}
	for i, v := range values {
		s.Values[i] = v.In(f.Locale)
	}
	f.out.Working = append(f.out.Working, s)
}

// ropes derives what has come in of each line, or has to be paid out.
func (f *faller) ropes() {
	for i := range f.now.Shorter {
		l, shorter := &f.rep.Lines[i], f.shorter(i)
		path, name, result := "haul:"+l.ID, f.of(l, hauledIn, hauledInOf), f.u.Quantity(max(shorter, 0), units.Metres, units.Up)
		if l.Role == "hold" {
			path, name, result = "hold:"+l.ID, f.of(l, holdRope, holdRopeOf), f.u.Quantity(math.Abs(shorter), units.Metres, units.Up)
		}
		f.step(path, "%s", "Δ = |ℓ₀ − ℓ|", result, "geometry: the line's whole path between its places",
			parts.Let("ℓ₀", f.u.Figure(f.m.Rope(i), units.Metres)).Of("standing"), parts.Let("ℓ", f.u.Figure(f.m.Rope(i)-shorter, units.Metres)).Of("here"))
		f.out.Working[len(f.out.Working)-1].Name = name
	}
}

// Labels of a line's rope, and with its name.
const (
	hauledIn   words.Text = "Rope hauled in"
	hauledInOf words.Text = "Rope hauled in, line %s"
	holdRope   words.Text = "Rope of the {hold line}"
	holdRopeOf words.Text = "Rope of {hold line} %s"
)

// of names a line where its role does not.
func (f *faller) of(l *plan.LineReport, alone, named words.Text) string {
	if l.ID == l.Role || l.ID == "" {
		return f.Say(alone)
	}
	return f.Say(named, l.ID)
}

// whole are the numbers of the whole fall.
func (f *faller) whole() []parts.Fact {
	m, u := f.m, f.u
	land := m.At(m.Landing)
	commit := m.At(m.Commit)
	away := parts.Fact{ID: "away", Label: f.Say("Shortest time until the top lands"), Value: units.None, Note: f.Say("It is pulled all the way down: it never falls by itself.")}
	if !math.IsNaN(m.Soonest) {
		away.Value = scene.Seconds(m.Soonest, units.Down)
		note := words.Text("From where it falls by itself, if the {hinge} tears there. If it holds until the {scarf} closes: %s.")
		if math.IsNaN(m.Closing) {
			note = "From where it falls by itself, if the {hinge} tears there. If it holds: %s."
		}
		away.Note = f.Say(note, scene.Seconds(land.Time-commit.Time, units.Down))
	}
	where := f.Sided(func(v float64) string { return u.Quantity(v, units.Metres, units.Up) }, m.Top.Y,
		"Ahead of the stump, along the {lay}, and %s to the left. Broken pieces fly farther.", "Ahead of the stump, along the {lay}, and %s to the right. Broken pieces fly farther.", "Ahead of the stump, along the {lay}. Broken pieces fly farther.")
	return []parts.Fact{
		away,
		{ID: "total", Label: f.Say("From first pull to ground"), Value: scene.Seconds(land.Time, units.Down), Note: f.Say("At the quickest: with a slow {puller} it takes longer to fall by itself.")},
		{ID: "reach", Label: f.Say("Top lands at"), Value: u.Quantity(m.Top.X, units.Metres, units.Up), Note: where},
		{ID: "impact", Label: f.Say("Speed of the top on landing"), Value: u.Quantity(land.Rate*m.Reach, units.MetresPerSecond, units.Up)},
		{ID: "energy", Label: f.Say("Energy on landing"), Value: u.Quantity(land.Energy()/1000, units.Kilojoules, units.Up)},
	}
}

// notes are the cautions, and what the fall leaves out.
func (out *View) notes(d *draft.Plan) {
	add := func(code string, message, source words.Text) {
		out.Notes = append(out.Notes, parts.Note{Code: code, Message: d.Say(message), Source: d.Say(source)})
	}
	add("away", "Go when it starts to go. Clear the escape route before the first cut, diagonally back and to the side, away from the {lay}; walk it at once, and look back only from its end.", "WAC 296-305-07016 (diagonally away from the felling line); the rest common practice, no published source")
	add("butt", "Stay well to the side of the {butt}: it can kick back off the stump or slide when the {hinge} breaks. Nothing here says where the {butt} goes.", "OAR 437-007-0810(9) keeps 25 ft away and to the side")
	add("reach", "Keep everyone not needed for the pull two tree lengths away. The top sweeps its whole arc, and what breaks off flies on.", plan.SourceTwoLengths)
	add("ideal", "An ideal fall, not a forecast: one stiff body turning about the stump down to level ground. Left out: the air that slows a crown, branches that catch or break, other trees, a {hinge} that tears unevenly, a {butt} that slips or jumps, slopes, and any bounce.", "what this model covers")
	add("pull", "The line is taken at planned tension from the first moment and comes in no faster than given; once the tree falls by itself it runs ahead of the {puller} and the rope goes slack. A {hold line} acts until then, but no longer than the {hinge} bends: it is let go when the {hinge} breaks. A quick reading: it leaves less time than a slow pull does.", "what this model covers")
}

// working derives the numbers of this turn.
func (f *faller) working() {
	m, at, u := f.m, &f.now.Step, f.u
	joule := func(v float64) string { return u.Figure(v/1000, units.Kilojoules) }
	inertia := units.Significant(m.Inertia, 3) + "\u00a0kg·m²"
	rate := units.Significant(at.Rate, 3) + "\u00a0rad/s"
	if need := f.now.Need; draw.Finite(need) && !(at.Turn >= m.Commit) {
		b := m.Moments(at.Turn)
		moment := func(v float64) string { return u.Figure(v/rigging.KNm, units.KilonewtonMetres) }
		f.step("need", "Pull needed here", "T = (Mₕ + M_w − M_g − M_s) / k, at least 0", u.Load(need), "moment balance about the {hinge}",
			parts.Let("Mₕ", moment(b.Hinge)).Of("{hinge}"), parts.Let("M_w", moment(b.Wind)).Of("wind"), parts.Let("M_g", moment(b.Weight)).Of("weight toward the {lay}"),
			parts.Let("M_s", moment(b.Hold)).Of("hold lines toward the {lay}"), parts.Let("k", u.Figure(b.Lever, units.Metres)).Of("lever of the pull lines"))
	}
	f.ropes()
	f.step("inertia", "Second moment of mass about the {hinge}", "I = ∫r²·dm", inertia, "integral calculus: a thin stem, the crown as a point at its centre",
		parts.Let("m", u.Quantity(float64(f.rep.Tree.MassKg), units.Kilograms, units.Nearest)).Of("mass above the {hinge}"))
	f.step("work", "Energy of the motion here", "E = A_g + A_t + A_w + A_h", joule(at.Energy()), "the work of all that acts, from standing to here",
		parts.Let("A_g", joule(at.Weight)).Of("weight, times the height its {centre} has lost"), parts.Let("A_t", joule(at.Lines)).Of("lines, tension times rope"),
		parts.Let("A_w", joule(at.Wind)).Of("wind"), parts.Let("A_h", joule(at.Hinge)).Of("{hinge}, its moment times the turn until it breaks"))
	f.step("rate", "Rate of turn", "ω = √(2·E/I)", rate, "energy of a rotating body", parts.Let("E", joule(at.Energy())), parts.Let("I", inertia))
	f.step("speed", "Speed of the top", "v = ω·L", u.Quantity(at.Rate*m.Reach, units.MetresPerSecond, units.Up), "circular motion", parts.Let("ω", rate), parts.Let("L", u.Quantity(m.Reach, units.Metres, units.Nearest)).Of("top from the {hinge}"))
	turned := func(turn float64) string { return u.Quantity(turn/rigging.Deg, units.Degrees, units.Nearest) }
	during := func(path string, name words.Text, result string, from, to float64) {
		f.step(path, name, "t = ∫dφ/ω", result, "the definition of the rate of turn, summed up step by step", parts.Let("φ", turned(from)).Of("from"), parts.Let("φ", turned(to)).Of("to"))
	}
	land := m.At(m.Landing)
	during("left", "Until the top lands", scene.Seconds(m.Duration()-at.Time, units.Down), at.Turn, m.Landing)
	during("time", "Since the pull began", scene.Seconds(at.Time, units.Nearest), 0, at.Turn)
	during("total", "From first pull to ground", scene.Seconds(land.Time, units.Down), 0, m.Landing)
	if !math.IsNaN(m.Soonest) {
		during("away", "Shortest time until the top lands: {hinge} torn, no wind", scene.Seconds(m.Soonest, units.Down), m.Commit, m.Landing)
	}
	f.step("impact", "Speed of the top on landing", "v = ω·L", u.Quantity(land.Rate*m.Reach, units.MetresPerSecond, units.Up), "circular motion",
		parts.Let("ω", units.Significant(land.Rate, 3)+"\u00a0rad/s"), parts.Let("L", u.Quantity(m.Reach, units.Metres, units.Nearest)).Of("top from the {hinge}"))
	f.step("energy", "Energy on landing", "E = A_g + A_t + A_w + A_h", u.Quantity(land.Energy()/1000, units.Kilojoules, units.Up), "the work of all that acts, from standing to the ground",
		parts.Let("A_g", joule(land.Weight)).Of("weight"), parts.Let("A_t", joule(land.Lines)).Of("lines"), parts.Let("A_w", joule(land.Wind)).Of("wind"), parts.Let("A_h", joule(land.Hinge)).Of("{hinge}"))
	f.step("reach", "Where the top lands", "cos(φ + λ) = −s/L, x = L·sin(φ + λ)", u.Quantity(m.Top.X, units.Metres, units.Up), "geometry: the top comes down to level ground",
		parts.Let("λ", u.Quantity((math.Acos(m.Top.Z/m.Reach)-m.Landing)/rigging.Deg, units.Degrees, units.Nearest)).Of("{lean} toward the {lay}; below 0 away from it"),
		parts.Let("s", u.Quantity(-m.Top.Z, units.Metres, units.Nearest)).Of("stump"), parts.Let("L", u.Quantity(m.Reach, units.Metres, units.Nearest)).Of("top from the {hinge}"))
}
