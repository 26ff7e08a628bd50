package form

import (
	"pullline/wasm/draft"
	"pullline/wasm/parts"
)

// Place puts a note into the deepest section it concerns. A problem that
// already stands at its field is only counted.
func Place(sections []parts.Section, n parts.Note, problem bool) bool {
	for i := range sections {
		s := &sections[i]
		found := false
		for _, f := range s.Fields {
			if f.Path == n.Path || standsFor(f.Path, n.Path) {
				if !problem || f.Problem == "" {
					s.Notes = append(s.Notes, n)
				}
				found = true
				break
			}
		}
		found = found || Place(s.Sections, n, problem)
		if !found && draft.Within(n.Path, s.ID) {
			s.Notes = append(s.Notes, n)
			found = true
		}
		if found {
			if problem {
				s.Problems++
			}
			return true
		}
	}
	return false
}

// standsFor says whether a choice that is no field of the plan stands for the
// one at a path.
func standsFor(choice, path string) bool {
	owner, key := draft.LastKey(choice)
	of, field := draft.LastKey(path)
	if owner != of {
		return false
	}
	switch key {
	case "@at":
		return field == "point"
	case "@place":
		return field == "line" || field == "place" || field == "point"
	}
	return false
}
