package job

import (
	"pullline/wasm/page/show"
	"pullline/wasm/parts"
)

func (b *builder) about() parts.Section {
	return parts.Section{ID: "about", Title: b.d.Say("Name and notes"), Fields: b.Fields("", "name", "notes"), Summary: b.Written("name")}
}

// after is the form's section for what happened.
func (b *builder) after() parts.Section {
	s := parts.Section{
		ID: "after", Title: b.d.Say("After the pull"),
		Help:   b.d.Say("What was measured and seen, so that the next plan is a better one. Nothing of it changes the verdict."),
		Fields: b.Fields("after", "date", "peak_kN", "peak_deg", "haul_kN", "happened", "photos"),
	}
	if a := show.Afterwards(b.d, b.u, b.rep); a != nil {
		s.Summary = a.Words
	}
	return s
}
