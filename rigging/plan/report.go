package plan

import (
	"math"
	"strconv"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan/text"
)

// A Num is a number of the report in the unit its field name ends in. What
// could not be computed is NaN inside the program and null in the file: a
// report never holds a number that is not finite.
type Num float64

// None is the number nobody could compute.
func None() Num { return Num(math.NaN()) }

// Known says whether there is a finite number.
func (n Num) Known() bool { return !math.IsNaN(float64(n)) && !math.IsInf(float64(n), 0) }

// MarshalJSON writes the number, or null where there is none.
func (n Num) MarshalJSON() ([]byte, error) { return jsontext.AppendFloat(nil, float64(n)), nil }

// UnmarshalJSON reads a number or null.
func (n *Num) UnmarshalJSON(text []byte) error {
	if string(text) == "null" {
		*n = None()
		return nil
	}
	v, err := strconv.ParseFloat(string(text), 64)
	*n = Num(v)
	return err
}

// A Report is everything computed from one plan. Loads, tensions and uses
// are at planned tension with the tree standing (turn 0) unless a name says
// otherwise; a use is at the greatest from standing to commit.
//
//codec:members
type Report struct {
	Version      int             `json:"version"`
	Verdict      rigging.Verdict `json:"verdict"`
	Governing    string          `json:"governing"`     // id of the piece, puller or point with the greatest use, "stem" where it is the stem
	GoverningUse Num             `json:"governing_use"` // its use
	// AtMostVerdict is the worst over gear and points at what the pullers can
	// really make; the pullers themselves are left out, since a puller is past
	// its rating at stall. A watched puller counts as stopped in time: see WhyWatched.
	AtMostVerdict   rigging.Verdict `json:"at_most_verdict"`
	AtMostGoverning string          `json:"at_most_governing"` // id of the piece or point with the greatest use then
	AtMostUse       Num             `json:"at_most_use"`       // its use
	// OnlyIfHeld says that the plan is near its limits for no other reason than
	// that the puller can pull more than it may, and that there is a haul to hold
	// it to (Pull.HoldPullTo).
	OnlyIfHeld bool `json:"only_if_held"`
	// NoRoom says that the haul planned is more than the puller may be held to.
	NoRoom   bool           `json:"no_room"`
	Why      []Why          `json:"why"`
	Tree     TreeReport     `json:"tree"`
	Pull     PullReport     `json:"pull"`
	Lines    []LineReport   `json:"lines"`
	Points   []PointReport  `json:"points"`
	Gear     []GearReport   `json:"gear"`
	Stem     StemReport     `json:"stem"`
	People   []PersonReport `json:"people"`
	Escapes  []EscapeReport `json:"escapes"` // the saw operator's two ways out
	Order    OrderReport    `json:"order"`
	Zones    []ZoneReport   `json:"zones"`
	Assumed  []Assumed      `json:"assumed"`
	Problems []Problem      `json:"problems"`
	Cautions []Caution      `json:"cautions"`
	Working  []Working      `json:"working"`
	Brief    BriefReport    `json:"brief"`
	After    *AfterReport   `json:"after,omitempty"` // where the plan says how the pull went
}

// A Why is one reason for the plan's verdict. There is none where every row is
// within its limit and nothing else is to be said.
type Why struct {
	Code    string          `json:"code"`
	Path    string          `json:"path"`
	Message string          `json:"message"`
	Verdict rigging.Verdict `json:"verdict"`

	Saying text.Saying `json:"-"` // what Message says
}

// TreeReport is the tree above the hinge.
//
//codec:members
type TreeReport struct {
	VolumeM3         Num `json:"volume_m3"`    // whole stem
	StemMassKg       Num `json:"stem_mass_kg"` // whole stem, from volume and density
	CrownMassKg      Num `json:"crown_mass_kg"`
	MassKg           Num `json:"mass_kg"` // above the hinge, with crown
	WeightKN         Num `json:"weight_kN"`
	MassCentreM      Num `json:"mass_centre_m"`   // along the stem from the ground
	CentreHeightM    Num `json:"centre_height_m"` // above the hinge, plumb
	ForwardM         Num `json:"forward_m"`
	LeftM            Num `json:"left_m"`
	ForwardMomentKNm Num `json:"forward_moment_kNm"`
	SideMomentKNm    Num `json:"side_moment_kNm"`
	WindMomentKNm    Num `json:"wind_moment_kNm"` // at turn 0, against the lay
	HingeMomentKNm   Num `json:"hinge_moment_kNm"`
	// HingeSideMomentKNm is the side moment left on the hinge (positive to
	// the left) that the side hold is judged by, and HingeSideDeg the turn of the
	// tree at which it comes; SideHoldUse its stress over the strength that is
	// relied on, an estimate. SideHoldSlackUse is the same were the hold lines
	// slack, null without one.
	HingeSideMomentKNm Num `json:"hinge_side_moment_kNm"`
	HingeSideDeg       Num `json:"hinge_side_deg"`
	SideHoldUse        Num `json:"side_hold_use"`
	SideHoldSlackUse   Num `json:"side_hold_slack_use"`
	ClosingUse         Num `json:"closing_use"` // turn at which the tree falls by itself ÷ turn at which the face closes
}

