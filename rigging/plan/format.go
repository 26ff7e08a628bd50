package plan

import (
	"math"
	"slices"
	"strings"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan/text"
)

// Kinds of a field of the plan format.
const (
	KindObject = "object"
	KindList   = "list"
	KindNumber = "number"
	KindText   = "text"
	KindChoice = "choice"
	KindFlag   = "flag"
	KindDate   = "date"
)

// A FormatField is one field of the plan format as the reader asks for it.
type FormatField struct {
	// Path has its indexes left out and a * for a key that is not fixed:
	// "points[].anchor.mass_kg", "plus_minus.*". What is in a list and is not
	// a field of its own is a text.
	Path string
	// Of is the kind of the object the field lies in, where its fields depend
	// on that: the kind of an anchor, the method of kept readings.
	Of       string
	Kind     string
	Range    Range    // of a number
	Words    []string // of a choice
	Most     int      // entries of a list, bytes of a text
	Required bool     // wherever its object is given
	// Default is what is taken where the field is left out, nil where that
	// depends on other fields or there is none; Why says what it is, nothing where
	// that differs from plan to plan.
	Default       any
	Why           text.Saying
	Source, Basis string
}

// Format lists every field of the plan format, an object before what is in
// it. It is what the reader itself asks for while it reads plans in which
// every part stands once full and once empty: there is no second list of
// fields. It is for those who describe the format; reading does not need it.
func Format() []FormatField {
	f := format{at: map[[2]string]int{}, absent: map[[2]string]int{}, missed: map[[2]string]int{}, defaults: map[[2]string][]Assumed{}}
	for _, text := range formatPlans() {
		f.read(text)
	}
	for i := range f.fields {
		field := &f.fields[i]
		key := [2]string{field.Path, field.Of}
		field.Required = f.absent[key] > 0 && f.missed[key] == f.absent[key]
		f.fill(field, f.defaults[key])
	}
	return f.fields
}

// formatPlans are plans that between them have every part once with nothing
// in it and once with all that leads to further fields.
func formatPlans() []string {
	plans := []string{
		`{}`,
		`{"tree": {"sections": [{}], "defects": [{}]}, "cut": {}, "site": {}, "points": [{}, {"anchor": {}}], "people": [{}], "lines": [{}, {"path": [{}]}], "gear": [{}],
		  "fork": {}, "brief": {}, "after": {}, "plus_minus": {}, "readings": {}}`,
		// Two trees, so that a default that depends on the tree shows.
		`{"version": 1, "site": {"wind_mps": 3}, "tree": {"species": "radiata_pine", "height_m": 20, "diameter_cm": 40},
		  "plus_minus": {"tree.height_m": 1}}`,
		`{"version": 1, "site": {"wind_mps": 3}, "tree": {"height_m": 30, "diameter_cm": 60}}`,
		`{"lines": [{"path": [{"stem_m": 9}, {"point": "A"}, {"point": "B"}], "puller": {}, "rope": {},
		  "tackle": {"stages": [{}], "haul_path": [{}, {"point": "A"}]}}, {"tackle": {"reeving": {}}},
		  {"tackle": {"reeving": {"nodes": [{}], "ropes": [{}, {"path": ["a"]}]}}}]}`,
		`{"gear": [{"line": "p", "wll_t": 1, "reductions": [{}]}, {"point": "A", "wll_kN": 1}, {"point": "A", "mbl_kN": 1}]}`,
		`{"brief": {"sequence": ["a"], "signals": [{}], "roles": [{}]}, "after": {"photos": ["a"]}}`,
		`{"points": [{"anchor": {"kind": "rated"}}, {"anchor": {"kind": "machine"}}, {"anchor": {"kind": "tree"}}, {"anchor": {"kind": "stump"}}, {"anchor": {"kind": "buried_log"}},
		  {"anchor": {"kind": "pickets"}}, {"anchor": {"kind": "pickets", "rows": [1]}}, {"anchor": {"kind": "bridle"}}, {"anchor": {"kind": "bridle", "legs": [{}]}}]}`,
	}
	for _, h := range rigging.SurveyHelpers() {
		spans, ok := readingSpans(h.Key)
		if !ok {
			continue
		}
		w := jsontext.NewWriter(0)
		w.Open()
		w.Key("readings")
		w.Open()
		w.Key(formatReading)
		w.Open()
		w.Text("method", h.Key)
		for _, part := range []string{"values", "plus_minus"} {
			w.Key(part)
			w.Open()
			for _, key := range sortedSpans(spans) {
				w.Int(key, 1)
			}
			w.Close()
		}
		w.Close()
		w.Close()
		w.Close()
		plans = append(plans, string(w.Bytes()))
	}
	return plans
}

