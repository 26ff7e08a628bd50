package units

import (
	"math"
	"strconv"
	"strings"

	"pullline/rigging"
)

// typedUnits are the units a person may type after a number, by dimension:
// value in the file's unit = number × size. A bare "ton" is in none of them:
// short ton and tonne differ by a tenth, and gear is stamped in both.
var typedUnits = [Dimensions][]typedUnit{
	Plain:    {{"%", 0.01}, {":1", 1}, {"x", 1}, {"×", 1}, {"times", 1}},
	Percents: {{"%", 1}},
	Metres: {{"m", 1}, {"metre", 1}, {"metres", 1}, {"meter", 1}, {"meters", 1}, {"cm", rigging.CM}, {"mm", rigging.MM},
		{"ft", rigging.Foot}, {"'", rigging.Foot}, {"foot", rigging.Foot}, {"feet", rigging.Foot},
		{"in", rigging.Inch}, {"\"", rigging.Inch}, {"inch", rigging.Inch}, {"inches", rigging.Inch}},
	Degrees: {{"°", 1}, {"deg", 1}, {"degree", 1}, {"degrees", 1}},
	Kilonewtons: {{"kn", 1}, {"n", 1 / rigging.KN}, {"dan", 10 / rigging.KN},
		{"t", rigging.TonneForce / rigging.KN}, {"tf", rigging.TonneForce / rigging.KN},
		{"tonne", rigging.TonneForce / rigging.KN}, {"tonnes", rigging.TonneForce / rigging.KN},
		{"kg", rigging.G / rigging.KN}, {"kgf", rigging.G / rigging.KN},
		{"lb", rigging.PoundForce / rigging.KN}, {"lbs", rigging.PoundForce / rigging.KN}, {"lbf", rigging.PoundForce / rigging.KN},
		{"kip", 1000 * rigging.PoundForce / rigging.KN}, {"kips", 1000 * rigging.PoundForce / rigging.KN},
		{"short ton", rigging.ShortTonForce / rigging.KN}, {"short tons", rigging.ShortTonForce / rigging.KN}},
	Kilograms: {{"kg", 1}, {"t", 1000}, {"tonne", 1000}, {"tonnes", 1000}, {"lb", rigging.Pound}, {"lbs", rigging.Pound},
		{"short ton", 2000 * rigging.Pound}, {"short tons", 2000 * rigging.Pound}},
	KilogramsPerCubicMetre: {{"kg/m3", 1}, {"kg/m³", 1}, {"t/m3", 1000}, {"t/m³", 1000},
		{"lb/ft3", rigging.Pound / (rigging.Foot * rigging.Foot * rigging.Foot)}, {"lb/ft³", rigging.Pound / (rigging.Foot * rigging.Foot * rigging.Foot)}},
	Megapascals: {{"mpa", 1}, {"n/mm2", 1}, {"n/mm²", 1}, {"psi", rigging.PoundForce / (rigging.Inch * rigging.Inch) / rigging.MPa}},
	SquareMetres: {{"m2", 1}, {"m²", 1}, {"sqm", 1}, {"ft2", rigging.Foot * rigging.Foot}, {"ft²", rigging.Foot * rigging.Foot},
		{"sqft", rigging.Foot * rigging.Foot}, {"sq ft", rigging.Foot * rigging.Foot}},
	MetresPerSecond: {{"m/s", 1}, {"mps", 1}, {"km/h", 1000 / hour}, {"kmh", 1000 / hour}, {"kph", 1000 / hour}, {"mph", mile / hour},
		{"kt", 1852 / hour}, {"kts", 1852 / hour}, {"knot", 1852 / hour}, {"knots", 1852 / hour}},
	KilogramsPerMetre: {{"kg/m", 1}, {"g/m", 0.001}, {"lb/ft", rigging.Pound / rigging.Foot}},
	NewtonMetresPerKilogram: {{"n·m/kg", 1}, {"nm/kg", 1}, {"n m/kg", 1}, {"ft·lbf/lb", footPound / rigging.Pound}, {"ft lbf/lb", footPound / rigging.Pound},
		{"ft·lb/lb", footPound / rigging.Pound}},
	KilonewtonMetres: {{"kn·m", 1}, {"knm", 1}, {"kn m", 1}, {"n·m", 1 / rigging.KNm}, {"nm", 1 / rigging.KNm}, {"tf·m", rigging.TonneForce / rigging.KNm}, {"tfm", rigging.TonneForce / rigging.KNm},
		{"ft·lbf", footPound / rigging.KNm}, {"ft lbf", footPound / rigging.KNm}, {"ft·lb", footPound / rigging.KNm}, {"ft lb", footPound / rigging.KNm}},
	Kilojoules: {{"kj", 1}, {"j", 0.001}, {"ft·lbf", footPound / 1000}, {"ft lbf", footPound / 1000}, {"ft·lb", footPound / 1000}, {"ft lb", footPound / 1000}},
}