// PullReport is the pull through the fall.
//
//codec:members
type PullReport struct {
	StartKN    Num   `json:"start_kN"`
	PeakKN     Num   `json:"peak_kN"`
	PeakDeg    Num   `json:"peak_deg"`
	CommitDeg  Num   `json:"commit_deg"`
	HaulM      Num   `json:"haul_m"`
	PlannedKN  Num   `json:"planned_kN"`
	Allowance  Num   `json:"allowance"`
	DriftDeg   Num   `json:"drift_deg"`         // positive left
	LeverM     Num   `json:"lever_m"`           // forward moment per unit of tension at turn 0, all pull lines
	HoldPullTo Num   `json:"hold_puller_to_kN"` // greatest haul at which every piece and point keeps within its capacity, first pull line, the others in proportion; null while the plan has a problem
	Curve      Curve `json:"curve"`

	// ComputedHold is what HoldPullTo was before HoldSurely, 0 without that.
	ComputedHold Num `json:"-"`
}

// A CurvePoint is the pull needed at one turn of the tree. Hold is the
// largest tension of the hold lines there.
type CurvePoint struct {
	Deg    Num `json:"deg"`
	KN     Num `json:"kN"`
	HaulM  Num `json:"haul_m"`
	HoldKN Num `json:"hold_kN"`
}

// A Curve is the pull needed through the fall.
type Curve []CurvePoint

// LineReport is one line. Tension is that of the leg leaving the stem toward
// the hauling end; AtMostHaulKN is what its puller can really make, and AtMostKN
// the tension then if nothing rubs.
//
//codec:members
type LineReport struct {
	ID              string        `json:"id"`
	Role            string        `json:"role"`
	TensionKN       Num           `json:"tension_kN"`
	HaulKN          Num           `json:"haul_kN"`
	AtMostHaulKN    Num           `json:"at_most_haul_kN"`
	AtMostKN        Num           `json:"at_most_kN"`
	IdealAdvantage  Num           `json:"ideal_advantage"`
	ActualAdvantage Num           `json:"actual_advantage"`
	HaulM           Num           `json:"haul_m"` // how much shorter the path is at commit
	RopeToHaulM     Num           `json:"rope_to_haul_m"`
	LengthChangeM   Num           `json:"length_change_m"` // lengthening when the face closes
	PayOutM         Num           `json:"pay_out_m"`       // greatest lengthening up to a quarter turn; must be paid out
	GrowsM          Num           `json:"grows_m"`         // greatest lengthening while the hinge bends and the tree needs pulling
	StretchedKN     Num           `json:"stretched_kN"`    // what that puts on a hold line made fast
	StretchM        Num           `json:"stretch_m"`       // of the rope as planned; null without a stiffness
	StemLoadKN      Num           `json:"stem_load_kN"`    // largest resultant at a place on the stem
	TurningShare    Num           `json:"turning_share"`   // forward lever ÷ attachment height above the hinge
	WeightKN        Num           `json:"weight_kN"`       // of the rope itself
	EnergyKJ        Num           `json:"energy_kJ"`       // stored at planned tension
	Legs            []LegReport   `json:"legs"`
	Tackle          *TackleReport `json:"tackle,omitempty"`
}

// LegReport is one straight run of rope; elevation is seen from From.
type LegReport struct {
	From         string `json:"from"`
	To           string `json:"to"`
	LengthM      Num    `json:"length_m"`
	ElevationDeg Num    `json:"elevation_deg"`
	BearingDeg   Num    `json:"bearing_deg"`
	TensionKN    Num    `json:"tension_kN"`
	Hauling      bool   `json:"hauling"` // a leg of the tackle's haul path
	SagM         Num    `json:"sag_m"`
	EndAngleDeg  Num    `json:"end_angle_deg"`
	StretchM     Num    `json:"stretch_m"`
	EnergyKJ     Num    `json:"energy_kJ"`
	// FromXYZ and ToXYZ place its ends: x along the lay, y left, z up, metres.
	FromXYZ [3]Num `json:"from_xyz_m"`
	ToXYZ   [3]Num `json:"to_xyz_m"`
}

// TackleReport is what a tackle's own rope and blocks carry.
type TackleReport struct {
	Parts  [][]Num       `json:"part_tensions_kN"` // per rope, from its made-fast end
	Blocks []TackleBlock `json:"blocks"`
}

