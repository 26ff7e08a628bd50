package rigging

import (
	"strconv"
	"strings"
)

// An Outcome is what the questions about a worn piece come to. Its zero
// value is Open: nothing is kept in use by leaving a question out.
type Outcome int

// The outcomes.
const (
	Open   Outcome = iota // a question is not answered
	Keep                  // every question answered, and nothing found
	Judged                // have it judged by a competent person before it is used
	Retire                // found what a published rule or the trade discards it for
)

// String gives the word a gear list keeps.
func (o Outcome) String() string {
	switch o {
	case Keep:
		return "keep"
	case Judged:
		return "judge"
	case Retire:
		return "retire"
	}
	return "open"
}

// OutcomeNamed finds an outcome by its word.
func OutcomeNamed(word string) (Outcome, bool) {
	for _, o := range []Outcome{Open, Keep, Judged, Retire} {
		if o.String() == word {
			return o, true
		}
	}
	return Open, false
}

// How a question is answered.
const (
	AnswerYesNo  = "yes_no" // yes, no or unsure; yes is always the bad answer
	AnswerCount  = "count"  // a whole number of 0 or more
	AnswerLength = "length" // metres, above 0
	AnswerChoice = "choice" // one of Choices
)

// Words of a yes-or-no answer.
const (
	Yes    = "yes"
	No     = "no"
	Unsure = "unsure"
)

// A DiscardQuestion is one thing to look at on a piece of gear.
type DiscardQuestion struct {
	Key     string
	Text    string // the question
	Help    string // how to look
	Answer  string // one of the kinds above
	Choices []Entry
	// Judge: a yes asks for a competent person's judgement; otherwise it
	// retires the piece.
	Judge bool
	// When and Is: asked only where the question When is answered with one
	// of the words Is; "" asks it always.
	When   string
	Is     []string
	Source Source
}

// Asked says whether a question applies, going by the answers so far.
func (q *DiscardQuestion) Asked(answers map[string]string) bool {
	if q.When == "" {
		return true
	}
	for _, is := range q.Is {
		if answers[q.When] == is {
			return true
		}
	}
	return false
}

// A DiscardReason is why an outcome is not keep.
type DiscardReason struct {
	Key     string // of the question
	Outcome Outcome
	Text    string
	Source  Source
}

// Sources of the discard rules. The standard's own text was not read: its
// numbers are those that others print.
var (
	iso4309Source  = Source{"ISO 4309:2010, ordinary lay, one layer on the drum, classes M1 to M4, as reproduced by others; check it in the standard", FromMemory}
	iso4309State   = Source{"ISO 4309:2010, as reproduced by others; check it in the standard", FromMemory}
	craneSource    = Source{"US Army crane manual TM 10-3950-672-10, wire rope inspection", Published}
	slingSource    = Source{"WAC 296-24-29425(5), same as 29 CFR 1910.184", Published}
	weldSource     = Source{"TB 55-1900-232-10, sections 5-5.4 and D-11 to D-13: welding can cost 30 % of strength", Published}
	overSource     = Source{"NAVEDTRA 14160, citing NSTM ch. 613: loads over 75 % of the breaking strength do permanent damage", Published}
	weatherSource  = Source{"NAVEDTRA 14160, citing NSTM ch. 613: weathering alone takes about 30 % in two years", Published}
	discardTrade   = Source{"", CommonPractice}
	unmarkedSource = Source{"a piece without a readable limit has none", CommonPractice}
)

// A BrokenWireRow is a line of the table of visible broken wires: at Breaks
// within so many diameters of length the rope is discarded.
type BrokenWireRow struct {
	Wires      int // load-bearing wires in the outer strands, up to and with this many
	In6, In30d int // visible breaks in 6 and in 30 diameters
}

// BrokenWireTable is the table of ISO 4309:2010 for ordinary lay, one layer
// and classes M1 to M4 or unknown. It is second-hand: two reproductions agree
// up to 220 wires, one has the rows above. The rope's class and its winding
// in several layers would allow more; that is not made use of.
func BrokenWireTable() []BrokenWireRow { return append([]BrokenWireRow(nil), brokenWires[:]...) }

