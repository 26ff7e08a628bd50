package job

import (
	"maps"
	"strings"

	"pullline/wasm/draft"
	"pullline/wasm/words"
)

const (
	noRig     words.Text = "“%s” has no lines, points or gear to take over."
	noName    words.Text = "The other plan"
	rigCopied words.Text = "Lines, points and gear are now as in “%s”. Heights on the stem, bearings, distances and anchors belong to the place they were measured at: give them anew."
)

// rig takes over the lines, points and gear of another plan. What was measured
// or judged where that tree stood stays behind, so that the plan cannot be
// judged before it is given anew; a machine comes along.
func (e *editor) rig(from any) {
	other := draft.Of(from)
	name := other.Text("name")
	if name == "" {
		name = e.d.Say(noName)
	}
	if other.Size("points")+other.Size("lines")+other.Size("gear") == 0 {
		e.Refuse(e.d.Say(noRig, name))
		return
	}
	e.Set("points", without(other.List("points"), func(point map[string]any) {
		delete(point, "bearing_deg")
		delete(point, "distance_m")
		delete(point, "rise_m")
		anchor, _ := point["anchor"].(map[string]any)
		switch kind := anchor["kind"]; kind {
		case nil:
			delete(point, "anchor")
		case "machine":
			anchor = maps.Clone(anchor)
			delete(anchor, "slope_deg")
			delete(anchor, "traction")
			point["anchor"] = anchor
		case "bridle":
		default:
			point["anchor"] = map[string]any{"kind": kind}
		}
	}))
	e.Set("lines", without(other.List("lines"), func(line map[string]any) {
		stations, _ := line["path"].([]any)
		line["path"] = without(stations, func(station map[string]any) {
			if _, onStem := station["stem_m"]; onStem {
				station["stem_m"] = ""
			}
		})
	}))
	for path := range e.d.Object("plus_minus") {
		if ofRig(path) {
			e.Remove(draft.PlusMinus + path)
		}
	}
	for path := range e.d.Object("readings") {
		if ofRig(path) {
			e.dropReadings(path)
		}
	}
	e.Set("gear", without(other.List("gear"), func(map[string]any) {}))
	e.Out.Focus = "points"
	e.Out.Message = e.d.Say(rigCopied, name)
}

// ofRig tells whether a path leads into what a rig replaces: what was measured of
// the one before is not of this one.
func ofRig(path string) bool {
	return strings.HasPrefix(path, "points[") || strings.HasPrefix(path, "lines[") || strings.HasPrefix(path, "gear[")
}

// without copies the objects of a list and takes something out of each copy.
func without(list []any, take func(map[string]any)) []any {
	out := make([]any, 0, len(list))
	for _, v := range list {
		if object, ok := v.(map[string]any); ok {
			object = maps.Clone(object)
			take(object)
			v = object
		}
		out = append(out, v)
	}
	return out
}
