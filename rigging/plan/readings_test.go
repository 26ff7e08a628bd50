package plan

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging"
	"pullline/rigging/plan/field"
)

func withReadings(t *testing.T, readings any) Report {
	d := demoDocument(t)
	d["readings"] = readings
	return d.evaluate(t)
}

// Every way to measure that takes readings is known by its key, with each of
// its readings in the unit of its name.
func TestKeptReadings(t *testing.T) {
	plain := evaluated(t, demo(t))
	for _, h := range rigging.SurveyHelpers() {
		values := fields{}
		for _, r := range h.Readings {
			key, size := ReadingKey(r)
			values[key] = (r.Least + (r.Most-r.Least)/2) / size
		}
		rep := withReadings(t, fields{"tree.height_m": fields{"method": h.Key, "values": values, "plus_minus": fields{}}})
		if h.Takes == rigging.TakesReadings || h.Takes == rigging.TakesPhoto {
			assert.Empty(t, rep.Problems, h.Key)
			assert.Equal(t, plain.Verdict, rep.Verdict, h.Key)
		} else {
			refused(t, h.Key, rep, "readings.tree.height_m.method", true)
		}
	}
	rep := withReadings(t, fields{"lines[0].path[0].stem_m": fields{"method": "photo", "values": fields{
		"pole_length_m": 4, "distance_m": 30, "picture_width_px": 3000, "picture_height_px": 4000, "facing_deg": 90, "attachment_x_px": 10, "attachment_y_px": 20}}})
	assert.Empty(t, rep.Problems)
}

func TestWrongReadingsAreProblems(t *testing.T) {
	height := func(entry any) any { return fields{"tree.height_m": entry} }
	good := fields{"distance_m": 30}
	crowd := fields{}
	for i := range field.Readings.Row().Most + 1 {
		crowd[fmt.Sprintf("points[%d].distance_m", i)] = fields{"method": "level_distance"}
	}
	for name, c := range map[string]struct {
		readings any
		path     string
	}{
		"too many":            {crowd, "readings"},
		"a list":              {[]any{}, "readings"},
		"a number":            {height(3), "readings.tree.height_m"},
		"no path":             {fields{"the height, about": fields{"method": "pace"}}, "readings.the height, about"},
		"no method":           {height(fields{"values": good}), "readings.tree.height_m.method"},
		"unknown method":      {height(fields{"method": "guess", "values": good}), "readings.tree.height_m.method"},
		"method a number":     {height(fields{"method": 3, "values": good}), "readings.tree.height_m.method"},
		"unknown reading":     {height(fields{"method": "height_angles", "values": fields{"distance": 30}}), "readings.tree.height_m.values.distance"},
		"text":                {height(fields{"method": "height_angles", "values": fields{"distance_m": "30"}}), "readings.tree.height_m.values.distance_m"},
		"null":                {height(fields{"method": "height_angles", "values": fields{"distance_m": nil}}), "readings.tree.height_m.values.distance_m"},
		"beyond range":        {height(fields{"method": "height_angles", "values": fields{"top_deg": 95}}), "readings.tree.height_m.values.top_deg"},
		"values a list":       {height(fields{"method": "height_angles", "values": []any{30}}), "readings.tree.height_m.values"},
		"± below 0":           {height(fields{"method": "height_angles", "values": good, "plus_minus": fields{"distance_m": -1}}), "readings.tree.height_m.plus_minus.distance_m"},
		"± of nothing":        {height(fields{"method": "height_angles", "values": good, "plus_minus": fields{"colour": 1}}), "readings.tree.height_m.plus_minus.colour"},
		"a field nobody asks": {height(fields{"method": "height_angles", "values": good, "by": "me"}), "readings.tree.height_m.by"},
	} {
		rep := withReadings(t, c.readings)
		refused(t, name, rep, c.path, false)
	}
}
