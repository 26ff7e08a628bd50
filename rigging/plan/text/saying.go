package text

// A Saying is something to be told, in no language yet: the key of its sentence
// and the arguments of that, in order. An argument is one of the types below, an
// int (a count), something with a String of its own that reads alike in every
// language (a date), or a Saying. The zero Saying says nothing.
type Saying struct {
	Key  string
	Args []any
}

// A Rounding says which way a number in a sentence may differ from the
// computed one.
type Rounding int

// Loads are written upward, what can be relied on downward. The ends of what is
// accepted are themselves accepted as they are written.
const (
	Nearest Rounding = iota
	Up
	Down
	Least
	Most
)

// An Amount is a number with its unit as the plan's field names end: m, cm, kN,
// °, …, "" for a number that has none.
type Amount struct {
	Value float64
	Unit  string
	Round Rounding
}

// A Number is an amount without its unit, where the unit stands with another
// one: "from 2 to 130 m".
type Number Amount

// A Percent is a share, told in percent, rounded up.
type Percent float64

// A Name is what somebody typed to call a thing by. It stands in quotation marks.
type Name string

// A Words is a text that somebody typed, a key of the plan's format or a symbol:
// it stands as it is.
type Words string

// A Field is the path of a field of the plan, told by its name, which begins its
// sentence.
type Field string

// Names tells whether a saying names a thing by what it was called.
func (s *Saying) Names() bool {
	for _, a := range s.Args {
		if _, ok := a.(Name); ok {
			return true
		}
	}
	return false
}
