package bench

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"pullline/rigging"
	"pullline/wasm/class/marking"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// ownReeving is the choice of a tackle that is reeved in the bench. What is
// reeved is a text of rigging.ParseReeving, so that an address can carry it;
// nextRope at its end says that the next place begins another rope.
const (
	ownReeving = "own"
	nextRope   = ";"
)

// tackle: simple, compound and complex tackles, ready-made or reeved
// part by part.
var tackle = bench{
	id:    "tackle",
	title: "{Tackle}s",
	idea: "Every part of rope that pulls on the load shares it, and the rope comes in by as much as all those parts shorten: force gained is rope hauled. " +
		"Friction at every sheave adds to the pull you may need; load and anchor are checked against that pull without friction.",
	inputs: []input{
		{key: "tackle", label: "{Tackle}", start: "simple-3-moving", options: tackleOptions()},
		{key: "reeving", label: "The reeving, place by place",
			help: "The places the rope touches, from where it is made fast, with hyphens between, such as load-anchor-load-haul. block1, block2, block3: {block}s that travel between anchor and load, " +
				"counted from the anchor. block4, anchor2: a {block} and an anchor beyond the load. haul: hauled on past the anchor; haulback: hauled back past the load. A semicolon begins another rope.",
			when: func(b *work) bool { return b.text["tackle"] == ownReeving },
			check: func(b *work, text string) string {
				if _, err := rigging.ParseReeving(text); err != nil {
					return b.reevingFault(err)
				}
				return ""
			}},
		{key: "load_kN", label: "Load", dim: units.Kilonewtons, way: units.Up, low: 0.1, high: 1000, start: "20", step: 1, fine: 0.1},
		{key: "efficiency", label: "Efficiency of a sheave", dim: units.Plain, low: 0.5, high: 1, start: "0.9", step: 0.01, fine: 0.01, suggest: &offer.Sheaves,
			help: "1 is without friction. The field rule is a tenth lost at every sheave: 0.9."},
		{key: "hauled_m", label: "Rope hauled so far", dim: units.Metres, high: 10, start: "3", step: 1, fine: 0.1},
	},
	question: "What pull on the rope moves the load?",
	guess:    guessTackle,
	solve:    solveTackle,
	draw:     drawTackle,
	lines: func(b *work) float64 {
		return headLines + footLines + linesPerRow*float64(b.kept.(*tackleState).rows())
	},
	act: actTackle,
	curve: func(b *work) curve {
		s := b.kept.(*tackleState)
		if !s.works {
			return curve{}
		}
		return curve{x: "efficiency", nameX: "efficiency of a sheave", nameY: "load ÷ pull", way: units.Down, points: 25, lines: []curveLine{
			{class: "curve", name: "with friction", at: func(x float64) float64 {
				t, err := s.reeving.Solve(x)
				if err != nil {
					return math.NaN()
				}
				return t.Actual
			}},
			{class: "curve-hold", name: "without", at: func(float64) float64 { return s.result.Ideal }},
		}}
	},
}

var readyReevings = sync.OnceValue(rigging.ReadyReevings)

func tackleOptions() []parts.Choice {
	var out []parts.Choice
	for _, r := range readyReevings() {
		out = append(out, parts.Choice{Value: r.Key, Label: words.Text(r.Name)})
	}
	return append(out, parts.Choice{Value: ownReeving, Label: "Reeve your own"})
}

type tackleState struct {
	reeving rigging.Reeving
	result  rigging.TackleResult
	free    rigging.TackleResult // without friction
	works   bool                 // result holds
	tiedOff bool                 // the next place begins another rope
	letters []string             // of the nodes, told apart
	parts   []tacklePart
	load    float64 // kN
	hauled  float64 // m
}

// A tacklePart is a part of rope between two places.
type tacklePart struct {
	rope     int
	from, to int // nodes
	first    bool
	name     string      // S₁ … by the order of the parts; the hauling part is F
	said     parts.Value // with its tension
	tension  float64     // kN
}

