package gear

import (
	"strconv"

	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
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

// asked is what the page sends.
//
//codec:request
type asked struct {
	request.Common
	List    any               `json:"list"`
	Do      string            `json:"do"`  // view, new, edit, act, import-csv, import-json, export-csv, pick, sheet, record
	Act     string            `json:"act"` // for act: what an Action's Do said
	Path    string            `json:"path"`
	Text    string            `json:"text"`
	Today   string            `json:"today"` // YYYY-MM-DD: the page has the clock
	Answers map[string]string `json:"answers"`
	By      string            `json:"by"`
	Date    string            `json:"date"`
	Retire  bool              `json:"retire"`
}

func parse(raw []byte) (*asked, error) {
	var req asked
	if err := req.Read(raw, req.Take); err != nil {
		return nil, err
	}
	return &req, nil
}

// JSON answers a call about the gear list with a View. It
// answers to anything.
//
//codec:call asked View
func JSON(raw []byte) (out []byte) {
	var l words.Locale
	defer func() {
		if fault := recover(); fault != nil {
			out = jsontext.Encode(nothing(l, "Nothing was changed: there is a fault in the program."))
		}
	}()
	req, err := parse(raw)
	if err != nil {
		return jsontext.Encode(nothing(l, "Nothing was changed: %s", err.Error()))
	}
	l = req.Settings.Locale()
	return jsontext.Encode(answer(req))
}

func nothing(l words.Locale, text words.Text, args ...string) *View {
	message := l.Say(text, args...)
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
	w.d, w.u = req.Settings.Told(req.List)
	w.plan, _ = req.Settings.Told(req.Plan)
	w.today()
	w.pieces, w.wrong = plan.ReadInventory(w.d.Tree)
	plan.TellProblems(w.wrong, w.d.Voice(w.u))
	if req.Do == "new" {
		w.out.List = plan.NewInventory()
		return &w.out
	}
	if w.d.Err != nil {
		return nothing(w.d.Locale, "There is no gear list.")
	}
	switch req.Do {
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
		w.out.Message = w.d.Say("There is no such call: “%s”.", req.Do)
	}
	return &w.out
}

// today finds the day that the states are told for: the plan's, else the one
// the page says it is.
func (w *work) today() {
	if day, ok := plan.ParseDate(w.plan.Text("pull_date")); ok {
		w.day, w.said = day, w.d.Say("As of %s, the day of the pull in the plan.", day.String())
		return
	}
	if day, ok := plan.ParseDate(w.req.Today); ok {
		w.day, w.said = day, w.d.Say("As of %s: the plan gives no day of the pull.", day.String())
		return
	}
	w.said = w.d.Say("Today's date is not known, so no piece can be shown as in date.")
}

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
	return w.d.Say("Piece %s", strconv.Itoa(i+1))
}

// editing makes changes to the list.
func (w *work) editing(do func(*form.Editor)) {
	e := form.NewEditor(w.d, w.u)
	do(e)
	w.out.Changes = append(w.out.Changes, e.Out.Changes...)
	w.out.Focus, w.out.Message = e.Out.Focus, e.Out.Message
}
