package rigging

import (
	"slices"
	"strconv"
	"strings"
)

// PicketHold is what a group of pickets holds.
type PicketHold struct {
	Rows   []int   `json:"rows"` // pickets in each row, the row nearest the load first
	Hold   float64 `json:"hold"` // N
	Source Source  `json:"source"`
}

// picketSource is where the holds of wooden pickets come from.
const picketSource = "US Navy NAVEDTRA 14251, Steelworker vol. 2, ch. 6"

// PicketHolds are the holds of wooden pickets of 3 in × 5 ft, driven 3 to
// 4 ft into undisturbed loam, leaning 15° back from the load, rows 3 to 6 ft
// apart and lashed top to foot.
func PicketHolds() []PicketHold {
	out := slices.Clone(picketTable[:])
	for i := range out {
		out[i].Rows = slices.Clone(out[i].Rows)
	}
	return out
}

var (
	picketsSeen     = Source{picketSource, Published}
	picketsRecalled = Source{"US Army FM 5-125, Table 4-1", FromMemory}
)

var picketTable = [...]PicketHold{
	{[]int{1}, 700 * PoundForce, picketsSeen},
	{[]int{1, 1}, 1400 * PoundForce, picketsRecalled},
	{[]int{2, 1}, 2000 * PoundForce, picketsRecalled},
	{[]int{1, 1, 1}, 1800 * PoundForce, picketsSeen},
	{[]int{3, 2, 1}, 4000 * PoundForce, picketsSeen},
}

// PicketCapacity is what rows of wooden pickets hold, in N: the hold of that
// group in loam × soil factor (by PicketSoils, above 0 and up to 1). A group
// that no table lists is a *TableError: holds do not simply add.
func PicketCapacity(rows []int, soilFactor float64) (float64, error) {
	if !(soilFactor > 0 && soilFactor <= 1) {
		return 0, outsideTable("the soil factor of the pickets", soilFactor, "", "above 0, up to 1 (undisturbed loam)")
	}
	for _, h := range picketTable {
		if slices.Equal(h.Rows, rows) {
			return h.Hold * soilFactor, nil
		}
	}
	var accepted []string
	for _, h := range picketTable {
		accepted = append(accepted, rowsText(h.Rows))
	}
	return 0, &TableError{
		What: "the group of pickets, the row nearest the load first,", Given: rowsText(rows), Accepted: strings.Join(accepted, ", "),
		Fault: "picket_group",
	}
}

// rowsText writes a group the way the trade does: 3-2-1.
func rowsText(rows []int) string {
	if len(rows) == 0 {
		return "without rows"
	}
	var b strings.Builder
	for i, n := range rows {
		if i > 0 {
			b.WriteByte('-')
		}
		b.WriteString(strconv.Itoa(n))
	}
	return b.String()
}

// PicketSoils are the factors on the hold of pickets for other ground.
func PicketSoils() []Entry { return copied(picketSoilTable[:]) }

var picketSoilNotes = Source{"US Army FM 5-125, notes to Table 4-1", FromMemory}

var picketSoilTable = [...]Entry{
	{Key: "loam", Name: "loam, undisturbed", Value: 1, Source: picketsSeen},
	{Key: "clay_gravel", Name: "clay and gravel", Value: 0.9, Source: picketSoilNotes},
	{Key: "river_clay_sand", Name: "river clay and sand", Value: 0.5, Source: picketSoilNotes},
}

// PicketSoil is the soil of that key.
func PicketSoil(key string) (Entry, bool) { return findEntry(picketSoilTable[:], key) }

// SteelPicketCapacity is what steel pickets of 1.5 m × 25 mm hold together,
// in N: 350 kgf each, and about 2 tonnes-force for the whole at most. They are
// driven at 45°, two thirds of their length, into good ground, at least 1 m
// apart. Source: Natural Disasters Organisation (Australia), Disaster Rescue,
// para 8.3. A count below 1 is a *TableError.
func SteelPicketCapacity(pickets int) (float64, error) {
	if pickets < 1 {
		return 0, &TableError{What: "the number of steel pickets", Given: strconv.Itoa(pickets), Accepted: "1 or more"}
	}
	return min(0.35*float64(pickets), 2) * TonneForce, nil
}
