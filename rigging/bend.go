package rigging

import "math"

// bendRatios (D/d) and bendKept (the share of strength kept) are the curve
// WireRopeBend reads.
var (
	bendRatios = [...]float64{1, 2, 3, 4, 5, 6, 8, 10, 15, 16, 20, 25, 30, 40}
	bendKept   = [...]float64{0.50, 0.65, 0.70, 0.75, 0.77, 0.79, 0.83, 0.86, 0.89, 0.90, 0.91, 0.92, 0.94, 0.95}
)

// WireRopeBendSource is where WireRopeBend comes from.
func WireRopeBendSource() Source {
	return Source{"Wire Rope Users Manual, strength of 6x19 and 6x37 rope bent over pins and sheaves", FromMemory}
}

// WireRopeBend is the share of its strength that a 6-strand wire rope keeps
// at rest round a pin, sheave, stem or drum, by D/d: the diameter it is bent
// round over its own diameter. Between the curve's points it is interpolated;
// above 40 it stays 0.95. A D/d below 1 or not finite is a *TableError. Source:
// WireRopeBendSource.
func WireRopeBend(ratio float64) (float64, error) {
	if !(ratio >= 1) || positive("", ratio, "") != nil {
		return 0, outsideTable("the bend ratio D/d of the wire rope", ratio, "", "1 or more")
	}
	i, share := between(len(bendRatios), ratio, func(i int) float64 { return bendRatios[i] })
	return bendKept[i]*(1-share) + bendKept[i+1]*share, nil
}

// Bends are rules for what a rope may be bent round. Where the entry is a
// factor on the working load, the note says so; the others are the least D/d.
func Bends() []Entry { return copied(bendTable[:]) }

var (
	navyBends     = Source{"US Navy NAVEDTRA 14251, Steelworker vol. 2, ch. 6", Published}
	textbookBends = Source{"machine-elements textbook, Table 18.7, after Shigley & Mitchell (1983)", Published}
)

var bendTable = [...]Entry{
	{Key: "sharp_bend", Name: "wire rope sharply bent", Value: 0.70, Note: "factor on the working load, not a D/d",
		Source: Source{"Australian Emergency Manual, Disaster Rescue, para 3.15", Published}},
	{Key: "wire_rope_sheave", Name: "sheave for wire rope, rule of thumb", Value: 20, Source: navyBends},
	{Key: "hoist_sheave", Name: "hoist sheave, running", Value: 18, Low: 16, High: 18, Source: Source{"UFGS 14636N, 2.3.3", Published}},
	{Key: "equaliser_sheave", Name: "equaliser sheave", Value: 12, Source: Source{"UFGS 14636N, 2.3.3", Published}},
	{Key: "sheave_6x19", Name: "sheave for 6x19 rope", Value: 34, Low: 26, High: 34, Source: textbookBends},
	{Key: "sheave_6x37", Name: "sheave for 6x37 rope", Value: 18, Source: textbookBends},
	{Key: "sheave_8x19", Name: "sheave for 8x19 rope", Value: 26, Low: 21, High: 26, Source: textbookBends},
	{Key: "fibre_line_sheave", Name: "sheave for fibre line", Value: 2 * math.Pi, Note: "two circumferences of the line, about 6 d", Source: navyBends},
	{Key: "thimble", Name: "thimble in a sling eye, critical lift", Value: 3, Source: Source{"DOE-STD-1090-96, 11.3.2.3 b", Published}},
	{Key: "braided_rope_sheave", Name: "sheave for braided fibre rope", Value: 8, Source: Source{"Cordage Institute CI 1401", FromMemory}},
	{Key: "stranded_rope_sheave", Name: "sheave for 3-strand fibre rope", Value: 10, Source: Source{"Cordage Institute CI 1401", FromMemory}},
}

// FindBend is the bending rule of that key.
func FindBend(key string) (Entry, bool) { return findEntry(bendTable[:], key) }
