package field

import (
	"pullline/rigging"
	"pullline/rigging/plan/text"
)

// The fields, in the order of the plan's parts. A field that several kinds of
// anchor have with another range or default is one for each.
const (
	// The plan itself, and what says what it is.
	Plan Field = iota
	Version
	Name
	Notes

	// The tree and where it stands.
	Site
	Wind
	Tree
	Species
	TreeHeight
	TreeDiameter
	Lean
	LeanBearing
	Cavity
	Grown
	CrownFraction
	CrownCentre
	CrownOffset
	CrownOffsetBearing
	CrownArea
	DragCoefficient
	FormFactor
	GreenDensity
	BendingStrength
	Sections
	SectionHeight
	SectionDiameter
	Defects
	DefectKind
	DefectHeight
	DefectCavity
	TreeMass
	MassCentre

	// The cut.
	Cut
	StumpHeight
	FaceOpening
	HingeLength
	HingeLeft
	HingeRight

	// Who and what is about.
	People
	PersonID
	PersonKind
	PersonBearing
	PersonDistance
	PersonNeeded

	// The points on the ground, and what holds each: the fields of an anchor by its kind.
	Points
	PointID
	PointBearing
	PointDistance
	PointRise
	PointAnchor
	AnchorKind
	RatedCapacity
	MachineMass
	MachineTraction
	MachineSlope
	MachineRated
	AnchorDiameter
	AnchorHeight
	AnchorForm
	AnchorDensity
	AnchorTurning
	AnchorSling
	AnchorFactor
	StumpFactor
	LogDepth
	LogLength
	LogDiameter
	LogSlot
	LogSoil
	PicketRows
	PicketSoil
	GroundFactor
	BridleLegs
	BridleLegPoint
	BridleSelfAdjusting

	// The lines.
	Lines
	LineID
	Role
	Share
	Stations
	StationStem
	StationPoint
	StationEfficiency
	Tackle
	Stages
	StageParts
	HaulFrom
	TackleEfficiency
	HaulPath
	Reeving
	Nodes
	Ropes
	NodeID
	NodeKind
	NodeAt
	RopePath
	RopeEfficiency
	HaulPoint
	HaulEfficiency
	Puller
	PullerRated
	LimitedBy
	PullerSetting
	PullerStall
	Tended
	Tied
	Rope
	RopeMass
	RopeStiffness

	// The gear.
	Gear
	PieceID
	PieceKind
	PieceLine
	PiecePlace
	PiecePoint
	PieceWLL
	PieceTonnes
	PieceBreaking
	DesignFactor
	PieceSize
	Terminations
	LastInspection
	NextInspection
	Retired
	Cleared
	PieceNotes
	HitchFactor
	Reductions
	ReductionWhy
	ReductionFactor

	// The pull.
	PullDate
	Allowance
	Planned

	// The stems of one foot.
	Fork
	ForkTree
	ForkStem
	ForkOf
	ForkOrder

	// What is told to the crew, and what came of it.
	Brief
	Sequence
	Signals
	SignalSign
	SignalMeans
	SignalBy
	StopHaul
	StopRope
	Roles
	RoleDoes
	RoleName
	BriefNotes
	After
	AfterDate
	AfterPeak
	AfterTurn
	AfterHaul
	Happened
	Photos

	// How well numbers are known, and what they were read from, by the paths of the numbers.
	PlusMinus
	AnyPlusMinus
	Readings
	Reading
	ReadingMethod
	ReadingValues
	ReadingPlusMinus
	AnyReadingPlusMinus

	// The gear list. Its pieces have the fields of a plan's, and a worksheet.
	GearList
	ListKind
	ListVersion
	Pieces
	Worksheet
	WorksheetDate
	WorksheetBy
	WorksheetOutcome
	Answers
	Answer
	WorksheetNotes

	Fields // how many there are, the plan and the gear list with them
)

// Limits on sizes, against hostile files.
const (
	textLength     = 20000
	nameLength     = 200
	listLength     = 24
	stationsLength = 16
	stepsLength    = 40
	stems          = 20
)

