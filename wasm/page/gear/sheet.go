package gear

import (
	"strconv"
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/page/form"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

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

// Words of the outcomes.
var outcomeWords = [...][2]words.Text{
	rigging.Open:   {"Not all answered", "No outcome until every question is answered."},
	rigging.Keep:   {"Keep in use", "These questions found nothing wrong. They are not an inspection: a competent person's {judgement} and local codes come first."},
	rigging.Judged: {"Have it judged", "Do not use until a competent person has judged it."},
	rigging.Retire: {"Retire it", "Do not use again. Mark it and keep it apart, so that nobody takes it by mistake."},
}

// answered gives the answers as package rigging takes them, lengths in
// metres, with a problem for each that cannot be read.
func (w *work) answered(questions []rigging.DiscardQuestion) (answers, problems map[string]string) {
	answers, problems = map[string]string{}, map[string]string{}
	for i := range questions {
		q := &questions[i]
		text := strings.TrimSpace(w.req.Answers[q.Key])
		if text == "" {
			continue
		}
		answers[q.Key] = text
		switch q.Answer {
		case rigging.AnswerLength:
			metric, ok := w.length(text)
			if !ok || !(metric > 0 && metric <= 1) {
				problems[q.Key] = w.d.NotANumber(text, w.lengthUnit())
				metric = 0
			}
			answers[q.Key] = strconv.FormatFloat(metric, 'g', -1, 64)
		case rigging.AnswerCount:
			if n, ok := w.u.Parse(text, units.Count); ok && n >= 0 {
				answers[q.Key] = strconv.FormatFloat(n, 'f', 0, 64)
			} else {
				problems[q.Key] = w.d.Say("“%s” is not a count. Type a whole number, 0 for none.", text)
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
	i, ok := w.pieceOf(w.req.Path)
	if !ok || i >= len(w.pieces) {
		w.out.Message = w.d.Say(noPiece)
		return
	}
	w.out.Sheet, _ = w.worksheet(i)
}

func (w *work) worksheet(i int) (*Worksheet, rigging.Outcome) {
	kind := w.d.Text(draft.Elem("pieces", i) + ".kind")
	questions := rigging.DiscardQuestions(kind)
	answers, problems := w.answered(questions)
	outcome, reasons, _ := rigging.Discard(kind, answers)
	s := Worksheet{Path: draft.Elem("pieces", i), Title: w.d.Say("Inspection of %s", w.title(i)), Reasons: []parts.Note{}}
	section := parts.Section{
		ID: "answers", Title: w.d.Say("What to check"),
		Help: w.d.Say("Clean the piece first and check all of it in good light. If you are not sure, answer so. These are the usual questions, not all there are."),
	}
	for k := range questions {
		q := &questions[k]
		if !q.Asked(answers) {
			continue
		}
		f := parts.Field{Path: "answers." + q.Key, Label: w.d.Say(words.Text(q.Text)), Help: words.Join(w.d.Say(words.Text(q.Help)), w.d.Given("Source: %s.", w.d.Source(q.Source))), Text: w.req.Answers[q.Key], Problem: problems[q.Key]}
		switch q.Answer {
		case rigging.AnswerYesNo:
			f.Kind, f.Options = fields.Choice, parts.Told(w.d.Locale, []parts.Choice{{Value: "", Label: "not answered"}, {Value: rigging.No, Label: "no"}, {Value: rigging.Yes, Label: "yes"}, {Value: rigging.Unsure, Label: "not sure"}})
		case rigging.AnswerChoice:
			f.Kind, f.Options = fields.Choice, []parts.Option{{Value: "", Label: w.d.Say("not answered")}}
			for _, c := range q.Choices {
				f.Options = append(f.Options, parts.Option{Value: c.Key, Label: w.d.Say(words.Text(c.Name))})
			}
		case rigging.AnswerLength:
			f.Kind, f.Unit = fields.Number, w.lengthUnit()
		default:
			f.Kind = fields.Number
		}
		if f.Kind == fields.Choice {
			f.Options = parts.WithValue(w.d.Locale, f.Options, f.Text)
		}
		section.Fields = append(section.Fields, f)
	}
	date := w.req.Date
	day, dated := plan.ParseDate(form.DateText(date))
	about := parts.Section{ID: "about", Title: w.d.Say("Who and when"), Fields: []parts.Field{
		{Path: "date", Label: w.d.Say("Inspected on"), Kind: fields.Text, Text: date, Help: w.d.Say(fields.DateHelp)},
		{Path: "by", Label: w.d.Say("By"), Kind: fields.Text, Text: w.req.By, Help: w.d.Say("Who inspected it. Kept in the record.")},
	}}
	if !dated {
		about.Fields[0].Problem = w.d.Say("Type the day as year-month-day, such as 2026-03-31.")
	}
	s.Form = []parts.Section{section, about}
	s.Outcome, s.Word, s.Text = outcome.String(), w.d.Say(outcomeWords[outcome][0]), w.d.Say(outcomeWords[outcome][1])
	for _, r := range reasons {
		s.Reasons = append(s.Reasons, parts.Note{Code: r.Outcome.String(), Path: "answers." + r.Key, Message: w.d.Say(words.Text(r.Text)), Source: w.d.Source(r.Source)})
	}
	s.Ready = outcome != rigging.Open && dated && day.Known()
	return &s, outcome
}

// record keeps the worksheet with the piece, and retires it where the user
// agrees.
func (w *work) record() {
	i, ok := w.pieceOf(w.req.Path)
	if !ok || i >= len(w.pieces) || w.req.Path != draft.Elem("pieces", i) {
		w.out.Message = w.d.Say(noPiece)
		return
	}
	s, outcome := w.worksheet(i)
	if !s.Ready {
		w.out.Sheet = s
		w.out.Message = w.d.Say("Nothing was recorded: answer every question and give the day.")
		return
	}
	day, _ := plan.ParseDate(form.DateText(w.req.Date))
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
	if by := strings.TrimSpace(w.req.By); by != "" {
		sheet["by"] = by
	}
	w.editing(func(e *form.Editor) {
		e.Set(w.req.Path+".worksheet", sheet)
		if w.req.Retire {
			e.Set(w.req.Path+".retired", true)
		}
	})
	w.out.Message = w.d.Say("Recorded: %s.", w.d.Say(outcomeWords[outcome][0]))
}
