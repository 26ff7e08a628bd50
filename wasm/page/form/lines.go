package form

import (
	"strings"

	"pullline/wasm/draft"
)

// JoinLines writes a list of texts a line each, and anything else as it is.
func JoinLines(v any) string {
	list, ok := v.([]any)
	if !ok {
		return draft.Written(v)
	}
	lines := make([]string, len(list))
	for i, item := range list {
		lines[i] = draft.Written(item)
	}
	return strings.Join(lines, "\n")
}

// splitLines makes a list of the lines that hold something.
func splitLines(text string) []string {
	out := []string{}
	for _, line := range strings.Split(text, "\n") {
		if line = strings.TrimSpace(line); line != "" {
			out = append(out, line)
		}
	}
	return out
}
