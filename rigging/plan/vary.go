package plan

import (
	"strconv"
	"strings"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan/text"
)

// Variations are plans that differ from one plan in a few values: what a map of
// good places, a sheet of leans or a sample needs thousands of.
type Variations struct {
	// Paths are the fields that vary, as problems name them: "tree.lean_deg",
	// "points[4].distance_m", "gear[0]". An object on the way that the plan leaves
	// out is put in; an entry of a list has to be there.
	Paths []string
	// Values has a row for each plan and in it a value for each path, set in this
	// order, of the types that package jsontext reads, or a float64. nil takes a member out of its
	// object, so that its default counts.
	Values [][]any
	// Want is what to tell of each, by its place in the report: a verdict, text or
	// number of its own ("verdict", "governing_use"), of a part ("pull.peak_kN",
	// "tree.side_hold_use"), or of a row by its name ("gear[main rope].use",
	// "points[R].verdict", "lines[pull].haul_kN"); besides these "why" and "why_path",
	// the code and path of the first reason for the verdict, "" without one.
	Want []string
	// PlannedKN is the tension planned in all of them, whatever pull each turns out to
	// need: what a crew has decided stays decided. 0 leaves it to each plan.
	PlannedKN float64
}

// Limits on one call of Vary.
const (
	MaxVariations = 20_000
	maxWanted     = 500
)

// Varied is what came of variations.
type Varied struct {
	// Rows has for each variation what Want asks for: a float64, a string or a bool;
	// nil for what is not known, or not there.
	Rows [][]any
	// Problems are of the request, under its own paths (paths[0], want[2] …); with any
	// there are no rows but where what is wanted was found in none of them. What is wrong
	// with a variation shows in its verdict.
	Problems []Problem
}

// Vary works out variations of a plan that package jsontext has read from a text of
// so many bytes, each no further than what is wanted needs. Every row is what
// EvaluateTo tells of the plan with those values in it. The tree is left as it is.
func Vary(tree any, size int, v *Variations) Varied {
	r := &reader{of: ofRequest}
	grafts, wants := r.variations(v)
	if len(r.problems) > 0 {
		return Varied{Rows: [][]any{}, Problems: r.problems}
	}
	depth := ToPull
	for i := range wants {
		depth = max(depth, wants[i].depth)
	}
	out := Varied{Rows: make([][]any, len(v.Values)), Problems: []Problem{}}
	k := &memo{}
	room := make([]any, len(v.Values)*len(wants))
	for i, values := range v.Values {
		rep := variation(&reader{memo: k, planned: v.PlannedKN * rigging.KN}, tree, size, depth, grafts, values)
		row := room[:len(wants):len(wants)]
		out.Rows[i], room = row, room[len(wants):]
		for k := range wants {
			row[k] = wants[k].of(&rep)
		}
	}
	for k := range wants {
		if w := &wants[k]; len(v.Values) > 0 && !w.found {
			r.problem(CodeNoSuch, item("want", k), takes("row"), v.Want[k], "want_missing", quote(v.Want[k]))
		}
	}
	out.Problems = append(out.Problems, r.problems...)
	return out
}

// variations reads a request.
func (r *reader) variations(v *Variations) (grafts *graft, wants []wanted) {
	grafts = &graft{value: -1}
	if n := len(v.Values); n > MaxVariations {
		r.problem(CodeTooLong, "values", takes("rows", MaxVariations), n, "values_many", n, MaxVariations)
	}
	if n := len(v.Want); n > maxWanted {
		r.problem(CodeTooLong, "want", takes("entries", maxWanted), n, "want_many", n, maxWanted)
		return nil, nil
	}
	for i, path := range v.Paths {
		at, ok := placesOf(path)
		if !ok {
			r.problem(CodeNoSuch, item("paths", i), takes("vary_path"), shorten(path), "path_of_nothing", quote(path))
		}
		grafts.add(at, i)
	}
	for i, values := range v.Values {
		if n := len(values); n != len(v.Paths) {
			r.problem(CodeRange, item("values", i), takes("value_each"), n, "values_short", n, len(v.Paths))
			break
		}
	}
	for i, text := range v.Want {
		w, ok := wantedOf(text)
		if !ok {
			r.problem(CodeNoSuch, item("want", i), takes("want"), shorten(text), "no_want", quote(text))
		}
		wants = append(wants, w)
	}
	return grafts, wants
}

