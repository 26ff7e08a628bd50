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
	Label   words.Text
	Kind    string // number, text, long, choice, flag; also rows, a text that is a list of counts, date, a day, and lines, a list of texts
	Dim     units.Dimension
	Way     units.Direction // how its number is rounded where its unit is converted
	Help    words.Text
	Options []parts.Choice
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
	roles = []parts.Choice{{Value: "pull", Label: "pulls the tree over"}, {Value: "hold", Label: "keeps it from falling sideways"}}

	grownChoices = []parts.Choice{{Value: "", Label: "open, or not known"}, {Value: "open", Label: "in the open"}, {Value: "forest", Label: "in a stand of trees"}}

	DefectKinds = []parts.Choice{{Value: "cavity", Label: "cavity or rot"}, {Value: "wound", Label: "old wound"}, {Value: "fork", Label: "fork"}}

	HaulFrom = []parts.Choice{{Value: "fixed", Label: "the fixed {block} (at the anchor)"}, {Value: "moving", Label: "the moving {block} (toward the load)"}}

	reevingKinds = []parts.Choice{
		{Value: "anchor", Label: "anchor: stands still"}, {Value: "moving", Label: "moving {block}, or a tie on the rope"},
		{Value: "load", Label: "load: where the line is attached"}, {Value: "haul", Label: "haul: where the rope is pulled"},
	}

	AnchorKinds = []parts.Choice{
		{Value: "", Label: "none"},
		{Value: "rated", Label: "rated point, or judged by a competent person"},
		{Value: "machine", Label: "machine on tracks or wheels"},
		{Value: "tree", Label: "standing tree"},
		{Value: "stump", Label: "stump"},
		{Value: "buried_log", Label: "{buried log}"},
		{Value: "pickets", Label: "pickets, driven and lashed"},
		{Value: "bridle", Label: "shared by two or three points"},
	}

	GearKinds = []parts.Choice{
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
const DateHelp words.Text = "Year-month-day, such as 2026-03-31."

const bearingHelp words.Text = "Degrees clockwise seen from above, from the {lay}: 0 straight ahead, 90 to the right, 180 behind, 270 to the left."

// All are the fields of the plan, in the order of its parts.
var All = []Spec{
	{Path: "version", Label: "Format version", Kind: Number, Dim: units.Count, Hidden: true},
	{Path: "name", Label: "Name of the plan", Kind: Text, Help: "What the crew calls this job."},
	{Path: "notes", Label: "Notes", Kind: Long, Help: "What the crew must read with the plan: access, escape routes, signals, who does what."},

	{Path: "site.wind_mps", Label: "Wind against the {lay}", Kind: Number, Dim: units.MetresPerSecond, Help: "Strongest gust expected at crown height from the first cut until the tree falls. Taken as blowing against the pull."},

	{Path: "tree.species", Label: "Species", Kind: Choice, Help: "Sets green density, wood strength and stem form unless you type them. Not listed: choose the nearest in weight, heavier rather than lighter."},
	{Path: "tree.height_m", Label: "Height", Kind: Number, Measured: true, Dim: units.Metres, Way: units.Up, Help: "From the ground to the top, along the stem. Too low a height makes the tree too light."},
	{Path: "tree.diameter_cm", Label: "Diameter at breast height", Kind: Number, Measured: true, Dim: units.Centimetres, Way: units.Up, Help: "Over bark. With a plain tape: girth divided by 3.14. Mass grows with the square of the diameter."},
	{Path: "tree.lean_deg", Label: "{lean} from vertical", Kind: Number, Measured: true, Dim: units.Degrees, Help: "Of the whole stem, base to top. 1° of back lean on a big tree takes a heavy pull."},
	{Path: "tree.lean_bearing_deg", Label: "Leans toward", Kind: Number, Measured: true, Dim: units.Degrees, Help: bearingHelp + " 180 is straight back, against the pull."},
	{Path: "tree.cavity_cm", Label: "Cavity or rot across the {hinge}", Kind: Number, Dim: units.Centimetres, Way: units.Up, Help: "Diameter of the hollow or soft wood at {hinge} height. It takes from the side hold of the {hinge} and from the {stem} on it: a rotten tree needs a competent person's {judgement} first."},

	{Path: "tree.grown", Label: "Where it grew", Kind: Choice, Options: grownChoices, Help: "Crowns in a stand stay small. A tree on an edge, in a gap or alone carries more. If in doubt, choose open."},
	{Path: "tree.crown_fraction", Label: "Crown mass as a share of stem mass", Kind: Number, Dim: units.Plain, Help: "Mass of branches and leaves divided by the mass of the whole stem: 0.2 is a fifth. If empty, it is taken from kind of tree, diameter and where it grew."},
	{Path: "tree.crown_centre_m", Label: "Height of the crown's {centre} of mass", Kind: Number, Measured: true, Dim: units.Metres, Help: "Along the stem from the ground, where the crown would balance."},
	{Path: "tree.crown_offset_m", Label: "Crown offset", Kind: Number, Measured: true, Dim: units.Metres, Help: "Level distance from the stem to the crown's {centre} of mass. Look from two sides, at right angles."},
	{Path: "tree.crown_offset_bearing_deg", Label: "Crown offset toward", Kind: Number, Measured: true, Dim: units.Degrees, Help: bearingHelp},
	{Path: "tree.crown_area_m2", Label: "Crown area facing the wind", Kind: Number, Dim: units.SquareMetres, Way: units.Up, Help: "Width times height of the crown seen from upwind, less the gaps. Needed only if there is wind."},
	{Path: "tree.drag_coefficient", Label: "Drag coefficient of the crown", Kind: Number, Dim: units.Plain, Help: "How much wind the crown catches. Higher is cautious."},

	{Path: "tree.form_factor", Label: "Form factor of the stem", Kind: Number, Dim: units.Plain, Help: "Stem volume divided by that of a cylinder of the same diameter and height: 0.33 for a cone, 0.5 for a full stem. Higher is heavier."},
	{Path: "tree.green_density_kgm3", Label: "Green density", Kind: Number, Dim: units.KilogramsPerCubicMetre, Way: units.Up, Help: "Mass of the living wood with its water, over bark. It varies by a fifth within a species; heavier is cautious for the pull."},
	{Path: "tree.bending_strength_MPa", Label: "Green bending strength", Kind: Number, Dim: units.Megapascals, Help: "Of the {hinge} wood. Stronger wood takes more pull to bend and holds better sideways."},

	{Path: "tree.defects[].kind", Label: "What is weak", Kind: Choice, Options: DefectKinds, Help: "Of a fork, the line is taken as tied to one of two equal stems."},
	{Path: "tree.defects[].height_m", Label: "Height along the stem", Kind: Number, Measured: true, Dim: units.Metres, Help: "From the ground to where it is the worst, along the stem."},
	{Path: "tree.defects[].cavity_cm", Label: "Width or depth", Kind: Number, Dim: units.Centimetres, Way: units.Up, Help: "How wide the cavity is, or how deep the wound goes in. Sound it with a hammer or a thin drill; take the worst you cannot rule out."},
	{Path: "tree.sections[].height_m", Label: "Height along the stem", Kind: Number, Measured: true, Dim: units.Metres, Help: "From the ground to where the diameter was measured, along the stem."},
	{Path: "tree.sections[].diameter_cm", Label: "Diameter there", Kind: Number, Measured: true, Dim: units.Centimetres, Way: units.Up, Help: "Over bark, clear of branch swellings. With a plain tape: girth divided by 3.14."},

	{Path: "tree.mass_kg", Label: "Mass above the {hinge}, if known", Kind: Number, Dim: units.Kilograms, Way: units.Up, Help: "Weighed, or calculated by someone else. Replaces the estimate."},
	{Path: "tree.mass_centre_m", Label: "Height of the {centre} of mass, if known", Kind: Number, Dim: units.Metres, Help: "Along the stem from the ground. Replaces the estimate."},

	{Path: "cut.stump_m", Label: "{hinge} height", Kind: Number, Dim: units.Metres, Help: "From the ground to the {hinge}: the height of the stump."},
	{Path: "cut.face_opening_deg", Label: "{scarf} opening", Kind: Number, Dim: units.Degrees, Help: "The {hinge} is taken as broken when the {scarf} closes. A narrow one lets the tree go early."},
	{Path: "cut.hinge_length_cm", Label: "{hinge} length", Kind: Number, Dim: units.Centimetres, Help: "End to end along the front of the {hinge}, often about 80 % of the diameter."},
	{Path: "cut.hinge_left_cm", Label: "{hinge} thickness, left end", Kind: Number, Dim: units.Centimetres, Help: "Seen from behind, facing the {lay}. The pull needed grows with the square of the thickness; a thin {hinge} does not hold sideways."},
	{Path: "cut.hinge_right_cm", Label: "{hinge} thickness, right end", Kind: Number, Dim: units.Centimetres, Help: "Seen from behind, facing the {lay}. The same as the left end if the {hinge} is even."},

	{Path: "people[].id", Label: "Name", Kind: Text, Help: "A short word for who or what it is."},
	{Path: "people[].kind", Label: "Who or what", Kind: Choice, Options: PeopleKinds, Help: "What is dangerous to it, and how bad that is, goes by this."},
	{Path: "people[].bearing_deg", Label: "Bearing from the tree", Kind: Number, Dim: units.Degrees, Help: bearingHelp},
	{Path: "people[].distance_m", Label: "Distance from the tree", Kind: Number, Dim: units.Metres, Way: units.Down, Help: "Level distance from the middle of the stem, to the nearest part of it."},
	{Path: "people[].needed", Label: "The pull needs them there", Kind: Flag, Help: "Everybody else stays two tree lengths away."},

	{Path: "points[].id", Label: "Name of the point", Kind: Text, Help: "A letter or a short word. A new name is taken over by every line and piece."},
	{Path: "points[].bearing_deg", Label: "Bearing from the tree", Kind: Number, Measured: true, Dim: units.Degrees, Help: bearingHelp},
	{Path: "points[].distance_m", Label: "Distance from the tree", Kind: Number, Measured: true, Dim: units.Metres, Way: units.Down, Help: "Level distance from the middle of the stem. A closer point pulls more downward and less forward."},
	{Path: "points[].rise_m", Label: "Height above the base of the tree", Kind: Number, Measured: true, Dim: units.Metres, Help: "Where the rope meets the point, above the ground at the stem; negative if lower."},

	{Path: "points[].anchor.kind", Label: "Anchor", Kind: Choice, Options: AnchorKinds, Help: "What holds the point. Every loaded point needs one."},
	{Path: "points[].anchor.capacity_kN", Label: "Anchor limit", Kind: Number, Dim: units.Kilonewtons, Way: units.Down, Help: "The load it may carry, not the load it fails at: from its plate, or set by a competent person."},
	{Path: "points[].anchor.mass_kg", Label: "Mass of the machine", Kind: Number, Dim: units.Kilograms, Way: units.Down, Help: "As it stands there, with an empty tank and no load."},
	{Path: "points[].anchor.traction", Label: "Traction on this ground", Kind: Number, Dim: units.Plain, Help: "Pull at which it slides, divided by its weight. Wet ground, snow and steep ground make it worse."},
	{Path: "points[].anchor.slope_deg", Label: "Slope under the machine", Kind: Number, Measured: true, Dim: units.Degrees, Help: "Positive if the pull drags it downhill, the worse case."},
	{Path: "points[].anchor.rated_kN", Label: "Rated pull of the machine", Kind: Number, Dim: units.Kilonewtons, Way: units.Down, Help: "The rating of its drawbar or hitch."},
	{Path: "points[].anchor.diameter_cm", Label: "Diameter", Kind: Number, Measured: true, Dim: units.Centimetres, Way: units.Down, Help: "Of the anchor tree at breast height, or of the buried log."},
	{Path: "points[].anchor.height_m", Label: "Height of the anchor tree", Kind: Number, Measured: true, Dim: units.Metres, Way: units.Down, Help: "From the ground to the top. Only a live, sound, rooted tree is an anchor."},
	{Path: "points[].anchor.form_factor", Label: "Form factor of the anchor tree", Kind: Number, Dim: units.Plain, Help: "As for the tree to be felled, but here lower is cautious."},
	{Path: "points[].anchor.green_density_kgm3", Label: "Green density of the anchor tree", Kind: Number, Dim: units.KilogramsPerCubicMetre, Way: units.Down, Help: "As for the tree to be felled, but here lighter is cautious."},
	{Path: "points[].anchor.turning_Nm_per_kg", Label: "Overturning moment per stem mass", Kind: Number, Dim: units.NewtonMetresPerKilogram, Way: units.Down, Help: "The moment that pulled such trees over in trials, divided by stem mass. Wet or shallow soil and rot make it far less."},
	{Path: "points[].anchor.sling_height_m", Label: "Height of the {strop} above ground", Kind: Number, Dim: units.Metres, Way: units.Up, Help: "Measured on the uphill side. A higher {strop} pulls the tree over more easily. Below 1 m it is counted as 1 m."},
	{Path: "points[].anchor.factor", Label: "Safety factor of the anchor", Kind: Number, Dim: units.Plain, Help: "The load at which it fails, by trial or table, divided by the load allowed. Trees, stumps and ground vary widely: never take a small one."},
	{Path: "points[].anchor.depth_m", Label: "Depth to the middle of the log", Kind: Number, Dim: units.Metres, Way: units.Down, Help: "From the ground to the middle of the log's face. Measure at the shallow side."},
	{Path: "points[].anchor.length_m", Label: "Length of the log", Kind: Number, Dim: units.Metres, Way: units.Down, Help: "The part that bears against undisturbed soil."},
	{Path: "points[].anchor.slot_m", Label: "Width of the rope slot", Kind: Number, Dim: units.Metres, Way: units.Up, Help: "The slot cut for the rope, where nothing bears on the log."},
	{Path: "points[].anchor.soil_factor", Label: "Soil factor", Kind: Number, Dim: units.Plain, Help: "The tables are for undisturbed loam. Wet, sandy or dug-over soil holds much less."},
	{Path: "points[].anchor.rows", Label: "Pickets in each row", Kind: Rows, Help: "Front row first, for example 3-2-1, each row lashed to the next."},
	{Path: "points[].anchor.legs[].point", Label: "Leg to", Kind: Choice, Help: "The point this leg goes to. That point needs an anchor of its own."},
	{Path: "points[].anchor.self_adjusting", Label: "Self-adjusting: legs run through a ring and share equally", Kind: Flag, Help: "Leave off for legs of fixed length, which share by their angles."},

	{Path: "lines[].id", Label: "Name of the line", Kind: Text, Help: "A short word. A new name is taken over by every piece."},
	{Path: "lines[].role", Label: "What the line does", Kind: Choice, Options: roles, Help: "A {hold line} carries only what keeps the tree from going sideways; {pull line}s turn it over."},
	{Path: "lines[].share", Label: "Share of the pull", Kind: Number, Dim: units.Plain, Help: "With several {pull line}s: the tension of this one relative to the others. 1 for a single line."},
	{Path: "lines[].path[].stem_m", Label: "Height on the {stem}", Kind: Number, Measured: true, Dim: units.Metres, Way: units.Down, Keep: true, Help: "Along the stem from the ground to the rope. Lower takes more pull; too high bends a thin or brittle top."},
	{Path: "lines[].path[].point", Label: "Point", Kind: Choice, Help: "The point the rope goes to here."},
	{Path: "lines[].path[].efficiency", Label: "Efficiency of the {block}", Kind: Number, Dim: units.Plain, Help: "Tension on the load side divided by tension on the hauling side, for a turn of 180°. Lower means more friction and more tension on the hauling side. Not used at either end of the line."},
	{Path: "lines[].tackle.stages[].parts", Label: "Parts of rope", Kind: Number, Dim: units.Count, Help: "Parts that shorten when this stage is hauled: those between its two {block}s, and the hauling part if it leaves the moving {block}."},
	{Path: "lines[].tackle.stages[].haul_from", Label: "The hauling part leaves", Kind: Choice, Options: HaulFrom, Help: "The {block} the hauling part comes off."},
	{Path: "lines[].tackle.efficiency", Label: "Efficiency of each sheave", Kind: Number, Dim: units.Plain, Help: "Of the {tackle}'s own sheaves, for a turn of 180°. Lower is cautious for the haul needed."},
	{Path: "lines[].tackle.haul_path", Label: "Route of the hauling part", Kind: Text, Hidden: true},
	{Path: "lines[].tackle.reeving.nodes", Label: "{Block}s of the reeving", Kind: Text, Hidden: true},
	{Path: "lines[].tackle.reeving.ropes", Label: "Ropes of the reeving", Kind: Text, Hidden: true},
	{Path: "lines[].tackle.reeving.nodes[].id", Label: "Name of the place", Kind: Text, Help: "A short word, used by the ropes below."},
	{Path: "lines[].tackle.reeving.nodes[].kind", Label: "What it is", Kind: Choice, Options: reevingKinds, Help: "One place is the load, where the line is attached; one is the haul, where the rope is pulled."},
	{Path: "lines[].tackle.reeving.nodes[].at", Label: "Position along the {tackle}", Kind: Number, Dim: units.Plain, Help: "0 at the anchor, larger toward the load; below 0 for a haul that leads away behind the anchor. Only the order counts."},
	{Path: "lines[].tackle.reeving.ropes[].path", Label: "Places the rope runs over", Kind: Lines, Help: "One per line, from the {dead end} to the other end. Each place between is a sheave."},
	{Path: "lines[].tackle.reeving.ropes[].efficiency", Label: "Efficiency of its sheaves", Kind: Number, Dim: units.Plain, Help: "If different from the {tackle}'s."},
	{Path: "lines[].tackle.haul_path[].point", Label: "Point", Kind: Choice, Help: "Where the hauling part goes. The last one is the {puller}."},
	{Path: "lines[].tackle.haul_path[].efficiency", Label: "Efficiency of the {block}", Kind: Number, Dim: units.Plain, Help: "As for the line's own {block}s. Not used at the last point, the {puller}."},
	{Path: "lines[].puller.rated_kN", Label: "Rated pull of the {puller}", Kind: Number, Dim: units.Kilonewtons, Way: units.Down, Help: "On the rope, at the drum layer it will work on. A full drum pulls less than a bare one."},
	{Path: "lines[].puller.limited_by", Label: "What limits the pull?", Kind: Choice, Options: offer.PullerLimits, Help: "What stops it pulling harder if something jams. Gear and anchors are checked against that pull, with and without friction."},
	{Path: "lines[].puller.setting_kN", Label: "It stops at", Kind: Number, Dim: units.Kilonewtons, Way: units.Up, Help: "Pull on the rope at which the device lets go, or the person watching stops. Test it; do not trust a plate: settings drift."},
	{Path: "lines[].puller.stall_kN", Label: "Stall pull (the most it can pull)", Kind: Number, Dim: units.Kilonewtons, Way: units.Up, Help: "Pull on the rope at stall, on a bare drum. This is what the gear sees if something jams."},
	{Path: "lines[].tended", Label: "Tended: someone pays it out under control", Kind: Flag, Help: "With a wrap round a post or a friction device, from the first movement of the tree. A line made fast at both ends must stretch as the tree turns, and loads up."},
	{Path: "lines[].tied", Label: "Ends where the rope itself is tied", Kind: Text, Hidden: true},
	{Path: "lines[].rope.mass_kgpm", Label: "Rope mass per length", Kind: Number, Dim: units.KilogramsPerMetre, Help: "For the sag. Wet {fibre} rope weighs more."},
	{Path: "lines[].rope.stiffness_kN", Label: "Rope stiffness (EA)", Kind: Number, Dim: units.Kilonewtons, Help: "Tension divided by strain; for wire, modulus times metal area. For the stretch, and the energy released if the rope parts."},

	{Path: "gear[].id", Label: "Name of the piece", Kind: Text, Help: "Its tag or its place, so that everyone knows which one is meant."},
	{Path: "gear[].kind", Label: "Kind", Kind: Choice, Options: GearKinds, Help: "What sort of piece it is."},
	{Path: "gear[].line", Label: "On line", Kind: Text, Hidden: true},
	{Path: "gear[].place", Label: "Place on the line", Kind: Text, Hidden: true},
	{Path: "gear[].point", Label: "At point", Kind: Text, Hidden: true},
	{Path: "gear[].wll_kN", Label: "Working load limit", Kind: Number, Dim: units.Kilonewtons, Way: units.Down, Keep: true, Help: "From the tag, for a straight pull. A piece without a readable tag has no limit."},
	{Path: "gear[].wll_t", Label: "Working load limit, tonnes", Kind: Number, Dim: units.TonnesForce, Way: units.Down, Keep: true, Help: "From the tag, for a straight pull, in tonnes of 1000 kg. Some tags are in short tons of 2000 lb, a tenth less: type “short ton” after the number."},
	{Path: "gear[].mbl_kN", Label: "Minimum breaking load", Kind: Number, Dim: units.Kilonewtons, Way: units.Down, Keep: true, Help: "From the maker's certificate for the new piece. Divided by the design factor it gives the limit."},
	{Path: "gear[].design_factor", Label: "Design factor", Kind: Number, Dim: units.Plain, Help: "Breaking load divided by the load allowed. Never below what your code asks for."},
	{Path: "gear[].size", Label: "Size", Kind: Text, Help: "Diameter and length, or the size stamped on it. For recognition only: the limit comes from the tag alone."},
	{Path: "gear[].terminations", Label: "Ends", Kind: Text, Help: "How its ends are made: splice, ferrule, wedge socket, clips, hook. The strength an end takes off goes under reductions."},
	{Path: "gear[].last_inspection", Label: "Last inspected on", Kind: Date, Help: DateHelp},
	{Path: "gear[].next_inspection", Label: "Inspect again by", Kind: Date, Help: DateHelp + " In date up to and including that day; later, the plan cannot be judged with this piece."},
	{Path: "gear[].retired", Label: "Retired: not to be used", Kind: Flag, Help: "Taken out of use. A plan with it cannot be judged."},
	{Path: "gear[].cleared", Label: "Cleared for use because", Kind: Text, Help: "Who judged that this piece may be used although it is retired or past its inspection, and why. Kept in the record. If empty, it may not be used."},
	{Path: "gear[].notes", Label: "Notes on the piece", Kind: Text, Help: "Tag, age, anything seen."},
	{Path: "gear[].hitch_factor", Label: "Hitch factor", Kind: Number, Dim: units.Plain, Help: "What the hitch does to the limit: choked carries less than straight, a basket more. 1 for straight."},
	{Path: "gear[].reductions", Label: "Knot or termination", Kind: Text, Hidden: true},
	{Path: "gear[].reductions[].why", Label: "Reduced for", Kind: Text, Help: "What takes strength off: a knot, a splice, a tight bend, a side load, wear."},
	{Path: "gear[].reductions[].factor", Label: "Strength left", Kind: Number, Dim: units.Plain, Help: "As a share: 0.8 or 80 %. At most 1."},

	{Path: "pull_date", Label: "Day of the pull", Kind: Date, Help: DateHelp + " Gear inspections are checked against this day."},
	{Path: "allowance", Label: "Allowance on the pull needed", Kind: Number, Dim: units.Plain, Help: "Planned tension divided by the largest pull needed, to cover errors in the estimate. Never below 1."},
	{Path: "planned_kN", Label: "Planned tension, if you set it", Kind: Number, Dim: units.Kilonewtons, Help: "Replaces allowance times pull needed. A smaller one is reported as a problem."},
	{Path: "fork.tree", Label: "Name of the tree the stems share", Kind: Text, Help: "The same in the plan of every stem, so that the plans are found together."},
	{Path: "fork.stem", Label: "Number of this stem", Kind: Number, Dim: units.Count, Help: "As marked on the tree, from 1."},
	{Path: "fork.of", Label: "Stems in all", Kind: Number, Dim: units.Count, Help: "How many stems share this base."},
	{Path: "fork.order", Label: "Felling order", Kind: Number, Dim: units.Count, Help: "1 for the stem felled first. Once a stem is off, the loads on all others change."},

	{Path: "brief.sequence", Label: "Sequence, one step per line", Kind: Lines, Help: "What happens in what order. Brief everyone on it before the cut."},
	{Path: "brief.signals[].sign", Label: "Sign", Kind: Text, Help: "What is seen or heard. Agree it on site, and have whoever gives it show it once."},
	{Path: "brief.signals[].means", Label: "Means", Kind: Text, Help: "What the crew does on it."},
	{Path: "brief.signals[].by", Label: "Given by", Kind: Text, Help: "One person gives the signals; anyone may signal stop."},
	{Path: "brief.stop_haul_kN", Label: "Stop at a haul of", Kind: Number, Dim: units.Kilonewtons, Way: units.Down, Help: "Read at the {puller}. If it is reached with the tree still standing, stop and look before anything else."},
	{Path: "brief.stop_rope_m", Label: "Stop after hauling", Kind: Number, Dim: units.Metres, Way: units.Down, Help: "Rope in at the {puller}. If it is reached with the tree still standing, something is giving that should not."},
	{Path: "brief.roles[].role", Label: "Does", Kind: Text, Help: "Saw, {puller}, signals, {hold line}, keeping others out."},
	{Path: "brief.roles[].name", Label: "Name", Kind: Text, Help: "Who does it today."},
	{Path: "brief.notes", Label: "Notes for the briefing", Kind: Long, Help: "Escape routes, meeting point, radio channel, emergency access."},

	{Path: "after.date", Label: "Pulled on", Kind: Date, Help: DateHelp},
	{Path: "after.peak_kN", Label: "Greatest tension measured", Kind: Number, Dim: units.Kilonewtons, Way: units.Up, Help: "In the {pull line} where it leaves the {stem}, by load cell. Leave empty if nothing was measured."},
	{Path: "after.peak_deg", Label: "Turn of the tree then", Kind: Number, Dim: units.Degrees, Help: "How far the tree had turned from standing."},
	{Path: "after.haul_kN", Label: "Greatest haul measured", Kind: Number, Dim: units.Kilonewtons, Way: units.Up, Help: "At the {puller}: its gauge, or a load cell there."},
	{Path: "after.happened", Label: "What happened", Kind: Long, Help: "What did not go as planned, what held well, what to do differently."},
	{Path: "after.photos", Label: "Photos, one file name per line", Kind: Lines, Help: "Names only: the photos stay where they are."},

	{Path: "plus_minus", Label: "Measurement uncertainty (±)", Kind: Text, Hidden: true},
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
		return d.Say("Measurement uncertainty (±) of: %s", LabelOf(d, target))
	}
	if target, ok := strings.CutPrefix(path, keptReadings); ok {
		return d.Say("Readings kept: %s", target)
	}
	f, ok := At(path)
	if !ok {
		return path
	}
	label := words.Capital(d.Say(f.Label))
	if owner := OwnerOf(d, path); owner != "" {
		return d.Of(owner, label)
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
	case "people":
		return PersonTitle(d, i)
	}
	return ""
}

