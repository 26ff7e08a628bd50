package plan

import (
	"maps"
	"math"

	"pullline/rigging/jsontext"
	"pullline/rigging/plan/field"
)

// migrations[v] turns a plan of version v into one of version v+1. It may
// change the fields given, which are a copy of the plan's own, but not what
// lies in them: that is the caller's, and to be copied first. Version 0 is a
// plan without a version, as a hand-written file may be: its fields are those
// of version 1.
var migrations = []func(fields map[string]any){
	func(fields map[string]any) { fields["version"] = jsontext.Number("1") },
}

// migrate gives the fields of a decoded plan brought up to Version. A plan of a later version, or
// whose version cannot be read, is a problem; its fields are still read as
// if they were today's.
func (r *reader) migrate(fields map[string]any) map[string]any {
	version := 0
	if raw, given := fields["version"]; given {
		v := r.value(field.Version.Key(), raw, &field.Version.Row().Range, false)
		if math.IsNaN(v) {
			return fields
		}
		version = int(v)
		if version > Version {
			r.problem(CodeVersion, field.Version.Key(), accepted(field.Version.Row().Range.Within(1, Version)), v, "version", version, Version)
			return fields
		}
	} else {
		r.assumeField(field.Version.Key(), field.Version, Version)
	}
	if version < Version {
		fields = maps.Clone(fields)
	}
	for v := version; v < Version; v++ {
		migrations[v](fields)
	}
	return fields
}
