package sure

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/rigging/sampling"
)

// An Input is a number of the plan that is not known exactly, and how far off it may
// be: 19 of 20 draws lie within Value ± PlusMinus, unless it is cut at what can be.
type Input struct {
	Path      string  `json:"path"`
	Value     float64 `json:"value"`
	PlusMinus float64 `json:"plus_minus"`
	// Why the ± is what it is: given in the plan, or the key of the rule that it is
	// taken from.
	Why      string `json:"why"`
	Source   string `json:"source"`
	Measured bool   `json:"measured"` // at the tree: it can be measured again

	spread sampling.Normal
	rank   int // of its rule
}

// WhyGiven is the Why of a ± that the plan gives.
const WhyGiven = "given"

// A rule is the ± of a number whose plan gives none: share of its value, and at
// least so much.
type rule struct {
	path         string // with the indexes left out
	key          string
	share, least float64
	// By tool: the plan keeps the readings of an instrument.
	tool bool
	// assumed: the plan leaves the number out.
	assumed  bool
	measured bool
	side     int     // only above (1) or only below (−1) the value
	low      float64 // where it is cut, if that is above the least that the plan accepts
	source   rigging.Source
}

var (
	practice  = rigging.Source{Text: "our own", Basis: rigging.CommonPractice}
	scatter   = rigging.Source{Text: "twice the 16 % by which green clear wood scatters, derived from the standard deviations of ASTM D2555", Basis: rigging.Derived}
	turning   = rigging.Source{Text: "trees winched over scatter widely about the mean slopes of K. E. Byrne (UBC 2005); how far is our own figure", Basis: rigging.CommonPractice}
	sheaves   = rigging.Source{Text: "sheaves in use, from poor plain bearings to the best rolling ones: 0.85 to 1", Basis: rigging.CommonPractice}
	speciesOf = rigging.Source{Text: "trees of one species differ by a fifth and more", Basis: rigging.CommonPractice}
)

// rules in the order of what usually decides; the first that fits a number counts.
// Where it is not said how something was measured, it counts as judged by eye.
var rules = []rule{
	{path: "tree.lean_deg", key: "lean_tool", least: 1, tool: true, measured: true, source: practice},
	{path: "tree.lean_deg", key: "lean_eye", share: 0.25, least: 2, measured: true, source: practice},
	{path: "tree.height_m", key: "height_tool", share: 0.05, least: 1, tool: true, measured: true, source: practice},
	{path: "tree.height_m", key: "height_eye", share: 0.1, least: 2, measured: true, source: practice},
	{path: "tree.diameter_cm", key: "diameter", share: 0.03, least: 1, measured: true, source: practice},
	{path: "tree.green_density_kgm3", key: "density_species", share: 0.2, assumed: true, source: speciesOf},
	{path: "tree.green_density_kgm3", key: "density_given", share: 0.1, source: practice},
	{path: "tree.lean_bearing_deg", key: "lean_across", measured: true, source: practice}, // see bearingOff
	{path: "tree.crown_fraction", key: "crown_share", share: 0.3, source: practice},
	{path: "tree.bending_strength_MPa", key: "strength", share: 0.32, source: scatter},
	{path: "tree.form_factor", key: "form", share: 0.1, source: practice},
	{path: "tree.crown_offset_m", key: "crown_tool", share: 0.2, least: 0.3, tool: true, measured: true, source: practice},
	{path: "tree.crown_offset_m", key: "crown_eye", share: 0.5, least: 0.5, measured: true, source: practice},
	{path: "cut.hinge_left_cm", key: "hinge_saw", share: 0.1, least: 1, source: practice},
	{path: "cut.hinge_right_cm", key: "hinge_saw", share: 0.1, least: 1, source: practice},
	{path: "cut.hinge_length_cm", key: "hinge_saw", share: 0.05, least: 2, source: practice},
	{path: "tree.mass_kg", key: "mass_measured", share: 0.1, measured: true, source: practice},
	{path: "tree.mass_centre_m", key: "centre_measured", share: 0.05, least: 0.5, measured: true, source: practice},
	{path: "site.wind_mps", key: "wind", share: 0.3, least: 2, source: practice},
	{path: "lines[].path[].efficiency", key: "sheave", least: 0.075, low: 0.85, source: sheaves},
	{path: "lines[].tackle.efficiency", key: "sheave", least: 0.075, low: 0.85, source: sheaves},
	{path: "lines[].tackle.haul_path[].efficiency", key: "sheave", least: 0.075, low: 0.85, source: sheaves},
	{path: "lines[].tackle.reeving.ropes[].efficiency", key: "sheave", least: 0.075, low: 0.85, source: sheaves},
	// What is computed of an anchor may hold less, never more.
	{path: "points[].anchor.traction", key: "anchor_ground", share: 0.2, side: -1, source: practice},
	{path: "points[].anchor.factor", key: "anchor_holds", share: 0.3, side: 1, source: turning},
}

