package rigging

// Terminations are the shares of a rope's strength that an end fitting or a
// splice keeps. A range stands for what the manual prints (rope with a wire
// core, with a fibre core, or good and poor work); Value is its low end.
func Terminations() []Entry {
	crane := Source{"US Army TM 5-3810-305-10, Table 4, p. 4-36", Published}
	return []Entry{
		{Key: "poured_socket", Name: "spelter or resin socket", Value: 1, Source: crane},
		{Key: "swaged_socket", Name: "swaged socket", Value: 0.95, Source: crane,
			Note: "wire core only; not established for fibre core"},
		{Key: "sleeve_splice", Name: "mechanical splice with sleeve, up to 1 in", Value: 0.925, Low: 0.925, High: 0.95, Source: crane,
			Note: "0.95 with wire core"},
		{Key: "hand_tucked_eye", Name: "hand-tucked eye, 1/2 in", Value: 0.76, Low: 0.76, High: 0.86, Source: crane,
			Note: "0.86 carbon steel, 0.76 stainless"},
		{Key: "wedge_socket", Name: "wedge socket", Value: 0.75, Low: 0.75, High: 0.95, Source: crane},
		{Key: "wire_rope_clips", Name: "wire rope clips", Value: 0.80, Source: crane,
			Note: "right number, right spacing, saddle on the live part"},
		{Key: "hand_eye_splice", Name: "hand-made eye splice with heavy thimble", Value: 0.70, Low: 0.70, High: 0.90,
			Source: Source{"US Army FM 55-501, 12-100", Published}},
	}
}

// FindTermination is the termination of that key.
func FindTermination(key string) (Entry, bool) { return findEntry(Terminations(), key) }

// Knots are the shares of a fibre rope's strength that a knot or splice
// keeps. They come from natural fibre; synthetic rope can lose more, and
// ropes of high-modulus polyethylene or aramid are not to be knotted at all.
// A knot that is not listed counts as the weakest.
func Knots() []Entry {
	source := Source{"C. Jacobson, Knots for the Outdoors, p. 24 (a 1946 cordage table and later tests)", Published}
	row := func(key, name string, kept float64) Entry {
		return Entry{Key: key, Name: name, Value: kept, Source: source}
	}
	return []Entry{
		{Key: "unknown_knot", Name: "knot, any other", Value: 0.45, Low: 0.45, High: 0.80, Source: source,
			Note: "the weakest of the table; most knots cost 20 to 50 % (F. Pettigrew, A Few Good Knots, p. 7)"},
		row("eye_splice", "eye splice", 0.95),
		row("short_splice", "short splice", 0.90),
		row("clove_hitch", "clove hitch", 0.75),
		row("two_half_hitches", "two half hitches", 0.75),
		row("anchor_bend", "anchor bend", 0.70),
		row("timber_hitch", "timber hitch", 0.70),
		row("bowline", "bowline", 0.60),
		row("bowline_on_a_bight", "bowline on a bight", 0.60),
		row("figure_eight", "figure eight", 0.48),
		row("square_knot", "square knot", 0.45),
		row("sheepshank", "sheepshank", 0.45),
		row("overhand", "overhand knot", 0.45),
	}
}

// FindKnot is the knot of that key.
func FindKnot(key string) (Entry, bool) { return findEntry(Knots(), key) }
