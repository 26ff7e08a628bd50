// Package plan is the one JSON format in and out: it reads a plan strictly,
// fills in stated defaults, has package rigging compute it, and writes the
// report with its problems, cautions, assumptions and workings.
//
// # Problem or caution
//
// A problem is anything that keeps the plan from being judged: a value that
// is missing, of the wrong type, impossible or not finite, a field nobody
// knows (it may be a misspelt one, whose default would then be used
// silently), a missing link between tree and anchor. With any problem the
// verdict is unknown at best. A caution does not keep the plan from being
// judged.
//
// # The plan
//
// Every number is in the unit its field name ends in. A bearing is degrees
// clockwise from the lay, seen from above. Each part is read in the file
// named after it; what is accepted and what is taken for a field left out stand
// in its row of package field.
//
//	version, name, notes, pull_date          model.go, inspection.go
//	site   {wind_mps}                        model.go
//	tree   {species, height_m, diameter_cm, form_factor | sections,
//	        green_density_kgm3, bending_strength_MPa, grown, crown_fraction,
//	        crown_centre_m, crown_offset_m, crown_offset_bearing_deg,
//	        crown_area_m2, drag_coefficient, lean_deg, lean_bearing_deg,
//	        cavity_cm, mass_kg, mass_centre_m}  model.go, crown.go, sections.go
//	cut    {stump_m, face_opening_deg, hinge_length_cm, hinge_left_cm,
//	        hinge_right_cm}                  model.go
//	points [{id, bearing_deg, distance_m, rise_m, anchor}]  model.go, anchors.go
//	lines  [{id, role, share, path, tackle, puller, tended, tied, rope}]  model.go
//	gear   [{id, kind, line | line and place | point, a limit,
//	         hitch_factor, reductions, inspection}]  gear.go, inspection.go
//	allowance, planned_kN                    model.go
//	plus_minus {path: ±}                     plusminus.go
//	readings   {path: how it was measured}   readings.go
//	brief  the pull sheet's sequence, signals and stop conditions  brief.go
//	after  what was measured at the pull     after.go
//	fork   the stems that share a butt       fork.go
//
// A line's path runs from the rope's dead end to its hauling end. A station
// is on the stem (stem_m, height along it) or at a point; every station
// between first and last is a block. A tackle hangs between the line and the
// last station; its hauling part goes along haul_path, whose last station is
// the puller. A reeving gives nodes along one axis and the ropes through
// them, as rigging.Reeving has them.
//
// # The report
//
// See Report. Everything in it is at planned tension with the tree standing
// unless a name says otherwise. A number that could not be computed is null.
package plan

import "pullline/rigging/plan/field"

// Version is the version of the format this package writes.
const Version = field.PlanVersion

// Limits on the size of a plan and of its report, against hostile files; those of
// its lists and texts stand in the table of fields.
const (
	MaxBytes    = 256 << 10
	maxProblems = 200 // that are listed
)

//go:generate go run pullline/wasm/site/codec/generate