func solveTackle(b *work) {
	s := &tackleState{load: b.in["load_kN"], hauled: b.in["hauled_m"]}
	b.kept = s
	own := b.text["tackle"] == ownReeving
	if own {
		s.reeving, _ = rigging.ParseReeving(b.text["reeving"]) // checked as it was read
	} else {
		for _, r := range readyReevings() {
			if r.Key == b.text["tackle"] {
				s.reeving = r.Reeving
				source := words.CommonPractice
				if r.Source != "" {
					source = words.Text(r.Source)
				}
				b.note("reeving", words.Text(r.Description), source)
			}
		}
	}
	s.tiedOff = own && strings.HasSuffix(b.reeved(), nextRope)
	s.name(own)
	b.lacks = b.missing(s)
	if b.lacks == "" {
		var err error
		s.result, err = s.reeving.Solve(b.in["efficiency"])
		if err != nil {
			b.lacks = b.Say("This reeving cannot be worked out: %s", b.reevingFault(err))
		}
		s.works = err == nil
	}
	if s.works {
		var err error
		s.free, err = s.reeving.WithoutFriction().Solve(1)
		s.works = err == nil
	}
	b.tackleActions(own, s)
	if !s.works {
		return
	}
	for i := range s.parts {
		p := &s.parts[i]
		p.tension = s.result.PartTensions[p.rope][i-s.firstOf(p.rope)] * s.load
		p.said = parts.Let(p.name, b.u.Load(p.tension))
		b.out.Parts = append(b.out.Parts, parts.Fact{ID: "part-" + p.name, Label: p.name, Value: b.u.Load(p.tension), Working: "pull"})
	}
	b.tackleWorking(s)
	b.note("anchor", "With the haul on past the anchor, the anchor holds the load less the pull; hauled back, the load and the pull. Rig it for that.", "statics")
	b.note("both_ways", "More sheave friction means a harder haul; with less than you think, all of it reaches the load and the anchor. Check gear and anchors against the number without friction.", words.CommonPractice)
	b.note("field-rule", "The field rule adds a tenth of the whole load for every sheave; plan the pull by whichever is greater.", fieldRuleSource)
	b.leftOut("Left out: weight and stiffness of the rope, {block}s that tip, parts that do not run side by side. Paying out, friction works the other way round.")
	for _, n := range s.result.NodeLoads {
		if n.Straight > 0 {
			b.note("straight", "At a {block} where the rope runs straight on, its load depends on the angle at which it is really led.", "statics")
			break
		}
	}
}

// reevingFault says what is wrong with a reeving.
func (b *work) reevingFault(err error) string {
	return b.Say("%s.", words.Capital(b.Error(err)))
}

// name gives places and parts their letters; those of one's own reeving keep
// theirs while it grows.
func (s *tackleState) name(own bool) {
	number := map[string]int{}
	s.letters = make([]string, len(s.reeving.Nodes))
	for i, n := range s.reeving.Nodes {
		number[n.ID] = i
		if own {
			s.letters[i] = placeLetter(n)
			continue
		}
		same, before := 0, 0
		for k, m := range s.reeving.Nodes {
			if m.Kind != n.Kind {
				continue
			}
			same++
			if m.At < n.At || m.At == n.At && k < i {
				before++
			}
		}
		s.letters[i] = kindLetters[n.Kind]
		if same > 1 {
			s.letters[i] += subscript(before + 1)
		}
	}
	for i, rope := range s.reeving.Ropes {
		for j := 1; j < len(rope.Path); j++ {
			p := tacklePart{rope: i, from: number[rope.Path[j-1]], to: number[rope.Path[j]], first: j == 1, name: "S" + subscript(len(s.parts)+1)}
			if s.kind(p.to) == rigging.HaulNode {
				p.name = "F"
			}
			s.parts = append(s.parts, p)
		}
	}
}

// nodeOf finds a place of the reeving.
func (s *tackleState) nodeOf(id string) int {
	return slices.IndexFunc(s.reeving.Nodes, func(n rigging.ReevingNode) bool { return n.ID == id })
}

// find is the first node of a kind, -1 for none.
func (s *tackleState) find(kind rigging.NodeKind) int {
	return slices.IndexFunc(s.reeving.Nodes, func(n rigging.ReevingNode) bool { return n.Kind == kind })
}

func (s *tackleState) kind(node int) rigging.NodeKind { return s.reeving.Nodes[node].Kind }

