package rigging

import "math"

// A log in a trench across the pull (a deadman) holds by the pressure that
// the undisturbed soil in front bears on its face. Figures and rules: US Army
// TM 5-5420-278-10, work package 0035, Table 9 and pages 0035-22 and -23.
const (
	// BuriedLogSlenderness and BuriedTimberSlenderness are the most that a
	// log may be longer than it is thick, and a squared timber longer than
	// its face is high, before it may break instead of holding.
	BuriedLogSlenderness    = 5.0
	BuriedTimberSlenderness = 9.0

	// BuriedLogSlot is the usual width (m) of the slot for the rope, on
	// which the soil does not bear.
	BuriedLogSlot = 1 * Foot
)

// buriedLogSource is where the table of pressures comes from.
const buriedLogSource = "US Army TM 5-5420-278-10, work package 0035, Table 9 (loamy soil)"

// poundPerSquareFoot is in Pa.
const poundPerSquareFoot = PoundForce / (Foot * Foot)

// buriedLogDepths are the table's mean depths in feet, buriedLogRuns the
// level run in which the pull rises by one (1:1 to 1:4), and the table itself
// is in pounds per square foot, a row for each depth.
var (
	buriedLogDepths = [5]float64{3, 4, 5, 6, 7}
	buriedLogRuns   = [4]float64{1, 2, 3, 4}
	buriedLogTable  = [5][4]float64{
		{950, 1300, 1450, 1500},
		{1750, 2200, 2600, 2700},
		{2800, 3600, 4000, 4100},
		{3800, 5100, 5800, 6000},
		{5100, 7000, 8000, 8400},
	}
)

// LeastLogDepth (m, to the middle of the face) is the least depth of a buried
// log that the table of pressures has.
const LeastLogDepth = 3 * Foot

// BuriedLogPressure is what the soil bears on the face of a buried log, in
// Pa, in loam: depth (m) is that of the middle of the face, slope (rad) that
// of the pull above level. Between the table's entries it is interpolated
// along depth and along the angle. Deeper than 7 ft it is that of 7 ft, flatter
// than 1:4 that of 1:4. Shallower than 3 ft or steeper than 1:1 (45°) the
// table gives nothing: a *TableError.
func BuriedLogPressure(depth, slope float64) (float64, error) {
	// A hair of tolerance keeps a depth of 3 ft or a slope of 45° that has
	// been through a conversion inside the table.
	const hair = 1e-9
	if !(depth >= LeastLogDepth-hair) || depth > math.MaxFloat64 {
		return 0, anchorFault("log_shallow", "the depth of the buried log", depth, "m", "0.92 m (3 ft) and deeper, to the middle of the log")
	}
	if !(slope <= 45*Deg+hair) || slope < -math.Pi/2 {
		return 0, anchorFault("log_steep", "the slope of the pull on the buried log", slope/Deg, "degrees", "a pull at 45 degrees above level or flatter")
	}
	row, down := between(len(buriedLogDepths), depth/Foot, func(i int) float64 { return buriedLogDepths[i] })
	// Along the angle the columns run from steep to flat.
	column, across := between(len(buriedLogRuns), -slope, func(i int) float64 { return -math.Atan(1 / buriedLogRuns[i]) })
	at := func(r int) float64 {
		return buriedLogTable[r][column]*(1-across) + buriedLogTable[r][column+1]*across
	}
	return (at(row)*(1-down) + at(row+1)*down) * poundPerSquareFoot, nil
}

// between finds where v lies in a rising list of n places: the index of the
// place before it and the share of the way to the next, from 0 to 1. Outside
// the list it is the nearest end.
func between(n int, v float64, place func(int) float64) (int, float64) {
	i := 0
	for i < n-2 && v > place(i+1) {
		i++
	}
	share := (v - place(i)) / (place(i+1) - place(i))
	return i, math.Max(0, math.Min(1, share))
}

// BuriedLogCapacity is what a buried log holds, in N: pressure × diameter ×
// (length − slot) × soil factor. Lengths in m, slope (rad) of the pull above
// level, soil factor by BuriedLogSoils. A log more than BuriedLogSlenderness
// times as long as thick may break first: a *TableError, as is anything the
// table of pressures does not cover.
//
// The manual sets the breaking strength of the line, not its working load,
// against this figure.
func BuriedLogCapacity(depth, slope, diameter, length, slot, soilFactor float64) (float64, error) {
	for _, err := range []error{
		positive("the diameter of the buried log", diameter, "m"),
		positive("the length of the buried log", length, "m"),
		notNegative("the width of the rope slot", slot, "m"),
	} {
		if err != nil {
			return 0, err
		}
	}
	if slot >= length {
		return 0, anchorFault("log_slot", "the width of the rope slot", slot, "m", "less than the log's length")
	}
	if !(soilFactor > 0 && soilFactor <= 5) {
		return 0, outsideTable("the soil factor of the buried log", soilFactor, "", "above 0, up to 5 (hardpan or rock)")
	}
	if length/diameter > BuriedLogSlenderness*(1+1e-9) {
		return 0, anchorFault("log_slender", "the buried log's length over its diameter", length/diameter, "", "up to 5, or the log may break")
	}
	pressure, err := BuriedLogPressure(depth, slope)
	if err != nil {
		return 0, err
	}
	return pressure * diameter * (length - slot) * soilFactor, nil
}

// BuriedLogLength is how long a buried log or timber must be, in m, to hold
// a force (N; the manual takes the line's breaking strength): force ÷
// (pressure × face) + slot. Pressure in Pa, face (diameter of a log, height
// of a timber) and slot in m. Check the result against the slenderness. A
// value that is not a finite number above 0 (slot: 0 or more) is a *TableError.
func BuriedLogLength(force, pressure, face, slot float64) (float64, error) {
	for _, err := range []error{
		positive("the force on the buried log", force, "N"),
		positive("the pressure the soil bears", pressure, "Pa"),
		positive("the face of the buried log", face, "m"),
		notNegative("the width of the rope slot", slot, "m"),
	} {
		if err != nil {
			return 0, err
		}
	}
	return force/(pressure*face) + slot, nil
}

// BuriedLogSoils are the factors on the pressure for other ground.
func BuriedLogSoils() []Entry { return copied(logSoilTable[:]) }

var logSoilSource = Source{buriedLogSource, Published}

var logSoilTable = [...]Entry{
	{Key: "loam", Name: "loam, undisturbed", Value: 1, Source: logSoilSource},
	{Key: "wet_sand", Name: "fine-grained or sandy soil, wet", Value: 0.5, Source: logSoilSource},
	{Key: "hardpan", Name: "hardpan or rock", Value: 5, Source: logSoilSource,
		Note: "Only where a competent person has seen the ground: it is ten times the figure for wet sand."},
}

// BuriedLogSoil is the soil of that key.
func BuriedLogSoil(key string) (Entry, bool) { return findEntry(logSoilTable[:], key) }
