package screen

import (
	"maps"
	"slices"
)

// sortedKeys gives an object's keys in a steady order.
func sortedKeys(m map[string]any) []string { return slices.Sorted(maps.Keys(m)) }
