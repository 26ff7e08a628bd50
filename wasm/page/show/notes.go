package show

import (
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/parts"
)

// Problems are those of a plan, said with where they are.
func Problems(d *draft.Plan, rep *plan.Report) []parts.Note {
	out := make([]parts.Note, 0, len(rep.Problems))
	for _, p := range rep.Problems {
		out = append(out, parts.Note{Path: p.Path, Message: fields.Located(d, p)})
	}
	return out
}

// Cautions are those that stand nowhere else: neither always shown, nor among
// the reasons for the verdict.
func Cautions(rep *plan.Report) []parts.Note {
	out := make([]parts.Note, 0, len(rep.Cautions))
	for i := range rep.Cautions {
		if c := &rep.Cautions[i]; !parts.Stands(c.Code) && !isReason(rep, c) {
			out = append(out, parts.Note{Code: c.Code, Path: c.Path, Message: c.Message, Source: c.Source})
		}
	}
	return out
}

// isReason says whether a caution is also a reason for the verdict, in the same
// words: it stands there.
func isReason(rep *plan.Report, c *plan.Caution) bool {
	for i := range rep.Why {
		if y := &rep.Why[i]; y.Code == c.Code && y.Path == c.Path && y.Saying.Key == c.Saying.Key {
			return true
		}
	}
	return false
}