// TackleBlock is the load on one node of the tackle.
type TackleBlock struct {
	Node    string `json:"node"`
	Kind    string `json:"kind"`
	Sheaves int    `json:"sheaves"`
	LoadKN  Num    `json:"load_kN"`
}

// PointReport is the pull on the anchor at a point: bearing is the way the
// anchor is pulled, uplift is positive upward.
//
//codec:members
type PointReport struct {
	ID           string          `json:"id"`
	LoadKN       Num             `json:"load_kN"`
	HorizontalKN Num             `json:"horizontal_kN"`
	UpliftKN     Num             `json:"uplift_kN"`
	BearingDeg   Num             `json:"bearing_deg"`
	IncludedDeg  Num             `json:"included_deg"` // smallest angle of rope over a block here; null without one
	CapacityKN   Num             `json:"capacity_kN"`
	Use          Num             `json:"use"`
	Verdict      rigging.Verdict `json:"verdict"`
	// GreatestKN is the largest load from standing to commit, any of the lines
	// that pull here slack, and GreatestDeg the turn of the tree then.
	GreatestKN  Num `json:"greatest_kN"`
	GreatestDeg Num `json:"greatest_deg"`
	// CountsKN is the part of the load that counts for this kind, where it uses
	// most of what holds the point: use × capacity.
	CountsKN      Num             `json:"counts_kN"`
	AtMostKN      Num             `json:"at_most_kN"`
	AtMostUse     Num             `json:"at_most_use"`
	AtMostVerdict rigging.Verdict `json:"at_most_verdict"`
	XYZ           [3]Num          `json:"xyz_m"`
}

// GearReport is one piece, or a line's puller as LINE/puller.
//
//codec:members
type GearReport struct {
	ID            string          `json:"id"`
	Kind          string          `json:"kind"`
	LoadKN        Num             `json:"load_kN"`     // standing
	GreatestKN    Num             `json:"greatest_kN"` // the largest from standing to commit
	GreatestDeg   Num             `json:"greatest_deg"`
	AtMostKN      Num             `json:"at_most_kN"`
	CapacityKN    Num             `json:"capacity_kN"`
	Use           Num             `json:"use"` // greatest ÷ capacity
	AtMostUse     Num             `json:"at_most_use"`
	MarginKN      Num             `json:"margin_kN"` // capacity − greatest
	Verdict       rigging.Verdict `json:"verdict"`
	AtMostVerdict rigging.Verdict `json:"at_most_verdict"`
}

// Assumed is a value the plan left out and what was taken instead.
type Assumed struct {
	Path   string `json:"path"`
	Value  any    `json:"value"`
	Why    string `json:"why"`
	Source string `json:"source,omitempty"`
	Basis  string `json:"basis,omitempty"`

	Saying text.Saying `json:"-"` // what Why says
}

// Number is what was assumed where it is a finite number; ok is false for
// anything else, and where there was nothing to work it out from.
func (a *Assumed) Number() (v float64, ok bool) {
	n := None()
	switch x := a.Value.(type) {
	case float64:
		n = Num(x)
	case int:
		n = Num(x)
	case jsontext.Number:
		return x.Finite()
	}
	return float64(n), n.Known()
}

// A Problem keeps the plan from being judged: the path, what was given and
// what is accepted, in one plain message.
type Problem struct {
	Code     Code   `json:"code"`
	Path     string `json:"path"`
	Message  string `json:"message"`
	Given    any    `json:"given,omitempty"`
	Accepted string `json:"accepted,omitempty"`

	Saying text.Saying `json:"-"` // what Message says
	Takes  text.Saying `json:"-"` // what Accepted says
}

// A Caution is a warning that does not keep the plan from being judged.
// Path, where there is one, names what it concerns.
type Caution struct {
	Code    string `json:"code"`
	Path    string `json:"path,omitempty"`
	Message string `json:"message"`
	Source  string `json:"source"`

	Saying text.Saying `json:"-"` // what Message says
}

// A Working shows how one number came about: the formula, the values put
// in, the result and where the formula is from.
type Working struct {
	Path    string         `json:"path"` // the report field it explains, or a name of its own below the part it belongs to
	Name    string         `json:"name"`
	Formula string         `json:"formula"`
	Values  []WorkingValue `json:"values"`
	Result  Num            `json:"result"`
	Unit    string         `json:"unit"`
	Source  string         `json:"source"`

	Saying text.Saying `json:"-"` // what Name says
	From   string      `json:"-"` // the key of the step that Source is of
}

// WorkingValue is one symbol of a formula with its number and unit. From is
// the path of the working that it is the result of, or of the field of the
// plan that was assumed, if there is one.
type WorkingValue struct {
	Symbol string `json:"symbol"`
	Name   string `json:"name"`
	Value  Num    `json:"value"`
	Unit   string `json:"unit"`
	From   string `json:"from,omitempty"`

	Saying text.Saying `json:"-"` // what Name says
}