// side is the way a part runs: 1 toward the load's side of the tackle, −1
// toward the anchor's.
func (s *tackleState) side(p tacklePart) float64 {
	if s.reeving.Nodes[p.to].At > s.reeving.Nodes[p.from].At {
		return 1
	}
	return -1
}

// firstOf is the number of the first part of a rope.
func (s *tackleState) firstOf(rope int) int {
	for i := range s.parts {
		if s.parts[i].rope == rope {
			return i
		}
	}
	return 0
}

var kindLetters = map[rigging.NodeKind]string{rigging.AnchorNode: "A", rigging.MovingNode: "B", rigging.LoadNode: "L", rigging.HaulNode: "H"}

// placeLetter is the letter of a place of rigging.ReevingPlaces: that of its
// kind, with the number in its name.
func placeLetter(n rigging.ReevingNode) string {
	letter := kindLetters[n.Kind]
	if number, err := strconv.Atoi(n.ID[len(n.ID)-1:]); err == nil {
		letter += subscript(number)
	}
	return letter
}

func subscript(n int) string {
	digits := []rune(strconv.Itoa(n))
	for i := range digits {
		digits[i] += '₀' - '0'
	}
	return string(digits)
}

// missing says what a reeving lacks before it is worth working out, "" for
// nothing.
func (b *work) missing(s *tackleState) string {
	ropes := s.reeving.Ropes
	if len(ropes) == 0 {
		return b.Say("Nothing is reeved yet: choose where the rope is made fast.")
	}
	path := ropes[len(ropes)-1].Path
	end := s.letters[s.nodeOf(path[len(path)-1])]
	if len(path) == 1 {
		return b.Say("The rope is made fast at %s: choose where it goes next.", end)
	}
	moving := 0
	for i := range s.reeving.Nodes {
		if s.kind(i) == rigging.MovingNode {
			moving++
		}
	}
	switch {
	case s.find(rigging.LoadNode) < 0:
		return b.Say("Not finished: no rope reaches the load L yet.")
	case s.find(rigging.HaulNode) < 0:
		return b.Say("Not finished: the rope ends at %s. Lead it on, haul it, or start another rope.", end)
	case len(ropes) <= moving:
		return b.Say("Not finished: it hangs loose. Each moving {block} takes one more rope: %s here; there are %s. Start another, as a rule tied to that {block}.", units.Decimal(float64(moving+1), -1), units.Decimal(float64(len(ropes)), -1))
	case len(ropes) > moving+1:
		return b.Say("Too many ropes: some lock each other or hang idle. %s are enough here; there are %s.", units.Decimal(float64(moving+1), -1), units.Decimal(float64(len(ropes)), -1))
	}
	return ""
}

// Actions of reeving.
const (
	doReeveAnew = "reeve-anew"
	doChange    = "reeve-change"
	doUndo      = "reeve-undo"
	doNextRope  = "reeve-rope"
	doReeveTo   = "reeve-to-" // and the name of a place
)

// mostParts is how many parts are offered: more cannot be told apart.
const mostParts = 12

// places are where one's own reeving can lead.
var places = rigging.ReevingPlaces()

// placeOf is the number of a place by its name, -1 for none.
func placeOf(id string) int {
	return slices.IndexFunc(places, func(n rigging.ReevingNode) bool { return n.ID == id })
}

// placeLabel says what a place of rigging.ReevingPlaces is, with its letter.
func placeLabel(n rigging.ReevingNode) words.Text {
	beyond := n.At > places[placeOf("load")].At
	switch {
	case n.Kind == rigging.LoadNode:
		return "%s: load"
	case n.Kind == rigging.HaulNode && beyond:
		return "%s: haul back"
	case n.Kind == rigging.HaulNode:
		return "%s: haul on"
	case n.Kind == rigging.AnchorNode && beyond:
		return "%s: anchor beyond the load"
	case n.Kind == rigging.AnchorNode:
		return "%s: anchor"
	case beyond:
		return "%s: {block} beyond the load"
	}
	return "%s: {block}"
}

