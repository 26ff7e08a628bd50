package page

import (
	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/page/brief"
	"pullline/wasm/page/form"
	"pullline/wasm/page/job"
	"pullline/wasm/page/show"
	"pullline/wasm/parts"
	"pullline/wasm/scene"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// JSON answers a request with the View of its plan. It answers to any
// input; what it cannot work out is unknown, with the problem named.
//
//codec:call asked View
func JSON(raw []byte) (out []byte) {
	var l words.Locale
	defer func() {
		if fault := recover(); fault != nil {
			out = jsontext.Encode(brokenView(l, "", "The page could not work out this plan: there is a fault in the program. Ignore everything shown before."))
		}
	}()
	req, err := parse(raw)
	if err != nil {
		return jsontext.Encode(brokenView(l, "", "The page asked for a view in a way that could not be read: %s", err.Error()))
	}
	l = req.Settings.Locale()
	return view(req).encode()
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
func brokenView(l words.Locale, path string, text words.Text, args ...string) *View {
	message := l.Say(text, args...)
	return &View{
		Headline: show.Headline{
			Verdict: rigging.Unknown.String(), Word: l.Say(words.Headline[rigging.Unknown]), Sentence: message,
			Use: units.None, AtMost: rigging.Unknown.String(), Why: []parts.Note{},
		},
		Facts: []parts.Fact{}, Form: []parts.Section{}, Pieces: []show.Piece{}, Cautions: []parts.Note{},
		Problems: []parts.Note{{Path: path, Message: message}}, Standing: parts.Standing(l),
		Assumed: []parts.Assumed{}, Working: []parts.Step{}, Taken: []parts.Step{}, Steps: []JobStep{}, Units: parts.Units(l), UnitsNow: units.KN.Key, Words: parts.Words(l), WordsNow: words.NZ.Key(),
	}
}

const longestName = 120 // characters of a plan's name over its page

// hopeless is the size of a plan, bytes, that is not looked into at all. A
// smaller one that is too long still has its form, to be shortened there.
const hopeless = 4 * plan.MaxBytes

// view makes the view of a request's plan.
func view(req *asked) *View {
	if req.Size > hopeless {
		req.Plan = nil
	}
	rep := plan.EvaluateTree(req.Plan, req.Size)
	d, u := req.Settings.Told(req.Plan)
	d.Tell(&rep, u)
	told := rep
	if req.Sampled != "" {
		told.HoldSurely(req.SafeHold)
	}
	v := viewOf(d, u, &told, req.Light)
	v.Headline.Worsen(d, req.Sampled)
	if req.Report {
		v.Report = &rep
	}
	v.Lists, v.Helps = form.Share(v.Form)
	v.Side, v.Plan, v.Curve = scene.Drawings(req.Boxes, d, &rep, u)
	return v
}

// viewOf makes all of a view but the drawings; a light one is without form,
// working and standing notes.
func viewOf(d *draft.Plan, u *units.System, rep *plan.Report, light bool) *View {
	v := &View{
		Facts:    show.Facts(d, u, rep),
		Form:     []parts.Section{},
		Pieces:   show.Pieces(d, u, rep),
		Problems: show.Problems(d, rep),
		Cautions: show.Cautions(rep),
		Standing: []parts.Note{},
		Assumed:  make([]parts.Assumed, 0, len(rep.Assumed)),
		Working:  []parts.Step{},
		Taken:    []parts.Step{},
		Name:     words.Shortened(d.Text("name"), longestName),
		Units:    parts.Units(d.Locale),
		UnitsNow: u.Key,
		Words:    parts.Words(d.Locale),
		WordsNow: d.Region.Key(),
		Fresh:    rep.Pull.PlannedKN.Known(),
	}
	if !light {
		v.Form, v.Working, v.Standing = job.Form(d, u, rep), show.Working(d.Locale, u, rep), parts.Standing(d.Locale)
	}
	for _, a := range rep.Assumed {
		v.Assumed = append(v.Assumed, fields.Assumed(d, u, &a))
	}
	if !light {
		v.Taken = show.Taken(d.Locale, v.Assumed)
	}
	v.Headline = show.Head(d, u, rep, v.Pieces)
	v.Steps = jobSteps(d, rep, &v.Headline, v.Form)
	v.After, v.Stem = show.Afterwards(d, u, rep), job.SharedStem(d)
	if !light {
		v.Brief = brief.Of(d, u, rep)
	}
	return v
}
