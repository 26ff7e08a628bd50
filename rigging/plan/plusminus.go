package plan

import (
	"math"
	"strconv"
	"strings"

	"pullline/rigging/plan/field"
)

// plusMinus checks the ± of measured values: a table from the path of a
// number, as problems name it, to its ± in the same unit. A path that leads
// to no number of the plan, given or assumed, is a problem: it is misspelt,
// or what it was measured for has gone.
func (r *reader) plusMinus(root *object, m *model) {
	o := root.child(field.PlusMinus)
	if o == nil {
		return
	}
	assumed := make(map[string]bool, len(r.assumed))
	for _, a := range r.assumed {
		assumed[a.Path] = true
	}
	for _, key := range sortedKeys(o.fields) {
		raw, _ := o.tick(key)
		v := o.value(key, raw, &field.AnyPlusMinus.Row().Range)
		if !math.IsNaN(v) && !isNumber(ValueAt(root.fields, key)) && !assumed[key] {
			r.problem(CodeNoSuch, o.sub(shorten(key)), takes("number_path"), shorten(key), "plus_minus_of_nothing", quote(key))
		}
		if v > 0 {
			m.uncertain = true
		}
	}
}

// ValueAt follows a path such as points[0].distance_m; nil where it leads
// nowhere.
func ValueAt(v any, path string) any {
	for path != "" && v != nil {
		var step string
		if path[0] == '[' {
			step, path, _ = strings.Cut(path[1:], "]")
			list, _ := v.([]any)
			i, err := strconv.Atoi(step)
			if err != nil || i < 0 || i >= len(list) {
				return nil
			}
			v = list[i]
		} else {
			end := strings.IndexAny(path, ".[")
			if end < 0 {
				end = len(path)
			}
			step, path = path[:end], path[end:]
			fields, _ := v.(map[string]any)
			v = fields[step]
		}
		path = strings.TrimPrefix(path, ".")
	}
	return v
}