// A typedUnit is the name of a unit and its size.
type typedUnit struct {
	name string
	size float64
}

// sizeTyped is the size of a unit that may be typed in every system. The
// centimetres that diameters are kept in take the same lengths as metres, and
// the tonnes-force stamped on a tag the same forces as kilonewtons.
func sizeTyped(unit string, dim Dimension) (float64, bool) {
	kept, by := dim, 0.0
	switch dim {
	case Centimetres:
		kept, by = Metres, 1/rigging.CM
	case TonnesForce:
		kept, by = Kilonewtons, rigging.KN/rigging.TonneForce
	}
	for _, u := range typedUnits[kept] {
		if u.name != unit {
			continue
		}
		if by != 0 {
			return RoundDigits(u.size*by, 15), true
		}
		return u.size, true
	}
	return 0, false
}

// Parse reads a number as people type it, in the user's unit unless
// another is typed after it, and gives it in the file's unit. It takes a dot
// or a comma for the decimals, spaces between thousands, signs, fractions
// ("3/4 in", "1 3/4 in") and feet with inches ("6 ft 3 in").
//
// What could be meant in two ways is not taken: "1,200" may be a thousand
// and more or a little over one, and a bare "ton" may be either ton.
func (s *System) Parse(text string, dim Dimension) (float64, bool) {
	rest := Tidy(text)
	sign := 1.0
	switch {
	case strings.HasPrefix(rest, "-"):
		sign, rest = -1, strings.TrimSpace(rest[1:])
	case strings.HasPrefix(rest, "+"):
		rest = strings.TrimSpace(rest[1:])
	}
	number, unit, ok := LeadingNumber(rest)
	if !ok {
		return 0, false
	}
	var value float64
	if unit == "" {
		value = s.Units[dim].ToFile(number)
	} else if size, known := s.typedSize(unit, dim); known {
		value = RoundDigits(number*size, FileDigits)
	} else if feet, ok := feetAndInches(number, unit, dim); ok {
		value = feet
	} else {
		return 0, false
	}
	value *= sign
	if value == 0 {
		value = 0 // no negative nought
	}
	if math.IsInf(value, 0) || math.IsNaN(value) {
		return 0, false
	}
	if dim == Count && value != math.Trunc(value) {
		return 0, false
	}
	return value, true
}

func (s *System) typedSize(unit string, dim Dimension) (float64, bool) {
	if dim == KilonewtonMetres || dim == Kilojoules { // "kN.m", "ft-lbs"
		unit = strings.TrimSuffix(strings.Map(func(r rune) rune {
			if strings.ContainsRune(".-*⋅", r) {
				return '·'
			}
			return r
		}, unit), "s")
	}
	if size, ok := sizeTyped(unit, dim); ok {
		return size, true
	}
	if unit == strings.ToLower(s.Units[dim].Name) {
		return s.Units[dim].Size, true
	}
	return 0, false
}

// feetAndInches reads the rest of "6 ft 3 in" when feet were read already.
func feetAndInches(feet float64, rest string, dim Dimension) (float64, bool) {
	if dim != Metres && dim != Centimetres {
		return 0, false
	}
	for _, mark := range []string{"feet", "foot", "ft", "'"} {
		if after, ok := strings.CutPrefix(rest, mark); ok {
			inches, unit, ok := LeadingNumber(strings.TrimSpace(after))
			if !ok || unit != "" && unit != "in" && unit != "\"" && unit != "inches" && unit != "inch" {
				return 0, false
			}
			foot, _ := sizeTyped("ft", dim)
			inch, _ := sizeTyped("in", dim)
			v := feet*foot + inches*inch
			return RoundDigits(v, FileDigits), true
		}
	}
	return 0, false
}

// Tidy brings typed text to lower case with plain spaces, signs and marks.
func Tidy(text string) string {
	text = strings.Map(func(r rune) rune {
		switch r {
		case '\u00a0', '\u202f', '\u2009', '\t', '\n', '\r':
			return ' '
		case '−', '–':
			return '-'
		case '’', '′':
			return '\''
		case '”', '“', '″':
			return '"'
		case 'º', '˚':
			return '°'
		}
		return r
	}, text)
	return strings.ToLower(strings.TrimSpace(text))
}

