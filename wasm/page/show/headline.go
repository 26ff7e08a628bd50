package show

import (
	"slices"
	"strings"
	"unicode/utf8"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/parts"
	"pullline/wasm/scene"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Headline is the verdict in sight at all times.
type Headline struct {
	Verdict    string `json:"verdict"`  // within, near, over, unknown: for data-verdict, shape and pattern
	Word       string `json:"word"`     // the word shown
	Sentence   string `json:"sentence"` // the governing piece and its use, or what is missing
	Governing  string `json:"governing"`
	Use        string `json:"use"`
	AtMost     string `json:"at_most"`      // verdict word key at most
	AtMostText string `json:"at_most_text"` // one sentence
	// Held says that the verdict is near only because the puller must be held: a
	// state of its own to the eye.
	Held bool `json:"held,omitempty"`
	// Hold is the number to hold the puller to, "" where there is none or no room
	// for one, and HoldWorking its step.
	Hold        string `json:"hold,omitempty"`
	HoldLabel   string `json:"hold_label,omitempty"`
	HoldWorking string `json:"hold_working,omitempty"`
	// Why are all reasons for the verdict, worst first.
	Why []parts.Note `json:"why"`
	// The same two in parts, where any of them opens its working.
	Parts       []Part `json:"parts,omitempty"`
	AtMostParts []Part `json:"at_most_parts,omitempty"`
}

// A Part is a piece of a sentence. Working is the path of the step that gives
// it, "" where it is words.
type Part struct {
	Text    string `json:"text"`
	Working string `json:"working,omitempty"`
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
	v = v.Worse(rep.Stem.Verdict)
	if float64(rep.GoverningUse) > 1 {
		v = v.Worse(rigging.Over)
	}
	if incomplete {
		v = v.Worse(rigging.Unknown)
	}
	return v
}

// Head is the verdict in words, with what governs and what the pullers can do
// at most. The pieces are those of Pieces.
func Head(d *draft.Plan, u *units.System, rep *plan.Report, pieces []Piece) Headline {
	v := headlineVerdict(rep)
	most := mostVerdict(rep, v)
	h := Headline{
		Verdict: v.String(), Word: d.Say(words.Headline[v]), Governing: rep.Governing,
		Use: d.Use(float64(rep.GoverningUse)), AtMost: most.String(), Why: make([]parts.Note, 0, len(rep.Why)),
	}
	for _, y := range rep.Why {
		if !isProblem(rep, &y) { // those stand in a list of their own
			h.Why = append(h.Why, parts.Note{Code: y.Code, Path: y.Path, Message: y.Message, State: y.Verdict.String()})
		}
	}
	if rep.Pull.HoldPullTo.Known() && !rep.NoRoom && v != rigging.Unknown {
		h.Hold, h.HoldLabel = u.Capacity(float64(rep.Pull.HoldPullTo)), d.Say("Hold the {puller} to")
		if rep.Pull.ComputedHold == 0 {
			h.HoldWorking = holdStep(rep)
		}
	}
	switch worst := worstRow(rep); {
	case v == rigging.Near && rep.OnlyIfHeld && h.Hold != "":
		h.Held, h.Word = true, d.Say(words.OnlyIfHeld, h.Hold)
	case v == rigging.Over && worst != rigging.Over:
		h.Word = d.Say(words.NotLikeThis)
	case v == rigging.Near && worst == rigging.Within:
		h.Word = d.Say(words.LookAgain)
	}
	piece := func(id string) (Piece, bool) {
		for _, p := range pieces {
			if p.ID == id {
				return p, true
			}
		}
		return Piece{}, false
	}
	governs := governing(d.Locale, rep, piece)
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
			h.Parts = joinParts(h.Parts, inWords(firstMissing(d, rep, pieces)))
		} else if n := len(h.Why); n > 1 {
			h.Parts = joinParts(h.Parts, inWords(d.Count(n-1, "1 more reason below.", "%s more reasons below.")))
		}
	default:
		h.Parts = governs
	}
	if rep.Pull.PlannedKN == 0 && v != rigging.Unknown { // nothing carries anything, so no use says anything
		steers := inWords(d.Say("The line only steers: the tree needs no pull to fall, and may go before anyone is ready."))
		if h.Use = units.None; len(h.Why) > 0 {
			steers = joinParts(steers, h.Parts)
		}
		h.Parts = steers
	}
	if len(h.Parts) == 0 {
		h.Parts = inWords(d.Say("A piece is over its limit."))
	}
	h.AtMostParts = atMostParts(d, u, rep, piece, most)
	h.Sentence, h.Parts = sentence(h.Parts)
	h.AtMostText, h.AtMostParts = sentence(h.AtMostParts)
	return h
}