var brokenWires = [...]BrokenWireRow{
	{50, 2, 4}, {75, 3, 6}, {100, 4, 8}, {120, 5, 10}, {140, 6, 11}, {160, 6, 13}, {180, 7, 14}, {200, 8, 16},
	{220, 9, 18}, {240, 10, 19}, {260, 10, 21}, {280, 11, 22}, {300, 12, 24},
}

// BrokenWireLimits gives the numbers of visible broken wires at which a wire
// rope is discarded. Seale strands of 19 wires or fewer take the numbers two
// rows higher up; Lang lay half the numbers, rounded down, at least 1. Wires
// are 1 to 300, else the error is a *TableError.
func BrokenWireLimits(wires int, seale, lang bool) (in6, in30 int, err error) {
	if wires < 1 || wires > brokenWires[len(brokenWires)-1].Wires {
		return 0, 0, &TableError{What: "the number of load-bearing wires", Given: strconv.Itoa(wires), Accepted: "1 to 300"}
	}
	i := 0
	for brokenWires[i].Wires < wires {
		i++
	}
	if seale {
		i = max(0, i-2)
	}
	in6, in30 = brokenWires[i].In6, brokenWires[i].In30d
	if lang {
		in6, in30 = max(1, in6/2), max(1, in30/2)
	}
	return in6, in30, nil
}

// Constructions of wire rope in the worksheet, with their load-bearing wires
// in the outer strands.
const (
	rope6x19S  = "6x19_seale"
	rope6x25F  = "6x25_filler"
	rope6x36WS = "6x36_warrington_seale"
	ropeOther  = "other"
)

var ropeConstructions = []Entry{
	{Key: rope6x19S, Name: "6x19 Seale (114 wires)", Value: 114, Source: iso4309Source},
	{Key: rope6x25F, Name: "6x25 filler (114 wires that carry)", Value: 114, Source: iso4309Source},
	{Key: rope6x36WS, Name: "6x36 Warrington-Seale (216 wires)", Value: 216, Source: iso4309Source},
	{Key: ropeOther, Name: "another, or not known: the strictest row", Value: 1, Source: iso4309Source},
}

// Ways a rope is laid.
const (
	layOrdinary = "ordinary"
	layLang     = "lang"
	layUnknown  = "unknown"
)

var ropeLays = []Entry{
	{Key: layOrdinary, Name: "ordinary lay: the outer wires run along the rope"},
	{Key: layLang, Name: "Lang lay: the outer wires run across the rope"},
	{Key: layUnknown, Name: "not known: taken as Lang lay"},
}

// diameterSteps is the crane manual's table of the greatest loss of diameter
// (m): up to and with the diameter Below, except that a diameter between two
// of its printed ranges takes the smaller one's loss.
var diameterSteps = [...]struct{ next, loss float64 }{
	{3.0 / 8 * Inch, 1.0 / 64 * Inch}, // printed: up to 5/16 in
	{9.0 / 16 * Inch, 1.0 / 32 * Inch},
	{7.0 / 8 * Inch, 3.0 / 64 * Inch},
	{1.25 * Inch, 1.0 / 16 * Inch},
}

const (
	diameterMost     = 1.5 * Inch // m, the largest rope of the table
	diameterMostLoss = 3.0 / 32 * Inch
)

// DiameterLossLimit is the loss of diameter, in metres, above which a wire
// rope of that nominal diameter (m) is discarded: TM 10-3950-672-10, from
// above 0 to 1 1/2 in (38.1 mm), else a *TableError. A diameter that lies
// between two printed ranges takes the stricter.
func DiameterLossLimit(nominal float64) (float64, error) {
	if err := positive("the nominal diameter", nominal, "m"); err != nil {
		return 0, err
	}
	const slack = 1 + 1e-9 // of a size converted from inches
	if nominal > diameterMost*slack {
		return 0, outsideTable("the nominal diameter", nominal/MM, "mm", "up to 38.1 mm")
	}
	for _, s := range diameterSteps {
		if nominal*slack < s.next {
			return s.loss, nil
		}
	}
	return diameterMostLoss, nil
}

// Keys of the questions that are not plain yes or no.
const (
	askConstruction = "construction"
	askLay          = "lay"
	askBreaks6      = "breaks_in_6_diameters"
	askBreaks30     = "breaks_in_30_diameters"
	askEndBreaks    = "breaks_at_an_end"
	askNominal      = "nominal_diameter"
	askDiameter     = "diameter_now"
	askMadeOf       = "made_of"
	askLayBreaks    = "breaks_in_a_lay"
	askStrandBreaks = "breaks_in_a_strand"
)