// Titles of the parts of a plan: by name, else by number.
func PointTitle(d *draft.Plan, i int) string {
	return named(d, "points", i, "Point %s", "Point no. %s")
}

// LineTitle names a line by what it does and its own name.
func LineTitle(d *draft.Plan, i int) string {
	role := d.Text(draft.Elem("lines", i) + ".role")
	same := role == d.Text(draft.Elem("lines", i)+".id") // “pull line pull” says it twice
	switch {
	case role == "pull" && same:
		return d.Say("{Pull line}")
	case role == "hold" && same:
		return d.Say("{Hold line}")
	case role == "pull":
		return named(d, "lines", i, "{Pull line} %s", "{Pull line} no. %s")
	case role == "hold":
		return named(d, "lines", i, "{Hold line} %s", "{Hold line} no. %s")
	}
	return named(d, "lines", i, "Line %s", "Line no. %s")
}

// GearTitle names a piece of gear.
func GearTitle(d *draft.Plan, i int) string {
	if id := d.Text(draft.Elem("gear", i) + ".id"); id != "" {
		return words.Capital(id)
	}
	return d.Say("Piece %s", strconv.Itoa(i+1))
}

func named(d *draft.Plan, list string, i int, byName, byNumber words.Text) string {
	v, _ := d.At(draft.Elem(list, i) + ".id")
	if id := draft.Written(v); id != "" {
		return d.Say(byName, id)
	}
	return d.Say(byNumber, strconv.Itoa(i+1))
}

// Located is a problem's message with the part of the plan it lies in before
// it, unless the message names a part itself.
func Located(d *draft.Plan, p plan.Problem) string {
	if p.Message == "" {
		return d.Say("The plan has a problem at %s.", p.Path)
	}
	if owner := OwnerOf(d, p.Path); owner != "" && !p.Saying.Names() {
		return d.Of(owner, p.Message)
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
	return words.Capital(d.Say(f.Label)), d.Say(f.Help), true
}

// Paths lists the fields of the catalogue in its order.
func Paths() []string {
	paths := make([]string, len(All))
	for i := range All {
		paths[i] = All[i].Path
	}
	return paths
}
