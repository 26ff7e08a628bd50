package draft

import (
	"strconv"

	"pullline/rigging/jsontext"
)

// FileNumber writes a number as the plan keeps it.
func FileNumber(v float64) jsontext.Number {
	return jsontext.Number(strconv.FormatFloat(v, 'g', -1, 64))
}
