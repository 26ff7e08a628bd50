package parts

import "pullline/rigging/jsontext"

// AppendFact writes one.
func AppendFact(w *jsontext.Writer, x *Fact) { x.AppendJSON(w) }

// AppendSection writes one.
func AppendSection(w *jsontext.Writer, x *Section) { x.AppendJSON(w) }

// AppendField writes one.
func AppendField(w *jsontext.Writer, x *Field) { x.AppendJSON(w) }

// AppendOption writes one.
func AppendOption(w *jsontext.Writer, x *Option) { x.AppendJSON(w) }

// AppendAction writes one.
func AppendAction(w *jsontext.Writer, x *Action) { x.AppendJSON(w) }

// AppendNote writes one.
func AppendNote(w *jsontext.Writer, x *Note) { x.AppendJSON(w) }

// AppendStep writes one.
func AppendStep(w *jsontext.Writer, x *Step) { x.AppendJSON(w) }

// AppendChange writes one.
func AppendChange(w *jsontext.Writer, x *Change) { x.AppendJSON(w) }

// AppendOptions writes a list of options.
func AppendOptions(w *jsontext.Writer, list *[]Option) {
	w.OpenList()
	for i := range *list {
		(*list)[i].AppendJSON(w)
	}
	w.CloseList()
}

// AppendAssumed writes one.
func AppendAssumed(w *jsontext.Writer, x *Assumed) { x.AppendJSON(w) }
