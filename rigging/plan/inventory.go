package plan

import (
	"strconv"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
)

// A gear list is the crew's own store of gear, apart from any plan:
//
//	{"kind": "pull-line gear", "version": 1, "pieces": [{"id": "…", "kind": "sling", "wll_t": 4, …}]}
//
// A piece has the fields of a plan's piece but for the place where it sits
// and the reason it is cleared for, which belong to one plan, and besides
// them a worksheet: the answers of its last looking over.

// MaxInventoryBytes bounds the text of a gear list.
const MaxInventoryBytes = 2 << 20

// An InventoryPiece is a piece of a gear list as far as it could be read.
type InventoryPiece struct {
	ID, Kind   string
	Last, Next Date // of inspection; no day where not given or not accepted
	Retired    bool
	Outcome    rigging.Outcome // of its worksheet; Open where there is none
	Looked     Date            // the worksheet's day
	Sound      bool            // nothing in it is a problem
}

// ReadInventory reads a gear list that package jsontext has read from a text,
// as strictly as a plan. What is wrong is among the problems, with its path;
// the pieces are those of the list, one for one.
func ReadInventory(tree any) ([]InventoryPiece, []Problem) {
	r := &reader{of: ofGearList}
	if _, ok := tree.(map[string]any); !ok {
		r.problem(CodeUnreadable, "", takes("json"), shown(tree), "no_gear_list")
		return nil, r.problems
	}
	root := r.object("", tree, false)
	root.choice(field.ListKind)
	if !root.has(field.ListKind) {
		root.problem(CodeMissing, field.ListKind, takes("this", text.Words(field.GearListKind)), nil, "gear_list_kind", quote(field.GearListKind))
	}
	root.number(field.ListVersion)
	if !root.has(field.ListVersion) {
		root.problem(CodeMissing, field.ListVersion, takes("this", field.GearListVersion), nil, "gear_list_version", field.GearListVersion)
	}
	seen := map[string]bool{}
	list := root.list(field.Pieces)
	pieces := make([]InventoryPiece, len(list))
	for i, raw := range list {
		pieces[i] = r.inventoryPiece(root.item(field.Pieces, i), raw, seen)
	}
	root.done()
	return pieces, r.problems
}

// inventoryPiece reads one piece; seen are the names before it.
func (r *reader) inventoryPiece(path string, raw any, seen map[string]bool) InventoryPiece {
	before := len(r.problems)
	o := r.object(path, raw, false)
	g := piece{path: path, id: o.name(field.PieceID)}
	if seen[g.id] && g.id != "" {
		o.problem(CodeTwice, field.PieceID, takes("other_name"), shorten(g.id), "two_pieces", quote(g.id))
	}
	seen[g.id] = true
	r.pieceFields(o, &g)
	p := InventoryPiece{ID: g.id, Kind: g.kind, Last: g.inspection.last, Next: g.inspection.next, Retired: g.inspection.retired}
	if w := o.child(field.Worksheet); w != nil {
		p.Looked, p.Outcome = r.worksheet(w)
	}
	o.done()
	p.Sound = len(r.problems) == before
	return p
}

// worksheet reads what is kept of looking over a piece:
//
//	{"date": "2026-05-01", "by": "…", "outcome": "keep", "answers": {"kink": "no", …}, "notes": "…"}
func (r *reader) worksheet(o *object) (Date, rigging.Outcome) {
	day := o.date(field.WorksheetDate)
	if !o.has(field.WorksheetDate) {
		o.problem(CodeMissing, field.WorksheetDate, takes("date"), nil, "worksheet_date")
	}
	o.text(field.WorksheetBy)
	o.text(field.WorksheetNotes)
	outcome, _ := rigging.OutcomeNamed(o.choice(field.WorksheetOutcome))
	if !o.has(field.WorksheetOutcome) {
		o.problem(CodeMissing, field.WorksheetOutcome, oneOf(field.WorksheetOutcome.Row().Words...), nil, "outcome_missing")
	}
	if answers := o.child(field.Answers); answers != nil {
		if most := field.Answers.Row().Most; len(answers.fields) > most {
			o.problem(CodeTooLong, field.Answers, takes("answers", most), len(answers.fields), "answers_many", len(answers.fields), most)
		} else {
			for _, key := range sortedKeys(answers.fields) {
				v, _ := answers.tick(key)
				answers.textIn(key, v, field.Answer.Row().Most)
			}
		}
	}
	o.done()
	return day, outcome
}

// A Fitness is how a piece of a gear list stands on a day. Its zero value is
// not known.
type Fitness int

// The states, best last but one: retired outranks all others.
const (
	FitUnknown  Fitness = iota // something in the piece, or the day, cannot be read
	FitRetired                 // not to be used
	FitFound                   // its worksheet asks to have it judged or retired
	FitPast                    // its next inspection lies before the day
	FitDue                     // to be inspected within DueDays
	FitUndated                 // no inspection is said
	FitInDate                  // inspected, and not yet due
	fitnessEnds                // how many there are
)

// DueDays is how many days before an inspection a piece counts as due
// (common practice, no source).
const DueDays = 30

// Word is the state's key.
func (f Fitness) Word() string {
	return [fitnessEnds]string{"unknown", "retired", "found", "past", "due", "undated", "in_date"}[f]
}

// On says how the piece stands on a day. A piece with a problem in it is
// unknown, unless it is retired.
func (p *InventoryPiece) On(day Date) Fitness {
	switch {
	case p.Retired:
		return FitRetired
	case !p.Sound || !day.Known() || day.Before(p.Last):
		return FitUnknown
	case p.Outcome == rigging.Retire || p.Outcome == rigging.Judged:
		return FitFound
	case p.Next.Known() && p.Next.Before(day):
		return FitPast
	case !p.Next.Known():
		return FitUndated
	case day.DaysTo(p.Next) <= DueDays:
		return FitDue
	}
	return FitInDate
}

// NewInventory is an empty gear list, as package jsontext reads one.
func NewInventory() map[string]any {
	return map[string]any{field.ListKind.Key(): field.GearListKind, field.ListVersion.Key(): jsontext.Number(strconv.Itoa(field.GearListVersion)), field.Pieces.Key(): []any{}}
}

// ParseInventory reads the text of a gear list; nil, and why, for a text that is
// none.
func ParseInventory(raw []byte) (tree map[string]any, why text.Saying) {
	none := func(key string, args ...any) (map[string]any, text.Saying) {
		return nil, text.Saying{Key: "problem." + key, Args: args}
	}
	if len(raw) > MaxInventoryBytes {
		return none("gear_list_long", len(raw), MaxInventoryBytes)
	}
	v, err := jsontext.Parse(raw)
	if err != nil {
		key, args := unreadable(err)
		return none(key, args...)
	}
	tree, ok := v.(map[string]any)
	if !ok {
		return none("no_gear_list")
	}
	if tree[field.ListKind.Key()] != field.GearListKind {
		return none("gear_list_kind", quote(field.GearListKind))
	}
	if _, ok := tree[field.Pieces.Key()].([]any); !ok {
		return none("gear_list_pieces")
	}
	return tree, why
}
