package rigging

// Terminations are the shares of a rope's strength that an end fitting or a
// splice keeps. A range stands for what the manual prints (rope with a wire
// core, with a fibre core, or good and poor work); Value is its low end.
func Terminations() []Entry { return copied(terminationTable[:]) }

const craneTerminations = "US Army TM 5-3810-305-10, Table 4, p. 4-36"

var terminationTable = [...]Entry{
	{Key: "poured_socket", Name: "spelter or resin socket", Value: 1, Source: Source{craneTerminations, Published}},
	{Key: "swaged_socket", Name: "swaged socket", Value: 0.95, Source: Source{craneTerminations, Published},
		Note: "wire core only; not established for fibre core"},
	{Key: "sleeve_splice", Name: "mechanical splice with sleeve, up to 1 in", Value: 0.925, Low: 0.925, High: 0.95, Source: Source{craneTerminations, Published},
		Note: "0.95 with wire core"},
	{Key: "hand_tucked_eye", Name: "hand-tucked eye, 1/2 in", Value: 0.76, Low: 0.76, High: 0.86, Source: Source{craneTerminations, Published},
		Note: "0.86 carbon steel, 0.76 stainless"},
	{Key: "wedge_socket", Name: "wedge socket", Value: 0.75, Low: 0.75, High: 0.95, Source: Source{craneTerminations, Published}},
	{Key: "wire_rope_clips", Name: "wire rope clips", Value: 0.80, Source: Source{craneTerminations, Published},
		Note: "right number, right spacing, saddle on the live part"},
	{Key: "hand_eye_splice", Name: "hand-made eye splice with heavy thimble", Value: 0.70, Low: 0.70, High: 0.90,
		Source: Source{"US Army FM 55-501, 12-100", Published}},
}

// FindTermination is the termination of that key.
func FindTermination(key string) (Entry, bool) { return findEntry(terminationTable[:], key) }

// Knots are the shares of a fibre rope's strength that a knot or splice
// keeps. They come from natural fibre; synthetic rope can lose more, and
// ropes of high-modulus polyethylene or aramid are not to be knotted at all.
// A knot that is not listed counts as the weakest.
func Knots() []Entry { return copied(knotTable[:]) }

const knotTests = "C. Jacobson, Knots for the Outdoors, p. 24 (a 1946 cordage table and later tests)"

var knotTable = [...]Entry{
	{Key: "unknown_knot", Name: "knot, any other", Value: 0.45, Low: 0.45, High: 0.80, Source: Source{knotTests, Published},
		Note: "the weakest of the table; most knots cost 20 to 50 % (F. Pettigrew, A Few Good Knots, p. 7)"},
	{Key: "eye_splice", Name: "eye splice", Value: 0.95, Source: Source{knotTests, Published}},
	{Key: "short_splice", Name: "short splice", Value: 0.90, Source: Source{knotTests, Published}},
	{Key: "clove_hitch", Name: "clove hitch", Value: 0.75, Source: Source{knotTests, Published}},
	{Key: "two_half_hitches", Name: "two half hitches", Value: 0.75, Source: Source{knotTests, Published}},
	{Key: "anchor_bend", Name: "anchor bend", Value: 0.70, Source: Source{knotTests, Published}},
	{Key: "timber_hitch", Name: "timber hitch", Value: 0.70, Source: Source{knotTests, Published}},
	{Key: "bowline", Name: "bowline", Value: 0.60, Source: Source{knotTests, Published}},
	{Key: "bowline_on_a_bight", Name: "bowline on a bight", Value: 0.60, Source: Source{knotTests, Published}},
	{Key: "figure_eight", Name: "figure eight", Value: 0.48, Source: Source{knotTests, Published}},
	{Key: "square_knot", Name: "square knot", Value: 0.45, Source: Source{knotTests, Published}},
	{Key: "sheepshank", Name: "sheepshank", Value: 0.45, Source: Source{knotTests, Published}},
	{Key: "overhand", Name: "overhand knot", Value: 0.45, Source: Source{knotTests, Published}},
}

// FindKnot is the knot of that key.
func FindKnot(key string) (Entry, bool) { return findEntry(knotTable[:], key) }