func (b *work) tackleActions(own bool, s *tackleState) {
	add := func(do string, label words.Text, args ...string) {
		b.out.Actions = append(b.out.Actions, parts.Action{Do: do, Label: b.Say(label, args...)})
	}
	if !own {
		add(doReeveAnew, "Reeve your own")
		if _, ok := rigging.ReevingText(s.reeving); ok {
			add(doChange, "Change this one")
		}
		return
	}
	var path []string // of the rope that goes on
	if n := len(s.reeving.Ropes); n > 0 && !s.tiedOff && !s.ended() {
		path = s.reeving.Ropes[n-1].Path
	}
	if !s.works && len(s.parts) < mostParts {
		hauled := s.find(rigging.HaulNode) >= 0
		for _, p := range places {
			if p.Kind == rigging.HaulNode && (hauled || path == nil) || path != nil && path[len(path)-1] == p.ID {
				continue
			}
			add(doReeveTo+p.ID, placeLabel(p), placeLetter(p))
		}
	}
	if !s.works && len(path) > 1 {
		add(doNextRope, "Tie off, start next rope")
	}
	if len(s.reeving.Ropes) > 0 {
		add(doUndo, "Undo last")
		add(doReeveAnew, "Start over")
	}
}

// reeved is the text of one's own reeving as rigging.ReevingText writes it,
// with nextRope at its end where that was typed.
func (b *work) reeved() string {
	r, _ := rigging.ParseReeving(b.text["reeving"]) // checked as it was read
	text, _ := rigging.ReevingText(r)
	if text != "" && strings.HasSuffix(strings.TrimRight(b.text["reeving"], " "), nextRope) {
		text += nextRope
	}
	return text
}

func actTackle(b *work, do string) {
	offered := false
	for _, a := range b.out.Actions {
		offered = offered || a.Do == do
	}
	if !offered {
		b.out.Message = b.Say("That cannot be done here.")
		return
	}
	s := b.kept.(*tackleState)
	text := b.reeved()
	switch do {
	case doReeveAnew:
		text = ""
	case doChange:
		text, _ = rigging.ReevingText(s.reeving)
	case doUndo:
		text = strings.TrimRight(text, nextRope)
		i := strings.LastIndexAny(text, "-"+nextRope)
		if i >= 0 && text[i:i+1] == nextRope {
			i++ // the rope before stays tied off
		}
		text = text[:max(i, 0)]
	case doNextRope:
		text += nextRope
	default:
		switch {
		case s.ended():
			text += nextRope
		case text != "" && !s.tiedOff:
			text += "-"
		}
		text += strings.TrimPrefix(do, doReeveTo)
	}
	b.out.Values["tackle"], b.out.Values["reeving"] = ownReeving, text
}

func guessTackle(b *work) marking.Wanted {
	s := b.kept.(*tackleState)
	if !s.works {
		return marking.Wanted{}
	}
	ideal, sheaves := s.result.Ideal, float64(s.reeving.Sheaves())
	want := marking.Wanted{Value: s.pull(), Dim: units.Kilonewtons, Way: units.Up, Tolerance: 0.05}
	add := func(over float64, says words.Text) {
		if over <= 0 || !marking.Apart(s.load/over, want.Value, want.Tolerance) {
			return
		}
		for _, other := range want.Slips {
			if !marking.Apart(s.load/over, other.Value, want.Tolerance) {
				return
			}
		}
		want.Slips = append(want.Slips, marking.Slip{Value: s.load / over, Says: says})
	}
	if s.result.Actual < ideal {
		add(ideal, "That is without friction: each sheave takes its share, so it needs more.")
	}
	if sheaves != ideal {
		add(sheaves, "That is the load over the number of sheaves: it is the parts that pull on the load that count, the hauling part with them where it leaves the moving {block}.")
	}
	add(ideal-1, "That leaves out the hauling part: it leaves the moving {block} here and pulls on the load as well.")
	add(ideal+1, "That counts one part too many: the hauling part only turns back at the fixed {block} and does not pull on the load.")
	add(1, "That is the load itself, as if it hung on one part.")
	return want
}

func (s *tackleState) pull() float64 { return s.result.HaulTension * s.load }

// ratio writes a number of times, to the unsafe side never more than it is.
func ratio(v float64, way units.Direction) string {
	return units.Decimal(units.Round(v, 0.01, way), -1)
}

