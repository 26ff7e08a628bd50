package words

import (
	"pullline/rigging/plan"
	"pullline/wasm/units"
)

// Tell says a report in this locale and the user's units.
func (l Locale) Tell(rep *plan.Report, u *units.System) { rep.Tell(l.Voice(u)) }