// LeadingNumber reads the number a text begins with and gives the rest of
// it, without the space between. No sign, no "inf", no hexadecimal.
func LeadingNumber(text string) (float64, string, bool) {
	end := 0
	for end < len(text) {
		c := text[end]
		digitAfter := end+1 < len(text) && IsDigit(text[end+1])
		switch {
		case IsDigit(c):
		case (c == '.' || c == ',') && (digitAfter || end > 0 && IsDigit(text[end-1])):
		case (c == ' ' || c == '/') && end > 0 && IsDigit(text[end-1]) && digitAfter:
		case c == 'e' && end > 0 && IsDigit(text[end-1]) && digitAfter:
		case c == 'e' && end > 0 && IsDigit(text[end-1]) && end+2 < len(text) && text[end+1] == '-' && IsDigit(text[end+2]):
			end++
		default:
			goto done
		}
		end++
	}
done:
	token, rest := text[:end], strings.TrimSpace(text[end:])
	v, ok := ParseNumber(token)
	return v, rest, ok
}

// IsDigit says whether a byte is a decimal digit.
func IsDigit(c byte) bool { return '0' <= c && c <= '9' }

// ParseNumber reads "28", "28.5", "28,5", "1 200", "1,200.5", "3/4", "1 3/4"
// and "1e3".
func ParseNumber(token string) (float64, bool) {
	if over, under, ok := strings.Cut(token, "/"); ok {
		whole := 0.0
		if a, b, mixed := strings.Cut(over, " "); mixed {
			w, ok := ParseNumber(a)
			if !ok || w != math.Trunc(w) {
				return 0, false
			}
			whole, over = w, b
		}
		if strings.ContainsRune(under, '/') {
			return 0, false
		}
		n, okN := ParseNumber(over)
		d, okD := ParseNumber(under)
		if !okN || !okD || d == 0 {
			return 0, false
		}
		return whole + n/d, true
	}
	token, ok := ungroup(token)
	if !ok {
		return 0, false
	}
	v, err := strconv.ParseFloat(token, 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, false
	}
	return v, true
}

// ungroup takes the marks between thousands out and makes the decimal mark a
// dot; not ok where a mark could be either.
func ungroup(token string) (string, bool) {
	commas, dots, spaces := strings.Count(token, ","), strings.Count(token, "."), strings.Count(token, " ")
	between, decimal := "", ""
	switch {
	case spaces > 0 && commas+dots <= 1:
		between, decimal = " ", ".,"
	case spaces > 0:
		return "", false
	case commas > 0 && dots > 0:
		if strings.LastIndexByte(token, ',') < strings.LastIndexByte(token, '.') {
			between, decimal = ",", "."
		} else {
			between, decimal = ".", ","
		}
		if strings.Count(token, decimal) > 1 {
			return "", false
		}
	case commas > 1:
		between = ","
	case dots > 1:
		between = "."
	case commas == 1:
		whole, frac, _ := strings.Cut(token, ",")
		if len(frac) == 3 && len(whole) >= 1 && len(whole) <= 3 && whole[0] != '0' {
			return "", false // "1,200": one and a bit, or twelve hundred?
		}
		decimal = ","
	default:
		return token, true
	}
	frac := ""
	if i := strings.LastIndexAny(token, decimal); decimal != "" && i >= 0 {
		token, frac = token[:i], "."+token[i+1:]
	}
	if between != "" {
		groups := strings.Split(token, between)
		for i, g := range groups {
			if i > 0 && len(g) != 3 || i == 0 && (len(g) == 0 || len(g) > 3) && len(groups) > 1 {
				return "", false
			}
			for j := range len(g) {
				if !IsDigit(g[j]) {
					return "", false
				}
			}
		}
		token = strings.Join(groups, "")
	}
	return token + frac, true
}

// ParseRows reads the rows of pickets: "1-1-1", "3, 2, 1", "2 1".
func ParseRows(text string) ([]int, bool) {
	var rows []int
	for _, word := range strings.FieldsFunc(Tidy(text), func(r rune) bool { return strings.ContainsRune(" ,;-+/[]", r) }) {
		n, err := strconv.Atoi(word)
		if err != nil || n < 0 || n > 99 {
			return nil, false
		}
		rows = append(rows, n)
	}
	return rows, len(rows) > 0
}
