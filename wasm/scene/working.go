package scene

import "pullline/rigging/plan"

// StepsByPath are the steps of a report's working under their paths.
func StepsByPath(rep *plan.Report) map[string]*plan.Working {
	out := make(map[string]*plan.Working, len(rep.Working))
	for i := range rep.Working {
		out[rep.Working[i].Path] = &rep.Working[i]
	}
	return out
}