// What a sling is made of.
const (
	ofWire    = "wire_rope"
	ofFibre   = "fibre_rope"
	ofWebbing = "webbing"
	ofChain   = "chain"
)

var slingKinds = []Entry{
	{Key: ofWire, Name: "wire rope"}, {Key: ofFibre, Name: "fibre rope"}, {Key: ofWebbing, Name: "webbing, or a roundsling"}, {Key: ofChain, Name: "chain"},
}

// DiscardQuestions are what to look at on a kind of gear, in order; kinds
// that nothing is known of get the general ones.
func DiscardQuestions(kind string) []DiscardQuestion {
	var q []DiscardQuestion
	switch kind {
	case "wire_rope":
		q = append(q, wireRopeQuestions[:]...)
	case "fibre_rope":
		q = append(q, fibreRopeQuestions[:]...)
	case "sling":
		q = slingQuestions()
	case "chain":
		q = append(q, chainQuestions[:]...)
	case "shackle":
		q = append(q, shackleQuestions[:]...)
	case "block":
		q = append(q, blockQuestions[:]...)
	default:
		q = append(q, otherQuestions[:]...)
	}
	return append(q, lastQuestions[:]...)
}

// slingQuestions asks what a sling is made of and then what that asks for.
func slingQuestions() []DiscardQuestion {
	q := append([]DiscardQuestion(nil), slingFirst)
	q = onlyOf(q, ofWire, wireSlingQuestions[:])
	q = onlyOf(q, ofFibre, fibreRopeQuestions[:])
	q = onlyOf(q, ofWebbing, webbingQuestions[:])
	q = onlyOf(q, ofChain, chainQuestions[:])
	return append(q, slingLast)
}

// onlyOf appends questions that are asked of slings of one material.
//
//go:noinline
func onlyOf(q []DiscardQuestion, of string, list []DiscardQuestion) []DiscardQuestion {
	is := []string{of}
	for _, question := range list {
		question.When, question.Is = askMadeOf, is
		q = append(q, question)
	}
	return q
}

// The questions are tables of constants, so that no code has to fill them in.