// worstRow is the worst verdict of any piece, puller or point and the stem as planned.
func worstRow(rep *plan.Report) rigging.Verdict {
	worst := rigging.Within
	for i := range rep.Gear {
		worst = worst.Worse(rep.Gear[i].Verdict)
	}
	for i := range rep.Points {
		worst = worst.Worse(rep.Points[i].Verdict)
	}
	return worst.Worse(rep.Stem.Verdict)
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
	case "piece_over", "point_over", "puller_over", "stem_over", "piece_near", "point_near", "puller_near", "stem_near":
		return true
	}
	return false
}

// governing says what the piece, puller or point with the greatest use carries.
func governing(l words.Locale, rep *plan.Report, piece func(string) (Piece, bool)) []Part {
	p, ok := piece(rep.Governing)
	if !ok || rep.Governing == "" {
		return nil
	}
	title, load := Part{Text: p.Title}, Part{p.Load, p.LoadWorking}
	var parts []Part
	switch {
	case p.Capacity == units.None:
		parts = inParts(l, "%s: %s; its limit is not known.", title, load)
	case strings.HasSuffix(p.Use, "%"):
		parts = inParts(l, "%s: %s of %s (%s).", title, load, Part{p.Capacity, p.CapacityWorking}, Part{p.Use, p.UseWorking})
	default:
		parts = inParts(l, "%s: %s on a limit of 0.", title, load)
	}
	return joinParts(parts, inWords(p.Estimate))
}

// inParts says a text of which some arguments can be opened.
func inParts(l words.Locale, text words.Text, args ...Part) []Part {
	const first = '\uE000' // a mark for each argument: no text has one
	marks := make([]string, len(args))
	for i := range args {
		marks[i] = string(first + rune(i))
	}
	said, at := l.Say(text, marks...), 0
	var out []Part
	for i, r := range said {
		n := int(r - first)
		if n < 0 || n >= len(args) {
			continue
		}
		if i > at {
			out = append(out, Part{Text: said[at:i]})
		}
		out, at = append(out, args[n]), i+utf8.RuneLen(r)
	}
	if at < len(said) {
		out = append(out, Part{Text: said[at:]})
	}
	return out
}

func inWords(text string) []Part { return []Part{{Text: text}} }

func joinParts(a, b []Part) []Part {
	if len(a) == 0 || len(b) == 0 || b[0].Text == "" {
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
		if n == 1 {
			return text
		}
		return words.Join(text, d.Count(n-1, "1 more problem below.", "%s more problems below."))
	}
	for _, p := range pieces {
		if p.Verdict == rigging.Unknown.String() {
			return d.Say("%s: its load or its limit is not known.", p.Title)
		}
	}
	return d.Say("The plan gives too little to judge it.")
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

// holdStep is the path of the step that gives the number computed to hold the
// puller to, "" where there is none.
func holdStep(rep *plan.Report) string {
	const path = "pull.hold_puller_to_kN"
	if scene.StepsByPath(rep)[path] == nil {
		return ""
	}
	return path
}

// atMostParts say what the pullers can put on the gear, and first the number to
// hold the puller to: a phone has room for two lines.
func atMostParts(d *draft.Plan, u *units.System, rep *plan.Report, piece func(string) (Piece, bool), v rigging.Verdict) []Part {
	what := ""
	if p, ok := piece(rep.AtMostGoverning); ok && rep.AtMostGoverning != "" {
		what = p.Title
		if p.AtMostUse != units.None {
			what = d.Say("%s at %s", p.Title, p.AtMostUse)
		}
	}
	say := func(alone, of words.Text) []Part {
		if what == "" {
			return inWords(d.Say(alone))
		}
		return inWords(d.Say(of, what))
	}
	var hold []Part
	switch {
	case rep.NoRoom:
		hold = inWords(d.Say("No room: the planned haul is above the pull to hold the {puller} to."))
	case rep.Pull.HoldPullTo.Known() && rep.Verdict != rigging.Unknown:
		number := u.Capacity(float64(rep.Pull.HoldPullTo))
		if computed := rep.Pull.ComputedHold; computed > 0 {
			hold = inParts(d.Locale, "To be sure hold the {puller} to %s, computed %s.", Part{Text: number}, Part{u.Capacity(float64(computed)), holdStep(rep)})
		} else {
			hold = inParts(d.Locale, "Hold the {puller} to %s.", Part{number, holdStep(rep)})
		}
	}
	switch {
	case v == rigging.Over:
		return joinParts(hold, say("At most: over the limit.", "At most: over the limit, %s."))
	case v == rigging.Near && onlyWatched(rep):
		return joinParts(hold, say("At most, if stopped in time.", "At most, if stopped in time: %s."))
	case v == rigging.Near:
		return joinParts(hold, say("At most: near the limit.", "At most: near the limit, %s."))
	case v == rigging.Within:
		return joinParts(hold, say("At most: within limits as computed.", "At most: within limits as computed, %s."))
	}
	return joinParts(hold, inWords(d.Say("What the {puller} can put on the gear at most is not known.")))
}