// variation is the report of the plan with values grafted on, without sentences.
func variation(r *reader, tree any, size int, depth Depth, grafts *graft, values []any) Report {
	tree, not := grafts.on(tree, values)
	if not != nil {
		r.problem(CodeNoSuch, not.path, takes("plan_place"), nil, "no_place", quote(not.path))
		return r.report(nil)
	}
	r, e := workOut(r, tree, size, depth)
	return r.report(e)
}

// A place is one step of a path: the name of a member, or an entry of a list.
type place struct {
	name  string
	index int // −1 for a member
}

func placesOf(path string) (out []place, ok bool) {
	if path == "" {
		return nil, false
	}
	for first := true; path != ""; first = false {
		if path[0] == '[' && !first {
			number, rest, closed := strings.Cut(path[1:], "]")
			index, err := strconv.Atoi(number)
			if err != nil || index < 0 || !closed {
				return nil, false
			}
			out, path = append(out, place{index: index}), rest
			continue
		}
		if path[0] == '.' && !first {
			path = path[1:]
		} else if !first {
			return nil, false
		}
		end := strings.IndexAny(path, ".[")
		if end < 0 {
			end = len(path)
		}
		if end == 0 {
			return nil, false
		}
		out, path = append(out, place{path[:end], -1}), path[end:]
	}
	return out, true
}

// A wanted is one value of a report.
type wanted struct {
	part  string // "", tree, pull, stem, brief, after, lines, points, gear
	id    string // of the row of a list
	key   string
	depth Depth
	found bool // in a report so far
}

const (
	wantWhy     = "why"
	wantWhyPath = "why_path"
)

func wantedOf(text string) (w wanted, ok bool) {
	part, rest, list := strings.Cut(text, "[")
	if list {
		end := strings.LastIndex(rest, "].")
		if end < 0 {
			return w, false
		}
		w = wanted{part: part, id: rest[:end], key: rest[end+2:], depth: ToVerdict}
	} else if part, key, parted := strings.Cut(text, "."); parted {
		w = wanted{part: part, key: key}
	} else {
		w = wanted{key: text, depth: ToVerdict}
	}
	switch {
	case w.part == "" && list:
		return w, false
	case w.part == "pull" && w.key == "hold_puller_to_kN":
		w.depth = ToVerdict
	case w.part == "stem":
		w.depth = ToVerdict
	case w.part == "brief" || w.part == "after" || w.part == "lines" && (w.key == "stretch_m" || w.key == "energy_kJ"):
		w.depth = ToReport
	}
	if list != (w.part == "people" || w.part == "lines" || w.part == "points" || w.part == "gear") {
		return w, false
	}
	// A report that has every part once knows all that can be wanted.
	w.of(&Report{Lines: []LineReport{{ID: w.id}}, Points: []PointReport{{ID: w.id}}, Gear: []GearReport{{ID: w.id}}, People: []PersonReport{{ID: w.id}}, After: &AfterReport{}})
	ok, w.found = w.found, !list
	return w, ok
}

