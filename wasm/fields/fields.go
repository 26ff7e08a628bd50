package fields

import (
	"strconv"
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
	"pullline/wasm/draft"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A Spec is one field of the plan format: what it is called and how it is asked for.
// Every path of the format that a crew meets is in the catalogue once.
type Spec struct {
	// Of the table of fields.
	Field field.Field
	Path  string // with the indexes left out: "points[].distance_m"
	Dim   units.Dimension
	Way   units.Direction // how its number is rounded where its unit is converted

	Label   words.Text
	Kind    string // number, text, long, choice, flag; also rows, a text that is a list of counts, date, a day, and lines, a list of texts
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
	roles = []parts.Choice{{Value: field.Pull, Label: "pulls the tree over"}, {Value: field.Hold, Label: "keeps it from falling sideways"}}

	grownChoices = []parts.Choice{{Value: "", Label: "open, or not known"}, {Value: field.InOpen, Label: "in the open"}, {Value: field.InForest, Label: "in a stand of trees"}}

	DefectKinds = []parts.Choice{{Value: string(rigging.HollowDefect), Label: "cavity or rot"}, {Value: string(rigging.WoundDefect), Label: "old wound"}, {Value: string(rigging.ForkDefect), Label: "fork"}}

	HaulFrom = []parts.Choice{{Value: field.Fixed, Label: "the fixed {block} (at the anchor)"}, {Value: field.Moving, Label: "the moving {block} (toward the load)"}}

	reevingKinds = []parts.Choice{
		{Value: string(rigging.AnchorNode), Label: "anchor: stands still"}, {Value: string(rigging.MovingNode), Label: "moving {block}, or a tie on the rope"},
		{Value: string(rigging.LoadNode), Label: "load: where the line is attached"}, {Value: string(rigging.HaulNode), Label: "haul: where the rope is pulled"},
	}

	anchorLabels = [field.Anchors]words.Text{
		field.NoAnchor:     "none",
		field.Rated:        "rated point, or judged by a competent person",
		field.Machine:      "machine on tracks or wheels",
		field.StandingTree: "standing tree",
		field.Stump:        "stump",
		field.BuriedLog:    "{buried log}",
		field.Pickets:      "pickets, driven and lashed",
		field.Bridle:       "shared by two or three points",
	}

	AnchorKinds = func() []parts.Choice {
		out := make([]parts.Choice, field.Anchors)
		for kind, label := range anchorLabels {
			out[kind] = parts.Choice{Value: field.Anchor(kind).Row().Word, Label: label}
		}
		return out
	}()

	GearKinds = []parts.Choice{
		{Value: field.WireRope, Label: "wire rope"},
		{Value: field.FibreRope, Label: "{fibre} rope"},
		{Value: field.Chain, Label: "chain"},
		{Value: field.Sling, Label: "{strop}"},
		{Value: field.Shackle, Label: "{shackle}"},
		{Value: field.Block, Label: "{block}"},
		{Value: field.Winch, Label: "winch"},
		{Value: field.OtherGear, Label: "other"},
	}
)

// Days and bearings are all asked for alike.
const DateHelp words.Text = "Year-month-day, such as 2026-03-31."

const bearingHelp words.Text = "Degrees clockwise seen from above, from the {lay}: 0 straight ahead, 90 to the right, 180 behind, 270 to the left."

// said is what the page says of each field of the plan, under its row of the table
// of fields. Of several with one path, which differ by the kind of anchor, the
// first speaks for all. A part without a label is described only: it is no field of
// the form.
var said = [field.Fields]Spec{
	field.Version: {Label: "Format version", Hidden: true},
	field.Name:    {Label: "Name of the plan", Help: "What the crew calls this job."},
	field.Notes:   {Label: "Notes", Kind: Long, Help: "What the crew must read with the plan: access, escape routes, signals, who does what."},

	field.Site:               {Help: "What the place does to the tree."},
	field.Wind:               {Label: "Wind against the {lay}", Help: "Strongest gust expected at crown height from the first cut until the tree falls. Taken as blowing against the pull."},
	field.Tree:               {Help: "The tree to be pulled."},
	field.Species:            {Label: "Species", Kind: Choice, Help: "Sets green density, wood strength and stem form unless you type them. Not listed: choose the nearest in weight, heavier rather than lighter."},
	field.TreeHeight:         {Label: "Height", Measured: true, Help: "From the ground to the top, along the stem. Too low a height makes the tree too light."},
	field.TreeDiameter:       {Label: "Diameter at breast height", Measured: true, Help: "Over bark. With a plain tape: girth divided by 3.14. Mass grows with the square of the diameter."},
	field.Lean:               {Label: "{lean} from vertical", Measured: true, Help: "Of the whole stem, base to top. 1° of back lean on a big tree takes a heavy pull."},
	field.LeanBearing:        {Label: "Leans toward", Measured: true, Help: bearingHelp + " 180 is straight back, against the pull."},
	field.Cavity:             {Label: "Cavity or rot across the {hinge}", Help: "Diameter of the hollow or soft wood at {hinge} height. It takes from the side hold of the {hinge} and from the {stem} on it: a rotten tree needs a competent person's {judgement} first."},
	field.Grown:              {Label: "Where it grew", Options: grownChoices, Help: "Crowns in a stand stay small. A tree on an edge, in a gap or alone carries more. If in doubt, choose open."},
	field.CrownFraction:      {Label: "Crown mass as a share of stem mass", Help: "Mass of branches and leaves divided by the mass of the whole stem: 0.2 is a fifth. If empty, it is taken from kind of tree, diameter and where it grew."},
	field.CrownCentre:        {Label: "Height of the crown's {centre} of mass", Measured: true, Help: "Along the stem from the ground, where the crown would balance."},
	field.CrownOffset:        {Label: "Crown offset", Measured: true, Help: "Level distance from the stem to the crown's {centre} of mass. Look from two sides, at right angles."},
	field.CrownOffsetBearing: {Label: "Crown offset toward", Measured: true, Help: bearingHelp},
	field.CrownArea:          {Label: "Crown area facing the wind", Help: "Width times height of the crown seen from upwind, less the gaps. Needed only if there is wind."},
	field.DragCoefficient:    {Label: "Drag coefficient of the crown", Help: "How much wind the crown catches. Higher is cautious."},
	field.FormFactor:         {Label: "Form factor of the stem", Help: "Stem volume divided by that of a cylinder of the same diameter and height: 0.33 for a cone, 0.5 for a full stem. Higher is heavier."},
	field.GreenDensity:       {Label: "Green density", Help: "Mass of the living wood with its water, over bark. It varies by a fifth within a species; heavier is cautious for the pull."},
	field.BendingStrength:    {Label: "Green bending strength", Help: "Of the {hinge} wood. Stronger wood takes more pull to bend and holds better sideways."},
	field.Sections:           {Help: "Diameters of the stem by height; they take the place of the form factor."},
	field.SectionHeight:      {Label: "Height along the stem", Measured: true, Help: "From the ground to where the diameter was measured, along the stem."},
	field.SectionDiameter:    {Label: "Diameter there", Measured: true, Help: "Over bark, clear of branch swellings. With a plain tape: girth divided by 3.14."},
	field.Defects:            {Help: "Weak places of the stem between the cut and the tie."},
	field.DefectKind:         {Label: "What is weak", Options: DefectKinds, Help: "Of a fork, the line is taken as tied to one of two equal stems."},
	field.DefectHeight:       {Label: "Height along the stem", Measured: true, Help: "From the ground to where it is the worst, along the stem."},
	field.DefectCavity:       {Label: "Width or depth", Help: "How wide the cavity is, or how deep the wound goes in. Sound it with a hammer or a thin drill; take the worst you cannot rule out."},
	field.TreeMass:           {Label: "Mass above the {hinge}, if known", Help: "Weighed, or calculated by someone else. Replaces the estimate."},
	field.MassCentre:         {Label: "Height of the {centre} of mass, if known", Help: "Along the stem from the ground. Replaces the estimate."},

	field.Cut:         {Help: "The stump, the face and the hinge."},
	field.StumpHeight: {Label: "{hinge} height", Help: "From the ground to the {hinge}: the height of the stump."},
	field.FaceOpening: {Label: "{scarf} opening", Help: "The {hinge} is taken as broken when the {scarf} closes. A narrow one lets the tree go early."},
	field.HingeLength: {Label: "{hinge} length", Help: "End to end along the front of the {hinge}, often about 80 % of the diameter."},
	field.HingeLeft:   {Label: "{hinge} thickness, left end", Help: "Seen from behind, facing the {lay}. The pull needed grows with the square of the thickness; a thin {hinge} does not hold sideways."},
	field.HingeRight:  {Label: "{hinge} thickness, right end", Help: "Seen from behind, facing the {lay}. The same as the left end if the {hinge} is even."},

	field.People:         {Help: "Who and what is about, placed like a point."},
	field.PersonID:       {Label: "Name", Help: "A short word for who or what it is."},
	field.PersonKind:     {Label: "Who or what", Options: PeopleKinds, Help: "What is dangerous to it, and how bad that is, goes by this."},
	field.PersonBearing:  {Label: "Bearing from the tree", Help: bearingHelp},
	field.PersonDistance: {Label: "Distance from the tree", Help: "Level distance from the middle of the stem, to the nearest part of it."},
	field.PersonNeeded:   {Label: "The pull needs them there", Help: "Everybody else stays two tree lengths away."},

	field.Points:              {Help: "Places on the ground the lines lead to."},
	field.PointID:             {Label: "Name of the point", Help: "A letter or a short word. A new name is taken over by every line and piece."},
	field.PointBearing:        {Label: "Bearing from the tree", Measured: true, Help: bearingHelp},
	field.PointDistance:       {Label: "Distance from the tree", Measured: true, Help: "Level distance from the middle of the stem. A closer point pulls more downward and less forward."},
	field.PointRise:           {Label: "Height above the base of the tree", Measured: true, Help: "Where the rope meets the point, above the ground at the stem; negative if lower."},
	field.PointAnchor:         {Help: "What holds the point."},
	field.AnchorKind:          {Label: "Anchor", Options: AnchorKinds, Help: "What holds the point. Every loaded point needs one."},
	field.RatedCapacity:       {Label: "Anchor limit", Help: "The load it may carry, not the load it fails at: from its plate, or set by a competent person."},
	field.MachineMass:         {Label: "Mass of the machine", Help: "As it stands there, with an empty tank and no load."},
	field.MachineTraction:     {Label: "Traction on this ground", Help: "Pull at which it slides, divided by its weight. Wet ground, snow and steep ground make it worse."},
	field.MachineSlope:        {Label: "Slope under the machine", Measured: true, Help: "Positive if the pull drags it downhill, the worse case."},
	field.MachineRated:        {Label: "Rated pull of the machine", Help: "The rating of its drawbar or hitch."},
	field.AnchorDiameter:      {Label: "Diameter", Measured: true, Help: "Of the anchor tree at breast height, or of the buried log."},
	field.AnchorHeight:        {Label: "Height of the anchor tree", Measured: true, Help: "From the ground to the top. Only a live, sound, rooted tree is an anchor."},
	field.AnchorForm:          {Label: "Form factor of the anchor tree", Help: "As for the tree to be felled, but here lower is cautious."},
	field.AnchorDensity:       {Label: "Green density of the anchor tree", Help: "As for the tree to be felled, but here lighter is cautious."},
	field.AnchorTurning:       {Label: "Overturning moment per stem mass", Help: "The moment that pulled such trees over in trials, divided by stem mass. Wet or shallow soil and rot make it far less."},
	field.AnchorSling:         {Label: "Height of the {strop} above ground", Help: "Measured on the uphill side. A higher {strop} pulls the tree over more easily. Below 1 m it is counted as 1 m."},
	field.AnchorFactor:        {Label: "Safety factor of the anchor", Help: "The load at which it fails, by trial or table, divided by the load allowed. Trees, stumps and ground vary widely: never take a small one."},
	field.LogDepth:            {Label: "Depth to the middle of the log", Help: "From the ground to the middle of the log's face. Measure at the shallow side."},
	field.LogLength:           {Label: "Length of the log", Help: "The part that bears against undisturbed soil."},
	field.LogSlot:             {Label: "Width of the rope slot", Help: "The slot cut for the rope, where nothing bears on the log."},
	field.LogSoil:             {Label: "Soil factor", Help: "The tables are for undisturbed loam. Wet, sandy or dug-over soil holds much less."},
	field.PicketRows:          {Label: "Pickets in each row", Help: "Front row first, for example 3-2-1, each row lashed to the next."},
	field.BridleLegs:          {Help: "The two or three points that share the load."},
	field.BridleLegPoint:      {Label: "Leg to", Kind: Choice, Help: "The point this leg goes to. That point needs an anchor of its own."},
	field.BridleSelfAdjusting: {Label: "Self-adjusting: legs run through a ring and share equally", Help: "Leave off for legs of fixed length, which share by their angles."},

	field.Lines:             {Help: "The lines from the stem to their pullers and anchors."},
	field.LineID:            {Label: "Name of the line", Help: "A short word. A new name is taken over by every piece."},
	field.Role:              {Label: "What the line does", Options: roles, Help: "A {hold line} carries only what keeps the tree from going sideways; {pull line}s turn it over."},
	field.Share:             {Label: "Share of the pull", Help: "With several {pull line}s: the tension of this one relative to the others. 1 for a single line."},
	field.Stations:          {Help: "Where the rope runs, from its dead end to its hauling end. Every place between first and last is a block."},
	field.StationStem:       {Label: "Height on the {stem}", Measured: true, Keep: true, Help: "Along the stem from the ground to the rope. Lower takes more pull; too high bends a thin or brittle top."},
	field.StationPoint:      {Label: "Point", Kind: Choice, Help: "The point the rope goes to here."},
	field.StationEfficiency: {Label: "Efficiency of the {block}", Help: "Tension on the load side divided by tension on the hauling side, for a turn of 180°. Lower means more friction and more tension on the hauling side. Not used at either end of the line."},
	field.Tackle:            {Help: "A tackle between the line and its last place: by stages or by its reeving."},
	field.Stages:            {Help: "Simple tackles in order from the load."},
	field.StageParts:        {Label: "Parts of rope", Help: "Parts that shorten when this stage is hauled: those between its two {block}s, and the hauling part if it leaves the moving {block}."},
	field.HaulFrom:          {Label: "The hauling part leaves", Options: HaulFrom, Help: "The {block} the hauling part comes off."},
	field.TackleEfficiency:  {Label: "Efficiency of each sheave", Help: "Of the {tackle}'s own sheaves, for a turn of 180°. Lower is cautious for the haul needed."},
	field.HaulPath:          {Label: "Route of the hauling part", Hidden: true},
	field.Reeving:           {Help: "An arrangement of any kind."},
	field.Nodes:             {Label: "{Block}s of the reeving", Hidden: true},
	field.Ropes:             {Label: "Ropes of the reeving", Hidden: true},
	field.NodeID:            {Label: "Name of the place", Help: "A short word, used by the ropes below."},
	field.NodeKind:          {Label: "What it is", Options: reevingKinds, Help: "One place is the load, where the line is attached; one is the haul, where the rope is pulled."},
	field.NodeAt:            {Label: "Position along the {tackle}", Help: "0 at the anchor, larger toward the load; below 0 for a haul that leads away behind the anchor. Only the order counts."},
	field.RopePath:          {Label: "Places the rope runs over", Help: "One per line, from the {dead end} to the other end. Each place between is a sheave."},
	field.RopeEfficiency:    {Label: "Efficiency of its sheaves", Help: "If different from the {tackle}'s."},
	field.HaulPoint:         {Label: "Point", Kind: Choice, Help: "Where the hauling part goes. The last one is the {puller}."},
	field.HaulEfficiency:    {Label: "Efficiency of the {block}", Help: "As for the line's own {block}s. Not used at the last point, the {puller}."},
	field.Puller:            {Help: "What hauls the line."},
	field.PullerRated:       {Label: "Rated pull of the {puller}", Help: "On the rope, at the drum layer it will work on. A full drum pulls less than a bare one."},
	field.LimitedBy:         {Label: "What limits the pull?", Options: offer.PullerLimits, Help: "What stops it pulling harder if something jams. Gear and anchors are checked against that pull, with and without friction."},
	field.PullerSetting:     {Label: "It stops at", Help: "Pull on the rope at which the device lets go, or the person watching stops. Test it; do not trust a plate: settings drift."},
	field.PullerStall:       {Label: "Stall pull (the most it can pull)", Help: "Pull on the rope at stall, on a bare drum. This is what the gear sees if something jams."},
	field.Tended:            {Label: "Tended: someone pays it out under control", Help: "With a wrap round a post or a friction device, from the first movement of the tree. A line made fast at both ends must stretch as the tree turns, and loads up."},
	field.Tied:              {Label: "Ends where the rope itself is tied", Hidden: true},
	field.Rope:              {Help: "The rope of the line, for sag and stretch."},
	field.RopeMass:          {Label: "Rope mass per length", Help: "For the sag. Wet {fibre} rope weighs more."},
	field.RopeStiffness:     {Label: "Rope stiffness (EA)", Help: "Tension divided by strain; for wire, modulus times metal area. For the stretch, and the energy released if the rope parts."},

	field.Gear:            {Help: "Every rope, sling, shackle and block with its limit."},
	field.PieceID:         {Label: "Name of the piece", Help: "Its tag or its place, so that everyone knows which one is meant."},
	field.PieceKind:       {Label: "Kind", Options: GearKinds, Help: "What sort of piece it is."},
	field.PieceLine:       {Label: "On line", Hidden: true},
	field.PiecePlace:      {Label: "Place on the line", Kind: Text, Hidden: true},
	field.PiecePoint:      {Label: "At point", Hidden: true},
	field.PieceWLL:        {Label: "Working load limit", Keep: true, Help: "From the tag, for a straight pull. A piece without a readable tag has no limit."},
	field.PieceTonnes:     {Label: "Working load limit, tonnes", Keep: true, Help: "From the tag, for a straight pull, in tonnes of 1000 kg. Some tags are in short tons of 2000 lb, a tenth less: type “short ton” after the number."},
	field.PieceBreaking:   {Label: "Minimum breaking load", Keep: true, Help: "From the maker's certificate for the new piece. Divided by the design factor it gives the limit."},
	field.DesignFactor:    {Label: "Design factor", Help: "Breaking load divided by the load allowed. Never below what your code asks for."},
	field.PieceSize:       {Label: "Size", Help: "Diameter and length, or the size stamped on it. For recognition only: the limit comes from the tag alone."},
	field.Terminations:    {Label: "Ends", Help: "How its ends are made: splice, ferrule, wedge socket, clips, hook. The strength an end takes off goes under reductions."},
	field.LastInspection:  {Label: "Last inspected on", Help: DateHelp},
	field.NextInspection:  {Label: "Inspect again by", Help: DateHelp + " In date up to and including that day; later, the plan cannot be judged with this piece."},
	field.Retired:         {Label: "Retired: not to be used", Help: "Taken out of use. A plan with it cannot be judged."},
	field.Cleared:         {Label: "Cleared for use because", Help: "Who judged that this piece may be used although it is retired or past its inspection, and why. Kept in the record. If empty, it may not be used."},
	field.PieceNotes:      {Label: "Notes on the piece", Help: "Tag, age, anything seen."},
	field.HitchFactor:     {Label: "Hitch factor", Help: "What the hitch does to the limit: choked carries less than straight, a basket more. 1 for straight."},
	field.Reductions:      {Label: "Knot or termination", Hidden: true, Help: "What takes strength away."},
	field.ReductionWhy:    {Label: "Reduced for", Help: "What takes strength off: a knot, a splice, a tight bend, a side load, wear."},
	field.ReductionFactor: {Label: "Strength left", Help: "As a share: 0.8 or 80 %. At most 1."},

	field.PullDate:  {Label: "Day of the pull", Help: DateHelp + " Gear inspections are checked against this day."},
	field.Allowance: {Label: "Allowance on the pull needed", Help: "Planned tension divided by the largest pull needed, to cover errors in the estimate. Never below 1."},
	field.Planned:   {Label: "Planned tension, if you set it", Help: "Replaces allowance times pull needed. A smaller one is reported as a problem."},

	field.Fork:      {Help: "This stem among those of one foot."},
	field.ForkTree:  {Label: "Name of the tree the stems share", Help: "The same in the plan of every stem, so that the plans are found together."},
	field.ForkStem:  {Label: "Number of this stem", Help: "As marked on the tree, from 1."},
	field.ForkOf:    {Label: "Stems in all", Help: "How many stems share this base."},
	field.ForkOrder: {Label: "Felling order", Help: "1 for the stem felled first. Once a stem is off, the loads on all others change."},

	field.Brief:       {Help: "What is told to the crew before the cut."},
	field.Sequence:    {Label: "Sequence, one step per line", Help: "What happens in what order. Brief everyone on it before the cut."},
	field.Signals:     {Help: "The signals agreed on."},
	field.SignalSign:  {Label: "Sign", Help: "What is seen or heard. Agree it on site, and have whoever gives it show it once."},
	field.SignalMeans: {Label: "Means", Help: "What the crew does on it."},
	field.SignalBy:    {Label: "Given by", Help: "One person gives the signals; anyone may signal stop."},
	field.StopHaul:    {Label: "Stop at a haul of", Help: "Read at the {puller}. If it is reached with the tree still standing, stop and look before anything else."},
	field.StopRope:    {Label: "Stop after hauling", Help: "Rope in at the {puller}. If it is reached with the tree still standing, something is giving that should not."},
	field.Roles:       {Help: "Who does what."},
	field.RoleDoes:    {Label: "Does", Help: "Saw, {puller}, signals, {hold line}, keeping others out."},
	field.RoleName:    {Label: "Name", Help: "Who does it today."},
	field.BriefNotes:  {Label: "Notes for the briefing", Kind: Long, Help: "Escape routes, meeting point, radio channel, emergency access."},
	field.After:       {Help: "What was seen and measured at the pull."},
	field.AfterDate:   {Label: "Pulled on", Help: DateHelp},
	field.AfterPeak:   {Label: "Greatest tension measured", Help: "In the {pull line} where it leaves the {stem}, by load cell. Leave empty if nothing was measured."},
	field.AfterTurn:   {Label: "Turn of the tree then", Help: "How far the tree had turned from standing."},
	field.AfterHaul:   {Label: "Greatest haul measured", Help: "At the {puller}: its gauge, or a load cell there."},
	field.Happened:    {Label: "What happened", Kind: Long, Help: "What did not go as planned, what held well, what to do differently."},
	field.Photos:      {Label: "Photos, one file name per line", Help: "Names only: the photos stay where they are."},

	field.PlusMinus: {Label: "Measurement uncertainty (±)", Hidden: true, Help: "How far off a measured number may be, by the path of the number, in the number's own unit."},
	field.Readings:  {Label: "Readings kept", Hidden: true, Help: "What was read in the field, by the path of the field measured. Nothing is computed from it."},
}

// All are the fields of the plan that have a label, in the order of its parts.
var All = func() []Spec {
	out := make([]Spec, 0, len(said))
	for _, f := range field.All() {
		spec, row := said[f], f.Row()
		if spec.Label == "" {
			continue
		}
		spec.Field, spec.Path = f, f.Path()
		spec.Dim = units.DimensionOf(row.Range.Unit)
		if row.Range.Whole {
			spec.Dim = units.Count
		}
		spec.Way = ways[row.Round]
		if spec.Kind == "" {
			spec.Kind = kinds[row.Kind]
		}
		out = append(out, spec)
	}
	return out
}()

// kinds are the fields of a form by what a field of the plan holds, where the page
// does not say otherwise.
var kinds = [...]string{
	field.Object: Text, field.Objects: Text, field.Texts: Lines, field.Numbers: Rows,
	field.Number: Number, field.Text: Text, field.Choice: Choice, field.Flag: Flag, field.Date: Date,
}

var ways = [...]units.Direction{text.Nearest: units.Nearest, text.Up: units.Up, text.Down: units.Down}

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
// describe the format. Both are empty for what nothing is said of.
func Described(f field.Field) (label, help string) {
	spec := said[f]
	if first, known := Catalogue[f.Path()]; known {
		spec = *first
	}
	d := draft.Of(nil)
	return words.Capital(d.Say(spec.Label)), d.Say(spec.Help)
}
