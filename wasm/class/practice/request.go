package practice

import (
	"pullline/rigging/jsontext"
	"pullline/wasm/parts"
	"pullline/wasm/request"
)

// JSON answers a request for a sheet of questions. It answers to any
// input.
func JSON(request []byte) (out []byte) {
	defer func() {
		if fault := recover(); fault != nil {
			out = jsontext.Encode(brokenSheet("The questions could not be made: there is a fault in the program."))
		}
	}()
	req, err := parse(request)
	if err != nil {
		return jsontext.Encode(brokenSheet("The page asked for questions in a way that could not be read: " + err.Error()))
	}
	return jsontext.Encode(work(req))
}

// parse reads a request. What is of a wrong type counts as left out,
// but for seed and grade, which the sheet says it could not use.
func parse(raw []byte) (*asked, error) {
	req := asked{Answers: map[string]string{}}
	err := request.Members(raw, new(any), new(int), &req.Settings, func(key string, v any) {
		switch key {
		case "seed":
			req.Seed = v
		case "grade":
			req.Grade = v
		case "box":
			req.Box = request.Box(v)
		case "answers":
			if answers := request.Texts(v); answers != nil {
				req.Answers = answers
			}
		case "solutions":
			req.Solutions = v == true
		}
	})
	return &req, err
}

// AppendJSON writes the sheet.
func (s *Sheet) AppendJSON(w *jsontext.Writer) {
	w.Open()
	w.Text("title", s.Title)
	w.Text("invented", s.Invented)
	w.Text("seed", s.Seed)
	w.Text("mark", s.Mark)
	w.Text("key", s.Key)
	w.Text("grade", s.Grade)
	jsontext.List(w, "grades", s.Grades, parts.AppendOption)
	jsontext.List(w, "questions", s.Questions, appendQuestion)
	w.Text("score", s.Score)
	w.Int("right", s.Right)
	w.Int("wrong", s.Wrong)
	w.TextIf("message", s.Message)
	w.Close()
}

func appendQuestion(w *jsontext.Writer, q *Question) {
	w.Open()
	w.Text("id", q.ID)
	w.Text("text", q.Text)
	w.Texts("given", q.Given)
	q.Picture.AppendJSON(w, "picture")
	w.Text("kind", q.Kind)
	w.TextIf("unit", q.Unit)
	jsontext.ListIf(w, "options", q.Options, parts.AppendOption)
	w.Bool("follows", q.Follows)
	w.TextIf("tolerance", q.Tolerance)
	w.Text("answer", q.Answer)
	w.Text("state", q.State)
	w.Text("says", q.Says)
	w.NumIf("parts_at", float64(q.PartsAt))
	w.TextIf("right", q.Right)
	jsontext.ListIf(w, "solution", q.Solution, parts.AppendStep)
	w.Close()
}