// of gives the value in a report.
func (w *wanted) of(rep *Report) any {
	var place any
	switch w.part {
	case "":
		if w.key == wantWhy || w.key == wantWhyPath {
			place = w.ofWhy(rep)
		} else {
			place = rep.member(w.key)
		}
	case "tree":
		place = rep.Tree.member(w.key)
	case "pull":
		place = rep.Pull.member(w.key)
	case "stem":
		place = rep.Stem.member(w.key)
	case "brief":
		place = rep.Brief.member(w.key)
	case "after":
		if rep.After != nil {
			place = rep.After.member(w.key)
		}
	case "lines":
		for i := range rep.Lines {
			if rep.Lines[i].ID == w.id {
				place = rep.Lines[i].member(w.key)
				break
			}
		}
	case "people":
		for i := range rep.People {
			if rep.People[i].ID == w.id {
				place = rep.People[i].member(w.key)
				break
			}
		}
	case "points":
		for i := range rep.Points {
			if rep.Points[i].ID == w.id {
				place = rep.Points[i].member(w.key)
				break
			}
		}
	case "gear":
		for i := range rep.Gear {
			if rep.Gear[i].ID == w.id {
				place = rep.Gear[i].member(w.key)
				break
			}
		}
	}
	w.found = w.found || place != nil
	switch x := place.(type) {
	case *Num:
		if x.Known() {
			return float64(*x)
		}
	case *rigging.Verdict:
		return x.String()
	case *string:
		return *x
	case *bool:
		return *x
	}
	return nil
}

// ofWhy is what is wanted of the first reason for the verdict.
func (w *wanted) ofWhy(rep *Report) *string {
	switch {
	case len(rep.Why) == 0:
		return new(string)
	case w.key == wantWhy:
		return &rep.Why[0].Code
	}
	return &rep.Why[0].Path
}

// VaryJSON answers {"plan": …, "paths": [], "values": [[]], "want": []} with
// {"rows": [[]], "problems": []}, as Vary does.
func VaryJSON(request []byte) []byte {
	var v Variations
	var tree any
	size := 0
	r := &reader{of: ofRequest}
	err := jsontext.Members(request, func(key string, value any, n int) {
		switch key {
		case "plan":
			tree, size = value, n
		case "paths":
			v.Paths = r.names(key, value)
		case "want":
			v.Want = r.names(key, value)
		case "values":
			v.Values = r.rows(key, value)
		default:
			r.problem(CodeUnknownField, shorten(key), oneOf("plan", "paths", "values", "want"), nil, "unknown_field.request", quote(key))
		}
	})
	if err != nil {
		r.problems = nil
		key, args := unreadable(err)
		r.problem(CodeUnreadable, "", takes("json"), nil, key, args...)
	}
	out := Varied{Problems: r.problems}
	if len(r.problems) == 0 {
		out = Vary(tree, size, &v)
	}
	TellProblems(out.Problems, &text.Voice{})
	w := jsontext.NewWriter(16 << 10)
	w.Open()
	w.Key("rows")
	w.OpenList()
	for _, row := range out.Rows {
		w.Any(row)
	}
	w.CloseList()
	jsontext.Objects(w, "problems", out.Problems, (*Problem).AppendJSON)
	w.Close()
	return w.Bytes()
}

// names reads a list of texts.
func (r *reader) names(path string, value any) []string {
	list, ok := value.([]any)
	if !ok {
		r.problem(CodeType, path, takes("list_of_texts"), shown(value), "list_of_texts", text.Field(path))
	}
	out := make([]string, len(list))
	for i := range list {
		if out[i], ok = list[i].(string); !ok {
			r.problem(CodeType, item(path, i), takes("text"), shown(list[i]), "entry_text")
			break
		}
	}
	return out
}

// rows reads a list of lists.
func (r *reader) rows(path string, value any) [][]any {
	list, ok := value.([]any)
	if !ok {
		r.problem(CodeType, path, takes("list_of_lists"), shown(value), "list_of_lists", text.Field(path))
	}
	out := make([][]any, len(list))
	for i := range list {
		if out[i], ok = list[i].([]any); !ok {
			r.problem(CodeType, item(path, i), takes("list_of_values"), shown(list[i]), "entry_list")
			break
		}
	}
	return out
}