const fieldRuleSource words.Text = "US Navy, Steelworker 2, NAVEDTRA 14251, allowance for friction"

func (b *work) tackleWorking(s *tackleState) {
	const byWork words.Text = "virtual work: any mechanics textbook"
	pull, actual, ideal := b.u.Load(s.pull()), ratio(s.result.Actual, units.Down)+" : 1", ratio(s.result.Ideal, units.Nearest)
	advantage := parts.Let("A", ideal).Of("without friction")
	b.fact("pull", "Pull on the rope", pull)
	field, err := rigging.FieldRulePull(s.load, s.reeving.Sheaves(), s.result.Ideal, rigging.FieldLossPerSheave)
	if err == nil {
		b.fact("field", "Pull by the field rule, a tenth of the load a sheave", b.u.Load(field))
	}
	b.fact("actual", "Load ÷ pull", actual)
	b.fact("ideal", "Without friction", ideal+" : 1")

	// How fast each place travels: no rope changes its length.
	var equations []string
	var speeds []parts.Value
	haul := 0
	for i := range s.reeving.Ropes {
		sum := make([]float64, len(s.reeving.Nodes))
		for _, p := range s.parts {
			if p.rope == i {
				sum[p.to] += s.side(p)
				sum[p.from] -= s.side(p)
			}
		}
		equation, turn := "", 0.0
		for n := range sum {
			if s.kind(n) != rigging.AnchorNode && sum[n] != 0 {
				if turn == 0 {
					turn = math.Copysign(1, sum[n])
				}
				equation = plusTimes(equation, turn*sum[n], "v("+s.letters[n]+")")
			}
		}
		equations = append(equations, equation+" = 0")
	}
	for n := range s.reeving.Nodes {
		if s.kind(n) == rigging.AnchorNode {
			continue
		}
		speeds = append(speeds, s.speed(n))
		if s.kind(n) == rigging.HaulNode {
			haul = n
		}
	}
	b.stepAs("ideal", b.Say("Rope hauled per length of travel: the advantage without friction"), strings.Join(equations, "; "), ideal+" : 1",
		b.Say("no rope changes its length; virtual work: any mechanics textbook"), append(speeds, parts.Let("", b.Say("speeds toward the anchor's side, with the load's as 1")))...)

	var passed []string
	var tensions []parts.Value
	W := parts.Let("W", b.u.Load(s.load)).Of("load")
	for i, p := range s.parts {
		if !p.first {
			before := s.parts[i-1]
			switch {
			case p.tension > before.tension*(1+units.Noise):
				passed = append(passed, p.name+" = "+before.name+"/η")
			case p.tension < before.tension*(1-units.Noise):
				passed = append(passed, p.name+" = η·"+before.name)
			default:
				passed = append(passed, p.name+" = "+before.name)
			}
		}
		tensions = append(tensions, p.said)
	}
	if passed == nil {
		passed = []string{b.Say("no sheave")}
	}
	b.stepAs("sheaves", b.Say("From part to part, at every sheave"), strings.Join(passed, "; "), "η = "+units.Significant(b.in["efficiency"], 3), b.Say("constant ratio at a sheave, as in Pipeline Rules of Thumb Handbook, p. 6"),
		parts.Let("η", units.Significant(b.in["efficiency"], 3)).Of("efficiency of a sheave"))

	var balances []string
	for n := range s.reeving.Nodes {
		near, far := s.pulls(n)
		switch s.kind(n) {
		case rigging.LoadNode:
			if far.sum != "" {
				far.sum = " + " + far.sum
			}
			balances = append([]string{near.sum + " = W" + far.sum}, balances...)
		case rigging.MovingNode:
			balances = append(balances, near.sum+" = "+far.sum)
		}
	}
	b.stepAs("pull", b.Say("Pull, by the balance of the load and of every moving {block}"), strings.Join(balances, "; "), pull, b.Say(statics), append([]parts.Value{W}, tensions...)...)
	if err == nil {
		b.step("field", "Pull by the field rule", "W·(1 + n/10)/A", b.u.Load(field), fieldRuleSource, W, parts.Let("n", units.Decimal(float64(s.reeving.Sheaves()), 0)).Of("sheaves"), advantage)
	}
	b.step("actual", "Advantage with friction", "W/F", actual, "statics", W, parts.Let("F", pull))
	for i, n := range s.result.NodeLoads {
		var carries words.Text
		switch {
		case n.Kind == rigging.AnchorNode:
			carries = "Anchor %s carries"
		case n.Kind == rigging.MovingNode:
			carries = "{Block} %s carries"
		case n.Kind == rigging.LoadNode && n.Sheaves > 0:
			carries = "{Block} at the load carries"
		default:
			continue
		}
		near, far := s.pulls(i)
		if far.total > near.total {
			near = far
		}
		b.workedAs("node-"+n.ID, b.Say(carries, s.letters[i]), b.u.Load(n.Load*s.load), near.sum, b.Say("statics, all its parts together"), near.said...)
	}
	atMost := func(path, name string, load float64) {
		b.workedAs("most-"+path, name, b.u.Load(s.pull()*s.free.Ideal*load), "F·m", b.Say("virtual work and statics, without friction: it is not relied on where it would reduce a load"),
			parts.Let("F", pull), parts.Let("m", units.Significant(load*s.free.Ideal, 4)).Of("times the pull, without friction"))
	}
	atMost("load", b.Say("Load at most, by that pull"), 1)
	for i, n := range s.free.NodeLoads {
		if n.Kind == rigging.AnchorNode {
			atMost(s.letters[i], b.Say("Anchor %s at most", s.letters[i]), n.Load)
		}
	}
	hauled := "v(" + s.letters[haul] + ")"
	b.workedAs("rope", b.Say("Rope to haul, times the load's travel"), ideal, b.Say("%s, with that of the load as 1", hauled), b.Say(byWork), s.speed(haul))
	for i := range s.reeving.Nodes {
		switch s.kind(i) {
		case rigging.MovingNode:
			v, way := s.result.Velocities[i]/s.result.Ideal, words.Text("{Block} %s travels toward the load by")
			if v < 0 {
				v, way = -v, "{Block} %s travels toward the anchor by"
			}
			b.workedAs("travel-"+s.letters[i], b.Say(way, s.letters[i]), b.Say("%s × the rope hauled", ratio(v, units.Nearest)), b.Say("v(%s)/%s, without sign", s.letters[i], hauled), b.Say(byWork), s.speed(i), s.speed(haul))
		case rigging.LoadNode:
			b.worked("come", "Load travel", b.u.Quantity(s.hauled/s.result.Ideal, units.Metres, units.Nearest), "rope/A", byWork, parts.Let("rope", b.u.Quantity(s.hauled, units.Metres, units.Nearest)).Of("hauled"), advantage)
		}
	}
}