// Ranges that several fields have.
var (
	height     = Range{Min: 2, Max: 130, Unit: "m"}
	stem       = Range{Min: 0, Max: 130, Unit: "m", Above: true}
	diameter   = Range{Min: 5, Max: 1000, Unit: "cm"}
	cavity     = Range{Min: 0, Max: 1000, Unit: "cm"}
	thickness  = Range{Min: 0.1, Max: 200, Unit: "cm"}
	bearing    = Range{Min: -360, Max: 360, Unit: "°"}
	distance   = Range{Min: 0, Max: 1000, Unit: "m", Above: true}
	force      = Range{Min: 0, Max: 10000, Unit: "kN", Above: true}
	measured   = Range{Min: 0, Max: 10000, Unit: "kN"} // nought is a pull that took nothing: the tree went by itself
	form       = Range{Min: 0.2, Max: 1}
	density    = Range{Min: 200, Max: 1500, Unit: "kg/m³"}
	efficiency = Range{Min: 0.1, Max: 1}
	factor     = Range{Min: 1, Max: 20}
	share      = Range{Min: 0, Max: 1, Above: true}
	spread     = Range{Min: 0, Max: 1e6}
)

// What the tables of the trade say of things nothing is said of.
var (
	fieldRule, _      = rigging.FindSheave("field_rule")
	guideLength, _    = rigging.FindHingeGuide("hinge_length")
	guideThickness, _ = rigging.FindHingeGuide("hinge_thickness")
	openFace, _       = rigging.FindHingeGuide("open_face_deg")
	drag, _           = rigging.FindDragCoefficient("unknown_crown")
	choked, _         = rigging.FindHitch("choked_textile")
	anchorForm, _     = rigging.FindTreeAnchorGuide("form_factor")
	anchorDensity, _  = rigging.FindTreeAnchorGuide("green_density")
	anchorFactor, _   = rigging.FindTreeAnchorGuide("factor")
	anyTurning, _     = rigging.FindTreeAnchorTurning("unknown_tree")
	logLoam, _        = rigging.BuriedLogSoil("loam")
	picketLoam, _     = rigging.PicketSoil("loam")

	practice = rigging.Source{Basis: rigging.CommonPractice}
)

// The usual hinge: its length and its thickness over the diameter, and their
// source.
var (
	HingeLengthShare    = guideLength.Value
	HingeThicknessShare = guideThickness.Value
	HingeGuide          = guideLength.Source
)

// Defaults that several fields have.
var (
	sheave         = figure(fieldRule.Value, "sheave", fieldRule.Source)
	hingeThickness = Default{Why: "hinge_thickness", Args: []any{text.Percent(HingeThicknessShare)}, Source: rigging.Source{Text: HingeGuide.Text, Basis: guideThickness.Source.Basis}}
)

// figure is a default out of a table of the trade.
func figure(value float64, why string, source rigging.Source) Default {
	return Default{Value: value, Why: why, Source: source}
}

