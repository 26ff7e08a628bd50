package handover

import (
	"strconv"
	"strings"

	"pullline/rigging/jsontext"
	"pullline/wasm/qr"
	"pullline/wasm/request"
)

// mostVersion is the finest code that is shown: 97 modules, which are 3 pixels
// each on the narrowest phone. Common practice, no source: cameras want two.
const mostVersion = 20

// mostCodes is more than the longest plan takes.
const mostCodes = 999

// View is the codes to show; none where the link is none that can be put into
// codes.
type View struct {
	Codes []Code `json:"codes"`
}

// A Code is a picture of dark modules on a light ground, Side modules a side with
// the quiet zone about it.
type Code struct {
	Text string `json:"text"` // what a camera reads
	Side int    `json:"side"`
	Path string `json:"path"` // of SVG, one unit a module
}

// An asked is what the page sends: the address of the page, and the code of a
// plan whose end is in digits.
//
//codec:request
type asked struct {
	request.Common
	Address string `json:"address"`
	Code    string `json:"code"`
}

// JSON answers a request for codes. It answers to any input.
//
//codec:call asked View
func JSON(raw []byte) (out []byte) {
	defer func() {
		if fault := recover(); fault != nil {
			out = jsontext.Encode(&View{Codes: []Code{}})
		}
	}()
	var req asked
	if err := req.Read(raw, req.Take); err != nil {
		return jsontext.Encode(&View{Codes: []Code{}})
	}
	return jsontext.Encode(&View{Codes: codes(req.Address, req.Code)})
}

// headLength is the length of what every part repeats: what kind of code it is
// and the check sum, which tells the parts of one plan from those of another.
const headLength = 10

// codes are those of a link. A part is the number of the code, how many there
// are, the head and some of the digits, with dots between them.
func codes(address, code string) []Code {
	if one, err := draw(address + "#plan=" + code); err == nil {
		return []Code{one}
	}
	if len(code) <= headLength {
		return []Code{}
	}
	head, digits := code[:headLength], code[headLength:]
	for n := 2; n <= min(mostCodes, len(digits)); n++ {
		if all := inParts(address, head, digits, n); all != nil {
			return all
		}
	}
	return []Code{}
}

// inParts is the link in n codes of one size, nil where it takes more.
func inParts(address, head, digits string, n int) []Code {
	all := make([]Code, 0, n)
	for i := range n {
		part := digits[i*len(digits)/n : (i+1)*len(digits)/n]
		c, err := draw(address + "#part=" + strconv.Itoa(i+1) + "." + strconv.Itoa(n) + "." + head + "." + part)
		if err != nil {
			return nil
		}
		all = append(all, c)
	}
	return all
}

func draw(text string) (Code, error) {
	s, err := qr.Encode(text, qr.LevelL, mostVersion)
	if err != nil {
		return Code{}, err
	}
	return Code{Text: text, Side: s.Size + 2*qr.QuietZone, Path: path(s)}, nil
}

// path draws each run of dark modules in a row as one rectangle.
func path(s *qr.Symbol) string {
	var b strings.Builder
	for row := range s.Size {
		for column := 0; column < s.Size; column++ {
			from := column
			for s.Dark(row, column) {
				column++
			}
			if column > from {
				width := strconv.Itoa(column - from)
				b.WriteString("M" + strconv.Itoa(from+qr.QuietZone) + " " + strconv.Itoa(row+qr.QuietZone) + "h" + width + "v1h-" + width + "z")
			}
		}
	}
	return b.String()
}
