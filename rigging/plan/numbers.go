package plan

import (
	"strings"

	"pullline/rigging/jsontext"
	"pullline/rigging/plan/field"
)

// A Number is one number that a plan is worked out from.
type Number struct {
	Value   float64
	Assumed bool        // the plan leaves it out
	Range   field.Range // what is accepted
	Method  string      // how it was measured, where the plan keeps its readings
}

// Numbers are the numbers of a plan by their paths, given or assumed, as far as they
// are accepted; and the ± it gives for numbers, above 0, by the same paths.
func Numbers(tree any) (numbers map[string]Number, plusMinus map[string]float64) {
	numbers, plusMinus = map[string]Number{}, map[string]float64{}
	if _, ok := tree.(map[string]any); !ok {
		return numbers, plusMinus
	}
	ranges := map[string]field.Range{}
	r := &reader{ranges: ranges}
	root := r.object("", tree, true)
	root.fields = r.migrate(root.fields)
	r.model(root)
	methods, _ := root.fields["readings"].(map[string]any)
	add := func(path string, value float64, assumed bool) {
		kept, _ := methods[path].(map[string]any)
		method, _ := kept["method"].(string)
		numbers[path] = Number{value, assumed, ranges[path], method}
	}
	for path, s := range ranges {
		if v, ok := numberIn(ValueAt(root.fields, path), &s); ok {
			add(path, v, false)
		}
	}
	for _, a := range r.assumed {
		if v, ok := a.Value.(float64); ok && ranges[a.Path].Holds(v) {
			add(a.Path, v, true)
		}
	}
	given, _ := root.fields["plus_minus"].(map[string]any)
	for path, raw := range given {
		n, _ := raw.(jsontext.Number)
		if v, ok := n.Finite(); ok && v > 0 {
			plusMinus[path] = v
		}
	}
	return numbers, plusMinus
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