var rows = [Fields]Row{
	Plan:    {},
	Version: {Key: "version", Kind: Number, Range: Range{Min: 0, Max: 1e6, Whole: true}, Default: Default{Value: PlanVersion, Why: "version"}},
	Name:    {Key: "name", Kind: Text, Most: nameLength},
	Notes:   {Key: "notes", Kind: Text, Most: textLength},

	Site:               {Key: "site", Vital: true},
	Wind:               {In: Site, Key: "wind_mps", Kind: Number, Range: Range{Min: 0, Max: 40, Unit: "m/s"}, Default: Default{Value: rigging.UnsaidWind, Why: "wind", Source: rigging.Source{Text: "Beaufort scale", Basis: rigging.FromMemory}}},
	Tree:               {Key: "tree", Required: true, Vital: true},
	Species:            {In: Tree, Key: "species", Kind: Text, Most: textLength, Default: Default{Value: "unknown_broadleaf", Why: "species"}},
	TreeHeight:         {In: Tree, Key: "height_m", Kind: Number, Range: height, Round: text.Up, Required: true},
	TreeDiameter:       {In: Tree, Key: "diameter_cm", Kind: Number, Range: diameter, Round: text.Up, Required: true},
	Lean:               {In: Tree, Key: "lean_deg", Kind: Number, Range: Range{Min: 0, Max: 60, Unit: "°"}, Required: true},
	LeanBearing:        {In: Tree, Key: "lean_bearing_deg", Kind: Number, Range: bearing},
	Cavity:             {In: Tree, Key: "cavity_cm", Kind: Number, Range: cavity, Round: text.Up, Default: Default{Value: 0.0, Why: "cavity"}},
	Grown:              {In: Tree, Key: "grown", Kind: Choice, Words: []string{InForest, InOpen}, Default: Default{Value: InOpen, Why: "grown_open"}},
	CrownFraction:      {In: Tree, Key: "crown_fraction", Kind: Number, Range: Range{Min: 0, Max: 3}},                                         // by kind of tree, diameter and where it grew: rigging.CrownShare
	CrownCentre:        {In: Tree, Key: "crown_centre_m", Kind: Number, Range: stem, Default: Default{Why: "crown_centre", Source: practice}}, // rigging.CrownMiddle
	CrownOffset:        {In: Tree, Key: "crown_offset_m", Kind: Number, Range: Range{Min: 0, Max: 30, Unit: "m"}, Default: Default{Value: 0.0, Why: "crown_even"}},
	CrownOffsetBearing: {In: Tree, Key: "crown_offset_bearing_deg", Kind: Number, Range: bearing},
	CrownArea:          {In: Tree, Key: "crown_area_m2", Kind: Number, Range: Range{Min: 0, Max: 3000, Unit: "m²"}, Round: text.Up, Default: Default{Why: "crown_area", Source: practice}}, // rigging.CrownSail
	DragCoefficient:    {In: Tree, Key: "drag_coefficient", Kind: Number, Range: Range{Min: 0.05, Max: 2}, Default: figure(drag.Value, "drag", drag.Source)},
	FormFactor:         {In: Tree, Key: "form_factor", Kind: Number, Range: form},                                          // of the species
	GreenDensity:       {In: Tree, Key: "green_density_kgm3", Kind: Number, Range: density, Round: text.Up},                // of the species
	BendingStrength:    {In: Tree, Key: "bending_strength_MPa", Kind: Number, Range: Range{Min: 1, Max: 200, Unit: "MPa"}}, // of the species
	Sections:           {In: Tree, Key: "sections", Kind: Objects, Most: listLength, Vital: true},
	SectionHeight:      {In: Sections, Key: "height_m", Kind: Number, Range: Range{Min: 0, Max: 130, Unit: "m"}, Required: true},
	SectionDiameter:    {In: Sections, Key: "diameter_cm", Kind: Number, Range: Range{Min: 0.5, Max: 1000, Unit: "cm"}, Round: text.Up, Required: true},
	Defects:            {In: Tree, Key: "defects", Kind: Objects, Most: listLength},
	DefectKind:         {In: Defects, Key: "kind", Kind: Choice, Words: defectKinds, Default: Default{Value: string(rigging.HollowDefect), Why: "defect_cavity"}},
	DefectHeight:       {In: Defects, Key: "height_m", Kind: Number, Range: stem, Required: true},
	DefectCavity:       {In: Defects, Key: "cavity_cm", Kind: Number, Range: cavity, Round: text.Up},
	TreeMass:           {In: Tree, Key: "mass_kg", Kind: Number, Range: Range{Min: 10, Max: 1e6, Unit: "kg"}, Round: text.Up},
	MassCentre:         {In: Tree, Key: "mass_centre_m", Kind: Number, Range: stem},

	Cut:         {Key: "cut", Vital: true},
	StumpHeight: {In: Cut, Key: "stump_m", Kind: Number, Range: Range{Min: 0, Max: 10, Unit: "m"}, Default: Default{Value: 0.4, Why: "stump", Source: practice}},
	FaceOpening: {In: Cut, Key: "face_opening_deg", Kind: Number, Range: Range{Min: 1, Max: 120, Unit: "°"}, Default: figure(openFace.Value, "face_opening", openFace.Source)},
	HingeLength: {In: Cut, Key: "hinge_length_cm", Kind: Number, Range: Range{Min: 1, Max: 1000, Unit: "cm"}, Default: Default{Why: "hinge_length", Args: []any{text.Percent(HingeLengthShare)}, Source: HingeGuide}},
	HingeLeft:   {In: Cut, Key: "hinge_left_cm", Kind: Number, Range: thickness, Default: hingeThickness},
	HingeRight:  {In: Cut, Key: "hinge_right_cm", Kind: Number, Range: thickness, Default: hingeThickness},

	People:         {Key: "people", Kind: Objects, Most: 40},
	PersonID:       {In: People, Key: "id", Kind: Text, Most: nameLength, Required: true},
	PersonKind:     {In: People, Key: "kind", Kind: Choice, Words: []string{SawOperator, "signaller", "machine_operator", "students", "road", "building", PowerLine, "tree"}, Required: true},
	PersonBearing:  {In: People, Key: "bearing_deg", Kind: Number, Range: bearing, Required: true},
	PersonDistance: {In: People, Key: "distance_m", Kind: Number, Range: Range{Min: 0, Max: 5000, Unit: "m"}, Round: text.Down, Required: true},
	PersonNeeded:   {In: People, Key: "needed", Kind: Flag},

	Points:              {Key: "points", Kind: Objects, Most: 60, Vital: true},
	PointID:             {In: Points, Key: "id", Kind: Text, Most: nameLength, Required: true},
	PointBearing:        {In: Points, Key: "bearing_deg", Kind: Number, Range: bearing, Required: true},
	PointDistance:       {In: Points, Key: "distance_m", Kind: Number, Range: distance, Round: text.Down, Required: true},
	PointRise:           {In: Points, Key: "rise_m", Kind: Number, Range: Range{Min: -300, Max: 300, Unit: "m"}, Default: Default{Value: 0.0, Why: "level_point"}},
	PointAnchor:         {In: Points, Key: "anchor"},
	AnchorKind:          {In: PointAnchor, Key: "kind", Kind: Choice, Words: anchorWords, Required: true},
	RatedCapacity:       {In: PointAnchor, Key: "capacity_kN", Kind: Number, Range: force, Round: text.Down, Required: true},
	MachineMass:         {In: PointAnchor, Key: "mass_kg", Kind: Number, Range: Range{Min: 50, Max: 500000, Unit: "kg"}, Round: text.Down, Required: true},
	MachineTraction:     {In: PointAnchor, Key: "traction", Kind: Number, Range: Range{Min: 0.02, Max: 1.2}, Required: true},
	MachineSlope:        {In: PointAnchor, Key: "slope_deg", Kind: Number, Range: Range{Min: -45, Max: 45, Unit: "°"}, Default: Default{Value: 0.0, Why: "level_machine"}},
	MachineRated:        {In: PointAnchor, Key: "rated_kN", Kind: Number, Range: force, Round: text.Down, Required: true},
	AnchorDiameter:      {In: PointAnchor, Key: "diameter_cm", Kind: Number, Range: diameter, Round: text.Down, Required: true},
	AnchorHeight:        {In: PointAnchor, Key: "height_m", Kind: Number, Range: height, Round: text.Down, Required: true},
	AnchorForm:          {In: PointAnchor, Key: "form_factor", Kind: Number, Range: form, Default: figure(anchorForm.Value, "anchor_form", anchorForm.Source)},
	AnchorDensity:       {In: PointAnchor, Key: "green_density_kgm3", Kind: Number, Range: density, Round: text.Down, Default: figure(anchorDensity.Value, "anchor_density", anchorDensity.Source)},
	AnchorTurning:       {In: PointAnchor, Key: "turning_Nm_per_kg", Kind: Number, Range: Range{Min: 10, Max: 300, Unit: "N·m/kg"}, Round: text.Down, Default: figure(anyTurning.Value, "anchor_turning", anyTurning.Source)},
	AnchorSling:         {In: PointAnchor, Key: "sling_height_m", Kind: Number, Range: Range{Min: 0.1, Max: 30, Unit: "m"}, Round: text.Up, Required: true},
	AnchorFactor:        {In: PointAnchor, Key: "factor", Kind: Number, Range: factor, Default: figure(anchorFactor.Value, "anchor_factor", rigging.Source{Basis: anchorFactor.Source.Basis})},
	StumpFactor:         {In: PointAnchor, Key: "factor", Kind: Number, Range: factor, Default: figure(anchorFactor.Value, "stump_factor", rigging.Source{Basis: rigging.FromMemory})},
	LogDepth:            {In: PointAnchor, Key: "depth_m", Kind: Number, Range: Range{Min: 0.3, Max: 6, Unit: "m"}, Round: text.Down, Required: true},
	LogLength:           {In: PointAnchor, Key: "length_m", Kind: Number, Range: Range{Min: 0.3, Max: 20, Unit: "m"}, Round: text.Down, Required: true},
	LogDiameter:         {In: PointAnchor, Key: "diameter_cm", Kind: Number, Range: Range{Min: 5, Max: 200, Unit: "cm"}, Round: text.Down, Required: true},
	LogSlot:             {In: PointAnchor, Key: "slot_m", Kind: Number, Range: Range{Min: 0, Max: 3, Unit: "m"}, Round: text.Up, Default: Default{Value: rigging.BuriedLogSlot, Why: "log_slot", Source: rigging.Source{Text: "TM 5-5420-278-10, work package 0035", Basis: rigging.Published}}},
	LogSoil:             {In: PointAnchor, Key: "soil_factor", Kind: Number, Range: Range{Min: 0, Max: 5, Above: true}, Default: figure(logLoam.Value, "log_loam", logLoam.Source)},
	PicketRows:          {In: PointAnchor, Key: "rows", Kind: Numbers, Range: Range{Min: 1, Max: 9, Whole: true}, Most: listLength, Required: true},
	PicketSoil:          {In: PointAnchor, Key: "soil_factor", Kind: Number, Range: share, Default: figure(picketLoam.Value, "picket_loam", picketLoam.Source)},
	GroundFactor:        {In: PointAnchor, Key: "factor", Kind: Number, Range: factor, Default: Default{Value: rigging.GroundFactor, Why: "ground_factor", Source: practice}},
	BridleLegs:          {In: PointAnchor, Key: "legs", Kind: Objects, Most: 3, Required: true},
	BridleLegPoint:      {In: BridleLegs, Key: "point", Kind: Text, Most: textLength, Required: true},
	BridleSelfAdjusting: {In: PointAnchor, Key: "self_adjusting", Kind: Flag},

	Lines:             {Key: "lines", Kind: Objects, Most: 12, Vital: true},
	LineID:            {In: Lines, Key: "id", Kind: Text, Most: nameLength, Required: true},
	Role:              {In: Lines, Key: "role", Kind: Choice, Words: []string{Pull, Hold}, Default: Default{Value: Pull, Why: "pulls"}},
	Share:             {In: Lines, Key: "share", Kind: Number, Range: Range{Min: 0, Max: 100, Above: true}},
	Stations:          {In: Lines, Key: "path", Kind: Objects, Most: stationsLength, Required: true, Vital: true},
	StationStem:       {In: Stations, Key: "stem_m", Kind: Number, Range: stem, Round: text.Down},
	StationPoint:      {In: Stations, Key: "point", Kind: Text, Most: textLength},
	StationEfficiency: {In: Stations, Key: "efficiency", Kind: Number, Range: efficiency, Default: sheave},
	Tackle:            {In: Lines, Key: "tackle", Vital: true},
	Stages:            {In: Tackle, Key: "stages", Kind: Objects, Most: listLength, Vital: true},
	StageParts:        {In: Stages, Key: "parts", Kind: Number, Range: Range{Min: 1, Max: 12, Whole: true}, Required: true},
	HaulFrom:          {In: Stages, Key: "haul_from", Kind: Choice, Words: []string{Fixed, Moving}, Default: Default{Value: Fixed, Why: "haul_from_fixed"}},
	TackleEfficiency:  {In: Tackle, Key: "efficiency", Kind: Number, Range: efficiency, Default: sheave},
	HaulPath:          {In: Tackle, Key: "haul_path", Kind: Objects, Most: stationsLength, Vital: true, Default: Default{Why: "haul_back"}},
	Reeving:           {In: Tackle, Key: "reeving", Vital: true},
	Nodes:             {In: Reeving, Key: "nodes", Kind: Objects, Most: listLength, Vital: true},
	Ropes:             {In: Reeving, Key: "ropes", Kind: Objects, Most: listLength, Vital: true},
	NodeID:            {In: Nodes, Key: "id", Kind: Text, Most: nameLength, Required: true},
	NodeKind:          {In: Nodes, Key: "kind", Kind: Choice, Words: nodeKinds, Required: true},
	NodeAt:            {In: Nodes, Key: "at", Kind: Number, Range: Range{Min: -1000, Max: 1000}, Required: true},
	RopePath:          {In: Ropes, Key: "path", Kind: Texts, Most: listLength},
	RopeEfficiency:    {In: Ropes, Key: "efficiency", Kind: Number, Range: efficiency},
	HaulPoint:         {In: HaulPath, Key: "point", Kind: Text, Most: textLength},
	HaulEfficiency:    {In: HaulPath, Key: "efficiency", Kind: Number, Range: efficiency, Default: sheave},
	Puller:            {In: Lines, Key: "puller"},
	PullerRated:       {In: Puller, Key: "rated_kN", Kind: Number, Range: force, Round: text.Down},
	LimitedBy:         {In: Puller, Key: "limited_by", Kind: Choice, Words: []string{Stall, Device, Grip, Watched}},
	PullerSetting:     {In: Puller, Key: "setting_kN", Kind: Number, Range: force, Round: text.Up},
	PullerStall:       {In: Puller, Key: "stall_kN", Kind: Number, Range: force, Round: text.Up},
	Tended:            {In: Lines, Key: "tended", Kind: Flag},
	Tied:              {In: Lines, Key: "tied", Kind: Texts, Most: stationsLength},
	Rope:              {In: Lines, Key: "rope"},
	RopeMass:          {In: Rope, Key: "mass_kgpm", Kind: Number, Range: Range{Min: 0, Max: 100, Unit: "kg/m", Above: true}},
	RopeStiffness:     {In: Rope, Key: "stiffness_kN", Kind: Number, Range: Range{Min: 0, Max: 1e7, Unit: "kN", Above: true}}, // of a hold line that has to grow: by the breaking load of its rope

	Gear:            {Key: "gear", Kind: Objects, Most: 150},
	PieceID:         {In: Gear, Key: "id", Kind: Text, Most: nameLength, Required: true},
	PieceKind:       {In: Gear, Key: "kind", Kind: Choice, Words: []string{WireRope, FibreRope, Sling, Shackle, Block, Chain, Winch, OtherGear}, Required: true},
	PieceLine:       {In: Gear, Key: "line", Kind: Text, Most: textLength},
	PiecePlace:      {In: Gear, Key: "place", Kind: Choice, Words: []string{AtStem}},
	PiecePoint:      {In: Gear, Key: "point", Kind: Text, Most: textLength},
	PieceWLL:        {In: Gear, Key: "wll_kN", Kind: Number, Range: force, Round: text.Down},
	PieceTonnes:     {In: Gear, Key: "wll_t", Kind: Number, Range: Range{Min: 0, Max: 1000, Unit: "t", Above: true}, Round: text.Down},
	PieceBreaking:   {In: Gear, Key: "mbl_kN", Kind: Number, Range: force, Round: text.Down},
	DesignFactor:    {In: Gear, Key: "design_factor", Kind: Number, Range: factor},
	PieceSize:       {In: Gear, Key: "size", Kind: Text, Most: textLength},
	Terminations:    {In: Gear, Key: "terminations", Kind: Text, Most: textLength},
	LastInspection:  {In: Gear, Key: "last_inspection", Kind: Date},
	NextInspection:  {In: Gear, Key: "next_inspection", Kind: Date},
	Retired:         {In: Gear, Key: "retired", Kind: Flag},
	Cleared:         {In: Gear, Key: "cleared", Kind: Text, Most: textLength},
	PieceNotes:      {In: Gear, Key: "notes", Kind: Text, Most: textLength},
	HitchFactor:     {In: Gear, Key: "hitch_factor", Kind: Number, Range: Range{Min: 0, Max: 2, Above: true}, Default: Default{Value: 1.0, Why: "straight"}},
	Reductions:      {In: Gear, Key: "reductions", Kind: Objects, Most: listLength, Default: Default{Why: "no_reduction"}},
	ReductionWhy:    {In: Reductions, Key: "why", Kind: Text, Most: textLength},
	ReductionFactor: {In: Reductions, Key: "factor", Kind: Number, Range: share, Required: true},

	PullDate:  {Key: "pull_date", Kind: Date},
	Allowance: {Key: "allowance", Kind: Number, Range: Range{Min: 1, Max: 10}, Default: Default{Value: 1.5, Why: "allowance", Source: practice}},
	Planned:   {Key: "planned_kN", Kind: Number, Range: force},

	Fork:      {Key: "fork"},
	ForkTree:  {In: Fork, Key: "tree", Kind: Text, Most: nameLength, Required: true},
	ForkStem:  {In: Fork, Key: "stem", Kind: Number, Range: Range{Min: 1, Max: stems, Whole: true}, Required: true},
	ForkOf:    {In: Fork, Key: "of", Kind: Number, Range: Range{Min: 2, Max: stems, Whole: true}, Required: true},
	ForkOrder: {In: Fork, Key: "order", Kind: Number, Range: Range{Min: 1, Max: stems, Whole: true}, Required: true},

	Brief:       {Key: "brief"},
	Sequence:    {In: Brief, Key: "sequence", Kind: Texts, Most: stepsLength},
	Signals:     {In: Brief, Key: "signals", Kind: Objects, Most: stepsLength},
	SignalSign:  {In: Signals, Key: "sign", Kind: Text, Most: textLength},
	SignalMeans: {In: Signals, Key: "means", Kind: Text, Most: textLength},
	SignalBy:    {In: Signals, Key: "by", Kind: Text, Most: textLength},
	StopHaul:    {In: Brief, Key: "stop_haul_kN", Kind: Number, Range: force, Round: text.Down},
	StopRope:    {In: Brief, Key: "stop_rope_m", Kind: Number, Range: distance, Round: text.Down},
	Roles:       {In: Brief, Key: "roles", Kind: Objects, Most: stepsLength},
	RoleDoes:    {In: Roles, Key: "role", Kind: Text, Most: textLength},
	RoleName:    {In: Roles, Key: "name", Kind: Text, Most: textLength},
	BriefNotes:  {In: Brief, Key: "notes", Kind: Text, Most: textLength},
	After:       {Key: "after"},
	AfterDate:   {In: After, Key: "date", Kind: Date},
	AfterPeak:   {In: After, Key: "peak_kN", Kind: Number, Range: measured, Round: text.Up},
	AfterTurn:   {In: After, Key: "peak_deg", Kind: Number, Range: Range{Min: -10, Max: 90, Unit: "°"}},
	AfterHaul:   {In: After, Key: "haul_kN", Kind: Number, Range: measured, Round: text.Up},
	Happened:    {In: After, Key: "happened", Kind: Text, Most: textLength},
	Photos:      {In: After, Key: "photos", Kind: Texts, Most: 60},

	PlusMinus:           {Key: "plus_minus"},
	AnyPlusMinus:        {In: PlusMinus, Key: "*", Kind: Number, Range: spread},
	Readings:            {Key: "readings", Most: 300},
	Reading:             {In: Readings, Key: "*"},
	ReadingMethod:       {In: Reading, Key: "method", Kind: Text, Most: textLength},
	ReadingValues:       {In: Reading, Key: "values"},     // by the method
	ReadingPlusMinus:    {In: Reading, Key: "plus_minus"}, // by the method
	AnyReadingPlusMinus: {In: ReadingPlusMinus, Key: "*", Kind: Number, Range: spread},

	GearList:         {},
	ListKind:         {In: GearList, Key: "kind", Kind: Choice, Words: []string{GearListKind}, Required: true},
	ListVersion:      {In: GearList, Key: "version", Kind: Number, Range: Range{Min: GearListVersion, Max: GearListVersion, Whole: true}}, // required, with a sentence of its own
	Pieces:           {In: GearList, Key: "pieces", Kind: Objects, Most: 1000},
	Worksheet:        {In: Pieces, Key: "worksheet"},
	WorksheetDate:    {In: Worksheet, Key: "date", Kind: Date, Required: true},
	WorksheetBy:      {In: Worksheet, Key: "by", Kind: Text, Most: textLength},
	WorksheetOutcome: {In: Worksheet, Key: "outcome", Kind: Choice, Words: outcomes, Required: true},
	Answers:          {In: Worksheet, Key: "answers", Most: 60},
	Answer:           {In: Answers, Key: "*", Kind: Text, Most: textLength},
	WorksheetNotes:   {In: Worksheet, Key: "notes", Kind: Text, Most: textLength},
}
