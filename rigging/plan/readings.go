package plan

import (
	"sort"
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan/field"
)

// The plan keeps what was read in the field under the path of the field that
// was measured:
//
//	"readings": {"tree.height_m": {"method": "height_angles",
//	  "values": {"distance_m": 30, "top_deg": 40, "foot_deg": -5},
//	  "plus_minus": {"distance_m": 0.2}}}
//
// Nothing is computed from it again: the field and its ± in plus_minus are
// what counts. It is read as strictly as the rest, so that a reading nobody
// knows, or that cannot be, does not pass for one.

// PhotoMarks are the places marked in a picture, as its kept readings name
// them, each with _x_px and _y_px; the last two may be left out.
var PhotoMarks = [...]string{"pole_bottom", "pole_top", "butt", "top", "stem_low", "stem_high", "attachment", "crown_centre"}

// Keys of the sides of a picture.
const (
	PictureWidth  = "picture_width_px"
	PictureHeight = "picture_height_px"
)

// widestPicture (px) bounds a side of a picture.
const widestPicture = 1e5

// ReadingKey is the name of a reading in the plan, with the unit it is kept
// in, and the size of that unit in SI.
func ReadingKey(r rigging.SurveyReading) (key string, size float64) {
	switch r.Unit {
	case "m":
		return r.Key + "_m", 1
	case "rad":
		return r.Key + "_deg", rigging.Deg
	}
	return r.Key, 1
}

// ReadingRanges are the accepted ranges of a method's readings by their name
// in the plan; ok is false for a method that keeps none.
func ReadingRanges(method string) (spans map[string]field.Range, ok bool) {
	h, ok := rigging.FindSurveyHelper(method)
	if !ok || h.Takes != rigging.TakesReadings && h.Takes != rigging.TakesPhoto {
		return nil, false
	}
	spans = make(map[string]field.Range, len(h.Readings))
	for _, r := range h.Readings {
		key, size := ReadingKey(r)
		unit := r.Unit
		if unit == "rad" {
			unit = "°"
		}
		spans[key] = field.Range{Min: round(r.Least / size), Max: round(r.Most / size), Unit: unit}
	}
	if h.Takes == rigging.TakesPhoto {
		px := field.Range{Min: 0, Max: widestPicture, Unit: "px"}
		for _, mark := range PhotoMarks {
			spans[mark+"_x_px"], spans[mark+"_y_px"] = px, px
		}
		spans[PictureWidth], spans[PictureHeight] = px, px
		spans["eye_m"] = field.Range{Min: -20, Max: 50, Unit: "m"}
		spans["facing_deg"] = field.Range{Min: -360, Max: 360, Unit: "°"}
	}
	return spans, true
}

// readings checks the readings that were kept.
func (r *reader) readings(root *object) {
	o := root.child(field.Readings)
	if o == nil {
		return
	}
	if most := field.Readings.Row().Most; len(o.fields) > most {
		root.problem(CodeTooLong, field.Readings, takes("fields", most), len(o.fields), "readings_many", len(o.fields), most)
		return
	}
	for _, path := range sortedKeys(o.fields) {
		raw, _ := o.tick(path)
		if !looksLikeAPath(path) {
			r.problem(CodeNoSuch, o.sub(shorten(path)), takes("path"), nil, "reading_of_nothing", quote(path))
			continue
		}
		k := r.object(o.sub(path), raw, false)
		method := k.text(field.ReadingMethod)
		spans, known := ReadingRanges(method)
		if !known {
			if method != "" || !k.has(field.ReadingMethod) {
				k.problem(CodeChoice, field.ReadingMethod, takes("method"), shorten(method), "no_method", quote(method))
			}
			k.take(field.ReadingValues)
			k.take(field.ReadingPlusMinus)
			k.done()
			continue
		}
		for _, part := range []field.Field{field.ReadingValues, field.ReadingPlusMinus} {
			values := k.child(part)
			if values == nil {
				continue
			}
			for _, key := range sortedKeys(values.fields) {
				span, ok := spans[key]
				if !ok {
					continue // done reports it
				}
				if part == field.ReadingPlusMinus {
					unit := span.Unit
					span = field.AnyReadingPlusMinus.Row().Range
					span.Unit = unit
				}
				raw, _ := values.tick(key)
				values.value(key, raw, &span)
			}
			values.done()
		}
		k.done()
	}
}

func sortedKeys(fields map[string]any) []string {
	keys := make([]string, 0, len(fields))
	for key := range fields {
		keys = append(keys, key)
	}
	sort.Strings(keys)
	return keys
}

// looksLikeAPath says whether a text is made as paths are; what it leads to
// may be gone.
func looksLikeAPath(path string) bool {
	if path == "" || len(path) > 100 || !strings.Contains(path, "_") {
		return false
	}
	for i := range len(path) {
		switch c := path[i]; {
		case 'a' <= c && c <= 'z', 'A' <= c && c <= 'Z', '0' <= c && c <= '9', c == '_', c == '.', c == '[', c == ']':
		default:
			return false
		}
	}
	return true
}
