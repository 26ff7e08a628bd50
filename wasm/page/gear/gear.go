package gear

import (
	"strconv"
	"strings"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/page/form"
	"pullline/wasm/parts"
	"pullline/wasm/request"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A View answers a call about the crew's gear list.
type View struct {
	Changes []parts.Change `json:"changes"`        // to the list
	Plan    []parts.Change `json:"plan,omitempty"` // to the plan, where a piece was picked
	Focus   string         `json:"focus,omitempty"`
	Message string         `json:"message,omitempty"` // what was done, or why nothing was
	List    any            `json:"list,omitempty"`    // a new list
	File    string         `json:"file,omitempty"`    // the list as a table
	Rest    string         `json:"rest,omitempty"`    // rows that were not taken, to be mended
	Notes   []parts.Note   `json:"notes,omitempty"`   // what is wrong with those rows

	Day      string          `json:"day"` // the day the states hold for, in words
	Rows     []Row           `json:"rows"`
	Places   []parts.Option  `json:"places"`         // where in the plan a piece can go
	Form     []parts.Section `json:"form,omitempty"` // of the piece asked for
	Sheet    *Worksheet      `json:"sheet,omitempty"`
	Problems []parts.Note    `json:"problems"` // of the list as a whole
}

// A Row is one piece of the list.
type Row struct {
	Path     string `json:"path"` // "pieces[3]"
	Title    string `json:"title"`
	Kind     string `json:"kind"`
	Line     string `json:"line"`     // limit, size and ends in one line
	State    string `json:"state"`    // in_date, due, past, found, retired, undated, unknown
	Word     string `json:"word"`     // the state's word
	Sentence string `json:"sentence"` // the state with its dates
	Find     string `json:"find"`     // lower case, to be searched
	Problems int    `json:"problems"`
}

// A Worksheet is the looking over of one piece, as far as it is answered.
type Worksheet struct {
	Path    string          `json:"path"` // of the piece
	Title   string          `json:"title"`
	Form    []parts.Section `json:"form"` // its fields' paths are "answers.KEY", "by" and "date"
	Outcome string          `json:"outcome"`
	Word    string          `json:"word"`
	Text    string          `json:"text"`    // what the outcome means
	Reasons []parts.Note    `json:"reasons"` // with their sources
	Ready   bool            `json:"ready"`   // it can be recorded
}

// asked is what the page sends.
type asked struct {
	list, plan any
	size       int // bytes of the plan's text
	settings   request.Settings
	do         string // view, new, edit, act, import-csv, import-json, export-csv, pick, sheet, record
	act        string // for act: what an Action's Do said
	path       string
	text       string
	today      string // YYYY-MM-DD: the page has the clock
	answers    map[string]string
	by, date   string
	retire     bool
}

func parse(raw []byte) (*asked, error) {
	var req asked
	err := request.Members(raw, &req.plan, &req.size, &req.settings, func(key string, v any) {
		switch key {
		case "list":
			req.list = v
		case "do":
			req.do = request.Text(v)
		case "act":
			req.act = request.Text(v)
		case "path":
			req.path = request.Text(v)
		case "text":
			req.text = request.Text(v)
		case "today":
			req.today = request.Text(v)
		case "by":
			req.by = request.Text(v)
		case "date":
			req.date = request.Text(v)
		case "retire":
			req.retire = v == true
		case "answers":
			m, _ := v.(map[string]any)
			req.answers = make(map[string]string, len(m))
			for k, answer := range m {
				req.answers[k] = request.Text(answer)
			}
		}
	})
	if err != nil {
		return nil, err
	}
	return &req, nil
}

// JSON answers a call about the gear list with an Inventory. It
// answers to anything.
func JSON(raw []byte) (out []byte) {
	defer func() {
		if fault := recover(); fault != nil {
			out = jsontext.Encode(nothing("Nothing was changed: there is a fault in the program."))
		}
	}()
	req, err := parse(raw)
	if err != nil {
		return jsontext.Encode(nothing("Nothing was changed: " + err.Error()))
	}
	return jsontext.Encode(answer(req))
}

func nothing(message string) *View {
	return &View{Changes: []parts.Change{}, Rows: []Row{}, Places: []parts.Option{}, Problems: []parts.Note{{Message: message}}, Message: message}
}

// A work is the work on one call.
type work struct {
	req    *asked
	d      *draft.Plan // the list
	plan   *draft.Plan
	u      *units.System
	pieces []plan.InventoryPiece
	wrong  []plan.Problem
	day    plan.Date
	said   string // where the day is from
	out    View
}

func answer(req *asked) *View {
	w := &work{req: req, out: View{Changes: []parts.Change{}, Rows: []Row{}, Places: []parts.Option{}, Problems: []parts.Note{}}}
	w.d, w.u = req.settings.Told(req.list)
	w.plan, _ = req.settings.Told(req.plan)
	w.today()
	w.pieces, w.wrong = plan.ReadInventory(w.d.Tree)
	plan.TellProblems(w.wrong, w.d.Voice(w.u))
	if req.do == "new" {
		w.out.List = plan.NewInventory()
		return &w.out
	}
	if w.d.Err != nil {
		return nothing("There is no gear list.")
	}
	switch req.do {
	case "view", "":
		w.view()
	case "edit":
		w.edit()
	case "act":
		w.act()
	case "import-csv":
		w.importTable()
	case "import-json":
		w.importList()
	case "export-csv":
		w.exportTable()
	case "pick":
		w.pick()
	case "sheet":
		w.sheet()
	case "record":
		w.record()
	default:
		w.out.Message = "There is no such call: “" + req.do + "”."
	}
	return &w.out
}

// today finds the day that the states are told for: the plan's, else the one
// the page says it is.
func (w *work) today() {
	if day, ok := plan.ParseDate(w.plan.Text("pull_date")); ok {
		w.day, w.said = day, "Told for "+day.String()+", the plan's day of the pull."
		return
	}
	if day, ok := plan.ParseDate(w.req.today); ok {
		w.day, w.said = day, "Told for "+day.String()+": the plan names no day of the pull."
		return
	}
	w.said = "Nobody says what day it is: no piece can be told to be in date."
}

// The words of the states.
var fitnessWords = [...]string{
	plan.FitUnknown: "Not known", plan.FitRetired: "Retired", plan.FitFound: "To be judged", plan.FitPast: "Past its inspection",
	plan.FitDue: "Inspection due", plan.FitUndated: "No inspection date", plan.FitInDate: "In date",
}

func (w *work) sentence(p *plan.InventoryPiece, f plan.Fitness) string {
	next, looked := p.Next.String(), p.Looked.String()
	switch f {
	case plan.FitRetired:
		return "Not to be used."
	case plan.FitFound:
		return "Found wanting on its worksheet of " + looked + ": not to be used until a competent person has judged it."
	case plan.FitPast:
		return "Was to be inspected by " + next + "."
	case plan.FitDue:
		return "To be inspected by " + next + ", in " + strconv.Itoa(plan.DueDays) + " days or fewer."
	case plan.FitUndated:
		return "Nothing says when it is to be inspected."
	case plan.FitInDate:
		return "To be inspected by " + next + "."
	}
	if !p.Sound {
		return "Something in it has to be fixed."
	}
	if p.Last.Known() && w.day.Known() && w.day.Before(p.Last) {
		return "Its last inspection, " + p.Last.String() + ", lies after that day."
	}
	return "The day is not known."
}

// view lists the pieces, with the form of the one asked for.
func (w *work) view() {
	b := w.builder()
	w.out.Day = w.said
	w.out.Places = w.places()
	perPiece := make([]int, len(w.pieces))
	for _, p := range w.wrong {
		if i, ok := w.pieceOf(p.Path); ok && i < len(perPiece) {
			perPiece[i]++
			continue
		}
		w.out.Problems = append(w.out.Problems, parts.Note{Path: p.Path, Message: p.Message})
	}
	for i := range w.pieces {
		p := &w.pieces[i]
		path := draft.Elem("pieces", i)
		f := p.On(w.day)
		row := Row{
			Path: path, Title: w.title(i), Kind: words.Capital(parts.LabelOf(w.d.Locale, fields.GearKinds, w.d.Text(path+".kind"))),
			Line:  words.Listed(b.LimitWords(path), b.Written(path+".size"), b.Written(path+".terminations")),
			State: f.Word(), Word: fitnessWords[f], Sentence: w.sentence(p, f), Problems: perPiece[i],
		}
		row.Find = strings.ToLower(strings.ReplaceAll(strings.Join([]string{row.Title, row.Kind, row.Line, row.Word, b.Written(path + ".notes")}, " "), "\u00a0", " "))
		w.out.Rows = append(w.out.Rows, row)
	}
	if i, ok := w.pieceOf(w.req.path); ok && i < len(w.pieces) {
		w.out.Form = w.form(b, i)
	}
}

func (w *work) builder() *form.Builder { return form.New(w.d, w.u, nil, w.wrong) }

// pieceOf is the index of the piece that a path lies in.
func (w *work) pieceOf(path string) (int, bool) {
	parts := draft.ParsePath(path)
	if len(parts) < 2 || parts[0] != "pieces" {
		return 0, false
	}
	i, ok := parts[1].(int)
	return i, ok
}

func (w *work) title(i int) string {
	if id := w.d.Text(draft.Elem("pieces", i) + ".id"); id != "" {
		return words.Capital(id)
	}
	return "Piece " + strconv.Itoa(i+1)
}

// form asks for one piece.
func (w *work) form(b *form.Builder, i int) []parts.Section {
	path := draft.Elem("pieces", i)
	s := parts.Section{ID: path, Title: w.title(i), Fields: b.Fields(path, "id", "kind")}
	s.Fields = append(s.Fields, b.Limit(path)...)
	s.Fields = append(s.Fields, b.Fields(path, "hitch_factor", "size", "terminations", "notes")...)
	inspection := b.Inspection(path, "last_inspection", "next_inspection", "retired")
	inspection.Help = "Left empty, nothing is held to a date."
	s.Sections = []parts.Section{inspection, b.Reductions(path)}
	sections := []parts.Section{s}
	for _, p := range w.wrong {
		if draft.Within(p.Path, path) {
			form.Place(sections, parts.Note{Path: p.Path, Message: p.Message}, true)
		}
	}
	return sections
}

// places are where in the plan a piece can be put.
func (w *work) places() []parts.Option {
	if w.plan.Err != nil {
		return []parts.Option{}
	}
	return fields.GearPlaces(w.plan)[1:]
}

// editing makes changes to the list.
func (w *work) editing(do func(*form.Editor)) {
	e := form.Edit(w.d, w.u)
	do(e)
	w.out.Changes = append(w.out.Changes, e.Out.Changes...)
	w.out.Focus, w.out.Message = e.Out.Focus, e.Out.Message
}

func (w *work) edit() {
	i, ok := w.pieceOf(w.req.path)
	if !ok || i >= len(w.pieces) {
		w.out.Message = "There is no such piece in the gear list."
		return
	}
	w.editing(func(e *form.Editor) { e.Type(w.req.path, w.req.text) })
}

func (w *work) act() {
	i, isPiece := w.pieceOf(w.req.path)
	path := w.req.path
	if isPiece && i >= len(w.pieces) {
		w.out.Message = "That piece is no longer there."
		return
	}
	w.editing(func(e *form.Editor) {
		switch pattern := draft.Pattern(path); {
		case w.req.act == "add" && path == "pieces":
			if len(w.pieces) >= plan.MaxInventoryPieces {
				e.Refuse("The list is full: " + strconv.Itoa(plan.MaxInventoryPieces) + " pieces.")
				return
			}
			n := w.d.Size("pieces")
			e.Push("pieces", map[string]any{"id": w.d.FreeID("pieces", "piece "+strconv.Itoa(n+1))})
			e.Out.Focus = draft.Elem("pieces", n)
		case w.req.act == "add" && pattern == "pieces[].reductions":
			e.Out.Focus = draft.Elem(path, w.d.Size(path)) + ".why"
			e.Push(path, map[string]any{})
		case w.req.act == "remove" && (pattern == "pieces[]" || pattern == "pieces[].reductions[]"):
			e.Remove(path)
		case w.req.act == "retire" && pattern == "pieces[]":
			e.Set(path+".retired", true)
		case w.req.act == "unretire" && pattern == "pieces[]":
			e.Remove(path + ".retired")
		default:
			e.Refuse("There is no action “" + w.req.act + "” there.")
		}
	})
}

func (w *work) have() []any { return w.d.List("pieces") }

func (w *work) importTable() {
	im, say := plan.ImportCSV(w.req.text, w.have()), w.d.Voice(w.u)
	w.editing(func(e *form.Editor) {
		for _, p := range im.Pieces {
			e.Push("pieces", p)
		}
	})
	rows := map[int]bool{}
	for _, p := range im.Problems {
		rows[p.Row] = true
		if len(w.out.Notes) == mostNotes {
			continue
		}
		where := "Row " + strconv.Itoa(p.Row)
		if p.Column != "" {
			where += ", column " + p.Column
		}
		message := where + ": " + say.Say(p.Saying)
		if p.Given != "" && !p.Saying.Names() {
			message += " Given: “" + p.Given + "”."
		}
		w.out.Notes = append(w.out.Notes, parts.Note{Path: p.Column, Message: message})
	}
	if more := len(im.Problems) - len(w.out.Notes); more > 0 {
		w.out.Notes = append(w.out.Notes, parts.Note{Message: "And " + strconv.Itoa(more) + " more of the kind."})
	}
	w.out.Message = taken(len(im.Pieces), im.Same)
	if len(im.Rest) > longestRest {
		w.out.Message += " " + w.out.Notes[0].Message + " What is not taken is too long to be mended here: mend it in its file."
		return
	}
	w.out.Rest = im.Rest
	if len(rows) > 0 {
		w.out.Message += " " + words.CountOf(len(rows), "row is not taken: mend it below and read it again.", "rows are not taken: mend them below and read them again.")
	}
}

// What is shown of a table that is not taken as a whole.
const (
	mostNotes   = 100
	longestRest = 100_000 // bytes, to be mended in a box
)

// taken says how many pieces came in.
func taken(pieces, same int) string {
	message := words.Capital(words.CountOf(pieces, "piece", "pieces")) + " taken into the list."
	if pieces == 0 {
		message = "No piece was taken into the list."
	}
	if same > 0 {
		message += " " + words.CountOf(same, "was there already.", "were there already.")
	}
	return message
}

func (w *work) importList() {
	tree, why := plan.ParseInventory([]byte(w.req.text))
	if tree == nil {
		w.out.Message = "Nothing was taken. " + w.d.Voice(w.u).Say(why)
		return
	}
	known := map[string]bool{}
	for _, p := range w.have() {
		known[draft.JSON(p)] = true
	}
	pieces, _ := tree["pieces"].([]any)
	same, added := 0, []any{}
	for _, p := range pieces {
		text := draft.JSON(p)
		if known[text] {
			same++
			continue
		}
		known[text] = true
		added = append(added, p)
	}
	if len(w.have())+len(added) > plan.MaxInventoryPieces {
		w.out.Message = "Nothing was taken: the list would have more than " + strconv.Itoa(plan.MaxInventoryPieces) + " pieces."
		return
	}
	w.editing(func(e *form.Editor) {
		for _, p := range added {
			e.Push("pieces", p)
		}
	})
	w.out.Message = taken(len(added), same)
}

func (w *work) exportTable() {
	text, left := plan.InventoryCSV(w.have())
	w.out.File = text
	if len(left) > 0 {
		w.out.Message = "The table leaves out: " + strings.Join(left, ", ") + ". The gear list's own file keeps it."
	}
}

// pickedKeys are copied from the list into a plan.
var pickedKeys = []string{
	"kind", "wll_kN", "wll_t", "mbl_kN", "design_factor", "hitch_factor", "reductions", "size", "terminations",
	"last_inspection", "next_inspection", "retired", "notes",
}

// pick copies a piece to a place in the plan.
func (w *work) pick() {
	i, ok := w.pieceOf(w.req.path)
	if !ok || i >= len(w.pieces) || w.req.path != draft.Elem("pieces", i) {
		w.out.Message = "There is no such piece in the gear list."
		return
	}
	if w.plan.Err != nil {
		w.out.Message = "There is no plan to put it into."
		return
	}
	placed := false
	for _, o := range w.places() {
		placed = placed || o.Value == w.req.text
	}
	if !placed {
		w.out.Message = "“" + w.req.text + "” is not a place in this plan. Choose a line, the stem or a point."
		return
	}
	p := &w.pieces[i]
	title := w.title(i)
	f := p.On(w.day)
	if f == plan.FitFound {
		w.out.Message = "“" + title + "” was not put into the plan. " + w.sentence(p, f)
		return
	}
	source := w.d.Object(w.req.path)
	id := p.ID
	if strings.TrimSpace(id) == "" {
		id = title
	}
	piece := map[string]any{"id": w.plan.FreeID("gear", id)}
	for _, key := range pickedKeys {
		if v, given := source[key]; given {
			piece[key] = v
		}
	}
	switch kind, at, _ := strings.Cut(w.req.text, "/"); kind {
	case "line":
		piece["line"] = at
	case "stem":
		piece["line"], piece["place"] = at, "stem"
	case "point":
		piece["point"] = at
	}
	e := form.Edit(w.plan, w.u)
	e.Push("gear", piece)
	w.out.Plan = e.Out.Changes
	w.out.Focus = draft.Elem("gear", w.plan.Size("gear"))
	w.out.Message = "“" + words.Capital(id) + "” is in the plan."
	if piece["id"] != id {
		w.out.Message = "The plan already had a piece “" + id + "”; this one is called “" + request.Text(piece["id"]) + "”. Is it really there twice?"
	}
	if f == plan.FitRetired || f == plan.FitPast || f == plan.FitUnknown {
		w.out.Message += " It is " + strings.ToLower(fitnessWords[f]) + ": the plan cannot be judged with it as it is."
	}
}

// Words of the outcomes.
var outcomeWords = [...][2]string{
	rigging.Open:   {"Not all answered", "Until every question is answered there is no outcome."},
	rigging.Keep:   {"Keep in use", "Nothing was found that these questions ask for. They are not an inspection: a competent person's judgement and local codes come first."},
	rigging.Judged: {"Have it judged", "Not to be used until a competent person has judged it."},
	rigging.Retire: {"Retire it", "Not to be used again. Mark it and keep it apart, so that nobody takes it by mistake."},
}

// answered gives the answers as package rigging takes them, lengths in
// metres, with a problem for each that cannot be read.
func (w *work) answered(questions []rigging.DiscardQuestion) (answers, problems map[string]string) {
	answers, problems = map[string]string{}, map[string]string{}
	for i := range questions {
		q := &questions[i]
		text := strings.TrimSpace(w.req.answers[q.Key])
		if text == "" {
			continue
		}
		answers[q.Key] = text
		switch q.Answer {
		case rigging.AnswerLength:
			metric, ok := w.length(text)
			if !ok || !(metric > 0 && metric <= 1) {
				problems[q.Key] = words.NotANumber(text, w.lengthUnit())
				metric = 0
			}
			answers[q.Key] = strconv.FormatFloat(metric, 'g', -1, 64)
		case rigging.AnswerCount:
			if n, ok := w.u.Parse(text, units.Count); ok && n >= 0 {
				answers[q.Key] = strconv.FormatFloat(n, 'f', 0, 64)
			} else {
				problems[q.Key] = "“" + text + "” is not a count. Type a whole number, 0 if there are none."
			}
		}
	}
	return answers, problems
}

// lengthUnit is what a bare number in a rope's diameter means.
func (w *work) lengthUnit() string {
	if w.u.Key == units.US.Key {
		return "in"
	}
	return "mm"
}

func (w *work) length(text string) (float64, bool) {
	if _, rest, ok := units.LeadingNumber(units.Tidy(text)); ok && rest == "" {
		text += " " + w.lengthUnit()
	}
	return w.u.Parse(text, units.Metres)
}

// sheet shows the questions about a piece with what their answers come to.
func (w *work) sheet() {
	i, ok := w.pieceOf(w.req.path)
	if !ok || i >= len(w.pieces) {
		w.out.Message = "There is no such piece in the gear list."
		return
	}
	w.out.Sheet, _ = w.worksheet(i)
}

func (w *work) worksheet(i int) (*Worksheet, rigging.Outcome) {
	kind := w.d.Text(draft.Elem("pieces", i) + ".kind")
	questions := rigging.DiscardQuestions(kind)
	answers, problems := w.answered(questions)
	outcome, reasons, _ := rigging.Discard(kind, answers)
	s := Worksheet{Path: draft.Elem("pieces", i), Title: "Looking over " + w.title(i), Reasons: []parts.Note{}}
	section := parts.Section{
		ID: "answers", Title: "What to look at",
		Help: "Clean the piece first and look at all of it in good light. What is not sure is answered so. The questions are the usual ones and not all there is.",
	}
	for k := range questions {
		q := &questions[k]
		if !q.Asked(answers) {
			continue
		}
		f := parts.Field{Path: "answers." + q.Key, Label: q.Text, Help: q.Help + words.Around(" Source: ", q.Source.Words(), "."), Text: w.req.answers[q.Key], Problem: problems[q.Key]}
		switch q.Answer {
		case rigging.AnswerYesNo:
			f.Kind, f.Options = fields.Choice, []parts.Option{{Value: "", Label: "not answered"}, {Value: rigging.No, Label: "no"}, {Value: rigging.Yes, Label: "yes"}, {Value: rigging.Unsure, Label: "not sure"}}
		case rigging.AnswerChoice:
			f.Kind, f.Options = fields.Choice, []parts.Option{{Value: "", Label: "not answered"}}
			for _, c := range q.Choices {
				f.Options = append(f.Options, parts.Option{Value: c.Key, Label: c.Name})
			}
		case rigging.AnswerLength:
			f.Kind, f.Unit = fields.Number, w.lengthUnit()
		default:
			f.Kind = fields.Number
		}
		if f.Kind == fields.Choice {
			f.Options = parts.WithValue(f.Options, f.Text)
		}
		section.Fields = append(section.Fields, f)
	}
	date := w.req.date
	day, dated := plan.ParseDate(form.DateText(date))
	about := parts.Section{ID: "about", Title: "Who and when", Fields: []parts.Field{
		{Path: "date", Label: "Looked over on", Kind: fields.Text, Text: date, Help: fields.DateHelp},
		{Path: "by", Label: "By", Kind: fields.Text, Text: w.req.by, Help: "Who looked. It stays in the record."},
	}}
	if !dated {
		about.Fields[0].Problem = "Type the day as year-month-day, such as 2026-03-31."
	}
	s.Form = []parts.Section{section, about}
	s.Outcome, s.Word, s.Text = outcome.String(), outcomeWords[outcome][0], outcomeWords[outcome][1]
	for _, r := range reasons {
		s.Reasons = append(s.Reasons, parts.Note{Code: r.Outcome.String(), Path: "answers." + r.Key, Message: r.Text, Source: r.Source.Words()})
	}
	s.Ready = outcome != rigging.Open && dated && day.Known()
	return &s, outcome
}

// record keeps the worksheet with the piece, and retires it where the user
// agrees.
func (w *work) record() {
	i, ok := w.pieceOf(w.req.path)
	if !ok || i >= len(w.pieces) || w.req.path != draft.Elem("pieces", i) {
		w.out.Message = "There is no such piece in the gear list."
		return
	}
	s, outcome := w.worksheet(i)
	if !s.Ready {
		w.out.Sheet = s
		w.out.Message = "Nothing was recorded: answer every question and give the day."
		return
	}
	day, _ := plan.ParseDate(form.DateText(w.req.date))
	kept := map[string]any{}
	for _, f := range s.Form[0].Fields {
		key := strings.TrimPrefix(f.Path, "answers.")
		if text := strings.TrimSpace(f.Text); text != "" {
			if _, rest, ok := units.LeadingNumber(units.Tidy(text)); f.Unit != "" && ok && rest == "" {
				text += " " + f.Unit
			}
			kept[key] = text
		}
	}
	sheet := map[string]any{"date": day.String(), "outcome": outcome.String(), "answers": kept}
	if by := strings.TrimSpace(w.req.by); by != "" {
		sheet["by"] = by
	}
	w.editing(func(e *form.Editor) {
		e.Set(w.req.path+".worksheet", sheet)
		if w.req.retire {
			e.Set(w.req.path+".retired", true)
		}
	})
	w.out.Message = "Recorded: " + strings.ToLower(outcomeWords[outcome][0]) + "."
}