var wireRopeQuestions = [...]DiscardQuestion{
	{Key: askConstruction, Text: "How is the rope made?", Help: "From its certificate. It gives the number of wires that the breaks are counted against.", Answer: AnswerChoice, Choices: ropeConstructions, Source: iso4309Source},
	{Key: askLay, Text: "How is it laid?", Help: "Lang lay may have about half the broken wires.", Answer: AnswerChoice, Choices: ropeLays, Source: iso4309Source},
	{Key: askBreaks6, Text: "Broken wires to be seen in the worst 6 diameters of length", Help: "Bend the rope gently by hand, unloaded and with gloves; count every break.", Answer: AnswerCount, Source: iso4309Source},
	{Key: askBreaks30, Text: "Broken wires to be seen in the worst 30 diameters of length", Help: "It holds the 6 diameters, so it is never the smaller number.", Answer: AnswerCount, Source: iso4309Source},
	{Key: askEndBreaks, Text: "Broken wires at the worst end fitting", Help: "More than one discards it. Printed for standing rope; taken here for every end.", Answer: AnswerCount, Source: craneSource},
	{Key: askNominal, Text: "Nominal diameter", Help: "As new, from the certificate.", Answer: AnswerLength, Source: craneSource},
	{Key: askDiameter, Text: "Diameter now, at the thinnest place", Help: "By calliper over the crowns of the strands, in two directions; take the smaller.", Answer: AnswerLength, Source: craneSource},
	{Key: "strand", Text: "Is a strand broken?", Help: "One is enough.", Answer: AnswerYesNo, Source: iso4309State},
	{Key: "kink", Text: "Is there a kink, or a place pulled straight from one?", Help: "A loop that was pulled tight has changed the lay for good.", Answer: AnswerYesNo, Source: iso4309State},
	{Key: "birdcage", Text: "Do strands stand open like a basket, or does the core come out?", Help: "Look near the ends and where it ran over blocks.", Answer: AnswerYesNo, Source: iso4309State},
	{Key: "crushed", Text: "Is it crushed or flattened?", Help: "Look at the part that lay under other layers on the drum.", Answer: AnswerYesNo, Source: iso4309State},
	{Key: "heat", Text: "Are there marks of heat, burning or an electric arc?", Help: "Blue wires, melted spots, a dry core.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "rust", Text: "Is it rusted so that the wires are pitted or loose?", Help: "Open it a little where it is never dry.", Answer: AnswerYesNo, Judge: true, Source: discardTrade},
}

var fibreRopeQuestions = [...]DiscardQuestion{
	{Key: "cut", Text: "Is a strand or the cover cut, or are many yarns broken in one place?", Help: "Feel and turn every arm's length.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "melted", Text: "Is any part glazed, melted or hard?", Help: "Rope that ran over a bollard, a stem or itself.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "core", Text: "Is the core to be seen, or are there lumps, flat or thin places?", Help: "Run it through the hand; the thickness must not change.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "chemical", Text: "Has it met acid, fuel, saw oil in quantity or other chemicals, or does it smell or powder?", Help: "Open the strands and look inside.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "three_quarters", Text: "Has it carried more than three quarters of what it breaks at?", Help: "That damages it for good. After a jam or a stall nobody can tell, answer: not sure.", Answer: AnswerYesNo, Source: overSource},
	{Key: "weathered", Text: "Has it lain out in sun and weather for two years or more, or is its surface bleached and furry?", Help: "Weather alone takes about a third of natural and general rope in that time.", Answer: AnswerYesNo, Judge: true, Source: weatherSource},
}

var chainQuestions = [...]DiscardQuestion{
	{Key: "cracked", Text: "Is there any crack or deep nick in a link or hook?", Help: "Clean it; turn every link.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "stretched", Text: "Are links stretched, bent or twisted, or do they no longer hinge freely?", Help: "Lay it beside a new one, or against its papers' length.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "worn", Text: "Are links worn where they bear on each other?", Help: "Thinner there to be seen or felt.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "heat", Text: "Are there marks of heat or welding?", Help: "Blue or scaled links, weld spatter.", Answer: AnswerYesNo, Source: weldSource},
}

var slingFirst = DiscardQuestion{Key: askMadeOf, Text: "What is it made of?", Help: "What is looked for depends on it.", Answer: AnswerChoice, Choices: slingKinds, Source: discardTrade}

var wireSlingQuestions = [...]DiscardQuestion{
	{Key: askLayBreaks, Text: "Broken wires, anywhere round it, in the worst length of one lay", Help: "One lay is the length in which a strand goes once round. Ten discard it.", Answer: AnswerCount, Source: slingSource},
	{Key: askStrandBreaks, Text: "Broken wires in one strand in one lay, the worst", Help: "Five discard it.", Answer: AnswerCount, Source: slingSource},
	{Key: "third_worn", Text: "Are outer wires worn or scraped by a third of their thickness?", Help: "Bright flat places; compare with wires that do not rub.", Answer: AnswerYesNo, Source: slingSource},
	{Key: "wire_bent", Text: "Is it kinked, crushed, opened like a basket, or is a strand broken?", Help: "One such place is enough.", Answer: AnswerYesNo, Source: iso4309State},
	{Key: "heat", Text: "Are there marks of heat, burning or an electric arc?", Help: "Blue wires, melted spots, a dry core.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "rust", Text: "Is it rusted so that the wires are pitted?", Help: "Look at the eyes and ferrules first.", Answer: AnswerYesNo, Judge: true, Source: discardTrade},
}

var webbingQuestions = [...]DiscardQuestion{
	{Key: "cut", Text: "Is it cut, torn, frayed through or are stitches broken?", Help: "Both edges, both faces, the eyes.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "melted", Text: "Is any part glazed, melted or hard?", Help: "A sling that slipped on bark or steel.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "core", Text: "Is the inside to be seen through the cover, or a wear thread showing?", Help: "On a roundsling the cover must be whole.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "chemical", Text: "Has it met acid, fuel, saw oil in quantity or other chemicals?", Help: "Stains, stiff or powdery places.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "weathered", Text: "Is it bleached or stiff from sun and weather?", Help: "Compare with a part that lay covered.", Answer: AnswerYesNo, Judge: true, Source: discardTrade},
}

var slingLast = DiscardQuestion{Key: "ends", Text: "Are eyes, ferrules, thimbles, rings or hooks cracked, bent, open or slipping?", Help: "Every end.", Answer: AnswerYesNo, Source: discardTrade}

var shackleQuestions = [...]DiscardQuestion{
	{Key: "bent", Text: "Is the body or the pin bent, stretched or twisted?", Help: "Sight along the pin; the body's two eyes must be in line.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "cracked", Text: "Is there any crack, notch or sharp nick?", Help: "Look at the eyes and the crown of the bow, cleaned.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "worn", Text: "Is any part worn by a tenth of its thickness or more?", Help: "Compare the crown and the pin with parts that do not bear.", Answer: AnswerYesNo, Source: Source{"ASME B30.26, removal criteria", FromMemory}},
	{Key: "pin", Text: "Is the pin not its own, damaged at the thread, or does it not run home by hand?", Help: "The right pin and nothing else: no bolt.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "welded", Text: "Has it been welded, ground or heated?", Help: "Look for scale, colours and weld metal.", Answer: AnswerYesNo, Source: weldSource},
}

var blockQuestions = [...]DiscardQuestion{
	{Key: "cracked", Text: "Is there any crack in cheeks, pin, hook or eye?", Help: "Clean it first; look where the load comes in.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "bent", Text: "Are cheeks, pin or hook bent, or the hook open?", Help: "The cheeks must close on their pin without force.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "sheave", Text: "Is the sheave chipped, worn to the shape of the rope, or loose on its pin?", Help: "Feel the groove; turn and rock the sheave.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "turns", Text: "Does the sheave run rough or not turn by hand?", Help: "A sheave that sticks multiplies the load on one side.", Answer: AnswerYesNo, Judge: true, Source: discardTrade},
	{Key: "welded", Text: "Has it been welded, ground or heated?", Help: "Look for scale, colours and weld metal.", Answer: AnswerYesNo, Source: weldSource},
}

// otherQuestions are for gear that has none of its own.
var otherQuestions = [...]DiscardQuestion{
	{Key: "cracked", Text: "Is there any crack, or a part bent, broken or missing?", Help: "Clean it first; look where the load comes in.", Answer: AnswerYesNo, Source: discardTrade},
	{Key: "works", Text: "Does any part, brake or lock not work as it should?", Help: "Try it without load.", Answer: AnswerYesNo, Judge: true, Source: discardTrade},
	{Key: "worn", Text: "Is any part that bears load worn or rusted to be seen?", Help: "Compare with parts that do not bear.", Answer: AnswerYesNo, Judge: true, Source: discardTrade},
}

// lastQuestions are asked of all gear.
var lastQuestions = [...]DiscardQuestion{
	{Key: "unmarked", Text: "Is its limit no longer to be read, and not in its papers either?", Help: "Tag, stamp or certificate of this very piece.", Answer: AnswerYesNo, Source: unmarkedSource},
	{Key: "overloaded", Text: "Has it been overloaded or shock-loaded since it was last judged, or may it have been?", Help: "A line that parted, a machine that stalled on it, a stem that swung into it.", Answer: AnswerYesNo, Judge: true, Source: discardTrade},
}

// Discard weighs the answers about a piece of a kind. Answers are texts by
// the question's key: yes, no or unsure; a whole number; a length in metres;
// a choice's key. An answer that is missing or cannot be read counts as not
// given: then the outcome is Open at best, unless something found already
// retires the piece. The list unread names the questions asked and not
// answered; the reasons tell what was found.
func Discard(kind string, answers map[string]string) (outcome Outcome, reasons []DiscardReason, unread []string) {
	worse := func(q *DiscardQuestion, o Outcome, text string) {
		reasons = append(reasons, DiscardReason{Key: q.Key, Outcome: o, Text: text, Source: q.Source})
		outcome = max(outcome, o)
	}
	sheet := discardSheet{answers: answers}
	questions := DiscardQuestions(kind)
	outcome = Keep
	for i := range questions {
		q := &questions[i]
		if !q.Asked(answers) {
			continue
		}
		if !sheet.read(q) {
			unread = append(unread, q.Key)
			continue
		}
		switch q.Answer {
		case AnswerYesNo:
			switch {
			case answers[q.Key] == Unsure:
				worse(q, Judged, "Not sure: "+q.Text)
			case answers[q.Key] == Yes && q.Judge:
				worse(q, Judged, "Yes: "+q.Text)
			case answers[q.Key] == Yes:
				worse(q, Retire, "Yes: "+q.Text)
			}
		case AnswerCount, AnswerLength:
			if o, text := sheet.measured(q); o != Keep {
				worse(q, o, text)
			}
		}
	}
	if len(unread) > 0 && outcome != Retire {
		outcome = Open
	}
	return outcome, reasons, unread
}

// A discardSheet reads answers.
type discardSheet struct{ answers map[string]string }

// read says whether a question's answer is there and makes sense.
func (s *discardSheet) read(q *DiscardQuestion) bool {
	text := s.answers[q.Key]
	switch q.Answer {
	case AnswerYesNo:
		return text == Yes || text == No || text == Unsure
	case AnswerChoice:
		_, ok := findEntry(q.Choices, text)
		return ok
	case AnswerCount:
		_, ok := s.count(q.Key)
		return ok
	}
	_, ok := s.length(q.Key)
	return ok
}

// mostBreaks bounds a count of broken wires: more is a slip of the finger.
const mostBreaks = 10000

func (s *discardSheet) count(key string) (int, bool) {
	n, err := strconv.Atoi(strings.TrimSpace(s.answers[key]))
	return n, err == nil && n >= 0 && n <= mostBreaks
}

func (s *discardSheet) length(key string) (float64, bool) {
	v, err := strconv.ParseFloat(strings.TrimSpace(s.answers[key]), 64)
	return v, err == nil && v > 0 && v <= 1 // no rope is a metre thick
}

// measured holds a number that was read to its limit.
func (s *discardSheet) measured(q *DiscardQuestion) (Outcome, string) {
	n, _ := s.count(q.Key)
	switch q.Key {
	case askBreaks6, askBreaks30:
		return s.breaks(q, n)
	case askEndBreaks:
		if n > 1 {
			return Retire, counted(n) + " at an end; more than 1 discards it."
		}
	case askLayBreaks:
		if n >= 10 {
			return Retire, counted(n) + " in one lay; 10 discard it."
		}
	case askStrandBreaks:
		if n >= 5 {
			return Retire, counted(n) + " in one strand in one lay; 5 discard it."
		}
	case askDiameter:
		return s.diameter()
	}
	return Keep, ""
}

func counted(n int) string {
	if n == 1 {
		return "1 broken wire"
	}
	return strconv.Itoa(n) + " broken wires"
}

func (s *discardSheet) breaks(q *DiscardQuestion, n int) (Outcome, string) {
	how, lay := s.answers[askConstruction], s.answers[askLay]
	made, known := findEntry(ropeConstructions, how)
	if !known || lay == "" {
		return Keep, "" // those questions are open themselves
	}
	in6, in30, err := BrokenWireLimits(int(made.Value), how == rope6x19S, lay != layOrdinary)
	if err != nil {
		return Judged, err.Error()
	}
	limit, length := in6, "6"
	if q.Key == askBreaks30 {
		limit, length = in30, "30"
		if fewer, ok := s.count(askBreaks6); ok && fewer > n {
			return Judged, "Fewer breaks in 30 diameters than in the 6 of them that are worst: count again."
		}
	}
	if n >= limit {
		return Retire, counted(n) + " in " + length + " diameters; " + strconv.Itoa(limit) + " discard it."
	}
	return Keep, ""
}

func (s *discardSheet) diameter() (Outcome, string) {
	nominal, ok := s.length(askNominal)
	now, _ := s.length(askDiameter)
	if !ok {
		return Keep, "" // that question is open itself
	}
	most, err := DiameterLossLimit(nominal)
	if err != nil {
		return Judged, "The table of the loss of diameter ends at 38.1 mm (1 1/2 in)."
	}
	const slack = 1e-9 // m, of a size converted from inches
	switch lost := nominal - now; {
	case lost > most+slack:
		return Retire, "It has lost " + short(lost/MM, 3) + " mm of diameter; more than " + short(most/MM, 3) + " mm discards it."
	case now > 1.15*nominal:
		// Wire ropes are made up to a twentieth thicker than nominal.
		return Judged, "It is thicker than its nominal diameter by more than a rope is made: measure again, or look for a core that swells."
	}
	return Keep, ""
}
