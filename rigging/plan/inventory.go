package plan

import (
	"strconv"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan/text"
)

// A gear list is the crew's own store of gear, apart from any plan:
//
//	{"kind": "pull-line gear", "version": 1, "pieces": [{"id": "…", "kind": "sling", "wll_t": 4, …}]}
//
// A piece has the fields of a plan's piece but for the place where it sits
// and the reason it is cleared for, which belong to one plan, and besides
// them a worksheet: the answers of its last looking over.
const (
	InventoryKind    = "pull-line gear"
	InventoryVersion = 1

	// MaxInventoryBytes and MaxInventoryPieces bound a gear list.
	MaxInventoryBytes  = 2 << 20
	MaxInventoryPieces = 1000
)

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
	if root.choice("kind", InventoryKind) == "" && !root.has("kind") {
		root.problem(CodeMissing, "kind", takes("this", text.Words(InventoryKind)), nil, "gear_list_kind", quote(InventoryKind))
	}
	if _, ok := root.number("version", Range{Min: InventoryVersion, Max: InventoryVersion, Whole: true}); !ok && !root.has("version") {
		root.problem(CodeMissing, "version", takes("this", InventoryVersion), nil, "gear_list_version", InventoryVersion)
	}
	seen := map[string]bool{}
	list := root.list("pieces", MaxInventoryPieces)
	pieces := make([]InventoryPiece, len(list))
	for i, raw := range list {
		pieces[i] = r.inventoryPiece(item("pieces", i), raw, seen)
	}
	root.done()
	return pieces, r.problems
}

// inventoryPiece reads one piece; seen are the names before it.
func (r *reader) inventoryPiece(path string, raw any, seen map[string]bool) InventoryPiece {
	before := len(r.problems)
	o := r.object(path, raw, false)
	g := piece{path: path, id: o.identifier("id")}
	if seen[g.id] && g.id != "" {
		o.problem(CodeTwice, "id", takes("other_name"), shorten(g.id), "two_pieces", quote(g.id))
	}
	seen[g.id] = true
	r.pieceFields(o, &g)
	p := InventoryPiece{ID: g.id, Kind: g.kind, Last: g.inspection.last, Next: g.inspection.next, Retired: g.inspection.retired}
	if w := o.child("worksheet", false); w != nil {
		p.Looked, p.Outcome = r.worksheet(w)
	}
	o.done()
	p.Sound = len(r.problems) == before
	return p
}

// maxAnswers bounds a worksheet; the longest has some twenty questions.
const maxAnswers = 60

// worksheet reads what is kept of looking over a piece:
//
//	{"date": "2026-05-01", "by": "…", "outcome": "keep", "answers": {"kink": "no", …}, "notes": "…"}
func (r *reader) worksheet(o *object) (Date, rigging.Outcome) {
	day := o.date("date")
	if !o.has("date") {
		o.problem(CodeMissing, "date", takes("date"), nil, "worksheet_date")
	}
	o.text("by")
	o.text("notes")
	outcomes := []string{rigging.Keep.String(), rigging.Judged.String(), rigging.Retire.String()}
	word := o.choice("outcome", outcomes...)
	outcome, _ := rigging.OutcomeNamed(word)
	if word == "" && !o.has("outcome") {
		o.problem(CodeMissing, "outcome", oneOf(outcomes...), nil, "outcome_missing")
	}
	if answers := o.child("answers", false); answers != nil {
		if len(answers.fields) > maxAnswers {
			o.problem(CodeTooLong, "answers", takes("answers", maxAnswers), len(answers.fields), "answers_many", len(answers.fields), maxAnswers)
		} else {
			for _, key := range sortedKeys(answers.fields) {
				answers.text(key)
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
	return map[string]any{"kind": InventoryKind, "version": jsontext.Number(strconv.Itoa(InventoryVersion)), "pieces": []any{}}
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
	if tree["kind"] != InventoryKind {
		return none("gear_list_kind", quote(InventoryKind))
	}
	if _, ok := tree["pieces"].([]any); !ok {
		return none("gear_list_pieces")
	}
	return tree, why
}
