package practice

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"pullline/rigging"
	"pullline/wasm/class/marking"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/request"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A Sheet is a set of questions. The same seed, grade and units give the same
// sheet; its numbers are invented.
type Sheet struct {
	Title     string         `json:"title"`
	Invented  string         `json:"invented"` // that the numbers are, to be shown on every sheet
	Seed      string         `json:"seed"`     // as used
	Mark      string         `json:"mark"`     // names the sheet, on every page of it
	Key       string         `json:"key"`      // to keep the answers by: another one where anything on the sheet reads differently
	Grade     string         `json:"grade"`
	Grades    []parts.Option `json:"grades"` // all there are
	Questions []Question     `json:"questions"`
	Score     string         `json:"score"`
	Right     int            `json:"right"` // how many questions are answered so
	Wrong     int            `json:"wrong"`
	Message   string         `json:"message,omitempty"` // what of the request could not be used
}

// A Question is one of a sheet, with what came of the answer to it.
type Question struct {
	ID        string         `json:"id"` // its number on the sheet
	Text      string         `json:"text"`
	Given     []string       `json:"given"` // "T = 12 kN, tension of the rope"
	Picture   *draw.Drawing  `json:"picture,omitempty"`
	Kind      string         `json:"kind"` // number, choice
	Unit      string         `json:"unit,omitempty"`
	Options   []parts.Option `json:"options,omitempty"`
	Follows   bool           `json:"follows"`             // it asks on about the question before
	Tolerance string         `json:"tolerance,omitempty"` // how far off an answer may be, in words
	Answer    string         `json:"answer"`              // as given: a text or an option's value
	State     string         `json:"state"`               // "": not answered; unread: it could not be read; right, wrong
	Says      string         `json:"says"`                // what is to be said of the answer
	// PartsAt is the step of the solution, counted from 1, where a wrong
	// answer parts ways with it; 0 where that is not known.
	PartsAt int `json:"parts_at,omitempty"`
	// Right is the right answer in words, and Solution the way to it: there
	// once the question was answered, or where all are asked for.
	Right    string       `json:"right,omitempty"`
	Solution []parts.Step `json:"solution,omitempty"`
}

// A drill is a kind of question.
type drill struct {
	id    string
	grade int
	ask   func(q *ask)
}

// drills are all there are, by grade.
var drills = [...]drill{
	{"redirect-factor", 1, askRedirectFactor},
	{"leg-share", 1, askLegShare},
	{"basket-factor", 1, askBasketFactor},
	{"level-share", 1, askLevelShare},
	{"narrowest", 1, askNarrowest},
	{"block-load", 2, askBlockLoad},
	{"resultant", 2, askResultant},
	{"equal-legs", 2, askEqualLegs},
	{"unequal-legs", 2, askUnequalLegs},
	{"uplift", 2, askUplift},
	{"half-turn", 3, askHalfTurn},
	{"tackle-count", 3, askTackleCount},
	{"tackle-haul", 3, askTackleHaul},
	{"compound-haul", 3, askCompoundHaul},
	{"working-limit", 3, askWorkingLimit},
	{"choked-sling", 3, askChokedSling},
	{"basket-limit", 3, askBasketLimit},
	{"choke-angle", 3, askChokeAngle},
	{"line-moment", 4, askLineMoment},
	{"weight-moment", 4, askWeightMoment},
	{"lean-offset", 4, askLeanOffset},
	{"hinge-moment", 4, askHingeMoment},
	{"pull-needed", 4, askPullNeeded},
	{"hinge-twice", 4, askHingeTwice},
	{"weakest-straight", 5, askWeakestStraight},
	{"weakest-redirect", 5, askWeakestRedirect},
	{"weakest-stall", 5, askWeakestAtStall},
}

// grades are what the sheets are about; the last mixes all.
var grades = []parts.Choice{
	{Value: "1", Label: "1: angle factors"},
	{Value: "2", Label: "2: {block} loads, shared anchors"},
	{Value: "3", Label: "3: friction, {tackle}s, limits"},
	{Value: "4", Label: "4: levers, moments, the {hinge}"},
	{Value: "5", Label: "5: the weakest piece"},
	{Value: mixedGrade, Label: "Mixed"},
}

const mixedGrade = "mixed"

const (
	standIn     = "1" // seed and grade where none is given
	longestSeed = 24  // characters
	perSheet    = 6   // drills of a sheet
	mostTries   = 40  // sets of numbers tried for one question
)

const inventedNumbers words.Text = "All numbers are invented: for practice, not for a job. The same sheet in other units has other numbers."

