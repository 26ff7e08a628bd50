package plan

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// A csvTable is a text of comma-separated values (RFC 4180) taken apart.
type csvTable struct {
	comma rune
	rows  []csvRow
	cut   bool // there are more than maxCSVRows
}

// Limits of a table, far beyond those of a gear list: a row with more cells
// names how many and keeps only the first, and no more rows are taken apart.
const (
	maxCSVCells = 200
	maxCSVRows  = 5000
)

// A csvRow is one record: its cells, and its text as it stood in the file,
// without the end of the line.
type csvRow struct {
	cells  []string
	more   int // cells beyond maxCSVCells, which are not kept
	text   string
	number int  // from 1, as a spreadsheet counts rows
	open   bool // a quoted cell is never closed
	after  bool // something stands behind a closed quote
}

// readCSV takes a text apart. Cells are separated by commas, semicolons or
// tabs, whichever the first row has most of; rows end with CR LF, LF or CR.
// It never fails: a row that is not well formed says so.
func readCSV(text string) csvTable {
	text = strings.TrimPrefix(text, "\ufeff")
	t := csvTable{comma: separator(text)}
	for number, at := 1, 0; at < len(text); number++ {
		if number > maxCSVRows {
			t.cut = true
			break
		}
		row, next := t.row(text, at)
		row.number = number
		t.rows = append(t.rows, row)
		at = next
	}
	return t
}

// separator finds what separates the cells of the first row.
func separator(text string) rune {
	var n [3]int
	const candidates = ",;\t"
	quoted := false
	for _, c := range text {
		if c == '"' {
			quoted = !quoted
		}
		if quoted {
			continue
		}
		if c == '\n' || c == '\r' {
			break
		}
		if i := strings.IndexRune(candidates, c); i >= 0 {
			n[i]++
		}
	}
	best := 0
	for i := range n {
		if n[i] > n[best] {
			best = i
		}
	}
	return rune(candidates[best])
}

// row reads the record that begins at a place and gives where the next one
// begins.
func (t *csvTable) row(text string, start int) (row csvRow, next int) {
	var cell []byte
	at := start
	add := func() {
		if len(row.cells) < maxCSVCells {
			row.cells = append(row.cells, string(cell))
		} else {
			row.more++
		}
		cell = cell[:0]
	}
	end := func(after int) (csvRow, int) {
		add()
		row.text = text[start:at]
		return row, after
	}
	for {
		if at < len(text) && text[at] == '"' && len(cell) == 0 {
			at++
			for {
				i := strings.IndexByte(text[at:], '"')
				if i < 0 {
					cell = append(cell, text[at:]...)
					at = len(text)
					row.open = true
					return end(at)
				}
				cell = append(cell, text[at:at+i]...)
				at += i + 1
				if at >= len(text) || text[at] != '"' {
					break
				}
				cell = append(cell, '"') // two quotes stand for one
				at++
			}
			if at < len(text) && !t.ends(text[at]) {
				row.after = true
			}
		}
		for at < len(text) && !t.ends(text[at]) {
			cell = append(cell, text[at])
			at++
		}
		if at >= len(text) {
			return end(at)
		}
		switch text[at] {
		case '\n':
			return end(at + 1)
		case '\r':
			if at+1 < len(text) && text[at+1] == '\n' {
				return end(at + 2)
			}
			return end(at + 1)
		}
		add()
		at++
	}
}

func (t *csvTable) ends(c byte) bool { return c == byte(t.comma) || c == '\n' || c == '\r' }

// blank says whether nothing stands in a row.
func (r *csvRow) blank() bool {
	for _, c := range r.cells {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return !r.open && !r.after
}

// A csvWriter writes records, with commas and CR LF.
type csvWriter struct{ out []byte }

func (w *csvWriter) row(cells []string) {
	for i, c := range cells {
		if i > 0 {
			w.out = append(w.out, ',')
		}
		if len(cells) == 1 && c == "" || strings.ContainsAny(c, "\",;\t\r\n") || c != strings.TrimSpace(c) || strings.HasPrefix(c, "\ufeff") {
			w.out = append(w.out, '"')
			w.out = append(w.out, strings.ReplaceAll(c, `"`, `""`)...)
			w.out = append(w.out, '"')
			continue
		}
		w.out = append(w.out, c...)
	}
	w.out = append(w.out, '\r', '\n')
}

// guarded keeps a text from being taken for a formula by a spreadsheet: an
// apostrophe goes before one that begins with = + - @, a tab or a line's end,
// also where apostrophes already stand before that. unguarded takes it away.
func guarded(s string) string {
	if formulaAfter(s) {
		return "'" + s
	}
	return s
}

func unguarded(s string) string {
	if rest, ok := strings.CutPrefix(s, "'"); ok && formulaAfter(rest) {
		return rest
	}
	return s
}

// formulaAfter says whether a text begins as a formula may, with apostrophes
// and whatever cannot be seen left out; full-width signs count as well.
func formulaAfter(s string) bool {
	s = strings.TrimLeft(s, "'")
	if s == "" {
		return false
	}
	if strings.IndexByte("\t\r\n", s[0]) >= 0 {
		return true
	}
	r, _ := utf8.DecodeRuneInString(strings.TrimLeftFunc(s, unseen))
	return strings.ContainsRune("=+-@＝＋－＠﹢﹣﹦−", r) && r != utf8.RuneError
}

// unseen are the spaces of Unicode, a byte-order mark, and what else has no
// width or only steers the text: spreadsheets skip some of them.
func unseen(r rune) bool {
	return r == '\'' || unicode.IsSpace(r) || unicode.In(r, unicode.Zs, unicode.Zl, unicode.Zp, unicode.Cf, unicode.Cc)
}
