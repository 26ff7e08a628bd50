package plan

import (
	"slices"
	"strconv"
	"strings"

	"pullline/rigging/jsontext"
	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
)

// csvColumns are the names of the columns of a gear list as a table.
var csvColumns = func() []string {
	names := make([]string, len(field.Columns))
	for i, f := range field.Columns {
		names[i] = f.Key()
	}
	return names
}()

// InventoryCSV writes the pieces of a gear list as comma-separated values
// (RFC 4180), with the fields' names in the first row. A text that a
// spreadsheet could take for a formula is written with an apostrophe before
// it, which the import takes away. What stands in a piece and is none of the
// columns is left out: its names are in left.
func InventoryCSV(pieces []any) (text string, left []string) {
	w := csvWriter{}
	w.row(csvColumns)
	over := map[string]any{}
	for _, p := range pieces {
		m, ok := p.(map[string]any)
		if !ok {
			over["what is not a piece"] = nil
			continue
		}
		cells := make([]string, len(csvColumns))
		for i, column := range csvColumns {
			v, given := m[column]
			switch x := v.(type) {
			case string:
				cells[i] = guarded(x)
			case bool:
				cells[i] = strconv.FormatBool(x)
			case jsontext.Number:
				cells[i] = string(x)
			case []any:
				if field.Columns[i] == field.Reductions {
					cells[i] = guarded(joinReductions(x))
					break
				}
				over[column] = nil
			default:
				if given {
					over[column] = nil
				}
			}
		}
		for key := range m {
			if !isColumn(key) {
				over[key] = nil
			}
		}
		w.row(cells)
	}
	return string(w.out), sortedKeys(over)
}

func isColumn(key string) bool { return slices.Contains(csvColumns, key) }

