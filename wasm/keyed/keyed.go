// Package keyed holds small tables of values by name.
package keyed

// A Row is a value of a table under its key. Tables are lists of constants
// and not maps: a map would be filled in by code at every start.
type Row[V any] struct {
	Key   string
	Value V
}

// Find is a table's value under a key, and whether there is one.
func Find[V any](table []Row[V], key string) (v V, ok bool) {
	for i := range table {
		if table[i].Key == key {
			return table[i].Value, true
		}
	}
	return v, false
}
