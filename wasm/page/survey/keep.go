package survey

import (
	"maps"
	"math"
	"slices"
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/request"
	"pullline/wasm/units"
)

// Ways that measure several fields at once: what is kept of them with one
// field serves the others.
func servesOthers(method string) bool {
	for _, prefix := range []string{"lean_", "offset_", "place_", "photo"} {
		if strings.HasPrefix(method, prefix) {
			return true
		}
	}
	return false
}

// kept finds what the plan has kept of the readings of this field.
func (s *measuring) kept() (entry map[string]any, method string) {
	all, _ := draft.Member(s.d.Tree, "readings").(map[string]any)
	at := func(path string) (map[string]any, string) {
		entry, _ := all[path].(map[string]any)
		return entry, request.Text(entry["method"])
	}
	if entry, method = at(s.req.Field); entry != nil {
		return entry, method
	}
	owner, _ := draft.LastKey(s.req.Field)
	for _, path := range slices.Sorted(maps.Keys(all)) {
		of, _ := draft.LastKey(path)
		if entry, method := at(path); of == owner && servesOthers(method) && s.fit.takes(method) {
			return entry, method
		}
	}
	return nil, ""
}

// unpack turns kept readings back into texts and marks.
func (s *measuring) unpack(entry map[string]any) {
	values, _ := entry["values"].(map[string]any)
	pm, _ := entry["plus_minus"].(map[string]any)
	h, _ := rigging.FindSurveyHelper(s.out.Method)
	readings := h.Readings
	if h.Takes == rigging.TakesPhoto {
		readings = append(readings[:len(readings):len(readings)], photoEye, photoFacing)
		s.unpackMarks(values)
	}
	for _, r := range readings {
		key, size := plan.ReadingKey(r)
		dim, unit := readingDim(r)
		if v, ok := draft.Number(values[key]); ok {
			s.req.Texts[r.Key] = s.u.Field(units.RoundDigits(v*size/unit, units.ShownDigits), dim, units.Nearest)
		} else if there := draft.Written(values[key]); there != "" {
			s.req.Texts[r.Key] = there // whatever it is, it is shown and named
		}
		if v, ok := draft.Number(pm[key]); ok {
			s.req.PM[r.Key] = s.u.Field(units.RoundDigits(v*size/unit, units.ShownDigits), dim, units.Nearest)
		}
	}
}

// sayKept tells of readings from the plan, and whether the field still says
// what they give.
func (s *measuring) sayKept() {
	s.out.Kept = s.d.Say("These readings are kept in the plan.")
	for _, m := range s.results {
		now, ok := s.d.Number(s.req.Field)
		if m.path != s.req.Field {
			continue
		}
		dim, size := resultDim(m.SurveyResult)
		if !ok || math.Abs(s.fileValue(m.Value/size, dim, s.wayOf(m.path))-now) > 1e-9*math.Max(1, math.Abs(now)) {
			s.out.Kept = s.d.Say("These readings are kept in the plan, but the field now has another value.")
		}
	}
}

// pack is what was read, as the plan keeps it.
func (s *measuring) pack() map[string]any {
	values, pm := map[string]any{}, map[string]any{}
	for _, r := range s.helper.Readings {
		s.packOne(values, pm, r, r.Key)
	}
	return packed(s.out.Method, values, pm)
}

func (s *measuring) packOne(values, pm map[string]any, r rigging.SurveyReading, key string) {
	m, ok := s.given[key]
	if !ok {
		return
	}
	name, size := plan.ReadingKey(r)
	values[name] = draft.FileNumber(units.RoundDigits(m.Value/size, units.ShownDigits))
	if usual := r.Read(m.Value).PlusMinus; math.Abs(m.PlusMinus-usual) > 1e-12 {
		pm[name] = draft.FileNumber(units.RoundDigits(m.PlusMinus/size, units.ShownDigits))
	}
}

func packed(method string, values, pm map[string]any) map[string]any {
	out := map[string]any{"method": method, "values": values}
	if len(pm) > 0 {
		out["plus_minus"] = pm
	}
	return out
}
