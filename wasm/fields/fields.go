package fields

import (
	"strconv"
	"strings"

	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A Spec is one field of the plan format: what it is called, measured
// in and asked for. Every field of the format is in the catalogue once.
type Spec struct {
	Path    string // with the indexes left out: "points[].distance_m"
	Label   string
	Kind    string // number, text, long, choice, flag; also rows, a text that is a list of counts, date, a day, and lines, a list of texts
	Dim     units.Dimension
	Way     units.Direction // how its number is rounded where its unit is converted
	Help    string
	Options []parts.Option
	// Keep: emptied, the field stays in the plan as an empty text, because
	// that it is there says which of several things is meant.
	Keep bool
	// Measured: there are ways to measure it, among those of page/survey.
	Measured bool
	// Hidden: not asked for in the form.
	Hidden bool
}

// The kinds of field.
const (
	Number = "number"
	Text   = "text"
	Long   = "long"
	Choice = "choice"
	Flag   = "flag"
	Rows   = "rows"
	Date   = "date"
	Lines  = "lines"
)

// Choices of the plan format.
var (
	roles = []parts.Option{{Value: "pull", Label: "pulls the tree over"}, {Value: "hold", Label: "holds it against falling sideways"}}

	grownChoices = []parts.Option{{Value: "", Label: "open, or not known"}, {Value: "open", Label: "in the open"}, {Value: "forest", Label: "in a stand of trees"}}

	HaulFrom = []parts.Option{{Value: "fixed", Label: "the fixed {block} (at the anchor)"}, {Value: "moving", Label: "the moving {block} (toward the load)"}}

	reevingKinds = []parts.Option{
		{Value: "anchor", Label: "anchor: stands still"}, {Value: "moving", Label: "moving {block}, or a tie on the rope"},
		{Value: "load", Label: "load: where the line comes in"}, {Value: "haul", Label: "haul: where the rope is pulled"},
	}

	AnchorKinds = []parts.Option{
		{Value: "", Label: "none"},
		{Value: "rated", Label: "rated, or judged by a competent person"},
		{Value: "machine", Label: "machine on its tracks or wheels"},
		{Value: "tree", Label: "standing tree"},
		{Value: "stump", Label: "stump"},
		{Value: "buried_log", Label: "{buried log}"},
		{Value: "pickets", Label: "pickets driven and lashed"},
		{Value: "bridle", Label: "shared between two or three points"},
	}

	GearKinds = []parts.Option{
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
const DateHelp = "Year-month-day, such as 2026-03-31."

const bearingHelp = "Degrees clockwise seen from above, from the {lay}: 0 straight ahead, 90 to the right, 180 behind, 270 to the left."

// All are the fields of the plan, in the order of its parts.
var All = []Spec{
	{Path: "version", Label: "Format version", Kind: Number, Dim: units.Count, Hidden: true},
	{Path: "name", Label: "Name of the plan", Kind: Text, Help: "A name to know this job by."},
	{Path: "notes", Label: "Notes", Kind: Long, Help: "Anything the crew should read with the plan: access, escape routes, signals, who does what."},

	{Path: "site.wind_mps", Label: "Wind against the {lay}", Kind: Number, Dim: units.MetresPerSecond, Help: "The strongest gust expected while the tree stands cut, at crown height. It is taken as blowing against the pull."},

	{Path: "tree.species", Label: "Species", Kind: Choice, Help: "Gives green weight, wood strength and stem shape where they are not typed. Take the nearest in weight, heavier rather than lighter."},
	{Path: "tree.height_m", Label: "Height", Kind: Number, Measured: true, Dim: units.Metres, Way: units.Up, Help: "From the ground to the top, along the stem. Measured short, the tree comes out too light."},
	{Path: "tree.diameter_cm", Label: "Diameter at breast height", Kind: Number, Measured: true, Dim: units.Centimetres, Way: units.Up, Help: "Over bark, at breast height; by tape, girth divided by 3.14. The mass grows with its square."},
	{Path: "tree.lean_deg", Label: "{lean}, degrees from plumb", Kind: Number, Measured: true, Dim: units.Degrees, Help: "How far the stem stands from plumb as a whole, foot to top. 1° of back lean on a big tree is a heavy pull."},
	{Path: "tree.lean_bearing_deg", Label: "Leans toward", Kind: Number, Measured: true, Dim: units.Degrees, Help: bearingHelp + " 180 is straight back, against the pull."},
	{Path: "tree.cavity_cm", Label: "Cavity or rot across the {hinge}", Kind: Number, Dim: units.Centimetres, Way: units.Up, Help: "Diameter of the hollow or soft wood at hinge height. Only the side hold takes it into account: a rotten tree needs a competent person's {judgement} first."},

	{Path: "tree.grown", Label: "Where it grew", Kind: Choice, Options: grownChoices, Help: "In a stand of trees a crown stays small. A tree on an edge, in a gap or alone carries more: take the open in doubt."},
	{Path: "tree.crown_fraction", Label: "Crown mass as a share of the stem's", Kind: Number, Dim: units.Plain, Help: "Branches and leaves over the whole stem's mass: 0.2 is a fifth. Left empty, it is taken by kind of tree, diameter and where it grew."},
	{Path: "tree.crown_centre_m", Label: "Height of the crown's {centre}", Kind: Number, Measured: true, Dim: units.Metres, Help: "Along the stem from the ground, where the crown would balance."},
	{Path: "tree.crown_offset_m", Label: "Crown hangs out by", Kind: Number, Measured: true, Dim: units.Metres, Help: "How far the crown's {centre} lies to one side of the stem, level. Look from two sides, square to each other."},
	{Path: "tree.crown_offset_bearing_deg", Label: "Crown hangs out toward", Kind: Number, Measured: true, Dim: units.Degrees, Help: bearingHelp},
	{Path: "tree.crown_area_m2", Label: "Crown area facing the wind", Kind: Number, Dim: units.SquareMetres, Way: units.Up, Help: "Width times height of the crown as the wind sees it, less the gaps. Needed only when there is wind."},
	{Path: "tree.drag_coefficient", Label: "Drag of the crown", Kind: Number, Dim: units.Plain, Help: "How strongly the crown catches the wind. Higher is the cautious side."},

	{Path: "tree.form_factor", Label: "Form factor of the stem", Kind: Number, Dim: units.Plain, Help: "Stem volume over the cylinder of its diameter and height: a cone is 0.33, a full stem 0.5. Higher makes it heavier."},
	{Path: "tree.green_density_kgm3", Label: "Green density", Kind: Number, Dim: units.KilogramsPerCubicMetre, Way: units.Up, Help: "Mass of the standing wood with its water, over bark. It differs by a fifth within a species; heavier is the cautious side for the pull."},
	{Path: "tree.bending_strength_MPa", Label: "Green bending strength", Kind: Number, Dim: units.Megapascals, Help: "Of the hinge's wood. Strong wood needs more pull to bend and holds better sideways."},

	{Path: "tree.sections[].height_m", Label: "Height along the stem", Kind: Number, Measured: true, Dim: units.Metres, Help: "From the ground to where the diameter was measured, along the stem."},
	{Path: "tree.sections[].diameter_cm", Label: "Diameter there", Kind: Number, Measured: true, Dim: units.Centimetres, Way: units.Up, Help: "Over bark, clear of swellings at branches; by tape, girth divided by 3.14."},

	{Path: "tree.mass_kg", Label: "Mass above the {hinge}, if known", Kind: Number, Dim: units.Kilograms, Way: units.Up, Help: "Weighed, or worked out by someone else. Replaces the estimate."},
	{Path: "tree.mass_centre_m", Label: "Height of the mass {centre}, if known", Kind: Number, Dim: units.Metres, Help: "Along the stem from the ground. Replaces the estimate."},

	{Path: "cut.stump_m", Label: "Height of the {hinge}", Kind: Number, Dim: units.Metres, Help: "From the ground to the hinge: the stump that stays."},
	{Path: "cut.face_opening_deg", Label: "{scarf} opening", Kind: Number, Dim: units.Degrees, Help: "Angle of the {scarf}. When it closes the hinge is taken as broken: a narrow one lets the tree go early."},
	{Path: "cut.hinge_length_cm", Label: "{hinge} length", Kind: Number, Dim: units.Centimetres, Help: "From end to end along the front of the hinge, often about 80 % of the diameter."},
	{Path: "cut.hinge_left_cm", Label: "{hinge} thickness, left end", Kind: Number, Dim: units.Centimetres, Help: "Seen from behind, facing the {lay}. The pull needed grows with the square of the thickness; a thin hinge does not hold sideways."},
	{Path: "cut.hinge_right_cm", Label: "{hinge} thickness, right end", Kind: Number, Dim: units.Centimetres, Help: "Seen from behind, facing the {lay}. The same as the left end for an even hinge."},

	{Path: "points[].id", Label: "Name of the point", Kind: Text, Help: "A letter or a short word. Renaming it renames it in every line and piece."},
	{Path: "points[].bearing_deg", Label: "Bearing from the tree", Kind: Number, Measured: true, Dim: units.Degrees, Help: bearingHelp},
	{Path: "points[].distance_m", Label: "Distance from the tree", Kind: Number, Measured: true, Dim: units.Metres, Way: units.Down, Help: "Level distance from the middle of the stem. A closer point pulls more downward and less forward."},
	{Path: "points[].rise_m", Label: "Rise above the tree's foot", Kind: Number, Measured: true, Dim: units.Metres, Help: "Height of the point where the rope meets it, above the ground at the stem; negative downhill."},

	{Path: "points[].anchor.kind", Label: "Anchor", Kind: Choice, Options: AnchorKinds, Help: "What the point hangs on. Every loaded point needs one."},
	{Path: "points[].anchor.capacity_kN", Label: "It holds", Kind: Number, Dim: units.Kilonewtons, Way: units.Down, Help: "What it may be loaded with, not what it breaks at: the plate's number, or a competent person's."},
	{Path: "points[].anchor.mass_kg", Label: "Mass of the machine", Kind: Number, Dim: units.Kilograms, Way: units.Down, Help: "As it stands there, empty tank and no load."},
	{Path: "points[].anchor.traction", Label: "Traction on this ground", Kind: Number, Dim: units.Plain, Help: "Pull before it slides, over its weight. Wet ground, snow and steep ground make it worse."},
	{Path: "points[].anchor.slope_deg", Label: "Slope under the machine", Kind: Number, Measured: true, Dim: units.Degrees, Help: "Positive where the pull drags it downhill, which is the bad way."},
	{Path: "points[].anchor.rated_kN", Label: "Rated pull of the machine", Kind: Number, Dim: units.Kilonewtons, Way: units.Down, Help: "What its drawbar or hitch is rated for."},
	{Path: "points[].anchor.diameter_cm", Label: "Diameter", Kind: Number, Measured: true, Dim: units.Centimetres, Way: units.Down, Help: "Of the anchor tree at breast height, or of the buried log."},
	{Path: "points[].anchor.height_m", Label: "Height of the anchor tree", Kind: Number, Measured: true, Dim: units.Metres, Way: units.Down, Help: "From the ground to the top. Only a live, sound, rooted tree is an anchor."},
	{Path: "points[].anchor.form_factor", Label: "Form factor of the anchor tree", Kind: Number, Dim: units.Plain, Help: "As for the tree itself; lower is the cautious side here."},
	{Path: "points[].anchor.green_density_kgm3", Label: "Green density of the anchor tree", Kind: Number, Dim: units.KilogramsPerCubicMetre, Way: units.Down, Help: "As for the tree itself; lighter is the cautious side here."},
	{Path: "points[].anchor.turning_Nm_per_kg", Label: "Turning moment per mass of stem", Kind: Number, Dim: units.NewtonMetresPerKilogram, Way: units.Down, Help: "The moment at which such trees were pulled over in trials, over their stem mass. Wet or shallow soil and rot make it far less."},
	{Path: "points[].anchor.sling_height_m", Label: "Height of the {strop} above ground", Kind: Number, Dim: units.Metres, Way: units.Up, Help: "Measured on the uphill side. The higher, the harder it turns the tree over; below a metre it is counted as a metre."},
	{Path: "points[].anchor.factor", Label: "Factor on what lets go", Kind: Number, Dim: units.Plain, Help: "What would let go, by trial or table, over what is counted on. Trees, stumps and ground differ widely: never small."},
	{Path: "points[].anchor.depth_m", Label: "Depth to the middle of the log", Kind: Number, Dim: units.Metres, Way: units.Down, Help: "From the ground to the middle of the log's face. Measure at the shallow side."},
	{Path: "points[].anchor.length_m", Label: "Length of the log", Kind: Number, Dim: units.Metres, Way: units.Down, Help: "The part that bears against undisturbed soil."},
	{Path: "points[].anchor.slot_m", Label: "Width of the rope's slot", Kind: Number, Dim: units.Metres, Way: units.Up, Help: "The slot cut for the rope, where the log bears on nothing."},
	{Path: "points[].anchor.soil_factor", Label: "Soil factor", Kind: Number, Dim: units.Plain, Help: "The tables are for undisturbed loam. Wet, sandy or dug-over soil holds much less."},
	{Path: "points[].anchor.rows", Label: "Pickets in each row", Kind: Rows, Help: "Front row first, for example 3-2-1, each row lashed to the next."},
	{Path: "points[].anchor.legs[].point", Label: "Leg to", Kind: Choice, Help: "The point this leg of the shared anchor goes to. It needs an anchor of its own."},
	{Path: "points[].anchor.self_adjusting", Label: "Legs run through a ring and share alike", Kind: Flag, Help: "Leave it off for legs of fixed length: those share by their angles."},

	{Path: "lines[].id", Label: "Name of the line", Kind: Text, Help: "A short word. Renaming it renames it on every piece."},
	{Path: "lines[].role", Label: "What the line does", Kind: Choice, Options: roles, Help: "A {hold line} carries just what keeps the tree from going sideways; the pull lines turn it over."},
	{Path: "lines[].share", Label: "Share of the pull", Kind: Number, Dim: units.Plain, Help: "With several pull lines: how this one's tension compares with the others'. 1 for a single line."},
	{Path: "lines[].path[].stem_m", Label: "Height on the {stem}", Kind: Number, Measured: true, Dim: units.Metres, Way: units.Down, Keep: true, Help: "Along the stem from the ground to the rope. Lower needs a greater pull; too high bends a thin or brittle top."},
	{Path: "lines[].path[].point", Label: "Point", Kind: Choice, Help: "The point the rope goes to here."},
	{Path: "lines[].path[].efficiency", Label: "Efficiency of the {block}", Kind: Number, Dim: units.Plain, Help: "Tension in over tension out for rope that turns right round (180°). Lower means more friction and a heavier load on the hauling side. Not used at either end of the line."},
	{Path: "lines[].tackle.stages[].parts", Label: "Parts of rope", Kind: Number, Dim: units.Count, Help: "Parts that shorten when this stage is hauled: count them between its two {block}s, and the hauling part too where it leaves the moving one."},
	{Path: "lines[].tackle.stages[].haul_from", Label: "The hauling part leaves", Kind: Choice, Options: HaulFrom, Help: "The {block} that the hauling part runs off."},
	{Path: "lines[].tackle.efficiency", Label: "Efficiency of each sheave", Kind: Number, Dim: units.Plain, Help: "Of the {tackle}'s own sheaves, for a half turn. Lower is the cautious side for the hauling force."},
	{Path: "lines[].tackle.haul_path", Label: "Way of the hauling part", Kind: Text, Hidden: true},
	{Path: "lines[].tackle.reeving.nodes", Label: "{Block}s of the reeving", Kind: Text, Hidden: true},
	{Path: "lines[].tackle.reeving.ropes", Label: "Ropes of the reeving", Kind: Text, Hidden: true},
	{Path: "lines[].tackle.reeving.nodes[].id", Label: "Name of the place", Kind: Text, Help: "A short word that the ropes below name it by."},
	{Path: "lines[].tackle.reeving.nodes[].kind", Label: "What it is", Kind: Choice, Options: reevingKinds, Help: "One place is the load, where the line comes in, and one the haul, where the rope is pulled."},
	{Path: "lines[].tackle.reeving.nodes[].at", Label: "Where along the {tackle}", Kind: Number, Dim: units.Plain, Help: "0 at the anchor, larger toward the load; below 0 for a haul that leads away behind the anchor. Only the order counts."},
	{Path: "lines[].tackle.reeving.ropes[].path", Label: "Places the rope runs over", Kind: Lines, Help: "One a line, from the end that is made fast to the other end. Between the ends, each is a sheave."},
	{Path: "lines[].tackle.reeving.ropes[].efficiency", Label: "Efficiency of its sheaves", Kind: Number, Dim: units.Plain, Help: "Where they differ from the {tackle}'s."},
	{Path: "lines[].tackle.haul_path[].point", Label: "Point", Kind: Choice, Help: "Where the hauling part goes; the last one is the {puller}."},
	{Path: "lines[].tackle.haul_path[].efficiency", Label: "Efficiency of the {block}", Kind: Number, Dim: units.Plain, Help: "As for the line's own {block}s. Not used at the last point, the puller."},
	{Path: "lines[].puller.rated_kN", Label: "Rated pull of the {puller}", Kind: Number, Dim: units.Kilonewtons, Way: units.Down, Help: "At the rope, on the layer of the drum it will work on; a full drum pulls less than a bare one."},
	{Path: "lines[].puller.limited_by", Label: "What limits the pull?", Kind: Choice, Options: offer.PullerLimits, Help: "What stops it from pulling harder when something jams. The gear and anchors are held against that, with no friction counted on."},
	{Path: "lines[].puller.setting_kN", Label: "It stops at", Kind: Number, Dim: units.Kilonewtons, Way: units.Up, Help: "The pull at the rope at which the device lets go, or at which the one watching stops. Tested, not read from a plate: it drifts."},
	{Path: "lines[].puller.stall_kN", Label: "Most it can pull (stall)", Kind: Number, Dim: units.Kilonewtons, Way: units.Up, Help: "What it pulls at the rope before it stalls, on a bare drum. This is what the gear sees when something jams."},
	{Path: "lines[].tended", Label: "Someone lets it out under control", Kind: Flag, Help: "With a wrap round a post or a friction device, from the first movement of the tree. Made fast at both ends it has to stretch as the tree turns, and loads up."},
	{Path: "lines[].tied", Label: "Ends where the rope itself is tied", Kind: Text, Hidden: true},
	{Path: "lines[].rope.mass_kgpm", Label: "Mass of the rope", Kind: Number, Dim: units.KilogramsPerMetre, Help: "Per length, for the sag. Wet {fibre} rope weighs more."},
	{Path: "lines[].rope.stiffness_kN", Label: "Stiffness of the rope (EA)", Kind: Number, Dim: units.Kilonewtons, Help: "Tension divided by the share it stretches: modulus times metal area. For the stretch and the energy that comes back if it parts."},

	{Path: "gear[].id", Label: "Name of the piece", Kind: Text, Help: "So that everyone knows which one is meant: its tag or its place."},
	{Path: "gear[].kind", Label: "Kind", Kind: Choice, Options: GearKinds, Help: "What sort of piece it is."},
	{Path: "gear[].line", Label: "On line", Kind: Text, Hidden: true},
	{Path: "gear[].place", Label: "Place on the line", Kind: Text, Hidden: true},
	{Path: "gear[].point", Label: "At point", Kind: Text, Hidden: true},
	{Path: "gear[].wll_kN", Label: "Working load limit", Kind: Number, Dim: units.Kilonewtons, Way: units.Down, Keep: true, Help: "From the tag, for a straight pull. A piece without a readable tag has no limit."},
	{Path: "gear[].wll_t", Label: "Working load limit, tonnes", Kind: Number, Dim: units.TonnesForce, Way: units.Down, Keep: true, Help: "From the tag, for a straight pull, in tonnes of 1000 kg. Some tags are in short tons of 2000 lb, a tenth less: type “short ton” after the number."},
	{Path: "gear[].mbl_kN", Label: "Minimum breaking load", Kind: Number, Dim: units.Kilonewtons, Way: units.Down, Keep: true, Help: "From the maker's certificate for the new piece. Divided by the design factor it gives what it may carry."},
	{Path: "gear[].design_factor", Label: "Design factor", Kind: Number, Dim: units.Plain, Help: "Breaking load over the load allowed. Never below what your code asks for."},
	{Path: "gear[].size", Label: "Size", Kind: Text, Help: "Diameter and length, or the size stamped on it. Only to know the piece by: the limit is worked out from the tag alone."},
	{Path: "gear[].terminations", Label: "Ends", Kind: Text, Help: "How its ends are made: splice, ferrule, wedge socket, clips, hook. What an end takes off the strength goes under reductions."},
	{Path: "gear[].last_inspection", Label: "Last inspected on", Kind: Date, Help: DateHelp},
	{Path: "gear[].next_inspection", Label: "Inspect again by", Kind: Date, Help: DateHelp + " On that day it is still in date; after it the plan cannot be judged with this piece."},
	{Path: "gear[].retired", Label: "Retired: not to be used", Kind: Flag, Help: "Taken out of use. A plan with it cannot be judged."},
	{Path: "gear[].cleared", Label: "Used all the same, because", Kind: Text, Help: "Who has judged that this piece may be used although it is retired or past its inspection, and why. It stays in the record. Left empty, it may not be used."},
	{Path: "gear[].notes", Label: "Notes on the piece", Kind: Text, Help: "Tag, age, anything seen."},
	{Path: "gear[].hitch_factor", Label: "Hitch factor", Kind: Number, Dim: units.Plain, Help: "How the way it is put on changes what it carries: choked less than straight, a basket more. 1 for straight."},
	{Path: "gear[].reductions", Label: "Knot or termination", Kind: Text, Hidden: true},
	{Path: "gear[].reductions[].why", Label: "Reduced for", Kind: Text, Help: "What takes strength away: a knot, a splice, a tight bend, a side load, wear."},
	{Path: "gear[].reductions[].factor", Label: "Leaves", Kind: Number, Dim: units.Plain, Help: "The share of strength left: 0.8 or 80 %. At most 1."},

	{Path: "pull_date", Label: "Day of the pull", Kind: Date, Help: DateHelp + " The gear's inspections are held to this day."},
	{Path: "allowance", Label: "Allowance on the pull needed", Kind: Number, Dim: units.Plain, Help: "Planned tension over the largest pull needed, for what the estimate gets wrong. Never below 1."},
	{Path: "planned_kN", Label: "Own planned tension, if set", Kind: Number, Dim: units.Kilonewtons, Help: "Replaces allowance times pull needed. Less than that is reported as a problem."},
	{Path: "fork.tree", Label: "Name of the tree the stems share", Kind: Text, Help: "The same name in the plan of every stem, so that they are found together."},
	{Path: "fork.stem", Label: "This stem's number", Kind: Number, Dim: units.Count, Help: "As marked on the tree, from 1."},
	{Path: "fork.of", Label: "Stems in all", Kind: Number, Dim: units.Count, Help: "How many stems stand on this foot."},
	{Path: "fork.order", Label: "Its turn in the felling", Kind: Number, Dim: units.Count, Help: "1 for the stem that goes first. The load of every other stem is another once one is off."},

	{Path: "brief.sequence", Label: "Sequence, a step a line", Kind: Lines, Help: "What happens in which order, told to everyone before the cut."},
	{Path: "brief.signals[].sign", Label: "Sign", Kind: Text, Help: "What is seen or heard: agreed on the spot, and shown once by whoever gives it."},
	{Path: "brief.signals[].means", Label: "Means", Kind: Text, Help: "What is done on it."},
	{Path: "brief.signals[].by", Label: "Given by", Kind: Text, Help: "One person gives a signal; stop may come from anyone."},
	{Path: "brief.stop_haul_kN", Label: "Stop at a haul of", Kind: Number, Dim: units.Kilonewtons, Way: units.Down, Help: "Read at the {puller}. Reached with the tree still standing, the crew stops and looks before anything else."},
	{Path: "brief.stop_rope_m", Label: "Stop after hauling", Kind: Number, Dim: units.Metres, Way: units.Down, Help: "Rope in at the {puller}. Reached with the tree still standing, something gives that should not."},
	{Path: "brief.roles[].role", Label: "Does", Kind: Text, Help: "Saw, {puller}, signals, hold line, keeping others out."},
	{Path: "brief.roles[].name", Label: "Name", Kind: Text, Help: "Who does it today."},
	{Path: "brief.notes", Label: "Notes for the briefing", Kind: Long, Help: "Escape routes, meeting place, radio channel, how help gets here."},

	{Path: "after.date", Label: "Pulled on", Kind: Date, Help: DateHelp},
	{Path: "after.peak_kN", Label: "Greatest tension measured", Kind: Number, Dim: units.Kilonewtons, Way: units.Up, Help: "In the {pull line} where it leaves the {stem}, by a load cell. Leave it empty if nothing was measured."},
	{Path: "after.peak_deg", Label: "Turn of the tree then", Kind: Number, Dim: units.Degrees, Help: "How far the tree had turned from standing."},
	{Path: "after.haul_kN", Label: "Greatest haul measured", Kind: Number, Dim: units.Kilonewtons, Way: units.Up, Help: "At the {puller}: its gauge, or a load cell there."},
	{Path: "after.happened", Label: "What happened", Kind: Long, Help: "What went otherwise than planned, what held well, what to do differently."},
	{Path: "after.photos", Label: "Photographs, a file name a line", Kind: Lines, Help: "Names only: the pictures stay where they are."},

	{Path: "plus_minus", Label: "Give or take", Kind: Text, Hidden: true},
	{Path: "readings", Label: "Readings kept", Kind: Text, Hidden: true},
}

// Catalogue finds a field by its path without indexes.
var Catalogue = func() map[string]*Spec {
	m := make(map[string]*Spec, len(All))
	for i := range All {
		m[All[i].Path] = &All[i]
	}
	return m
}()

// listPieces begins the path of a field of the gear list.
const listPieces = "pieces[]."

const keptReadings = "readings."

// At finds the catalogue's field of a path; for a give or take, the
// one of the field it belongs to.
func At(path string) (*Spec, bool) {
	if strings.HasPrefix(path, keptReadings) {
		return Catalogue["readings"], true
	}
	of := draft.Pattern(strings.TrimPrefix(path, draft.PlusMinus))
	if key, ok := strings.CutPrefix(of, listPieces); ok {
		of = "gear[]." + key // a piece of the gear list has a plan's fields
	}
	f, ok := Catalogue[of]
	return f, ok
}

// LabelOf is the label of any path of the plan, said with where it is: the
// path itself where the catalogue does not know it.
func LabelOf(d *draft.Plan, path string) string {
	if target, ok := strings.CutPrefix(path, draft.PlusMinus); ok {
		return "Give or take on: " + LabelOf(d, target)
	}
	if target, ok := strings.CutPrefix(path, keptReadings); ok {
		return "Readings kept: " + target
	}
	f, ok := At(path)
	if !ok {
		return path
	}
	label := words.Capital(d.Words(f.Label))
	if owner := OwnerOf(d, path); owner != "" {
		return owner + ": " + label
	}
	return label
}

// OwnerOf names the point, line or piece a path lies in, "" if none.
func OwnerOf(d *draft.Plan, path string) string {
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
		return PointTitle(d, i)
	case "lines":
		return LineTitle(d, i)
	case "gear":
		return GearTitle(d, i)
	}
	return ""
}

// Titles of the parts of a plan: by name, else by number.
func PointTitle(d *draft.Plan, i int) string {
	return named("Point ", d, draft.Elem("points", i), i)
}

// LineTitle names a line by what it does and its own name.
func LineTitle(d *draft.Plan, i int) string {
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

// GearTitle names a piece of gear.
func GearTitle(d *draft.Plan, i int) string {
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

// Located is a problem's message with the part of the plan it lies in before
// it, unless the message names a part itself.
func Located(d *draft.Plan, p plan.Problem) string {
	if p.Message == "" {
		return "The plan has a problem at " + p.Path + "."
	}
	if owner := OwnerOf(d, p.Path); owner != "" && !p.Saying.Names() {
		return owner + ": " + p.Message
	}
	return p.Message
}

// Described is the label and the help of a field of the plan, for those who
// describe the format. The path has its indexes left out; ok is false where
// the catalogue has no such field.
func Described(path string) (label, help string, ok bool) {
	f, ok := Catalogue[path]
	if !ok {
		return "", "", false
	}
	d := draft.Of(nil)
	return words.Capital(d.Words(f.Label)), d.Words(f.Help), true
}

// Paths lists the fields of the catalogue in its order.
func Paths() []string {
	paths := make([]string, len(All))
	for i := range All {
		paths[i] = All[i].Path
	}
	return paths
}
