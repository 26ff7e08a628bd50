package screen

import (
	"pullline/wasm/draft"
	"pullline/wasm/words"
)

// FieldText is the label and the help of a field of the plan, for those who
// describe the format. The path has its indexes left out; ok is false where
// the catalogue has no such field.
func FieldText(path string) (label, help string, ok bool) {
	f, ok := catalogue[path]
	if !ok {
		return "", "", false
	}
	d := draft.Of(nil)
	return words.Capital(d.Say(f.label)), d.Say(f.help), true
}

// FieldPaths lists the fields of the catalogue in its order.
func FieldPaths() []string {
	paths := make([]string, len(fields))
	for i := range fields {
		paths[i] = fields[i].path
	}
	return paths
}
