package screen

// A keyed is a value of a table under its key. Tables are lists of constants
// and not maps: a map would be filled in by code at every start.
type keyed[V any] struct {
	key string
	of  V
}

// under is a table's value under a key, and whether there is one.
func under[V any](table []keyed[V], key string) (v V, ok bool) {
	for i := range table {
		if table[i].key == key {
			return table[i].of, true
		}
	}
	return v, false
}
