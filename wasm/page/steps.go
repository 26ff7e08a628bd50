package page

import (
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/page/show"
	"pullline/wasm/parts"
	"pullline/wasm/words"
)

// A JobStep is one step of the path through a job, from the tree to the
// briefing: what it still lacks, in words, and where to go for that.
type JobStep struct {
	Key   string `json:"key"` // tree, line, gear, check, brief
	Name  string `json:"name"`
	State string `json:"state"` // what is still missing, in words
	// Path is the field or section to go to next, and Next its name; empty
	// where nothing is missing.
	Path     string   `json:"path,omitempty"`
	Next     string   `json:"next,omitempty"`
	Done     bool     `json:"done"`
	Count    int      `json:"count,omitempty"`    // of things missing or wrong
	Sections []string `json:"sections,omitempty"` // ids of the form's sections that belong to it
}

const (
	stepTree = iota
	stepLine
	stepGear
	stepCheck
	stepBrief
	stepCount
)

var stepNames = [stepCount]struct {
	key  string
	name words.Text
}{
	stepTree: {"tree", "Tree"}, stepLine: {"line", "Line"}, stepGear: {"gear", "Gear"}, stepCheck: {"check", "Check"}, stepBrief: {"brief", "Brief"},
}

// stepOf is the step that a path of the plan, or a section of the form,
// belongs to.
func stepOf(path string) int {
	top := path
	if i := strings.IndexAny(path, ".[#"); i >= 0 {
		top = path[:i]
	}
	switch top {
	case "tree", "cut", "site", "fork":
		return stepTree
	case "points", "lines", "people":
		return stepLine
	case "gear", "pull_date", "inventory":
		return stepGear
	case "about", "name", "notes", "brief", "after":
		return stepBrief
	}
	return stepCheck
}

// stepOfProblem is the step in which a problem is put right: a piece that a
// line lacks is a matter of the gear.
func stepOfProblem(p *plan.Problem) int {
	if p.Code == plan.CodeGear {
		return stepGear
	}
	return stepOf(p.Path)
}

// jobSteps tells how far a plan is. No step is done while anything in it is
// missing or wrong.
func jobSteps(d *draft.Plan, rep *plan.Report, h *show.Headline, form []parts.Section) []JobStep {
	steps := make([]JobStep, stepCount)
	for i := range steps {
		steps[i].Key, steps[i].Name = stepNames[i].key, d.Say(stepNames[i].name)
	}
	for i := range form {
		s := &steps[stepOf(form[i].ID)]
		s.Sections = append(s.Sections, form[i].ID)
	}
	var missing [stepCount][]string // names of fields that are only empty
	for i := range rep.Problems {
		p := &rep.Problems[i]
		s := &steps[stepOfProblem(p)]
		s.Count++
		if spec, known := fields.At(p.Path); known && (p.Given == nil || p.Given == "") {
			missing[stepOfProblem(p)] = append(missing[stepOfProblem(p)], lower(words.Capital(d.Say(spec.Label))))
		}
		if s.Count == 1 {
			s.State, s.Path, s.Next = fields.Located(d, *p), p.Path, fields.LabelOf(d, p.Path)
			if stepOf(p.Path) != stepOfProblem(p) {
				s.Path, s.Next = "gear", d.Say("the gear list")
			} else if _, known := fields.At(p.Path); !known {
				s.Next = d.Say("what is missing")
			}
		}
	}
	for i := range steps {
		s := &steps[i]
		switch {
		case s.Count > 0 && len(missing[i]) == s.Count:
			s.State = d.Say("Missing: %s.", strings.Join(missing[i], ", "))
		case s.Count > 0:
			if s.Count > 1 {
				s.State = words.Join(s.State, d.Count(s.Count-1, "1 more thing to fix here.", "%s more things to fix here."))
			}
		case s.Count == 0 && i < stepCheck:
			s.State, s.Done = d.Say("Complete."), true
		}
	}
	lacking := func(i int, state, path, next string) {
		if s := &steps[i]; s.Count == 0 {
			s.State, s.Path, s.Next, s.Done = state, path, next, false
		}
	}
	if d.Size("lines") == 0 {
		lacking(stepLine, d.Say("There is no {pull line} yet."), "lines", d.Say("the lines"))
	}
	if d.Size("gear") == 0 {
		lacking(stepGear, d.Say("No gear is listed yet."), "gear", d.Say("the gear list"))
	}
	check := &steps[stepCheck]
	judged := h.Verdict == rigging.Within.String() || h.Verdict == rigging.Near.String()
	if check.Count == 0 {
		check.State, check.Done = d.Say("%s. %s", h.Word, h.Sentence), judged
		if h.Verdict == rigging.Unknown.String() {
			check.State = d.Say("Not judged yet. %s", h.Sentence)
			for i := range steps[:stepCheck] {
				if steps[i].Path != "" {
					check.Path, check.Next = steps[i].Path, steps[i].Next
					break
				}
			}
		}
	}
	steps[stepBrief].Done = judged
	switch {
	case steps[stepBrief].Count > 0:
		steps[stepBrief].Done = false
	case !judged:
		lacking(stepBrief, d.Say("Finish the check first: %s.", lower(h.Word)), "", "")
	case d.Size("brief.sequence") == 0:
		lacking(stepBrief, d.Say("The sequence is only suggested: read it, then take it or change it."), "brief.sequence", d.Say("Sequence"))
	case !hasNames(d):
		lacking(stepBrief, d.Say("Nobody is named for the tasks yet."), "brief.roles", d.Say("Who does what"))
	default:
		steps[stepBrief].State = d.Say("Sequence and names are set.")
	}
	return steps
}

func hasNames(d *draft.Plan) bool {
	for i := range d.List("brief.roles") {
		if strings.TrimSpace(d.Text(draft.Elem("brief.roles", i)+".name")) != "" {
			return true
		}
	}
	return false
}

// lower makes the first letter a small one, within a sentence.
func lower(s string) string {
	if s == "" || s[0] < 'A' || s[0] > 'Z' {
		return s
	}
	return string(s[0]-'A'+'a') + s[1:]
}
