package compare

import (
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/page/show"
	"pullline/wasm/request"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// View is the plan as it was held and as it is now.
type View struct {
	Before  Side   `json:"before"`
	Now     Side   `json:"now"`
	Fields  []Row  `json:"fields"`  // what was changed
	Results []Row  `json:"results"` // numbers and pieces that came out otherwise
	Same    string `json:"same"`    // how many did not
	Basis   string `json:"basis"`   // what neither side counts in
	Message string `json:"message,omitempty"`
}

// A Side is one setting.
type Side struct {
	Verdict string `json:"verdict"`
	Held    bool   `json:"held,omitempty"` // within only if the puller is held
	Word    string `json:"word"`
}

// A Row is a field or a result that differs.
type Row struct {
	Label  string `json:"label"`
	Before string `json:"before"`
	Now    string `json:"now"`
}

// An asked is what the page sends besides the plan as it is now.
//
//codec:request
type asked struct {
	request.Common
	Before any `json:"before"` // the plan as it was held
}

// What is said.
const (
	faulty    words.Text = "The two settings could not be compared: there is a fault in the program."
	missing   words.Text = "not there"
	usedRow   words.Text = "%s, used as planned"
	mostRow   words.Text = "%s, used at most"
	oneSame   words.Text = "1 other number is the same."
	manySame  words.Text = "%s other numbers are the same."
	asTyped   words.Text = "Both sides are as computed from the values as typed: what is not known exactly is not counted in, so the verdict at the top may be worse."
	noneFound words.Text = "Nothing differs: change the plan, then compare again."
)

// JSON answers a request {plan, before, settings}. It answers to any input.
//
//codec:call asked View
func JSON(raw []byte) (out []byte) {
	var req asked
	defer func() {
		if fault := recover(); fault != nil {
			unknown := Side{Verdict: "unknown"}
			out = jsontext.Encode(&View{Before: unknown, Now: unknown, Fields: []Row{}, Results: []Row{}, Message: req.Settings.Locale().Say(faulty)})
		}
	}()
	if err := req.Read(raw, req.Take); err != nil {
		panic(err)
	}
	return jsontext.Encode(compare(&req))
}

// A setting is a plan worked out.
type setting struct {
	*draft.Plan
	rep    plan.Report
	pieces []show.Piece
	head   show.Headline
}

func work(req *asked, tree any) (*setting, *units.System) {
	d, u := req.Settings.Told(tree)
	s := &setting{Plan: d, rep: plan.EvaluateTo(tree, req.Size, plan.ToReport)}
	d.Tell(&s.rep, u)
	s.pieces = show.Pieces(d, u, &s.rep)
	s.head = show.Head(d, u, &s.rep, s.pieces)
	return s, u
}

func (s *setting) side() Side {
	return Side{Verdict: s.head.Verdict, Held: s.head.Held, Word: s.head.Word}
}

func compare(req *asked) *View {
	before, _ := work(req, req.Before)
	now, u := work(req, req.Plan)
	v := &View{Before: before.side(), Now: now.side(), Fields: changed(before.Plan, now.Plan, u), Results: []Row{}, Basis: now.Say(asTyped)}
	same := 0
	one := results(before, u)
	two := results(now, u)
	for _, id := range inOrder(one.ids, two.ids) {
		a, b := one.at(id, now.Plan), two.at(id, now.Plan)
		if a == b {
			same++
			continue
		}
		label := two.labels[id]
		if label == "" {
			label = one.labels[id]
		}
		v.Results = append(v.Results, Row{label, a, b})
	}
	switch {
	case len(v.Fields)+len(v.Results) == 0:
		v.Message = now.Say(noneFound)
	case same == 1:
		v.Same = now.Say(oneSame)
	case same > 1:
		v.Same = now.Say(manySame, units.Decimal(float64(same), 0))
	}
	return v
}

// A listing is what is compared of a setting, by an id that is the same in both.
type listing struct {
	ids            []string
	labels, values map[string]string
}

func (l *listing) add(id, label, value string) {
	l.ids = append(l.ids, id)
	l.labels[id], l.values[id] = label, value
}

func (l *listing) at(id string, d *draft.Plan) string {
	if value, ok := l.values[id]; ok {
		return value
	}
	return d.Say(missing)
}

func results(s *setting, u *units.System) *listing {
	l := &listing{labels: map[string]string{}, values: map[string]string{}}
	for _, f := range show.Facts(s.Plan, u, &s.rep) {
		l.add("fact/"+f.ID, f.Label, f.Value)
	}
	for _, p := range s.pieces {
		title := p.Title
		if p.Where != "" {
			title += ", " + p.Where
		}
		l.add("piece/"+p.ID, s.Say(usedRow, title), p.Use)
		l.add("most/"+p.ID, s.Say(mostRow, title), p.AtMostUse)
	}
	return l
}

// inOrder are the ids of both, those of the second first in its order.
func inOrder(before, now []string) []string {
	seen := map[string]bool{}
	var out []string
	for _, ids := range [][]string{now, before} {
		for _, id := range ids {
			if !seen[id] {
				seen[id] = true
				out = append(out, id)
			}
		}
	}
	return out
}