// asked is what the page sends to have a sheet shown.
//
//codec:request
type asked struct {
	request.Common
	Seed    any               `json:"seed"` // a text or a number
	Grade   any               `json:"grade"`
	Box     draw.Box          `json:"box"`     // of each picture
	Answers map[string]string `json:"answers"` // by the question's id
	// Solutions asks for those of all questions: for the answer sheet.
	Solutions bool `json:"solutions"`
}

// seedOf brings a seed into the form that decides: without spaces about it,
// in small letters. ok is false for what is no short text or number.
func seedOf(v any) (seed string, ok bool) {
	if v == nil {
		return standIn, true
	}
	seed = strings.ToLower(strings.Join(strings.Fields(request.TextOrNumber(v)), " "))
	if seed == "" || utf8.RuneCountInString(seed) > longestSeed || !utf8.ValidString(seed) {
		return standIn, false
	}
	for _, r := range seed {
		if !strconv.IsPrint(r) {
			return standIn, false
		}
	}
	return seed, true
}

// work makes a sheet and judges the answers to it.
func work(req *asked) *Sheet {
	d, u := req.Settings.Locale(), req.Settings.System()
	out := brokenSheet(d, "")
	var ok bool
	if out.Seed, ok = seedOf(req.Seed); !ok {
		out.Message = d.Say("%s cannot be the seed of a sheet: type a number or a short text of up to %s characters. Sheet %s is shown.", words.Quoted(request.TextOrNumber(req.Seed)), strconv.Itoa(longestSeed), standIn)
	}
	out.Grades = make([]parts.Option, len(grades))
	for i, g := range grades {
		out.Grades[i] = parts.Option{Value: g.Value, Label: d.Say(g.Label)}
		if g.Value == request.TextOrNumber(req.Grade) {
			out.Grade = g.Value
		}
	}
	if out.Grade == "" {
		out.Grade = standIn
		if req.Grade != nil {
			out.Message = words.Join(out.Message, d.Say("There is no grade %s; the grades are %s. Grade %s is shown.", words.Quoted(request.TextOrNumber(req.Grade)), parts.Names(out.Grades), standIn))
		}
	}
	for _, g := range out.Grades {
		if g.Value == out.Grade {
			out.Title = d.Say("Practice %s", g.Label)
		}
	}
	if out.Grade == mixedGrade {
		out.Title = d.Say("Practice: mixed")
	}
	unit := u.Units[units.Kilonewtons].Name
	out.Mark = d.Say("Sheet %s, grade %s, in %s", out.Seed, out.Grade, unit)
	if out.Grade == mixedGrade {
		out.Mark = d.Say("Sheet %s, mixed, in %s", out.Seed, unit)
	}
	key := out.Seed + "\n" + out.Grade
	for _, q := range asks(d, u, out.Seed, out.Grade) {
		id := strconv.Itoa(len(out.Questions) + 1)
		out.Questions = append(out.Questions, q.question(id, req))
		key += "\n" + q.key()
	}
	out.Key = strconv.FormatUint(uint64(diceOf(key, 0)), 36)
	out.count(d)
	return out
}

func brokenSheet(l words.Locale, message words.Text, args ...string) *Sheet {
	return &Sheet{Invented: l.Say(inventedNumbers), Grades: []parts.Option{}, Questions: []Question{}, Message: l.Say(message, args...)}
}

// count adds up how the questions were answered.
func (s *Sheet) count(l words.Locale) {
	open := 0
	for i := range s.Questions {
		switch s.Questions[i].State {
		case marking.Right:
			s.Right++
		case marking.Wrong:
			s.Wrong++
		default:
			open++
		}
	}
	right, all, wrong, left := strconv.Itoa(s.Right), strconv.Itoa(len(s.Questions)), strconv.Itoa(s.Wrong), strconv.Itoa(open)
	begun := open > 0 && open < len(s.Questions)
	switch {
	case s.Wrong > 0 && begun:
		s.Score = l.Say("%s of %s right, %s wrong, %s to go.", right, all, wrong, left)
	case s.Wrong > 0:
		s.Score = l.Say("%s of %s right, %s wrong.", right, all, wrong)
	case begun:
		s.Score = l.Say("%s of %s right, %s to go.", right, all, left)
	default:
		s.Score = l.Say("%s of %s right.", right, all)
	}
}

