package rigging

// DesignFactors are the factors between breaking strength and working load
// limit, by kind of gear. Most are for lifting; pulling a tree is not lifting,
// but no lower figure is published for it except the winch line's.
func DesignFactors() []Entry { return copied(designFactorTable[:]) }

var designFactorTable = [...]Entry{
	{Key: "sling", Name: "sling, any kind", Value: 5, Source: Source{"DOE-STD-1090-96 rev. 1, 11.3.1.3", Published}},
	{Key: "hoist_wire_rope", Name: "hoisting wire rope", Value: 5, Source: Source{"UFGS 14636N, 2.3.2", Published}},
	{Key: "standing_pendant", Name: "standing pendant of a crane", Value: 4, Source: Source{"MIL-HDBK-1038", Published}},
	{Key: "shackle", Name: "shackle up to 150 short tons", Value: 5, Source: Source{"ASME B30.26-2010, 26-1.2", Published}},
	{Key: "large_shackle", Name: "shackle above 150 short tons", Value: 4, Source: Source{"ASME B30.26-2010, 26-1.2", Published}},
	{Key: "natural_fibre_sling", Name: "natural fibre rope sling", Value: 5, Source: Source{"29 CFR 1918 App. II, Table 2", Published}},
	{Key: "hand_rigging", Name: "hand rigging, weakest link", Value: 5, Source: Source{"US wilderness training centre, rigging case study", Published}},
	{Key: "winch_line", Name: "winch line against the winch's pull", Value: 2, Source: Source{"UK MCA MGN 308 (M+F), 2.1", Published},
		Note: "Breaking strength over what the winch can pull at stall, for towing and mooring; people stand clear."},
	{Key: "fibre_rope", Name: "fibre rope, knots, shock or people near", Value: 12, Low: 5, High: 12,
		Note: "5 only with expert knowledge", Source: Source{"Cordage Institute CI 1401", FromMemory}},
	{Key: "textile_sling", Name: "webbing sling, roundsling, fibre rope sling", Value: 7, Source: Source{"EN 1492-1, -2, -4", FromMemory}},
	{Key: "wire_rope_sling", Name: "wire rope sling", Value: 5, Source: Source{"EN 13414-1", FromMemory}},
	{Key: "chain_sling", Name: "chain sling grade 8, fittings", Value: 4, Source: Source{"EN 818-4, EN 1677", FromMemory}},
	{Key: "shackle_grade_6", Name: "shackle grade 6", Value: 6, Low: 5, High: 6,
		Note: "the standard's 5; the trade often quotes 6", Source: Source{"EN 13889", FromMemory}},
	{Key: "guy", Name: "guy", Value: 3.5, Source: Source{"US Army FM 5-125, table of factors", FromMemory}},
	{Key: "track_cable", Name: "track cable", Value: 3.2, Source: Source{"US Army FM 5-125, table of factors", FromMemory}},
	{Key: "haulage_rope", Name: "haulage rope", Value: 6, Source: Source{"US Army FM 5-125, table of factors", FromMemory}},
	{Key: "forestry_rope", Name: "working rope in cable logging", Value: 3,
		Source: Source{"New Zealand cable logging practice: working load a third of the breaking load", FromMemory}},
}

// FindDesignFactor is the design factor of that key.
func FindDesignFactor(key string) (Entry, bool) { return findEntry(designFactorTable[:], key) }

// TowingFactors are the least factors of US Navy towing practice for new
// gear, good weather and short duration: the stiffer the hold, the larger.
// Wire is taken on its least breaking strength, synthetic rope on that of
// new dry rope (nylon less 15 % for wet), shackles on their proof load.
func TowingFactors() []Entry { return copied(towingTable[:]) }

var towingSource = Source{"TB 55-1900-232-10, Table 5-4, p. 5-25", Published}

var towingTable = [...]Entry{
	{Key: "wire_on_tension_control", Name: "wire hawser, automatic tension control", Value: 3, Source: towingSource},
	{Key: "wire_on_brake", Name: "wire hawser, on the brake", Value: 5, Source: towingSource},
	{Key: "wire_on_hook", Name: "wire hawser, on pawl or hook", Value: 7, Source: towingSource},
	{Key: "wire_pendant_on_brake", Name: "wire pendant or bridle, wire on the brake", Value: 6, Source: towingSource},
	{Key: "wire_pendant_on_hook", Name: "wire pendant or bridle, wire on pawl or hook", Value: 8, Source: towingSource},
	{Key: "synthetic_on_tension_control", Name: "synthetic hawser, automatic tension control", Value: 10, Source: towingSource},
	{Key: "synthetic_on_brake", Name: "synthetic hawser, on the brake", Value: 12, Source: towingSource},
	{Key: "synthetic_on_hook", Name: "synthetic hawser, on pawl or hook", Value: 12, Source: towingSource},
	{Key: "shackle_wire_on_brake", Name: "shackle, wire on the brake", Value: 5, Source: towingSource},
	{Key: "shackle_wire_on_hook", Name: "shackle, wire on pawl or hook", Value: 7, Source: towingSource},
	{Key: "shackle_synthetic", Name: "shackle, synthetic on brake, pawl or hook", Value: 4, Source: towingSource},
}
