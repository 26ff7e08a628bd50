package screen

import (
	"maps"
	"slices"
)

// sortStable sorts a short list of n things by before, and leaves equal ones
// in their order: it takes each in turn and moves it up to its place.
func sortStable(n int, before func(i, j int) bool, swap func(i, j int)) {
	for i := 1; i < n; i++ {
		for j := i; j > 0 && before(j, j-1); j-- {
			swap(j, j-1)
		}
	}
}

// sortedKeys gives an object's keys in a steady order.
func sortedKeys(m map[string]any) []string { return slices.Sorted(maps.Keys(m)) }