// joinReductions writes "why:0.9; why:0.8"; a semicolon or a backslash in a
// reason gets a backslash before it.
func joinReductions(list []any) string {
	parts := make([]string, 0, len(list))
	escape := strings.NewReplacer(`\`, `\\`, `;`, `\;`)
	for _, v := range list {
		m, _ := v.(map[string]any)
		why, _ := m[field.ReductionWhy.Key()].(string)
		factor := ""
		switch f := m[field.ReductionFactor.Key()].(type) {
		case jsontext.Number:
			factor = string(f)
		case string:
			factor = escape.Replace(f)
		}
		parts = append(parts, escape.Replace(why)+":"+factor)
	}
	return strings.Join(parts, "; ")
}

// splitReductions is its opposite. A part without a factor keeps its text as
// the reason, so that the reader names what is missing.
func splitReductions(text string) []any {
	var list []any
	var part []byte
	add := func() {
		s := string(part)
		part = part[:0]
		m := map[string]any{}
		why := s
		if i := strings.LastIndexByte(s, ':'); i >= 0 {
			why = s[:i]
			if factor := strings.TrimSpace(s[i+1:]); factor != "" {
				m[field.ReductionFactor.Key()] = csvValue(factor)
			}
		}
		if len(list) > 0 {
			why = strings.TrimPrefix(why, " ") // the blank after the semicolon
		}
		if why != "" {
			m[field.ReductionWhy.Key()] = why
		}
		list = append(list, m)
	}
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case c == '\\' && i+1 < len(text) && (text[i+1] == '\\' || text[i+1] == ';'):
			i++
			part = append(part, text[i])
		case c == ';':
			add()
		default:
			part = append(part, c)
		}
	}
	if strings.TrimSpace(string(part)) != "" || len(list) == 0 {
		add()
	}
	return list
}

// csvValue is a number typed in a cell with a dot or a comma for its
// decimals; a text that is none stays a text, for the reader to refuse. So
// does "1,200", which may be a thousand and more or a little over one.
func csvValue(text string) any {
	s := strings.TrimSpace(text)
	if whole, frac, ok := strings.Cut(s, ","); ok && !strings.ContainsAny(s, ".eE") {
		if len(frac) == 3 && len(whole) <= 3 && whole != "0" && whole != "-0" {
			return text
		}
		s = whole + "." + frac
	}
	if strings.HasPrefix(s, ".") {
		s = "0" + s
	}
	for _, c := range s {
		if (c < '0' || c > '9') && !strings.ContainsRune(".-eE+", c) {
			return text
		}
	}
	v, err := jsontext.Parse([]byte(s))
	if n, ok := v.(jsontext.Number); ok && err == nil {
		return n
	}
	return text
}

// A CSVProblem is what is wrong in a row of a table that was read.
type CSVProblem struct {
	Row    int    // as a spreadsheet counts, the names of the columns being row 1
	Column string // the field, "" where the row as a whole is meant
	Given  string
	Saying text.Saying // what is wrong, and what to do about it
}

// wrong adds a problem by the key of its sentence.
func (im *CSVImport) wrong(row int, column, given, key string, args ...any) {
	im.Problems = append(im.Problems, csvProblem(row, column, given, key, args...))
}

func csvProblem(row int, column, given, key string, args ...any) CSVProblem {
	return CSVProblem{row, column, given, text.Saying{Key: "problem." + key, Args: args}}
}

// A CSVImport is what a table of gear comes to.
type CSVImport struct {
	Pieces   []any // the good rows, as pieces of a gear list
	Same     int   // rows that the list already has just so
	Problems []CSVProblem
	// Rest is the text of the rows that are not taken, under the row of the
	// columns' names, ready to be mended and read again; "" if there are none.
	Rest string
}

// ImportCSV reads a table of gear: comma, semicolon or tab between the
// cells, a dot or a comma for the decimals, the fields' names in the first
// row in any order. A row with anything wrong in it is not taken and its text
// comes back in Rest. Have are the pieces of the list that the rows join.
func ImportCSV(text string, have []any) CSVImport {
	im := CSVImport{}
	if len(text) > MaxInventoryBytes {
		im.wrong(1, "", "", "table_long", MaxInventoryBytes)
		im.Rest = text
		return im
	}
	table := readCSV(text)
	if table.cut {
		im.wrong(maxCSVRows+1, "", "", "table_rows", maxCSVRows)
		im.Rest = text
		return im
	}
	first := 0
	for first < len(table.rows) && table.rows[first].blank() {
		first++
	}
	if first == len(table.rows) {
		im.wrong(1, "", "", "table_empty")
		im.Rest = text
		return im
	}
	columns := im.columns(&table.rows[first])
	if len(im.Problems) > 0 {
		im.Rest = text // which column is meant is not known: nothing is taken
		return im
	}
	seen := map[string]bool{}
	byName := map[string]any{}
	for _, p := range have {
		if m, ok := p.(map[string]any); ok {
			if id, ok := m[field.PieceID.Key()].(string); ok {
				seen[id], byName[id] = true, p
			}
		}
	}
	room := field.Pieces.Row().Most - len(have)
	for i := first + 1; i < len(table.rows); i++ {
		row := &table.rows[i]
		if row.blank() {
			continue
		}
		tree, problems := im.row(row, columns, seen, byName, room-len(im.Pieces))
		switch {
		case len(problems) > 0:
			im.Problems = append(im.Problems, problems...)
			if im.Rest == "" {
				im.Rest = table.rows[first].text
			}
			im.Rest += "\r\n" + row.text
		case tree == nil:
			im.Same++
		default:
			im.Pieces = append(im.Pieces, tree)
		}
	}
	return im
}

// columns reads the first row.
func (im *CSVImport) columns(row *csvRow) []string {
	if n := len(row.cells) + row.more; row.more > 0 {
		im.wrong(row.number, "", "", "table_columns", n, joined(csvColumns))
		return nil
	}
	columns := make([]string, len(row.cells))
	seen := map[string]bool{}
	for i, cell := range row.cells {
		given := strings.TrimSpace(cell)
		for _, c := range csvColumns {
			if strings.EqualFold(c, given) {
				columns[i] = c
			}
		}
		switch {
		case columns[i] == "" && given == "" && i == len(row.cells)-1:
			// a separator at the end of every row
		case columns[i] == "":
			im.wrong(row.number, shorten(given), "", "no_column", quote(given), joined(csvColumns))
		case seen[columns[i]]:
			im.wrong(row.number, columns[i], "", "column_twice", quote(given))
		}
		seen[columns[i]] = true
	}
	if row.open || row.after {
		im.Problems = append(im.Problems, im.malformed(row))
	}
	for _, c := range []string{field.PieceID.Key(), field.PieceKind.Key()} {
		if !seen[c] {
			im.wrong(row.number, c, "", "column_missing", quote(c))
		}
	}
	return columns
}

func (im *CSVImport) malformed(row *csvRow) CSVProblem {
	key := "quote_followed"
	if row.open {
		key = "quote_open"
	}
	return csvProblem(row.number, "", shorten(row.text), key)
}

// row reads one row; the tree is nil where the list already has just that
// piece.
func (im *CSVImport) row(row *csvRow, columns []string, seen map[string]bool, byName map[string]any, room int) (map[string]any, []CSVProblem) {
	if row.open || row.after {
		return nil, []CSVProblem{im.malformed(row)}
	}
	if len(row.cells) > len(columns) || len(row.cells) < len(columns) && columns[len(columns)-1] != "" {
		return nil, []CSVProblem{csvProblem(row.number, "", "", "cells", len(row.cells)+row.more, len(columns))}
	}
	tree := map[string]any{}
	for i, cell := range row.cells {
		column := columns[i]
		switch trimmed := strings.TrimSpace(cell); {
		case trimmed == "" || column == "" && trimmed == "":
		case column == "":
			return nil, []CSVProblem{csvProblem(row.number, "", shorten(cell), "cell_no_column")}
		default:
			if v := cellValue(field.Columns[slices.Index(csvColumns, column)].Row().Kind, cell); v != false {
				tree[column] = v
			}
		}
	}
	id, _ := tree[field.PieceID.Key()].(string)
	if old, there := byName[id]; there && sameRow(old, tree) {
		return nil, nil
	}
	r := &reader{of: ofGearList}
	r.inventoryPiece("", tree, seen)
	var problems []CSVProblem
	for _, p := range r.problems {
		column, _, _ := strings.Cut(strings.TrimPrefix(p.Path, "."), "[")
		problem := CSVProblem{Row: row.number, Column: column, Saying: p.Saying}
		for i, c := range columns {
			if c == column && i < len(row.cells) {
				problem.Given = shorten(row.cells[i])
			}
		}
		problems = append(problems, problem)
	}
	if len(problems) == 0 && room < 1 {
		problems = []CSVProblem{csvProblem(row.number, "", id, "list_full", field.Pieces.Row().Most)}
	}
	if len(problems) == 0 {
		byName[id] = tree
	}
	return tree, problems
}

// cellValue is what a cell holds, by the kind of its column's field.
func cellValue(kind field.Kind, cell string) any {
	switch trimmed := strings.TrimSpace(cell); kind {
	case field.Number:
		return csvValue(trimmed)
	case field.Flag:
		return csvFlag(trimmed)
	case field.Objects:
		return splitReductions(unguarded(cell))
	case field.Text:
		return unguarded(cell)
	default: // a word, or a day
		return trimmed
	}
}

func csvFlag(text string) any {
	switch strings.ToLower(text) {
	case "true", "yes", "1", "x":
		return true
	case "false", "no", "0":
		return false
	}
	return text
}

// sameRow says whether two pieces are the same as far as a table tells.
func sameRow(a, b any) bool {
	one, left := InventoryCSV([]any{a})
	two, _ := InventoryCSV([]any{b})
	for _, key := range left {
		if isColumn(key) {
			return false
		}
	}
	return one == two
}
