package screen

import (
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/keyed"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A formBuilder makes the form of one plan and its report.
type formBuilder struct {
	d        *draft.Plan
	u        *units.System
	rep      *plan.Report
	assumed  map[string]*plan.Assumed // default taken, by path
	problems map[string]string        // first problem, by exact path
	points   map[string]*pieceState   // by point id
	pieces   map[string]*pieceState   // by piece id, pullers as LINE/puller
	at       []parts.Option           // choices for a station
	pointIDs []parts.Option           // choices of a point
	places   []parts.Option           // choices for a piece of gear
}

// A pieceState is what the report says of a point or a piece.
type pieceState struct {
	verdict rigging.Verdict
	use     float64
}

// buildForm lays out every field of a plan, in the order of the job.
func buildForm(d *draft.Plan, u *units.System, rep *plan.Report) []parts.Section {
	b := &formBuilder{
		d: d, u: u, rep: rep,
		assumed:  make(map[string]*plan.Assumed, len(rep.Assumed)),
		problems: make(map[string]string, len(rep.Problems)),
		points:   make(map[string]*pieceState, len(rep.Points)),
		pieces:   make(map[string]*pieceState, len(rep.Gear)),
	}
	for i := range rep.Assumed {
		b.assumed[rep.Assumed[i].Path] = &rep.Assumed[i]
	}
	for _, p := range rep.Problems {
		if _, seen := b.problems[p.Path]; !seen {
			b.problems[p.Path] = p.Message
		}
	}
	for _, p := range rep.Points {
		b.points[p.ID] = &pieceState{p.Verdict, float64(p.Use)}
	}
	for _, g := range rep.Gear {
		b.pieces[g.ID] = &pieceState{g.Verdict, float64(g.Use)}
	}
	b.at, b.pointIDs, b.places = fields.Stations(d), fields.Points(d), fields.GearPlaces(d)
	form := []parts.Section{
		b.tree(), b.cut(), b.site(), b.pointList(), b.lineList(), b.gearList(),
		b.pull(), b.giveOrTake(), b.fork(), b.about(), b.brief(), b.after(),
	}
	for _, p := range rep.Problems {
		placeNote(form, parts.Note{Path: p.Path, Message: p.Message}, true)
	}
	for _, c := range rep.Cautions {
		if c.Path != "" && !parts.Stands(c.Code) {
			placeNote(form, parts.Note{Code: c.Code, Path: c.Path, Message: c.Message, Source: c.Source}, false)
		}
	}
	return form
}

// placeNote puts a note into the deepest section it concerns. A problem that
// already stands at its field is only counted.
func placeNote(sections []parts.Section, n parts.Note, problem bool) bool {
	for i := range sections {
		s := &sections[i]
		found := false
		for _, f := range s.Fields {
			if f.Path == n.Path || standsFor(f.Path, n.Path) {
				if !problem || f.Problem == "" {
					s.Notes = append(s.Notes, n)
				}
				found = true
				break
			}
		}
		found = found || placeNote(s.Sections, n, problem)
		if !found && draft.Within(n.Path, s.ID) {
			s.Notes = append(s.Notes, n)
			found = true
		}
		if found {
			if problem {
				s.Problems++
			}
			return true
		}
	}
	return false
}

// standsFor says whether a choice that is no field of the plan stands for the
// one at a path.
func standsFor(choice, path string) bool {
	owner, key := draft.LastKey(choice)
	of, field := draft.LastKey(path)
	if owner != of {
		return false
	}
	switch key {
	case "@at":
		return field == "point"
	case "@place":
		return field == "line" || field == "place" || field == "point"
	}
	return false
}

// field makes the form's field of a path of the plan.
func (b *formBuilder) field(path string) parts.Field {
	spec, ok := fields.At(path)
	if !ok {
		return parts.Field{Path: path, Label: path, Kind: fields.Text, Text: b.written(path), Problem: b.problems[path]}
	}
	f := parts.Field{
		Path: path, Label: words.Capital(b.d.Words(spec.Label)), Kind: spec.Kind, Help: b.d.Words(spec.Help),
		Suggest: fields.Suggestions(b.d, path, spec), Problem: b.problems[path],
		Measure: spec.Measured && !strings.HasPrefix(path, draft.PlusMinus),
	}
	v, _ := b.d.At(path)
	switch spec.Kind {
	case fields.Number:
		f.Unit = b.u.Units[spec.Dim].Name
		if n, ok := draft.Number(v); ok {
			f.Text = b.u.Field(n, spec.Dim, spec.Way)
		} else if f.Text = draft.Written(v); f.Text != "" && f.Problem == "" {
			f.Problem = words.NotANumber(f.Text, f.Unit)
		}
	case fields.Flag:
		switch x := v.(type) {
		case bool:
			if x {
				f.Text = "true"
			}
		default:
			f.Text = draft.Written(v)
		}
	case fields.Lines:
		f.Kind, f.Text = fields.Long, joinLines(v)
	case fields.Rows:
		f.Kind = fields.Text
		if rows, ok := v.([]any); ok {
			f.Text = joinRows(rows)
		} else {
			f.Text = draft.Written(v)
		}
	case fields.Date:
		f.Kind = fields.Text
		f.Text = draft.Written(v)
	case fields.Choice:
		f.Text = draft.Written(v)
		options := spec.Options
		switch {
		case spec.Path == "tree.species":
			f.Options = offer.Species.Options()
		case strings.HasSuffix(spec.Path, ".point"):
			f.Options = b.pointIDs
		default:
			f.Options = parts.Told(b.d.Locale, options)
		}
		f.Options = parts.WithValue(f.Options, f.Text)
	default:
		f.Text = draft.Written(v)
	}
	if given, ok := b.assumed[path]; ok {
		if f.Default = spec.Default(b.d, b.u, given); f.Default != "" {
			f.Founded = rigging.Basis(given.Basis).Words()
		}
	}
	return f
}

// written is the text of whatever stands at a path.
func (b *formBuilder) written(path string) string {
	v, _ := b.d.At(path)
	return draft.Written(v)
}

func joinRows(rows []any) string {
	words := make([]string, len(rows))
	for i, r := range rows {
		words[i] = draft.Written(r)
	}
	return strings.Join(words, "-")
}

// fieldsOf makes fields of keys below a path ("" for the plan itself).
func (b *formBuilder) fieldsOf(path string, keys ...string) []parts.Field {
	out := make([]parts.Field, len(keys))
	for i, key := range keys {
		out[i] = b.field(draft.Sub(path, key))
	}
	return out
}

// shown is a field in a summary: its text with its unit, "" if empty.
func (b *formBuilder) shown(path string) string {
	spec, ok := fields.At(path)
	v, _ := b.d.At(path)
	if !ok || v == nil {
		return ""
	}
	if n, ok := draft.Number(v); ok && spec.Kind == fields.Number {
		if text := b.u.Field(n, spec.Dim, spec.Way); len(text) <= 6 {
			return text + b.u.Suffix(spec.Dim)
		}
		return b.u.Quantity(n, spec.Dim, spec.Way) // the long tail of a converted number
	}
	return draft.Written(v)
}

func (b *formBuilder) tree() parts.Section {
	species := b.d.Text("tree.species")
	if species != "" {
		species = parts.LabelOf(b.d.Locale, offer.Species.Options(), species)
	}
	return parts.Section{
		ID: "tree", Title: "The tree",
		Fields:  b.fieldsOf("tree", "species", "height_m", "diameter_cm", "lean_deg", "lean_bearing_deg", "cavity_cm"),
		Summary: words.Listed(species, b.shown("tree.height_m"), b.shown("tree.diameter_cm"), words.Around("leans ", b.shown("tree.lean_deg"), words.Around(" toward ", b.shown("tree.lean_bearing_deg"), ""))),
		Sections: []parts.Section{
			{ID: "tree#crown", Title: "Crown", Fields: b.fieldsOf("tree", "grown", "crown_fraction", "crown_centre_m", "crown_offset_m", "crown_offset_bearing_deg"),
				Help:    "Left empty, an even crown is taken, as heavy as that of a tree grown in the open.",
				Summary: words.Listed(words.Around("share ", b.shown("tree.crown_fraction"), ""), words.Around("out by ", b.shown("tree.crown_offset_m"), words.Around(" toward ", b.shown("tree.crown_offset_bearing_deg"), "")))},
			{ID: "tree#wood", Title: "Wood and shape", Fields: b.fieldsOf("tree", "form_factor", "green_density_kgm3", "bending_strength_MPa"),
				Help:    "Left empty, the species' figures are taken.",
				Summary: words.Listed(b.shown("tree.green_density_kgm3"), b.shown("tree.bending_strength_MPa"))},
			b.stemSections(),
			{ID: "tree#mass", Title: "Mass, if it is known", Fields: b.fieldsOf("tree", "mass_kg", "mass_centre_m"),
				Help:    b.d.Say("Left empty, mass and mass {centre} are estimated from the sizes above."),
				Summary: words.Listed(b.shown("tree.mass_kg"), words.Around(b.d.Say("{centre} at "), b.shown("tree.mass_centre_m"), ""))},
		},
	}
}

// stemSections is the list of diameters by height.
func (b *formBuilder) stemSections() parts.Section {
	n := b.d.Size("tree.sections")
	s := parts.Section{
		ID: "tree.sections", Title: "Stem measured at several heights",
		Help:    b.d.Say("With diameters here the stem's volume and {centre} come from them, not from diameter and form factor. Measure at breast height and at equal steps of up to 5 m; with a thick flare, at the ground too."),
		Actions: []parts.Action{{Do: "add", Path: "tree.sections", Label: "Add a diameter"}},
	}
	if n > 0 {
		s.Summary = words.CountOf(n, "diameter", "diameters")
		s.Actions = append(s.Actions, parts.Action{Do: "remove", Path: "tree.sections", Label: "Remove them all"})
	}
	for i := range n {
		path := draft.Elem("tree.sections", i)
		s.Sections = append(s.Sections, parts.Section{
			ID: path, Title: "Diameter no. " + strconv.Itoa(i+1), Fields: b.fieldsOf(path, "height_m", "diameter_cm"),
			Summary: words.Listed(b.shown(path+".diameter_cm"), words.Around("at ", b.shown(path+".height_m"), "")),
			Actions: []parts.Action{{Do: "remove", Path: path, Label: "Remove this diameter"}},
		})
	}
	return s
}

func (b *formBuilder) cut() parts.Section {
	return parts.Section{
		ID: "cut", Title: "The cut",
		Help:    b.d.Say("The {scarf} faces the {lay}; the {hinge} is the wood left between it and the {back cut}."),
		Fields:  b.fieldsOf("cut", "stump_m", "face_opening_deg", "hinge_length_cm", "hinge_left_cm", "hinge_right_cm"),
		Summary: words.Listed(words.Around(b.d.Say("{scarf} "), b.shown("cut.face_opening_deg"), ""), words.Around(b.d.Say("{hinge} "), b.shown("cut.hinge_length_cm"), words.Around(" by ", b.shown("cut.hinge_left_cm"), words.Around("/", b.shown("cut.hinge_right_cm"), "")))),
	}
}

func (b *formBuilder) site() parts.Section {
	return parts.Section{
		ID: "site", Title: "Wind",
		Help:    "Gusts are not modelled; in wind that moves the crown, leave it standing.",
		Fields:  []parts.Field{b.field("site.wind_mps"), b.field("tree.crown_area_m2"), b.field("tree.drag_coefficient")},
		Summary: words.Listed(b.shown("site.wind_mps")),
	}
}

// stated tells a section's verdict and use.
func stated(s *pieceState) (state, use string) {
	if s == nil {
		return "", ""
	}
	if !math.IsNaN(s.use) {
		use = units.Percent(s.use) + " used"
	}
	return s.verdict.String(), use
}

func (b *formBuilder) pointList() parts.Section {
	n := b.d.Size("points")
	s := parts.Section{
		ID: "points", Title: "Points on the ground",
		Help:    "Every place a rope goes to besides the tree: anchors, redirects, the machine.",
		Actions: []parts.Action{{Do: "add", Path: "points", Label: "Add a point"}},
		Summary: words.CountOf(n, "point", "points"),
	}
	for i := range n {
		s.Sections = append(s.Sections, b.point(i))
	}
	return s
}

func (b *formBuilder) point(i int) parts.Section {
	path := draft.Elem("points", i)
	id := b.d.Text(path + ".id")
	state, use := stated(b.points[id])
	s := parts.Section{
		ID: path, Title: fields.PointTitle(b.d, i), State: state,
		Fields: b.fieldsOf(path, "id", "bearing_deg", "distance_m", "rise_m"),
		Actions: []parts.Action{
			{Do: "add-block", Path: path, Label: b.d.Say("Add a {block} here")}, {Do: "add-sling", Path: path, Label: b.d.Say("Add a {strop} here")},
			{Do: "add-shackle", Path: path, Label: b.d.Say("Add a {shackle} here")}, {Do: "remove", Path: path, Label: "Remove this point"},
		},
	}
	anchor := b.anchor(path + ".anchor")
	s.Summary = words.Listed(b.shown(path+".distance_m"), words.Around("at ", b.shown(path+".bearing_deg"), ""), anchor.Summary, use)
	s.Sections = []parts.Section{anchor}
	return s
}

// anchorFields are the fields of each kind of anchor, in order.
var anchorFields = []keyed.Row[[]string]{
	{Key: "rated", Value: []string{"capacity_kN"}},
	{Key: "machine", Value: []string{"mass_kg", "traction", "slope_deg", "rated_kN"}},
	{Key: "tree", Value: []string{"diameter_cm", "height_m", "sling_height_m", "turning_Nm_per_kg", "factor", "form_factor", "green_density_kgm3"}},
	{Key: "stump", Value: []string{"diameter_cm", "height_m", "sling_height_m", "turning_Nm_per_kg", "factor", "form_factor", "green_density_kgm3"}},
	{Key: "buried_log", Value: []string{"depth_m", "length_m", "diameter_cm", "slot_m", "soil_factor", "factor"}},
	{Key: "pickets", Value: []string{"rows", "soil_factor", "factor"}},
	{Key: "bridle", Value: []string{"self_adjusting"}},
}

func (b *formBuilder) anchor(path string) parts.Section {
	kind := b.d.Text(path + ".kind")
	s := parts.Section{ID: path, Title: "Anchor", Fields: []parts.Field{b.field(path + ".kind")}, Help: words.AnchorEstimate}
	if b.d.Has(path + ".kind") {
		s.Summary = parts.LabelOf(b.d.Locale, fields.AnchorKinds, kind)
	} else {
		s.Summary = "no anchor"
		s.Help = ""
	}
	keys, _ := keyed.Find(anchorFields, kind)
	s.Fields = append(s.Fields, b.fieldsOf(path, keys...)...)
	if kind == "bridle" {
		n := b.d.Size(path + ".legs")
		for i := range n {
			leg := draft.Elem(path+".legs", i)
			s.Sections = append(s.Sections, parts.Section{
				ID: leg, Title: "Leg " + strconv.Itoa(i+1), Fields: b.fieldsOf(leg, "point"),
				Summary: words.Around("to point ", b.written(leg+".point"), ""),
				Actions: []parts.Action{{Do: "remove", Path: leg, Label: "Remove this leg"}},
			})
		}
		if n < 3 {
			s.Actions = append(s.Actions, parts.Action{Do: "add", Path: path + ".legs", Label: "Add a leg"})
		}
	} else if kind == "rated" {
		s.Summary = words.Listed(s.Summary, b.shown(path+".capacity_kN"))
	}
	return s
}

func (b *formBuilder) lineList() parts.Section {
	n := b.d.Size("lines")
	s := parts.Section{
		ID: "lines", Title: "Lines",
		Help:    b.d.Say("From where the rope is made fast to where it is pulled."),
		Actions: []parts.Action{{Do: "add-pull", Path: "lines", Label: b.d.Say("Add a {pull line}")}, {Do: "add-hold", Path: "lines", Label: b.d.Say("Add a {hold line}")}},
		Summary: words.CountOf(n, "line", "lines"),
	}
	for i := range n {
		s.Sections = append(s.Sections, b.line(i))
	}
	return s
}

func (b *formBuilder) line(i int) parts.Section {
	path := draft.Elem("lines", i)
	id := b.d.Text(path + ".id")
	state, use := stated(b.pieces[id+"/puller"])
	keys := []string{"id", "role"}
	if b.d.Text(path+".role") == "hold" || b.d.Has(path+".tended") {
		keys = append(keys, "tended")
	}
	if b.d.Text(path+".role") != "hold" || b.d.Has(path+".share") {
		keys = append(keys, "share")
	}
	way := b.way(path)
	return parts.Section{
		ID: path, Title: fields.LineTitle(b.d, i), Fields: b.fieldsOf(path, keys...),
		Summary: way.Summary,
		Sections: []parts.Section{
			way,
			b.tackle(path + ".tackle"),
			b.puller(path+".puller", state, use),
			{ID: path + ".rope", Title: "Sag and stretch of the rope", Fields: b.fieldsOf(path+".rope", "mass_kgpm", "stiffness_kN"),
				Help:    "Only for the sag, the stretch and the energy stored; the rope's strength goes under gear.",
				Summary: words.Listed(b.shown(path+".rope.mass_kgpm"), b.shown(path+".rope.stiffness_kN"))},
		},
		Actions: []parts.Action{
			{Do: "add-rope", Path: path, Label: "Add its rope to the gear"}, {Do: "add-stem", Path: path, Label: b.d.Say("Add its {strop} on the {stem} to the gear")},
			{Do: "remove", Path: path, Label: "Remove this line"},
		},
	}
}

// limitFields are the fields that go with each answer to what limits a puller.
var limitFields = []keyed.Row[[]string]{
	{Key: "stall", Value: []string{"stall_kN"}},
	{Key: "device", Value: []string{"setting_kN"}},
	{Key: "grip", Value: []string{"stall_kN"}},
	{Key: "watched", Value: []string{"setting_kN", "stall_kN"}},
}

// puller is the section of what hauls a line. A value given that the answer
// does not ask for stays in sight: nothing typed is lost.
func (b *formBuilder) puller(path, state, use string) parts.Section {
	keys := []string{"rated_kN", "limited_by"}
	asked, _ := keyed.Find(limitFields, b.d.Text(path+".limited_by"))
	keys = append(keys, asked...)
	for _, key := range []string{"setting_kN", "stall_kN"} {
		if b.d.Has(path+"."+key) && !slices.Contains(keys, key) {
			keys = append(keys, key)
		}
	}
	return parts.Section{
		ID: path, Title: b.d.Say("{Puller}"), State: state, Fields: b.fieldsOf(path, keys...),
		Help:    b.d.Say("{Machines} or hand winch at the hauling end."),
		Summary: words.Listed(words.Around("rated ", b.shown(path+".rated_kN"), ""), words.Around("stops at ", b.shown(path+".setting_kN"), ""), words.Around("stalls at ", b.shown(path+".stall_kN"), ""), use),
	}
}

// stationName says where a station is in words.
func (b *formBuilder) stationName(path string) string {
	switch at := b.d.Station(path); at {
	case "":
		return "not chosen yet"
	case "stem":
		return b.d.Say("on the {stem}") + words.Around(" at ", b.shown(path+".stem_m"), "")
	default:
		return "point " + at[len("point/"):]
	}
}

// firstProblem is the first problem of several paths.
func (b *formBuilder) firstProblem(paths ...string) string {
	for _, p := range paths {
		if m := b.problems[p]; m != "" {
			return m
		}
	}
	return ""
}

// way is the section of a line's path.
func (b *formBuilder) way(line string) parts.Section {
	path := line + ".path"
	n := b.d.Size(path)
	s := parts.Section{
		ID: path, Title: "Way of the rope",
		Help:    b.d.Say("In order from its {dead end} to the hauling end. Every station between the first and the last is a {block}."),
		Actions: []parts.Action{{Do: "add", Path: path, Label: "Add a station"}},
	}
	tackle := b.d.Has(line + ".tackle")
	var names []string
	for j := range n {
		st := draft.Elem(path, j)
		name := b.stationName(st)
		names = append(names, name)
		role := b.d.Say("Through a {block}")
		switch {
		case j == 0:
			role = "Made fast"
		case j == n-1 && tackle:
			role = b.d.Say("{Tackle} anchored")
		case j == n-1:
			role = "Pulled from"
		}
		at := b.d.Station(st)
		f := []parts.Field{{
			Path: st + ".@at", Label: "Where", Kind: fields.Choice, Text: at, Options: parts.WithValue(b.at, at),
			Help:    b.d.Say("On the {stem}, or one of the points."),
			Problem: b.firstProblem(st+".point", st),
		}}
		if at == "stem" || at == "" || b.d.Has(st+".stem_m") {
			f = append(f, b.field(st+".stem_m"))
		}
		if j > 0 && j < n-1 || b.d.Has(st+".efficiency") {
			f = append(f, b.field(st+".efficiency"))
		}
		if name := tieName(b.d, line, j); name != "" {
			f = append(f, b.tied(st, line, name))
		}
		s.Sections = append(s.Sections, parts.Section{
			ID: st, Title: strconv.Itoa(j+1) + ". " + role, Summary: name, Fields: f, Actions: moves(st, j, n, "Remove this station"),
		})
	}
	s.Summary = strings.Join(names, " → ")
	return s
}

// tieName is what an end of a line is called among those the rope is tied at, ""
// for a station between the ends or not chosen yet.
func tieName(d *draft.Plan, line string, station int) string {
	path := line + ".path"
	at := d.Station(draft.Elem(path, station))
	switch {
	case station == 0 && at == "stem":
		return "stem"
	case station == 0:
		return strings.TrimPrefix(at, "point/")
	case station == d.Size(path)-1:
		return "end"
	}
	return ""
}

// tied asks whether the rope itself is made fast at an end.
func (b *formBuilder) tied(station, line, name string) parts.Field {
	text := ""
	point := strings.TrimPrefix(b.d.Station(station), "point/")
	for _, v := range b.d.List(line + ".tied") {
		if v == name || v == point {
			text = "true"
		}
	}
	return parts.Field{
		Path: station + ".@tied", Label: "The rope itself is tied here", Kind: fields.Flag, Text: text,
		Help:    "Then no piece is needed at this end, and its rope needs a reduction for the knot or termination.",
		Problem: b.firstProblem(line + ".tied"),
	}
}

// moves are the actions on one of n elements.
func moves(path string, j, n int, remove string) []parts.Action {
	var a []parts.Action
	if j > 0 {
		a = append(a, parts.Action{Do: "up", Path: path, Label: "Move up"})
	}
	if j < n-1 {
		a = append(a, parts.Action{Do: "down", Path: path, Label: "Move down"})
	}
	return append(a, parts.Action{Do: "remove", Path: path, Label: remove})
}

func (b *formBuilder) tackle(path string) parts.Section {
	s := parts.Section{ID: path, Title: b.d.Say("{Tackle}")}
	if !b.d.Has(path) {
		s.Summary = "none"
		s.Help = b.d.Say("Hangs between the line and its last station, to multiply the pull.")
		s.Actions = []parts.Action{{Do: "add-tackle", Path: path, Label: b.d.Say("Add a {tackle}")}}
		return s
	}
	s.Fields = append([]parts.Field{{
		Path: path + ".@ready", Label: b.d.Say("Ready-made {tackle}"), Kind: fields.Choice, Text: readyKey(b.d, path), Options: readyOptions.Options(),
		Help: "Choosing one replaces the stages or the reeving. Count the parts against what hangs there.",
	}}, b.fieldsOf(path, "efficiency")...)
	if b.d.Has(path + ".reeving") {
		s.Sections = append(s.Sections, b.reeving(path))
	}
	if n := b.d.Size(path + ".stages"); n > 0 || !b.d.Has(path+".reeving") {
		stages := parts.Section{
			ID: path + ".stages", Title: "Stages",
			Help:    b.d.Say("One stage is a simple {tackle}. Of several, the haul of one is the load of the next, in order from the load."),
			Actions: []parts.Action{{Do: "add", Path: path + ".stages", Label: "Add a stage"}}, Summary: words.CountOf(n, "stage", "stages"),
		}
		for k := range n {
			st := draft.Elem(path+".stages", k)
			stages.Sections = append(stages.Sections, parts.Section{
				ID: st, Title: "Stage " + strconv.Itoa(k+1), Fields: b.fieldsOf(st, "parts", "haul_from"),
				Summary: words.Listed(words.Around("", b.shown(st+".parts"), " parts"), words.Around("hauled from ", parts.LabelOf(b.d.Locale, fields.HaulFrom, b.d.Text(st+".haul_from")), "")),
				Actions: moves(st, k, n, "Remove this stage"),
			})
		}
		s.Sections = append(s.Sections, stages)
	}
	haul := path + ".haul_path"
	n := b.d.Size(haul)
	h := parts.Section{
		ID: haul, Title: "Way of the hauling part",
		Help:    b.d.Say("From the {tackle} to the {puller}, in order; the last one is the {puller}, every one before it a {block}."),
		Actions: []parts.Action{{Do: "add", Path: haul, Label: "Add a station"}},
	}
	var names []string
	for j := range n {
		st := draft.Elem(haul, j)
		role, keys := b.d.Say("Through a {block}"), []string{"point", "efficiency"}
		if j == n-1 {
			role = b.d.Say("{Puller}")
			if !b.d.Has(st + ".efficiency") {
				keys = keys[:1]
			}
		}
		name := words.Around("point ", b.written(st+".point"), "")
		names = append(names, name)
		h.Sections = append(h.Sections, parts.Section{
			ID: st, Title: strconv.Itoa(j+1) + ". " + role, Summary: name,
			Fields: b.fieldsOf(st, keys...), Actions: moves(st, j, n, "Remove this station"),
		})
	}
	h.Summary = strings.Join(names, " → ")
	s.Sections = append(s.Sections, h)
	s.Actions = []parts.Action{{Do: "remove", Path: path, Label: b.d.Say("Remove the {tackle}")}}
	s.Summary = "hauled by way of " + h.Summary
	if h.Summary == "" {
		s.Summary = "way of the hauling part not given"
	}
	return s
}

// reeving is a tackle that stages cannot say: its places and its ropes.
func (b *formBuilder) reeving(tackle string) parts.Section {
	path := tackle + ".reeving"
	list := func(key, title, one, add string, fields ...string) parts.Section {
		at := path + "." + key
		n := b.d.Size(at)
		s := parts.Section{ID: at, Title: title, Summary: words.CountOf(n, one, one+"s"), Actions: []parts.Action{{Do: "add", Path: at, Label: add}}}
		for k := range n {
			item := draft.Elem(at, k)
			first, _ := b.d.At(item + "." + fields[0])
			s.Sections = append(s.Sections, parts.Section{
				ID: item, Title: words.Capital(one) + " " + strconv.Itoa(k+1), Summary: strings.ReplaceAll(joinLines(first), "\n", " → "),
				Fields: b.fieldsOf(item, fields...), Actions: moves(item, k, n, "Remove this "+one),
			})
		}
		return s
	}
	return parts.Section{
		ID: path, Title: "Reeving of its own",
		Help: b.d.Say("Any {tackle} on one axis: name its places, then say which of them each rope runs over. It takes one rope more than there are moving places."),
		Sections: []parts.Section{
			list("nodes", "Places", "place", "Add a place", "id", "kind", "at"),
			list("ropes", "Ropes", "rope", "Add a rope", "path", "efficiency"),
		},
		Actions: []parts.Action{{Do: "stages", Path: tackle, Label: "Replace it with stages"}},
	}
}

// Bases of a limit: which field of the plan holds it.
var limitKeys = []string{"wll_kN", "wll_t", "mbl_kN"}

func (b *formBuilder) bases() []parts.Option {
	return []parts.Option{
		{Value: "wll_kN", Label: "working load limit in " + b.u.Units[units.Kilonewtons].Name},
		{Value: "wll_t", Label: "working load limit in tonnes (t), as stamped on the tag"},
		{Value: "mbl_kN", Label: "minimum breaking load and a design factor"},
	}
}

// limitKey is the field that holds a piece's limit, the first if there are
// several, "" if there is none.
func limitKey(d *draft.Plan, path string) string {
	for _, key := range limitKeys {
		if _, ok := d.At(path + "." + key); ok {
			return key
		}
	}
	return ""
}

func (b *formBuilder) gearList() parts.Section {
	n := b.d.Size("gear")
	s := parts.Section{
		ID: "gear", Title: "Gear",
		Help:    "Every piece between the tree and the anchors, with the limit from its own tag. What is not in this list is not judged.",
		Actions: []parts.Action{{Do: "add", Path: "gear", Label: "Add a piece"}, {Do: "pick-gear", Path: "gear", Label: "Pick from the gear list"}},
		Summary: words.CountOf(n, "piece", "pieces"),
	}
	for i := range n {
		s.Sections = append(s.Sections, b.piece(i))
	}
	return s
}

func (b *formBuilder) piece(i int) parts.Section {
	path := draft.Elem("gear", i)
	state, use := stated(b.pieces[b.d.Text(path+".id")])
	place := b.d.GearPlace(path)
	s := parts.Section{
		ID: path, Title: fields.GearTitle(b.d, i), State: state,
		Fields: append(b.fieldsOf(path, "id", "kind"),
			parts.Field{
				Path: path + ".@place", Label: "Where it sits", Kind: fields.Choice, Text: place, Options: parts.WithValue(b.places, place),
				Help:    b.d.Say("On a line it carries that line's highest tension; at the {stem} what the line puts on it there; at a point what the point carries."),
				Problem: b.firstProblem(path+".line", path+".point", path+".place"),
			}),
		Actions: []parts.Action{{Do: "remove", Path: path, Label: "Remove this piece"}},
	}
	s.Fields = append(s.Fields, b.limitFields(path)...)
	s.Fields = append(s.Fields, b.fieldsOf(path, "hitch_factor", "size", "terminations", "notes")...)
	s.Summary = words.Listed(b.d.GearPlaceWords(path), b.limitWords(path), use)
	s.Sections = []parts.Section{b.reductions(path), b.inspection(path, "last_inspection", "next_inspection", "retired", "cleared")}
	return s
}

// limitFields ask for what a piece may carry.
func (b *formBuilder) limitFields(path string) []parts.Field {
	offered := limitKey(b.d, path)
	if offered == "" {
		offered = limitKeys[0]
		if b.u.Key == units.TF.Key {
			offered = limitKeys[1]
		}
	}
	out := []parts.Field{{
		Path: path + ".@basis", Label: "Limit given as", Kind: fields.Choice, Text: offered, Options: b.bases(),
		Help: "How the tag or the certificate gives it. Changing it between force and tonnes converts the number; for a breaking load type the number anew.",
	}, b.field(path + "." + offered)}
	for _, key := range limitKeys {
		if _, ok := b.d.At(path + "." + key); ok && key != offered {
			out = append(out, b.field(path+"."+key))
		}
	}
	if offered == "mbl_kN" || b.d.Has(path+".design_factor") {
		out = append(out, b.field(path+".design_factor"))
	}
	return out
}

// limitWords is a piece's limit as it is given, "" without one.
func (b *formBuilder) limitWords(path string) string {
	basis := limitKey(b.d, path)
	limit := words.Around("", b.shown(path+"."+basis), "")
	if basis == "mbl_kN" {
		limit = words.Around("", limit, " breaking")
	}
	return limit
}

// inspection asks for a piece's dates.
func (b *formBuilder) inspection(path string, keys ...string) parts.Section {
	retired := ""
	if b.d.Flag(path + ".retired") {
		retired = "retired"
	}
	return parts.Section{
		ID: path + "#inspection", Title: "Inspection", Fields: b.fieldsOf(path, keys...),
		Help:    "Left empty, nothing is held to a date.",
		Summary: words.Listed(retired, words.Around("again by ", b.written(path+".next_inspection"), ""), words.Around("last on ", b.written(path+".last_inspection"), "")),
	}
}

// reductions lists what takes strength off a piece.
func (b *formBuilder) reductions(path string) parts.Section {
	reductions := parts.Section{
		ID: path + ".reductions", Title: "Reductions",
		Help:    "Each takes its share: knots, splices, tight bends, side load, wear.",
		Actions: []parts.Action{{Do: "add", Path: path + ".reductions", Label: "Add a reduction"}},
		Summary: words.CountOf(b.d.Size(path+".reductions"), "reduction", "reductions"),
	}
	for k := range b.d.List(path + ".reductions") {
		red := draft.Elem(path+".reductions", k)
		reductions.Sections = append(reductions.Sections, parts.Section{
			ID: red, Title: "Reduction " + strconv.Itoa(k+1), Fields: b.fieldsOf(red, "why", "factor"),
			Summary: words.Listed(b.written(red+".why"), b.shown(red+".factor")),
			Actions: []parts.Action{{Do: "remove", Path: red, Label: "Remove this reduction"}},
		})
	}
	return reductions
}

func (b *formBuilder) pull() parts.Section {
	return parts.Section{
		ID: "pull", Title: "The pull planned",
		Fields:  b.fieldsOf("", "pull_date", "allowance", "planned_kN"),
		Summary: words.Listed(b.shown("pull_date"), words.Around("allowance ", b.shown("allowance"), ""), words.Around("own planned tension ", b.shown("planned_kN"), "")),
	}
}

// measured are the fields whose give or take is asked for.
var measured = []string{
	"tree.height_m", "tree.diameter_cm", "tree.lean_deg", "tree.lean_bearing_deg", "tree.form_factor", "tree.green_density_kgm3",
	"tree.bending_strength_MPa", "tree.crown_fraction", "tree.crown_centre_m", "tree.crown_offset_m", "tree.mass_kg", "tree.mass_centre_m",
	"cut.hinge_left_cm", "cut.hinge_right_cm", "site.wind_mps",
}

func (b *formBuilder) giveOrTake() parts.Section {
	s := parts.Section{
		ID: "plus_minus", Title: "Give or take",
		Help: "How far a measurement may be out, either way, in 19 cases of 20.",
	}
	listed := make(map[string]bool, len(measured))
	add := func(target string) {
		f := b.field(draft.PlusMinus + target)
		f.Label = "± " + fields.LabelOf(b.d, target)
		f.Help, f.Suggest, f.Options = "", nil, nil
		if f.Kind != fields.Number {
			f.Kind, f.Unit = fields.Text, ""
		}
		s.Fields = append(s.Fields, f)
		listed[target] = true
	}
	for _, target := range measured {
		if b.d.Has(target) || b.d.Has(draft.PlusMinus+target) {
			add(target)
		}
	}
	for i := range b.d.List("points") {
		add(draft.Elem("points", i) + ".distance_m")
	}
	for i := range b.d.List("lines") {
		for j := range b.d.List(draft.Elem("lines", i) + ".path") {
			if st := draft.Elem(draft.Elem("lines", i)+".path", j); b.d.Station(st) == "stem" {
				add(st + ".stem_m")
			}
		}
	}
	given := b.d.Object("plus_minus")
	for _, target := range slices.Sorted(maps.Keys(given)) {
		if !listed[target] {
			add(target)
		}
	}
	s.Summary = words.CountOf(len(given), "measurement", "measurements")
	return s
}

func (b *formBuilder) about() parts.Section {
	return parts.Section{ID: "about", Title: "Name and notes", Fields: b.fieldsOf("", "name", "notes"), Summary: b.written("name")}
}
