package rigging

// DesignFactors are the factors between breaking strength and working load
// limit, by kind of gear. Most are for lifting; pulling a tree is not lifting,
// but no lower figure is published for it except the winch line's.
func DesignFactors() []Entry {
	seen := func(text string) Source { return Source{text, Published} }
	recalled := func(text string) Source { return Source{text, FromMemory} }
	return []Entry{
		{Key: "sling", Name: "sling, any kind", Value: 5, Source: seen("DOE-STD-1090-96 rev. 1, 11.3.1.3")},
		{Key: "hoist_wire_rope", Name: "hoisting wire rope", Value: 5, Source: seen("UFGS 14636N, 2.3.2")},
		{Key: "standing_pendant", Name: "standing pendant of a crane", Value: 4, Source: seen("MIL-HDBK-1038")},
		{Key: "shackle", Name: "shackle up to 150 short tons", Value: 5, Source: seen("ASME B30.26-2010, 26-1.2")},
		{Key: "large_shackle", Name: "shackle above 150 short tons", Value: 4, Source: seen("ASME B30.26-2010, 26-1.2")},
		{Key: "natural_fibre_sling", Name: "natural fibre rope sling", Value: 5, Source: seen("29 CFR 1918 App. II, Table 2")},
		{Key: "hand_rigging", Name: "hand rigging, weakest link", Value: 5, Source: seen("US wilderness training centre, rigging case study")},
		{Key: "winch_line", Name: "winch line against the winch's pull", Value: 2, Source: seen("UK MCA MGN 308 (M+F), 2.1"),
			Note: "Breaking strength over what the winch can pull at stall, for towing and mooring; people stand clear."},
		{Key: "fibre_rope", Name: "fibre rope, knots, shock or people near", Value: 12, Low: 5, High: 12,
			Note: "5 only with expert knowledge", Source: recalled("Cordage Institute CI 1401")},
		{Key: "textile_sling", Name: "webbing sling, roundsling, fibre rope sling", Value: 7, Source: recalled("EN 1492-1, -2, -4")},
		{Key: "wire_rope_sling", Name: "wire rope sling", Value: 5, Source: recalled("EN 13414-1")},
		{Key: "chain_sling", Name: "chain sling grade 8, fittings", Value: 4, Source: recalled("EN 818-4, EN 1677")},
		{Key: "shackle_grade_6", Name: "shackle grade 6", Value: 6, Low: 5, High: 6,
			Note: "the standard's 5; the trade often quotes 6", Source: recalled("EN 13889")},
		{Key: "guy", Name: "guy", Value: 3.5, Source: recalled("US Army FM 5-125, table of factors")},
		{Key: "track_cable", Name: "track cable", Value: 3.2, Source: recalled("US Army FM 5-125, table of factors")},
		{Key: "haulage_rope", Name: "haulage rope", Value: 6, Source: recalled("US Army FM 5-125, table of factors")},
		{Key: "forestry_rope", Name: "working rope in cable logging", Value: 3,
			Source: recalled("New Zealand cable logging practice: working load a third of the breaking load")},
	}
}

// FindDesignFactor is the design factor of that key.
func FindDesignFactor(key string) (Entry, bool) { return findEntry(DesignFactors(), key) }

// TowingFactors are the least factors of US Navy towing practice for new
// gear, good weather and short duration: the stiffer the hold, the larger.
// Wire is taken on its least breaking strength, synthetic rope on that of
// new dry rope (nylon less 15 % for wet), shackles on their proof load.
func TowingFactors() []Entry {
	source := Source{"TB 55-1900-232-10, Table 5-4, p. 5-25", Published}
	row := func(key, name string, factor float64) Entry {
		return Entry{Key: key, Name: name, Value: factor, Source: source}
	}
	return []Entry{
		row("wire_on_tension_control", "wire hawser, automatic tension control", 3),
		row("wire_on_brake", "wire hawser, on the brake", 5),
		row("wire_on_hook", "wire hawser, on pawl or hook", 7),
		row("wire_pendant_on_brake", "wire pendant or bridle, wire on the brake", 6),
		row("wire_pendant_on_hook", "wire pendant or bridle, wire on pawl or hook", 8),
		row("synthetic_on_tension_control", "synthetic hawser, automatic tension control", 10),
		row("synthetic_on_brake", "synthetic hawser, on the brake", 12),
		row("synthetic_on_hook", "synthetic hawser, on pawl or hook", 12),
		row("shackle_wire_on_brake", "shackle, wire on the brake", 5),
		row("shackle_wire_on_hook", "shackle, wire on pawl or hook", 7),
		row("shackle_synthetic", "shackle, synthetic on brake, pawl or hook", 4),
	}
}
