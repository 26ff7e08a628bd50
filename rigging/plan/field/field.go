package field

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan/text"
)

// A Field is a field of the plan format or of the gear list. Its zero value is
// the plan itself.
type Field uint8

// A Kind is what a field holds.
type Kind uint8

// The kinds of field.
const (
	Object  Kind = iota // members of its own
	Objects             // a list of objects
	Texts               // a list of texts
	Numbers             // a list of numbers, each of the Range
	Number
	Text
	Choice // one of Words
	Flag   // true or false
	Date   // a day: YYYY-MM-DD
)

// A Row is what the format says of one field.
type Row struct {
	In    Field  // the object it lies in, or the list of such objects
	Key   string // its name there; "*" for any
	Kind  Kind
	Range Range         // of a number
	Round text.Rounding // which way its number is rounded where its unit is converted: toward what protects the crew
	Words []string      // of a choice
	Most  int           // entries of a list or of an object whose keys are not fixed, characters of a text
	// Required: there is a problem wherever its object is given without it.
	Required bool
	// Vital, of an object: a problem in it keeps the mechanics from running at
	// all. Other problems only keep the plan from being judged.
	Vital   bool
	Default Default
}

// A Default is what is taken for a field that is left out. The zero Default is
// none.
type Default struct {
	// Value is a number in the field's unit, or a word; nil where it is worked
	// out from other fields or tables, which Why tells.
	Value any
	// Why is the key of the sentence that says what it is, below "assumed.", and
	// Args what goes into that. Both are empty where they differ from plan to
	// plan.
	Why    string
	Args   []any
	Source rigging.Source
}

// Number is a default that is a number, NaN otherwise.
func (d *Default) Number() float64 {
	if v, ok := d.Value.(float64); ok {
		return v
	}
	return math.NaN()
}

// Saying says why a default is taken; it says nothing of none.
func (d *Default) Saying() text.Saying {
	if d.Why == "" {
		return text.Saying{}
	}
	return text.Saying{Key: "assumed." + d.Why, Args: d.Args}
}

// Row is the field's row of the table, which is not to be changed.
func (f Field) Row() *Row { return &rows[f] }

// Key is the field's name in its object.
func (f Field) Key() string { return rows[f].Key }

// Path is where the field stands in the plan or the gear list, with the indexes
// of lists left out: "points[].distance_m".
func (f Field) Path() string {
	r := &rows[f]
	in := ""
	if r.In != Plan {
		in = r.In.Path()
	}
	switch {
	case in == "":
		return r.Key
	case rows[r.In].Kind == Objects:
		in += "[]"
	}
	return in + "." + r.Key
}

// InGearList says whether the field lies in the gear list rather than in a plan. The
// fields of a plan's piece lie in both.
func (f Field) InGearList() bool { return f == GearList || f != Plan && rows[f].In.InGearList() }

// All lists the fields of a plan in the order of its parts, an object before what
// is in it; the plan itself is none. Several kinds of anchor may have a field of
// their own at the same path.
func All() []Field {
	all := make([]Field, 0, Fields)
	for f := Plan + 1; f < Fields; f++ {
		if !f.InGearList() {
			all = append(all, f)
		}
	}
	return all
}

// Children lists the fields that lie straight in an object, or in the objects of a
// list, in the order of the table.
func (f Field) Children() []Field {
	var in []Field
	for g := Plan + 1; g < Fields; g++ {
		if rows[g].In == f && rows[g].Key != "" {
			in = append(in, g)
		}
	}
	return in
}

// Scalar says whether a field holds one value rather than parts of its own.
func (k Kind) Scalar() bool { return k >= Number }
