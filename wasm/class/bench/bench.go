package bench

import (
	"math"
	"slices"
	"strings"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/wasm/class/marking"
	"pullline/wasm/draw"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A bench is one idea of the trade in a picture: a handle or two, typed
// values, the number they lead to, its curve and its working.
type bench struct {
	id    string
	title words.Text
	idea  words.Text // what there is to see, in a sentence or two
	// inputs are what can be changed, in the order of their fields.
	inputs []input
	// question is asked before the numbers are shown; guess is what it asks
	// for. Without a question nothing is ever held back.
	question words.Text
	guess    func(b *work) marking.Wanted // without a tolerance: nothing to ask as it stands
	// solve works the bench out from its inputs, all of them in range: facts,
	// steps of the working and notes. What the pictures need it keeps in
	// b.kept.
	solve func(b *work)
	// draw makes the picture from what solve kept, and registers the handles.
	// It is not asked for where the box is too small.
	draw func(b *work, c *draw.Canvas) (title, desc string)
	// lines is how many lines of text the picture is high at least; nil where
	// it fits any box.
	lines func(b *work) float64
	// curve says what the bench's curve is of; nil for none.
	curve func(b *work) curve
	// act does an action of the bench, one of those solve put into
	// b.out.Actions; nil for none.
	act func(b *work, do string)
}

// An input is one value of a bench. One with options is a choice, whose
// value is the option's; one with neither options nor a range is a text.
type input struct {
	key       string // with its unit: "included_deg"
	label     words.Text
	help      words.Text
	dim       units.Dimension
	low, high float64 // accepted, both included, in the unit of the key
	start     string  // as the page keeps it: a plain decimal, an option's value or a text
	// One press of an arrow key, with Shift the finer one.
	step, fine float64
	// way is how the pictures round the value where it was typed in other
	// units: a load upward, what is relied on downward.
	way     units.Direction
	options []parts.Choice
	// check says what is wrong with a text, "" for nothing; nil where any is
	// taken.
	check func(b *work, text string) string
	// suggest offers published values of a number by name.
	suggest *offer.List
	// when says whether the value counts as the ones before it stand; nil for
	// always. One that does not count has no field.
	when func(b *work) bool
}

func (in *input) numeric() bool { return len(in.options) == 0 && (in.low != 0 || in.high != 0) }

// View is what the page shows of one bench.
type View struct {
	ID      string            `json:"id"`
	Title   string            `json:"title"`
	Idea    string            `json:"idea"`
	Benches []parts.Option    `json:"benches"` // all there are
	Themes  []parts.Option    `json:"themes"`  // what they are about: the first bench of each theme
	Values  map[string]string `json:"values"`  // all of them
	Changed map[string]string `json:"changed"` // those that are not where the bench starts: what the page keeps and sends with the next call
	Fields  []parts.Field     `json:"fields"`  // a field's path is its key among the values
	Actions []parts.Action    `json:"actions,omitempty"`
	Picture *draw.Drawing     `json:"picture,omitempty"`
	Curve   *draw.Drawing     `json:"curve,omitempty"`
	Facts   []parts.Fact      `json:"facts"`           // the main number first
	Parts   []parts.Fact      `json:"parts,omitempty"` // what the picture's letters stand for, where it has no room for all
	// Height is what the picture needs, in its pixels, where it is drawn
	// higher than its box; 0: the box will do.
	Height   float64        `json:"height,omitempty"`
	Working  []parts.Step   `json:"working"`
	Guess    *Guess         `json:"guess,omitempty"`
	Notes    []parts.Note   `json:"notes"` // what it leaves out, and cautions
	Units    []parts.Option `json:"units"`
	UnitsNow string         `json:"units_now"`
	Words    []parts.Option `json:"words"`
	WordsNow string         `json:"words_now"`
	// Hidden: the numbers are held back until the question is answered.
	Hidden bool `json:"hidden"`
	// Fresh is false where a value cannot be used: keep the last pictures,
	// greyed, and show no number.
	Fresh bool `json:"fresh"`
	// Lacks is why there is no number though every value can be used.
	Lacks   string `json:"lacks,omitempty"`
	Message string `json:"message,omitempty"` // why what was asked for was not done
}

// Guess is the question asked first, and what came of the answer.
type Guess struct {
	Question string `json:"question"`
	Unit     string `json:"unit,omitempty"`
	Text     string `json:"text"`    // as answered
	State    string `json:"state"`   // "": not answered; unread: it could not be read; right, wrong
	Message  string `json:"message"` // what is to be said of the answer
}

// themes are the themes in their order, with all benches there are.
var themes = []struct {
	title   words.Text
	benches []*bench
}{
	{"Rope and {block}s", []*bench{&redirect, &doubled, &friction, &tackle, &sag, &stretch}},
	{"The tree", []*bench{&slopeOfLine, &pullOffLay, &lean, &hinge}},
	{"The {puller}", []*bench{&drum, &pullerAtMost}},
	{"Slings and anchors", []*bench{&bridle, &slings, &machine, &pickets, &buriedLog}},
}

var benches = allBenches()

func allBenches() (all []*bench) {
	for _, theme := range themes {
		all = append(all, theme.benches...)
	}
	return all
}

// byID finds a bench; nil where there is none of that name.
func byID(id string) *bench {
	for _, b := range benches {
		if b.id == id {
			return b
		}
	}
	return nil
}

// work is a bench being worked out for one request.
type work struct {
	words.Locale // in whose words it is told
	u            *units.System
	spec         *bench
	in           map[string]float64 // numeric inputs
	text         map[string]string  // choices and texts
	hidden       bool
	kept         any    // what solve leaves for draw and curve
	lacks        string // why there is no number, where solve finds none
	out          *View
	grips        []grip
}

// A grip is what a handle of the picture does: to carries a place in the
// picture to values.
type grip struct {
	id   string
	x, y string // the keys arrow keys change along either axis, "" for none; a leading - reverses
	to   func(p draw.Pt)
}

// secret is a text with a number that a student is to guess first.
func (b *work) secret(text string) string {
	if b.hidden {
		return "?"
	}
	return text
}

// fact adds a number, with the arguments of its label. It opens the step of
// the working that bears its id.
func (b *work) fact(id string, label words.Text, value string, args ...string) {
	b.out.Facts = append(b.out.Facts, parts.Fact{ID: id, Label: b.Say(label, args...), Value: value})
}

// step adds a step of the working.
func (b *work) step(path string, name, formula words.Text, result string, source words.Text, values ...parts.Value) {
	b.stepAs(path, b.Say(name), b.Say(formula), result, b.Say(source), values...)
}

// stepAs is step for one whose name, formula or source depends on the values.
func (b *work) stepAs(path, name, formula, result, source string, values ...parts.Value) {
	s := parts.Step{Path: path, Name: name, Formula: formula, Values: make([]string, len(values)), Result: result, Source: source}
	for i, v := range values {
		s.Values[i] = v.In(b.Locale)
		if from := v.From(b.out.Working); from != "" {
			if s.From == nil {
				s.From = make([]string, len(values))
			}
			s.From[i] = from
		}
	}
	b.out.Working = append(b.out.Working, s)
}

// worked adds a number together with its step of the working.
func (b *work) worked(id string, label words.Text, result string, formula, source words.Text, values ...parts.Value) {
	b.fact(id, label, result)
	b.step(id, label, formula, result, source, values...)
}

// workedAs is worked with texts that depend on the values.
func (b *work) workedAs(id, label, result, formula, source string, values ...parts.Value) {
	b.out.Facts = append(b.out.Facts, parts.Fact{ID: id, Label: label, Value: result})
	b.stepAs(id, label, formula, result, source, values...)
}

// hundredths writes a number of times.
func hundredths(v float64, way units.Direction) string {
	return units.Decimal(units.Round(v, 0.01, way), 2)
}

// asGiven is where a number comes from that is one of the values.
const asGiven words.Text = "given among the values"

// note adds what the bench leaves out, or a caution, with the arguments of its
// message.
func (b *work) note(code string, message, source words.Text, args ...string) {
	b.out.Notes = append(b.out.Notes, parts.Note{Code: code, Message: b.Say(message, args...), Source: b.Say(source)})
}

// published is note with the source of a table's figure.
func (b *work) published(code string, message words.Text, source rigging.Source) {
	b.out.Notes = append(b.out.Notes, parts.Note{Code: code, Message: b.Say(message), Source: b.Source(source)})
}

// set puts a value into the range of its input and onto its grid.
func (b *work) set(key string, v float64, fine bool) {
	for i := range b.spec.inputs {
		in := &b.spec.inputs[i]
		if in.key != key || !in.numeric() || !draw.Finite(v) {
			continue
		}
		u := b.u.Units[in.dim]
		v = u.ToFile(units.Snap(v/u.Size, b.grid(in, fine)))
		b.put(key, min(max(v, in.low), in.high))
	}
}

// grid is the step of an input in the user's unit: the round one that is
// nearest below.
func (b *work) grid(in *input, fine bool) float64 {
	step, size := in.step, b.u.Units[in.dim].Size
	if fine {
		step = in.fine
	}
	if size == 1 {
		return step
	}
	p := math.Pow(10, math.Floor(math.Log10(step/size)))
	for _, k := range [...]float64{5, 2} {
		if k*p <= step/size {
			return k * p
		}
	}
	return p
}

func (b *work) put(key string, v float64) {
	b.in[key] = v
	b.out.Values[key] = units.Decimal(v, -1)
}

// grab registers a handle of the picture by what was said of it. Its fields
// are those of its keys.
func (b *work) grab(c *draw.Canvas, id, label string, at draw.Pt, x, y string, to func(p draw.Pt)) {
	axes, paths := "", []string{}
	if x != "" {
		axes += "x"
		paths = append(paths, strings.TrimPrefix(x, "-"))
	}
	if y != "" {
		axes += "y"
		if strings.TrimPrefix(y, "-") != strings.TrimPrefix(x, "-") {
			paths = append(paths, strings.TrimPrefix(y, "-"))
		}
	}
	c.Handle(draw.Handle{ID: "bench/" + id, Label: label, X: at.X, Y: at.Y, Axes: axes, Paths: paths})
	c.Keep(draw.Around(at, c.Grow(11))) // its ring
	b.grips = append(b.grips, grip{id: "bench/" + id, x: x, y: y, to: to})
}

// resolve reads the values the page sent. A value that cannot be used stays
// as it is, with the problem at its field.
func (b *work) resolve(values map[string]string) {
	b.out.Fresh, b.out.Changed = true, map[string]string{}
	for i := range b.spec.inputs {
		in := &b.spec.inputs[i]
		text, given := values[in.key]
		if !given {
			text = b.start(in)
		}
		f := parts.Field{Path: in.key, Label: b.Say(in.label), Help: b.Say(in.help), Text: text}
		idle := in.when != nil && !in.when(b)
		switch {
		case len(in.options) > 0:
			f.Kind = "choice"
			f.Options = parts.Told(b.Locale, in.options)
			if !slices.ContainsFunc(f.Options, func(o parts.Option) bool { return o.Value == text }) {
				f.Problem = b.Say("Choose one of these, not %s: %s.", words.Quoted(text), parts.Names(f.Options))
			}
			b.text[in.key] = text
		case !in.numeric():
			f.Kind = "text"
			b.text[in.key] = text
			if in.check != nil {
				f.Problem = in.check(b, text)
			}
		default:
			f.Kind, f.Unit = "number", b.u.Units[in.dim].Name
			if in.suggest != nil {
				f.Suggest = in.suggest.In(b.Locale)
			}
			v, ok := units.ParseNumber(text)
			if idle && !(ok && v >= in.low && v <= in.high) {
				text = b.start(in)
				v, ok = units.ParseNumber(text)
			}
			if ok {
				f.Text = b.shown(v, in, in.way)
				b.in[in.key] = v
			}
			if !ok || v < in.low || v > in.high || in.dim == units.Count && v != float64(int(v)) {
				f.Problem = b.span(in)
			}
		}
		b.out.Values[in.key] = text
		if text != b.start(in) {
			b.out.Changed[in.key] = text
		}
		if idle {
			continue
		}
		if f.Problem != "" {
			b.out.Fresh = false
		}
		b.out.Fields = append(b.out.Fields, f)
	}
}

// mostDigits is how many digits of a value a field shows as they are.
const mostDigits = 5

// shown writes a value for its field: as it was typed, or to three digits
// where it was typed, or the bench's limits are, in other units. What is kept
// has all its digits.
func (b *work) shown(v float64, in *input, way units.Direction) string {
	text := b.u.Field(v, in.dim, way)
	if len(strings.Trim(strings.ReplaceAll(text, ".", ""), "-0")) <= mostDigits {
		return text
	}
	v /= b.u.Units[in.dim].Size
	return units.Decimal(units.Round(v, units.DigitStep(v, 3), way), -1)
}

// start is what an input starts from: a round number in the user's unit.
func (b *work) start(in *input) string {
	u := b.u.Units[in.dim]
	v, ok := units.ParseNumber(in.start)
	if !ok || !in.numeric() || u.Size == 1 {
		return in.start
	}
	return units.Decimal(u.ToFile(units.RoundDigits(v/u.Size, 2)), -1)
}

// span says what an input takes.
func (b *work) span(in *input) string {
	low, high := b.shown(in.low, in, units.Up), b.shown(in.high, in, units.Down)+b.u.Suffix(in.dim)
	if in.dim == units.Count {
		return b.Say("Type a whole number from %s to %s.", low, high)
	}
	return b.Say("Type a number from %s to %s.", low, high)
}

// typed puts what was typed into a field among the values, in the unit they
// are kept in; what cannot be read is kept as it stands.
func (b *work) typed(values map[string]string, key, text string) {
	for i := range b.spec.inputs {
		in := &b.spec.inputs[i]
		if in.key != key {
			continue
		}
		values[key] = text
		if in.numeric() {
			if v, ok := b.u.Parse(text, in.dim); ok {
				values[key] = units.Decimal(v, -1)
			}
		}
		return
	}
	b.out.Message = b.Say("This bench has no value %s.", words.Quoted(key))
}

// Font sizes of a bench's picture: from a phone's, on which it is small, it
// grows with the picture up to mostBenchFont.
const (
	fontWidth = 340.0 // px of width with the font of a phone
	fontPer   = 0.02  // px of font per px of picture
	mostFont  = 22.0
)

// fontOf is the font of a bench's picture. One whose height follows from
// its font takes it from the width alone.
func fontOf(box draw.Box, high bool) float64 {
	size := box.W
	if !high {
		size = min(size, 1.25*box.H)
	}
	return math.Round(min(draw.Font+max(size-fontWidth, 0)*fontPer, mostFont))
}

// run works the bench out anew from its values.
func (b *work) run(box draw.Box) *draw.Canvas {
	b.grips, b.lacks = nil, ""
	b.out.Facts, b.out.Working, b.out.Notes, b.out.Actions = []parts.Fact{}, []parts.Step{}, []parts.Note{}, nil
	b.out.Parts, b.out.Height = nil, 0
	b.spec.solve(b)
	b.figures()
	for i := range b.out.Facts {
		f := &b.out.Facts[i]
		for k := range b.out.Working {
			if b.out.Working[k].Path == f.ID {
				f.Working = f.ID
			}
		}
	}
	if !box.Drawable() {
		return nil
	}
	c := draw.New(box)
	c.Font = fontOf(box, b.spec.lines != nil)
	if b.spec.lines != nil {
		b.out.Height = math.Ceil(b.spec.lines(b) * c.Font)
		c.H = max(c.H, b.out.Height)
	}
	title, desc := b.spec.draw(b, c)
	b.out.Picture = c.Finish(title, desc)
	return c
}

// move drags a handle to a place or moves it by steps, and says whether
// anything there can be moved.
func (b *work) move(req *asked) bool {
	for _, g := range b.grips {
		if g.id != req.Handle {
			continue
		}
		if req.StepX == 0 && req.StepY == 0 {
			g.to(draw.Pt{X: req.X, Y: req.Y})
			return true
		}
		b.nudge(g.x, req.StepX, req.Fine)
		b.nudge(g.y, req.StepY, req.Fine)
		return true
	}
	return false
}

func (b *work) nudge(key string, steps int, fine bool) {
	if key == "" || steps == 0 {
		return
	}
	if rest, ok := strings.CutPrefix(key, "-"); ok {
		key, steps = rest, -steps
	}
	for i := range b.spec.inputs {
		in := &b.spec.inputs[i]
		if in.key == key {
			b.set(key, b.in[key]+float64(steps)*b.grid(in, fine)*b.u.Units[in.dim].Size, fine)
		}
	}
}

// JSON answers a request for a bench. It answers to any input.
//
//codec:call asked View
func JSON(request []byte) (out []byte) {
	var l words.Locale
	defer func() {
		if fault := recover(); fault != nil {
			out = jsontext.Encode(broken(l, "This bench could not be worked out: there is a fault in the program. Ignore everything shown before."))
		}
	}()
	req, err := parse(request)
	if err != nil {
		return jsontext.Encode(broken(l, "The page asked for a bench in a way that could not be read: %s", err.Error()))
	}
	l = req.Settings.Locale()
	return jsontext.Encode(workOut(req))
}

func broken(l words.Locale, message words.Text, args ...string) *View {
	return &View{Benches: []parts.Option{}, Themes: []parts.Option{}, Values: map[string]string{}, Changed: map[string]string{}, Fields: []parts.Field{}, Facts: []parts.Fact{}, Working: []parts.Step{}, Notes: []parts.Note{},
		Units: parts.Units(l), UnitsNow: units.KN.Key, Words: parts.Words(l), WordsNow: words.NZ.Key(), Message: l.Say(message, args...)}
}

func workOut(req *asked) *View {
	d, u := req.Settings.Locale(), req.Settings.System()
	out := broken(d, "")
	out.UnitsNow, out.WordsNow = u.Key, d.Key()
	for _, theme := range themes {
		out.Themes = append(out.Themes, parts.Option{Value: theme.benches[0].id, Label: d.Say(theme.title)})
	}
	for _, b := range benches {
		out.Benches = append(out.Benches, parts.Option{Value: b.id, Label: d.Say(b.title)})
	}
	spec := byID(req.Bench)
	if spec == nil {
		if req.Bench != "" {
			out.Message = d.Say("There is no bench %s. The first one is shown. The names are %s.", words.Quoted(req.Bench), parts.Names(out.Benches))
		}
		spec = benches[0]
	}
	out.ID, out.Title, out.Idea = spec.id, d.Say(spec.title), d.Say(spec.idea)
	b := &work{Locale: d, u: u.Exact(), spec: spec, in: map[string]float64{}, text: map[string]string{}, out: out}
	values := req.Values
	if req.Set != "" {
		b.typed(values, req.Set, req.Text)
	}
	b.resolve(values)
	for key := range values {
		if _, ok := out.Values[key]; !ok && out.Message == "" {
			out.Message = b.Say("This bench has no value %s. It is left out.", words.Quoted(key))
		}
	}
	if !out.Fresh {
		return out
	}
	b.answer(req)
	b.run(req.Box)
	if req.Handle != "" && b.move(req) || req.Do != "" && b.do(req.Do) {
		// Once more from the values as they are now.
		out.Fields = []parts.Field{}
		b.resolve(out.Values)
		b.answer(req)
		b.run(req.Box)
	}
	out.Lacks = b.lacks
	if b.hidden {
		out.Hidden = true
		out.Facts, out.Working, out.Parts = []parts.Fact{}, []parts.Step{}, nil
	} else if spec.curve != nil && req.CurveBox.Drawable() {
		if of := spec.curve(b); len(of.lines) > 0 {
			out.Curve = b.drawCurve(req.CurveBox, of)
		}
	}
	return out
}

func (b *work) do(action string) bool {
	if b.spec.act == nil {
		return false
	}
	b.spec.act(b, action)
	return true
}

// answer judges the guess, against the bench as it stands, and shows the
// numbers once there is an answer that can be read.
func (b *work) answer(req *asked) {
	b.hidden, b.out.Guess = false, nil
	if b.spec.question == "" {
		return
	}
	b.spec.solve(b) // for what the guess asks for
	want := b.spec.guess(b)
	if want.Tolerance == 0 {
		return
	}
	b.hidden = req.Guess && !req.Shown
	g := &Guess{Question: b.Say(b.spec.question), Unit: b.u.Units[want.Dim].Name, Text: req.Answer}
	if req.Answer != "" {
		g.State, g.Message = b.judge(req.Answer, want)
		if g.State != marking.Unread {
			b.hidden = false
		}
	}
	b.out.Guess = g
}
