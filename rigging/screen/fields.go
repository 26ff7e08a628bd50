package screen

import (
	"strconv"
	"strings"

	"pullline/wasm/draft"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A planField is one field of the plan format: what it is called, measured
// in and asked for. Every field of the format is in the catalogue once.
type planField struct {
	path    string // with the indexes left out: "points[].distance_m"
	label   string
	kind    string // number, text, long, choice, flag; also rows, a text that is a list of counts, date, a day, and lines, a list of texts
	dim     units.Dimension
	way     units.Direction // how its number is rounded where its unit is converted
	help    string
	options []parts.Option
	// keep: emptied, the field stays in the plan as an empty text, because
	// that it is there says which of several things is meant.
	keep bool
	// hidden: not asked for in the form.
	hidden bool
}

const (
	kindNumber = "number"
	kindText   = "text"
	kindLong   = "long"
	kindChoice = "choice"
	kindFlag   = "flag"
	kindRows   = "rows"
	kindDate   = "date"
	kindLines  = "lines"
)

// Choices of the plan format.
var (
	roles = []parts.Option{{Value: "pull", Label: "pulls the tree over"}, {Value: "hold", Label: "holds it against falling sideways"}}

	grownChoices = []parts.Option{{Value: "", Label: "open, or not known"}, {Value: "open", Label: "in the open"}, {Value: "forest", Label: "in a stand of trees"}}

	haulFrom = []parts.Option{{Value: "fixed", Label: "the fixed {block} (at the anchor)"}, {Value: "moving", Label: "the moving {block} (toward the load)"}}

	reevingKinds = []parts.Option{
		{Value: "anchor", Label: "anchor: stands still"}, {Value: "moving", Label: "moving {block}, or a tie on the rope"},
		{Value: "load", Label: "load: where the line comes in"}, {Value: "haul", Label: "haul: where the rope is pulled"},
	}

	anchorKinds = []parts.Option{
		{Value: "", Label: "none"},
		{Value: "rated", Label: "rated, or judged by a competent person"},
		{Value: "machine", Label: "machine on its tracks or wheels"},
		{Value: "tree", Label: "standing tree"},
		{Value: "stump", Label: "stump"},
		{Value: "buried_log", Label: "{buried log}"},
		{Value: "pickets", Label: "pickets driven and lashed"},
		{Value: "bridle", Label: "shared between two or three points"},
	}

	gearKinds = []parts.Option{
		{Value: "wire_rope", Label: "wire rope"},
		{Value: "fibre_rope", Label: "{fibre} rope"},
		{Value: "chain", Label: "chain"},
		{Value: "sling", Label: "{strop}"},
		{Value: "shackle", Label: "{shackle}"},
		{Value: "block", Label: "{block}"},
		{Value: "winch", Label: "winch"},
		{Value: "other", Label: "other"},
	}
)

// Days and bearings are all asked for alike.
const dateHelp = "Year-month-day, such as 2026-03-31."

const bearingHelp = "Degrees clockwise seen from above, from the {lay}: 0 straight ahead, 90 to the right, 180 behind, 270 to the left."

var fields = []planField{
	{path: "version", label: "Format version", kind: kindNumber, dim: units.Count, hidden: true},
	{path: "name", label: "Name of the plan", kind: kindText, help: "A name to know this job by."},
	{path: "notes", label: "Notes", kind: kindLong, help: "Anything the crew should read with the plan: access, escape routes, signals, who does what."},

	{path: "site.wind_mps", label: "Wind against the {lay}", kind: kindNumber, dim: units.MetresPerSecond, help: "The strongest gust expected while the tree stands cut, at crown height. It is taken as blowing against the pull."},

	{path: "tree.species", label: "Species", kind: kindChoice, help: "Gives green weight, wood strength and stem shape where they are not typed. Take the nearest in weight, heavier rather than lighter."},
	{path: "tree.height_m", label: "Height", kind: kindNumber, dim: units.Metres, way: units.Up, help: "From the ground to the top, along the stem. Measured short, the tree comes out too light."},
	{path: "tree.diameter_cm", label: "Diameter at breast height", kind: kindNumber, dim: units.Centimetres, way: units.Up, help: "Over bark, at breast height; by tape, girth divided by 3.14. The mass grows with its square."},
	{path: "tree.lean_deg", label: "{lean}, degrees from plumb", kind: kindNumber, dim: units.Degrees, help: "How far the stem stands from plumb as a whole, foot to top. 1° of back lean on a big tree is a heavy pull."},
	{path: "tree.lean_bearing_deg", label: "Leans toward", kind: kindNumber, dim: units.Degrees, help: bearingHelp + " 180 is straight back, against the pull."},
	{path: "tree.cavity_cm", label: "Cavity or rot across the {hinge}", kind: kindNumber, dim: units.Centimetres, way: units.Up, help: "Diameter of the hollow or soft wood at hinge height. Only the side hold takes it into account: a rotten tree needs a competent person's {judgement} first."},

	{path: "tree.grown", label: "Where it grew", kind: kindChoice, options: grownChoices, help: "In a stand of trees a crown stays small. A tree on an edge, in a gap or alone carries more: take the open in doubt."},
	{path: "tree.crown_fraction", label: "Crown mass as a share of the stem's", kind: kindNumber, dim: units.Plain, help: "Branches and leaves over the whole stem's mass: 0.2 is a fifth. Left empty, it is taken by kind of tree, diameter and where it grew."},
	{path: "tree.crown_centre_m", label: "Height of the crown's {centre}", kind: kindNumber, dim: units.Metres, help: "Along the stem from the ground, where the crown would balance."},
	{path: "tree.crown_offset_m", label: "Crown hangs out by", kind: kindNumber, dim: units.Metres, help: "How far the crown's {centre} lies to one side of the stem, level. Look from two sides, square to each other."},
	{path: "tree.crown_offset_bearing_deg", label: "Crown hangs out toward", kind: kindNumber, dim: units.Degrees, help: bearingHelp},
	{path: "tree.crown_area_m2", label: "Crown area facing the wind", kind: kindNumber, dim: units.SquareMetres, way: units.Up, help: "Width times height of the crown as the wind sees it, less the gaps. Needed only when there is wind."},
	{path: "tree.drag_coefficient", label: "Drag of the crown", kind: kindNumber, dim: units.Plain, help: "How strongly the crown catches the wind. Higher is the cautious side."},

	{path: "tree.form_factor", label: "Form factor of the stem", kind: kindNumber, dim: units.Plain, help: "Stem volume over the cylinder of its diameter and height: a cone is 0.33, a full stem 0.5. Higher makes it heavier."},
	{path: "tree.green_density_kgm3", label: "Green density", kind: kindNumber, dim: units.KilogramsPerCubicMetre, way: units.Up, help: "Mass of the standing wood with its water, over bark. It differs by a fifth within a species; heavier is the cautious side for the pull."},
	{path: "tree.bending_strength_MPa", label: "Green bending strength", kind: kindNumber, dim: units.Megapascals, help: "Of the hinge's wood. Strong wood needs more pull to bend and holds better sideways."},

	{path: "tree.sections[].height_m", label: "Height along the stem", kind: kindNumber, dim: units.Metres, help: "From the ground to where the diameter was measured, along the stem."},
	{path: "tree.sections[].diameter_cm", label: "Diameter there", kind: kindNumber, dim: units.Centimetres, way: units.Up, help: "Over bark, clear of swellings at branches; by tape, girth divided by 3.14."},

	{path: "tree.mass_kg", label: "Mass above the {hinge}, if known", kind: kindNumber, dim: units.Kilograms, way: units.Up, help: "Weighed, or worked out by someone else. Replaces the estimate."},
	{path: "tree.mass_centre_m", label: "Height of the mass {centre}, if known", kind: kindNumber, dim: units.Metres, help: "Along the stem from the ground. Replaces the estimate."},

	{path: "cut.stump_m", label: "Height of the {hinge}", kind: kindNumber, dim: units.Metres, help: "From the ground to the hinge: the stump that stays."},
	{path: "cut.face_opening_deg", label: "{scarf} opening", kind: kindNumber, dim: units.Degrees, help: "Angle of the {scarf}. When it closes the hinge is taken as broken: a narrow one lets the tree go early."},
	{path: "cut.hinge_length_cm", label: "{hinge} length", kind: kindNumber, dim: units.Centimetres, help: "From end to end along the front of the hinge, often about 80 % of the diameter."},
	{path: "cut.hinge_left_cm", label: "{hinge} thickness, left end", kind: kindNumber, dim: units.Centimetres, help: "Seen from behind, facing the {lay}. The pull needed grows with the square of the thickness; a thin hinge does not hold sideways."},
	{path: "cut.hinge_right_cm", label: "{hinge} thickness, right end", kind: kindNumber, dim: units.Centimetres, help: "Seen from behind, facing the {lay}. The same as the left end for an even hinge."},

	{path: "points[].id", label: "Name of the point", kind: kindText, help: "A letter or a short word. Renaming it renames it in every line and piece."},
	{path: "points[].bearing_deg", label: "Bearing from the tree", kind: kindNumber, dim: units.Degrees, help: bearingHelp},
	{path: "points[].distance_m", label: "Distance from the tree", kind: kindNumber, dim: units.Metres, way: units.Down, help: "Level distance from the middle of the stem. A closer point pulls more downward and less forward."},
	{path: "points[].rise_m", label: "Rise above the tree's foot", kind: kindNumber, dim: units.Metres, help: "Height of the point where the rope meets it, above the ground at the stem; negative downhill."},

	{path: "points[].anchor.kind", label: "Anchor", kind: kindChoice, options: anchorKinds, help: "What the point hangs on. Every loaded point needs one."},
	{path: "points[].anchor.capacity_kN", label: "It holds", kind: kindNumber, dim: units.Kilonewtons, way: units.Down, help: "What it may be loaded with, not what it breaks at: the plate's number, or a competent person's."},
	{path: "points[].anchor.mass_kg", label: "Mass of the machine", kind: kindNumber, dim: units.Kilograms, way: units.Down, help: "As it stands there, empty tank and no load."},
	{path: "points[].anchor.traction", label: "Traction on this ground", kind: kindNumber, dim: units.Plain, help: "Pull before it slides, over its weight. Wet ground, snow and steep ground make it worse."},
	{path: "points[].anchor.slope_deg", label: "Slope under the machine", kind: kindNumber, dim: units.Degrees, help: "Positive where the pull drags it downhill, which is the bad way."},
	{path: "points[].anchor.rated_kN", label: "Rated pull of the machine", kind: kindNumber, dim: units.Kilonewtons, way: units.Down, help: "What its drawbar or hitch is rated for."},
	{path: "points[].anchor.diameter_cm", label: "Diameter", kind: kindNumber, dim: units.Centimetres, way: units.Down, help: "Of the anchor tree at breast height, or of the buried log."},
	{path: "points[].anchor.height_m", label: "Height of the anchor tree", kind: kindNumber, dim: units.Metres, way: units.Down, help: "From the ground to the top. Only a live, sound, rooted tree is an anchor."},
	{path: "points[].anchor.form_factor", label: "Form factor of the anchor tree", kind: kindNumber, dim: units.Plain, help: "As for the tree itself; lower is the cautious side here."},
	{path: "points[].anchor.green_density_kgm3", label: "Green density of the anchor tree", kind: kindNumber, dim: units.KilogramsPerCubicMetre, way: units.Down, help: "As for the tree itself; lighter is the cautious side here."},
	{path: "points[].anchor.turning_Nm_per_kg", label: "Turning moment per mass of stem", kind: kindNumber, dim: units.NewtonMetresPerKilogram, way: units.Down, help: "The moment at which such trees were pulled over in trials, over their stem mass. Wet or shallow soil and rot make it far less."},
	{path: "points[].anchor.sling_height_m", label: "Height of the {strop} above ground", kind: kindNumber, dim: units.Metres, way: units.Up, help: "Measured on the uphill side. The higher, the harder it turns the tree over; below a metre it is counted as a metre."},
	{path: "points[].anchor.factor", label: "Factor on what lets go", kind: kindNumber, dim: units.Plain, help: "What would let go, by trial or table, over what is counted on. Trees, stumps and ground differ widely: never small."},
	{path: "points[].anchor.depth_m", label: "Depth to the middle of the log", kind: kindNumber, dim: units.Metres, way: units.Down, help: "From the ground to the middle of the log's face. Measure at the shallow side."},
	{path: "points[].anchor.length_m", label: "Length of the log", kind: kindNumber, dim: units.Metres, way: units.Down, help: "The part that bears against undisturbed soil."},
	{path: "points[].anchor.slot_m", label: "Width of the rope's slot", kind: kindNumber, dim: units.Metres, way: units.Up, help: "The slot cut for the rope, where the log bears on nothing."},
	{path: "points[].anchor.soil_factor", label: "Soil factor", kind: kindNumber, dim: units.Plain, help: "The tables are for undisturbed loam. Wet, sandy or dug-over soil holds much less."},
	{path: "points[].anchor.rows", label: "Pickets in each row", kind: kindRows, help: "Front row first, for example 3-2-1, each row lashed to the next."},
	{path: "points[].anchor.legs[].point", label: "Leg to", kind: kindChoice, help: "The point this leg of the shared anchor goes to. It needs an anchor of its own."},
	{path: "points[].anchor.self_adjusting", label: "Legs run through a ring and share alike", kind: kindFlag, help: "Leave it off for legs of fixed length: those share by their angles."},

	{path: "lines[].id", label: "Name of the line", kind: kindText, help: "A short word. Renaming it renames it on every piece."},
	{path: "lines[].role", label: "What the line does", kind: kindChoice, options: roles, help: "A {hold line} carries just what keeps the tree from going sideways; the pull lines turn it over."},
	{path: "lines[].share", label: "Share of the pull", kind: kindNumber, dim: units.Plain, help: "With several pull lines: how this one's tension compares with the others'. 1 for a single line."},
	{path: "lines[].path[].stem_m", label: "Height on the {stem}", kind: kindNumber, dim: units.Metres, way: units.Down, keep: true, help: "Along the stem from the ground to the rope. Lower needs a greater pull; too high bends a thin or brittle top."},
	{path: "lines[].path[].point", label: "Point", kind: kindChoice, help: "The point the rope goes to here."},
	{path: "lines[].path[].efficiency", label: "Efficiency of the {block}", kind: kindNumber, dim: units.Plain, help: "Tension in over tension out for rope that turns right round (180°). Lower means more friction and a heavier load on the hauling side. Not used at either end of the line."},
	{path: "lines[].tackle.stages[].parts", label: "Parts of rope", kind: kindNumber, dim: units.Count, help: "Parts that shorten when this stage is hauled: count them between its two {block}s, and the hauling part too where it leaves the moving one."},
	{path: "lines[].tackle.stages[].haul_from", label: "The hauling part leaves", kind: kindChoice, options: haulFrom, help: "The {block} that the hauling part runs off."},
	{path: "lines[].tackle.efficiency", label: "Efficiency of each sheave", kind: kindNumber, dim: units.Plain, help: "Of the {tackle}'s own sheaves, for a half turn. Lower is the cautious side for the hauling force."},
	{path: "lines[].tackle.haul_path", label: "Way of the hauling part", kind: kindText, hidden: true},
	{path: "lines[].tackle.reeving.nodes", label: "{Block}s of the reeving", kind: kindText, hidden: true},
	{path: "lines[].tackle.reeving.ropes", label: "Ropes of the reeving", kind: kindText, hidden: true},
	{path: "lines[].tackle.reeving.nodes[].id", label: "Name of the place", kind: kindText, help: "A short word that the ropes below name it by."},
	{path: "lines[].tackle.reeving.nodes[].kind", label: "What it is", kind: kindChoice, options: reevingKinds, help: "One place is the load, where the line comes in, and one the haul, where the rope is pulled."},
	{path: "lines[].tackle.reeving.nodes[].at", label: "Where along the {tackle}", kind: kindNumber, dim: units.Plain, help: "0 at the anchor, larger toward the load; below 0 for a haul that leads away behind the anchor. Only the order counts."},
	{path: "lines[].tackle.reeving.ropes[].path", label: "Places the rope runs over", kind: kindLines, help: "One a line, from the end that is made fast to the other end. Between the ends, each is a sheave."},
	{path: "lines[].tackle.reeving.ropes[].efficiency", label: "Efficiency of its sheaves", kind: kindNumber, dim: units.Plain, help: "Where they differ from the {tackle}'s."},
	{path: "lines[].tackle.haul_path[].point", label: "Point", kind: kindChoice, help: "Where the hauling part goes; the last one is the {puller}."},
	{path: "lines[].tackle.haul_path[].efficiency", label: "Efficiency of the {block}", kind: kindNumber, dim: units.Plain, help: "As for the line's own {block}s. Not used at the last point, the puller."},
	{path: "lines[].puller.rated_kN", label: "Rated pull of the {puller}", kind: kindNumber, dim: units.Kilonewtons, way: units.Down, help: "At the rope, on the layer of the drum it will work on; a full drum pulls less than a bare one."},
	{path: "lines[].puller.limited_by", label: "What limits the pull?", kind: kindChoice, options: offer.PullerLimits, help: "What stops it from pulling harder when something jams. The gear and anchors are held against that, with no friction counted on."},
	{path: "lines[].puller.setting_kN", label: "It stops at", kind: kindNumber, dim: units.Kilonewtons, way: units.Up, help: "The pull at the rope at which the device lets go, or at which the one watching stops. Tested, not read from a plate: it drifts."},
	{path: "lines[].puller.stall_kN", label: "Most it can pull (stall)", kind: kindNumber, dim: units.Kilonewtons, way: units.Up, help: "What it pulls at the rope before it stalls, on a bare drum. This is what the gear sees when something jams."},
	{path: "lines[].tended", label: "Someone lets it out under control", kind: kindFlag, help: "With a wrap round a post or a friction device, from the first movement of the tree. Made fast at both ends it has to stretch as the tree turns, and loads up."},
	{path: "lines[].tied", label: "Ends where the rope itself is tied", kind: kindText, hidden: true},
	{path: "lines[].rope.mass_kgpm", label: "Mass of the rope", kind: kindNumber, dim: units.KilogramsPerMetre, help: "Per length, for the sag. Wet {fibre} rope weighs more."},
	{path: "lines[].rope.stiffness_kN", label: "Stiffness of the rope (EA)", kind: kindNumber, dim: units.Kilonewtons, help: "Tension divided by the share it stretches: modulus times metal area. For the stretch and the energy that comes back if it parts."},

	{path: "gear[].id", label: "Name of the piece", kind: kindText, help: "So that everyone knows which one is meant: its tag or its place."},
	{path: "gear[].kind", label: "Kind", kind: kindChoice, options: gearKinds, help: "What sort of piece it is."},
	{path: "gear[].line", label: "On line", kind: kindText, hidden: true},
	{path: "gear[].place", label: "Place on the line", kind: kindText, hidden: true},
	{path: "gear[].point", label: "At point", kind: kindText, hidden: true},
	{path: "gear[].wll_kN", label: "Working load limit", kind: kindNumber, dim: units.Kilonewtons, way: units.Down, keep: true, help: "From the tag, for a straight pull. A piece without a readable tag has no limit."},
	{path: "gear[].wll_t", label: "Working load limit, tonnes", kind: kindNumber, dim: units.TonnesForce, way: units.Down, keep: true, help: "From the tag, for a straight pull, in tonnes of 1000 kg. Some tags are in short tons of 2000 lb, a tenth less: type “short ton” after the number."},
	{path: "gear[].mbl_kN", label: "Minimum breaking load", kind: kindNumber, dim: units.Kilonewtons, way: units.Down, keep: true, help: "From the maker's certificate for the new piece. Divided by the design factor it gives what it may carry."},
	{path: "gear[].design_factor", label: "Design factor", kind: kindNumber, dim: units.Plain, help: "Breaking load over the load allowed. Never below what your code asks for."},
	{path: "gear[].size", label: "Size", kind: kindText, help: "Diameter and length, or the size stamped on it. Only to know the piece by: the limit is worked out from the tag alone."},
	{path: "gear[].terminations", label: "Ends", kind: kindText, help: "How its ends are made: splice, ferrule, wedge socket, clips, hook. What an end takes off the strength goes under reductions."},
	{path: "gear[].last_inspection", label: "Last inspected on", kind: kindDate, help: dateHelp},
	{path: "gear[].next_inspection", label: "Inspect again by", kind: kindDate, help: dateHelp + " On that day it is still in date; after it the plan cannot be judged with this piece."},
	{path: "gear[].retired", label: "Retired: not to be used", kind: kindFlag, help: "Taken out of use. A plan with it cannot be judged."},
	{path: "gear[].cleared", label: "Used all the same, because", kind: kindText, help: "Who has judged that this piece may be used although it is retired or past its inspection, and why. It stays in the record. Left empty, it may not be used."},
	{path: "gear[].notes", label: "Notes on the piece", kind: kindText, help: "Tag, age, anything seen."},
	{path: "gear[].hitch_factor", label: "Hitch factor", kind: kindNumber, dim: units.Plain, help: "How the way it is put on changes what it carries: choked less than straight, a basket more. 1 for straight."},
	{path: "gear[].reductions", label: "Knot or termination", kind: kindText, hidden: true},
	{path: "gear[].reductions[].why", label: "Reduced for", kind: kindText, help: "What takes strength away: a knot, a splice, a tight bend, a side load, wear."},
	{path: "gear[].reductions[].factor", label: "Leaves", kind: kindNumber, dim: units.Plain, help: "The share of strength left: 0.8 or 80 %. At most 1."},

	{path: "pull_date", label: "Day of the pull", kind: kindDate, help: dateHelp + " The gear's inspections are held to this day."},
	{path: "allowance", label: "Allowance on the pull needed", kind: kindNumber, dim: units.Plain, help: "Planned tension over the largest pull needed, for what the estimate gets wrong. Never below 1."},
	{path: "planned_kN", label: "Own planned tension, if set", kind: kindNumber, dim: units.Kilonewtons, help: "Replaces allowance times pull needed. Less than that is reported as a problem."},
	{path: "fork.tree", label: "Name of the tree the stems share", kind: kindText, help: "The same name in the plan of every stem, so that they are found together."},
	{path: "fork.stem", label: "This stem's number", kind: kindNumber, dim: units.Count, help: "As marked on the tree, from 1."},
	{path: "fork.of", label: "Stems in all", kind: kindNumber, dim: units.Count, help: "How many stems stand on this foot."},
	{path: "fork.order", label: "Its turn in the felling", kind: kindNumber, dim: units.Count, help: "1 for the stem that goes first. The load of every other stem is another once one is off."},

	{path: "brief.sequence", label: "Sequence, a step a line", kind: kindLines, help: "What happens in which order, told to everyone before the cut."},
	{path: "brief.signals[].sign", label: "Sign", kind: kindText, help: "What is seen or heard: agreed on the spot, and shown once by whoever gives it."},
	{path: "brief.signals[].means", label: "Means", kind: kindText, help: "What is done on it."},
	{path: "brief.signals[].by", label: "Given by", kind: kindText, help: "One person gives a signal; stop may come from anyone."},
	{path: "brief.stop_haul_kN", label: "Stop at a haul of", kind: kindNumber, dim: units.Kilonewtons, way: units.Down, help: "Read at the {puller}. Reached with the tree still standing, the crew stops and looks before anything else."},
	{path: "brief.stop_rope_m", label: "Stop after hauling", kind: kindNumber, dim: units.Metres, way: units.Down, help: "Rope in at the {puller}. Reached with the tree still standing, something gives that should not."},
	{path: "brief.roles[].role", label: "Does", kind: kindText, help: "Saw, {puller}, signals, hold line, keeping others out."},
	{path: "brief.roles[].name", label: "Name", kind: kindText, help: "Who does it today."},
	{path: "brief.notes", label: "Notes for the briefing", kind: kindLong, help: "Escape routes, meeting place, radio channel, how help gets here."},

	{path: "after.date", label: "Pulled on", kind: kindDate, help: dateHelp},
	{path: "after.peak_kN", label: "Greatest tension measured", kind: kindNumber, dim: units.Kilonewtons, way: units.Up, help: "In the {pull line} where it leaves the {stem}, by a load cell. Leave it empty if nothing was measured."},
	{path: "after.peak_deg", label: "Turn of the tree then", kind: kindNumber, dim: units.Degrees, help: "How far the tree had turned from standing."},
	{path: "after.haul_kN", label: "Greatest haul measured", kind: kindNumber, dim: units.Kilonewtons, way: units.Up, help: "At the {puller}: its gauge, or a load cell there."},
	{path: "after.happened", label: "What happened", kind: kindLong, help: "What went otherwise than planned, what held well, what to do differently."},
	{path: "after.photos", label: "Photographs, a file name a line", kind: kindLines, help: "Names only: the pictures stay where they are."},

	{path: "plus_minus", label: "Give or take", kind: kindText, hidden: true},
	{path: "readings", label: "Readings kept", kind: kindText, hidden: true},
}

// catalogue finds a field by its path without indexes.
var catalogue = func() map[string]*planField {
	m := make(map[string]*planField, len(fields))
	for i := range fields {
		m[fields[i].path] = &fields[i]
	}
	return m
}()

// listPieces begins the path of a field of the gear list.
const listPieces = "pieces[]."

const keptReadings = "readings."

// fieldAt finds the catalogue's field of a path; for a give or take, the
// one of the field it belongs to.
func fieldAt(path string) (*planField, bool) {
	if strings.HasPrefix(path, keptReadings) {
		return catalogue["readings"], true
	}
	of := draft.Pattern(strings.TrimPrefix(path, draft.PlusMinus))
	if key, ok := strings.CutPrefix(of, listPieces); ok {
		of = "gear[]." + key // a piece of the gear list has a plan's fields
	}
	f, ok := catalogue[of]
	return f, ok
}

// labelOf is the label of any path of the plan, said with where it is: the
// path itself where the catalogue does not know it.
func labelOf(d *draft.Plan, path string) string {
	if target, ok := strings.CutPrefix(path, draft.PlusMinus); ok {
		return "Give or take on: " + labelOf(d, target)
	}
	if target, ok := strings.CutPrefix(path, keptReadings); ok {
		return "Readings kept: " + target
	}
	f, ok := fieldAt(path)
	if !ok {
		return path
	}
	label := words.Capital(d.Say(f.label))
	if owner := ownerOf(d, path); owner != "" {
		return owner + ": " + label
	}
	return label
}

// ownerOf names the point, line or piece a path lies in, "" if none.
func ownerOf(d *draft.Plan, path string) string {
	parts := draft.ParsePath(path)
	if len(parts) < 2 {
		return ""
	}
	list, isKey := parts[0].(string)
	i, isIndex := parts[1].(int)
	if !isKey || !isIndex {
		return ""
	}
	switch list {
	case "points":
		return pointTitle(d, i)
	case "lines":
		return lineTitle(d, i)
	case "gear":
		return gearTitle(d, i)
	}
	return ""
}

// Titles of the parts of a plan: by name, else by number.
func pointTitle(d *draft.Plan, i int) string {
	return named("Point ", d, draft.Elem("points", i), i)
}

func lineTitle(d *draft.Plan, i int) string {
	word, role := "Line ", d.Text(draft.Elem("lines", i)+".role")
	switch role {
	case "pull":
		word = d.Say("{Pull line} ")
	case "hold":
		word = d.Say("{Hold line} ")
	}
	if id := d.Text(draft.Elem("lines", i) + ".id"); id != "" && id == role {
		return strings.TrimSpace(word) // “pull line pull” says it twice
	}
	return named(word, d, draft.Elem("lines", i), i)
}

func gearTitle(d *draft.Plan, i int) string {
	if id := d.Text(draft.Elem("gear", i) + ".id"); id != "" {
		return words.Capital(id)
	}
	return "Piece " + strconv.Itoa(i+1)
}

func named(word string, d *draft.Plan, path string, i int) string {
	v, _ := d.At(path + ".id")
	if id := draft.Written(v); id != "" {
		return word + id
	}
	return word + "no. " + strconv.Itoa(i+1)
}