// asks are the questions of a seed and grade. A drill comes up again only
// after all of its grade have, and never with the same numbers.
func asks(d words.Locale, u *units.System, seed, grade string) []*ask {
	order := diceOf(seed, 0)
	var chosen []int
	take := func(g, n int) {
		var of []int
		for i := range drills {
			if drills[i].grade == g {
				of = append(of, i)
			}
		}
		for want := len(chosen) + n; len(chosen) < want; {
			for _, k := range order.shuffled(len(of)) {
				if len(chosen) < want {
					chosen = append(chosen, of[k])
				}
			}
		}
	}
	switch grade {
	case mixedGrade:
		for g, n := range [...]int{1: 1, 2: 2, 3: 2, 4: 2, 5: 1} {
			take(g, n)
		}
	case "5":
		take(5, 3) // each asks two questions
	default:
		g, _ := strconv.Atoi(grade)
		take(g, perSheet)
	}
	var out []*ask
	seen := map[string]bool{}
	for i, k := range chosen {
		q := pose(d, u, &drills[k], diceOf(seed, i+1), seen)
		for ; q != nil; q = q.also {
			out = append(out, q)
		}
	}
	return out
}

// pose asks a question of a kind with numbers in which the common mistakes
// can be told apart, or as many of them as can; and with others than were
// seen, if there are any.
func pose(d words.Locale, u *units.System, kind *drill, from dice, seen map[string]bool) *ask {
	var best *ask
	most, fresh := -1, false
	for range mostTries {
		q := &ask{Locale: d, u: u, dice: from}
		kind.ask(q)
		from = q.dice
		isNew := !seen[q.key()]
		if q.unfit || fresh && !isNew {
			continue
		}
		whole, kept := 0, 0
		for a := q; a != nil; a = a.also {
			whole += len(a.want.Slips)
			a.tellApart()
			kept += len(a.want.Slips)
		}
		if kept > most || isNew && !fresh {
			best, most, fresh = q, kept, isNew
		}
		if isNew && kept == whole {
			break
		}
	}
	if best != nil {
		seen[best.key()] = true
	}
	return best
}

// key is all that a student sees of the question.
func (q *ask) key() string {
	key := q.text + strings.Join(q.given, "\n")
	for _, o := range q.options {
		key += "\n" + o.Label
	}
	return key
}

// question writes a question down and judges the answer to it.
func (q *ask) question(id string, req *asked) Question {
	out := Question{ID: id, Text: q.text, Given: q.given, Kind: "number", Unit: q.u.Units[q.want.Dim].Name, Follows: q.follows, Answer: req.Answers[id]}
	if out.Given == nil {
		out.Given = []string{}
	}
	if q.options != nil {
		out.Kind, out.Unit, out.Options = "choice", "", q.options
	} else if q.want.Tolerance == marking.Exactly {
		out.Tolerance = q.Say("A whole number.")
	} else {
		out.Tolerance = q.Say("Counted as right within %s.", units.Percent(q.want.Tolerance))
	}
	if q.draw != nil && req.Box.Drawable() {
		c := draw.New(req.Box)
		title, desc := q.draw(c)
		out.Picture = c.Finish(title, desc)
	}
	if out.Answer != "" {
		q.answer(&out)
	}
	if req.Solutions || out.State == marking.Right || out.State == marking.Wrong {
		out.Right, out.Solution = q.inWords(), q.steps
	}
	return out
}

// inWords is the right answer.
func (q *ask) inWords() string {
	for _, o := range q.options {
		if o.Value == q.right {
			return o.Label
		}
	}
	return q.figure(q.want.Value, q.want.Dim)
}

// answer judges what was answered.
func (q *ask) answer(out *Question) {
	if q.options != nil {
		for i, o := range q.options {
			switch {
			case o.Value != out.Answer:
			case o.Value == q.right:
				out.State, out.Says = marking.Right, words.Join(q.Say("Right."), q.whys[i])
			default:
				out.State, out.Says = marking.Wrong, q.whys[i]
			}
		}
		if out.State == "" {
			out.State, out.Says = marking.Unread, q.Say("Choose one of those listed.")
		}
		return
	}
	j := marking.Judge(q.Locale, q.u, out.Answer, q.want)
	out.State, out.Says = j.State, j.Says
	switch {
	case j.State == marking.Right:
		out.Says = q.want.Right(q.Locale, q.inWords())
	case j.Slip != marking.NoSlip:
		out.PartsAt = q.parts[j.Slip]
		if len(q.steps) > 1 {
			out.Says = words.Join(out.Says, q.Say("It goes wrong at step %s of the working: %s.", strconv.Itoa(out.PartsAt), q.steps[out.PartsAt-1].Name))
		}
	case j.State == marking.Wrong:
		out.Says = words.Join(out.Says, q.Say("Try again, or step through the working."))
	}
}

// rad is an angle in degrees as the package rigging takes it.
func rad(deg float64) float64 { return deg * rigging.Deg }