// speed writes how fast a place travels toward the anchor's side, the load's
// speed being 1.
func (s *tackleState) speed(node int) parts.Value {
	return parts.Let("v("+s.letters[node]+")", units.Significant(-s.result.Velocities[node]+0, 4))
}

// A tacklePull is what pulls a place one way: the parts as a sum, and each.
type tacklePull struct {
	sum   string
	total float64 // kN
	said  []parts.Value
}

// pulls are what pulls a place toward the anchor's side and toward the
// load's.
func (s *tackleState) pulls(node int) (near, far tacklePull) {
	for _, p := range s.parts {
		for _, end := range [...]struct {
			node int
			side float64
		}{{p.from, s.side(p)}, {p.to, -s.side(p)}} {
			if end.node != node {
				continue
			}
			pull := &far
			if end.side < 0 {
				pull = &near
			}
			pull.sum = plusTimes(pull.sum, 1, p.name)
			pull.total += p.tension
			pull.said = append(pull.said, p.said)
		}
	}
	return near, far
}

// plusTimes adds a term to a sum in letters.
func plusTimes(sum string, k float64, name string) string {
	if k == 0 {
		return sum
	}
	sign := " + "
	if k < 0 {
		sign, k = " − ", -k
	}
	if sum == "" {
		sign = strings.TrimSuffix(strings.TrimPrefix(sign, " "), " ")
		sign = strings.TrimPrefix(sign, "+")
	}
	if k != 1 {
		name = units.Decimal(k, -1) + "·" + name
	}
	return sum + sign + name
}
