package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/jsontext"
)

func TestFormat(t *testing.T) {
	fields := map[[2]string]FormatField{}
	for _, f := range Format() {
		key := [2]string{f.Path, f.Of}
		_, twice := fields[key]
		assert.False(t, twice, "%s is listed once", f.Path)
		fields[key] = f
	}
	at := func(path, of string) FormatField {
		f, ok := fields[[2]string{path, of}]
		require.True(t, ok, path)
		return f
	}
	height := at("tree.height_m", "")
	assert.Equal(t, spanHeight, height.Range)
	assert.True(t, height.Required)
	assert.Equal(t, 1.5, at("allowance", "").Default)
	centre := at("tree.crown_centre_m", "")
	assert.Nil(t, centre.Default, "it depends on the height")
	assert.Equal(t, "0.65 of the height", say(centre.Why))
	assert.Equal(t, gearKinds, at("gear[].kind", "").Words)
	assert.False(t, at("gear[].wll_kN", "").Required, "another limit does as well")
	assert.True(t, at("points[].anchor.capacity_kN", "rated").Required)
	assert.NotContains(t, fields, [2]string{"points[].anchor.capacity_kN", "machine"})
	assert.Equal(t, []string{"stall", "device", "grip", "watched"}, at("lines[].puller.limited_by", "").Words)
	assert.Equal(t, KindFlag, at("lines[].tended", "").Kind)
	assert.Equal(t, KindList, at("lines[].tied", "").Kind)
	assert.Equal(t, 3.0, at("points[].anchor.factor", "stump").Default)
	assert.Equal(t, rigging.GroundFactor, at("points[].anchor.factor", "buried_log").Default)
	assert.Equal(t, KindDate, at("pull_date", "").Kind)
	assert.Equal(t, maxGear, at("gear", "").Most)
	assert.Equal(t, "m", at("readings.*.values.distance_m", "height_angles").Range.Unit)
}

// The plans that lead the reader through the format are JSON.
func TestFormatPlans(t *testing.T) {
	for _, text := range formatPlans() {
		_, err := jsontext.Parse([]byte(text))
		assert.NoError(t, err, text)
	}
}
