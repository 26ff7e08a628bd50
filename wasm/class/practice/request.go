package practice

import (
	"pullline/rigging/jsontext"
	"pullline/wasm/words"
)

// JSON answers a request for a sheet of questions. It answers to any
// input.
//
//codec:call asked Sheet
func JSON(request []byte) (out []byte) {
	var l words.Locale
	defer func() {
		if fault := recover(); fault != nil {
			out = jsontext.Encode(brokenSheet(l, "The questions could not be made: there is a fault in the program."))
		}
	}()
	req, err := parse(request)
	if err != nil {
		return jsontext.Encode(brokenSheet(l, "The page asked for questions in a way that could not be read: %s", err.Error()))
	}
	l = req.Settings.Locale()
	return jsontext.Encode(work(req))
}

// parse reads a request. What is of a wrong type counts as left out,
// but for seed and grade, which the sheet says it could not use.
func parse(raw []byte) (*asked, error) {
	var req asked
	err := req.Read(raw, req.Take)
	return &req, err
}