// formatReading is the field whose readings are kept in formatPlans.
const formatReading = "tree.height_m"

func sortedSpans(spans map[string]Range) []string {
	keys := make([]string, 0, len(spans))
	for key := range spans {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}

// A format gathers the fields the reader asks for. Its keys are a path and
// the kind of the object it lies in.
type format struct {
	fields   []FormatField
	at       map[[2]string]int // index in fields
	absent   map[[2]string]int // how often a field was not there
	missed   map[[2]string]int // how often its absence was a problem
	defaults map[[2]string][]Assumed
}

// read has one plan read and takes note of every field asked for.
func (f *format) read(text string) {
	tree, err := jsontext.Parse([]byte(text))
	if err != nil {
		return // formatPlans is JSON
	}
	r := &reader{}
	absent := map[string][2]string{} // by path, so that asking twice counts once
	r.watch = func(path string, field FormatField) {
		if path == "" {
			return // the plan itself
		}
		field.Path, field.Of = fieldPattern(path), objectKind(tree, path)
		key := [2]string{field.Path, field.Of}
		if _, known := f.at[key]; !known {
			f.at[key] = len(f.fields)
			f.fields = append(f.fields, field)
		} else if old := &f.fields[f.at[key]]; old.Kind == KindText && field.Kind == KindChoice {
			*old = field
		}
		if ValueAt(tree, path) == nil && !strings.HasPrefix(path, "readings.") {
			absent[path] = key
		}
	}
	root := r.object("", tree, true)
	root.fields = r.migrate(root.fields)
	r.model(root)
	for path, key := range absent {
		f.absent[key]++
		for _, p := range r.problems {
			if p.Path == path {
				f.missed[key]++
				break
			}
		}
	}
	for _, a := range r.assumed {
		if v, ok := a.Value.(float64); ok && math.IsNaN(v) {
			continue
		}
		key := [2]string{fieldPattern(a.Path), objectKind(tree, a.Path)}
		f.defaults[key] = append(f.defaults[key], a)
	}
}

// fill gives a field the default that all plans had.
func (f *format) fill(field *FormatField, found []Assumed) {
	for i, a := range found {
		if i == 0 {
			field.Default, field.Why, field.Source, field.Basis = a.Value, a.Saying, a.Source, a.Basis
			continue
		}
		if field.Default != a.Value {
			field.Default = nil
		}
		if field.Why.Key != a.Saying.Key || !slices.Equal(field.Why.Args, a.Saying.Args) {
			field.Why, field.Source, field.Basis = text.Saying{}, "", ""
		}
	}
}

// fieldPattern leaves the indexes out of a path, and puts a * for a key that
// is not fixed.
func fieldPattern(path string) string {
	if strings.HasPrefix(path, "plus_minus.") {
		return "plus_minus.*"
	}
	if rest, ok := strings.CutPrefix(path, "readings."+formatReading); ok {
		path = "readings.*" + rest
	}
	return PatternOf(path)
}

// PatternOf leaves the indexes out of a path: "points[].anchor.factor".
func PatternOf(path string) string {
	var out strings.Builder
	for {
		before, rest, ok := strings.Cut(path, "[")
		out.WriteString(before)
		if !ok {
			return out.String()
		}
		out.WriteString("[]")
		_, path, _ = strings.Cut(rest, "]")
	}
}

// objectKind is the kind of the object a path lies in, where the fields of
// such an object depend on it.
func objectKind(tree any, path string) string {
	if i := strings.Index(path, ".anchor."); i >= 0 {
		kind, _ := ValueAt(tree, path[:i]+".anchor.kind").(string)
		return kind
	}
	if rest, ok := strings.CutPrefix(path, "readings."+formatReading+"."); ok && rest != "" {
		fields, _ := tree.(map[string]any)
		readings, _ := fields["readings"].(map[string]any)
		kept, _ := readings[formatReading].(map[string]any)
		method, _ := kept["method"].(string)
		return method
	}
	return ""
}