// decided are numbers that the crew sets, or that stand on a piece: nobody is
// uncertain of them, whatever ± is given.
func decided(path string) bool {
	return path == "allowance" || path == "planned_kN" || strings.HasPrefix(path, "gear[") || strings.Contains(path, ".puller.") ||
		strings.HasPrefix(path, "brief.") || strings.HasPrefix(path, "after.") || strings.HasPrefix(path, "readings.") || strings.HasPrefix(path, "plus_minus.")
}

// inputsOf are the numbers of a plan that are drawn.
func inputsOf(numbers map[string]plan.Number, given map[string]float64) []Input {
	var out []Input
	for path, n := range numbers {
		if decided(path) {
			continue
		}
		at, r := ruleOf(path, n)
		in := Input{Path: path, Value: n.Value, PlusMinus: math.Max(r.share*math.Abs(n.Value), r.least), Why: r.key, Source: r.source.Words(), Measured: r.measured, rank: at}
		if path == leanBearing {
			in.PlusMinus = bearingOff(numbers[lean], given[lean])
		}
		if pm := given[path]; pm > 0 {
			in.PlusMinus, in.Why, in.Source, in.Measured = pm, WhyGiven, "", true
		}
		if !(in.PlusMinus > 0) {
			continue
		}
		if in.spread = spreadOf(n, in.PlusMinus, &r, path); in.spread.Low < in.spread.High {
			out = append(out, in)
		}
	}
	slices.SortFunc(out, func(a, b Input) int { return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(a.Path, b.Path)) })
	return out
}

const (
	lean        = "tree.lean_deg"
	leanBearing = "tree.lean_bearing_deg"
	backward    = 180.0 // °, the way that needs most pull
)

// turnedBy are the fields that, drawn below nothing, are as much the other way, with
// their bearings.
var turnedBy = map[string]string{lean: leanBearing, "tree.crown_offset_m": "tree.crown_offset_bearing_deg"}

// bearingOff is the ± (°) of the bearing of a lean: as far off across as along it.
func bearingOff(n plan.Number, given float64) float64 {
	off := given
	if off == 0 {
		_, r := ruleOf(lean, n)
		off = math.Max(r.share*n.Value, r.least)
	}
	return math.Atan2(off, n.Value) / rigging.Deg
}

// ruleOf is the first rule that fits and its place, that after the last where none
// does.
func ruleOf(path string, n plan.Number) (int, rule) {
	pattern := plan.PatternOf(path)
	for i, r := range rules {
		if r.path == pattern && (!r.tool || n.Method != "") && (!r.assumed || n.Assumed) {
			return i, r
		}
	}
	return len(rules), rule{}
}

// spreadOf is how a number is drawn: within what the plan accepts, and where the
// other way is as good, as far that way.
func spreadOf(n plan.Number, off float64, r *rule, path string) sampling.Normal {
	d := sampling.Normal{Mean: n.Value, Deviation: off / 2, Low: n.Range.Min, High: n.Range.Max}
	if n.Range.Above {
		d.Low += 1e-6 * (d.High - d.Low)
	}
	if _, turns := turnedBy[path]; turns {
		d.Low = -d.High
	}
	if strings.HasSuffix(path, "bearing_deg") { // a bearing goes round
		d.Low, d.High = n.Value-180, n.Value+180
	}
	if r.low > 0 {
		d.Low = math.Max(d.Low, math.Min(r.low, n.Value-off/2))
	}
	switch r.side {
	case 1:
		d.Low = n.Value
	case -1:
		d.High = n.Value
	}
	return d
}
