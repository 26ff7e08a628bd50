package codec

import (
	"fmt"
	"go/types"
	"strings"
)

const jsontext = module + "/rigging/jsontext"

// writer writes the method that writes a struct.
func (w *file) writer(t *types.TypeName, members []member) {
	w.imports[jsontext] = true
	w.line("\n// AppendJSON writes it as its tags say.\nfunc (x *%s) AppendJSON(w *jsontext.Writer) {\nw.Open()", t.Name())
	for _, m := range members {
		if m.key == "" {
			w.fail(t, m, "an embedded struct has no key of its own")
			continue
		}
		if why := w.member(m); why != "" {
			w.fail(t, m, why)
		}
	}
	w.line("w.Close()\n}")
}

// plain is the method of a Writer for a member of a plain type, and what it is
// given; "" where the type is not plain.
func plain(t types.Type, x string) (method, value string) {
	named, _ := t.(*types.Named)
	if named != nil && hasMethod(t, "MarshalText") {
		if !hasMethod(t, "String") {
			return "", ""
		}
		return "Text", x + ".String()"
	}
	b, ok := t.Underlying().(*types.Basic)
	if !ok {
		return "", ""
	}
	as := func(name string) string {
		if named == nil {
			return x
		}
		return name + "(" + x + ")"
	}
	switch b.Kind() {
	case types.String:
		return "Text", as("string")
	case types.Bool:
		return "Bool", as("bool")
	case types.Int:
		return "Int", as("int")
	case types.Float64:
		return "Num", as("float64")
	}
	return "", ""
}

// member writes one member; why is what keeps it from that.
func (w *file) member(m member) (why string) {
	x, t, unless := "x."+m.field.Name(), m.field.Type(), ""
	if m.may {
		unless = "If"
	}
	if method, value := plain(t, x); method != "" {
		w.line("w.%s%s(%q, %s)", method, unless, m.key, value)
		return ""
	}
	switch u := t.Underlying().(type) {
	case *types.Interface:
		if !isAny(t) {
			return "only an interface of any value is written"
		}
		if m.may {
			w.line("if %s != nil {", x)
			defer w.line("}")
		}
		w.line("w.Value(%q, %s)", m.key, x)
		return ""
	case *types.Map:
		if !isString(u.Key()) || !isString(u.Elem()) {
			return "of maps only those from string to string are written"
		}
		if m.may {
			return "a map is always written"
		}
		w.line("w.TextMap(%q, %s)", m.key, x)
		return ""
	case *types.Slice:
		method, _ := plain(u.Elem(), "")
		switch {
		case method == "Text" && isBasic(u.Elem()):
			w.line("w.Texts%s(%q, %s)", unless, m.key, x)
			return ""
		case method == "Num":
			w.line("jsontext.Nums%s(w, %q, %s)", unless, m.key, x)
			return ""
		case isAny(u.Elem()) && !m.may:
			w.line("w.Value(%q, %s)", m.key, x)
			return ""
		}
		if w.appends(u.Elem()) {
			w.line("jsontext.Objects%s(w, %q, %s, (*%s).AppendJSON)", unless, m.key, x, w.name(u.Elem()))
			return ""
		}
		if m.may {
			w.line("if len(%s) > 0 {", x)
			defer w.line("}")
		}
	case *types.Pointer:
		if m.may {
			w.line("if %s != nil {", x)
			w.line("w.Key(%q)\n%s.AppendJSON(w)\n}", m.key, x)
			if !w.appends(u.Elem()) {
				return "it points to what has no writer"
			}
			return ""
		}
	case *types.Struct:
		// encoding/json never leaves one out.
	}
	w.line("w.Key(%q)", m.key)
	return w.value(x, t, 0)
}

// value writes what stands alone, or after a key.
func (w *file) value(x string, t types.Type, depth int) (why string) {
	if method, value := plain(t, x); method != "" {
		w.line("w.%s(%s)", map[string]string{"Text": "String", "Num": "Float", "Int": "Any", "Bool": "Any"}[method], value)
		return ""
	}
	if w.appends(t) {
		w.line("%s.AppendJSON(w)", x)
		return ""
	}
	var of types.Type
	switch u := t.Underlying().(type) {
	case *types.Interface:
		w.line("w.Any(%s)", x)
		return ""
	case *types.Pointer:
		w.line("if %s == nil {\nw.Null()\n} else {", x)
		defer w.line("}")
		if !w.appends(u.Elem()) {
			return "it points to what has no writer"
		}
		w.line("%s.AppendJSON(w)", x)
		return ""
	case *types.Slice:
		if of = u.Elem(); isNum(of) {
			w.line("jsontext.NumList(w, %s)", x)
			return ""
		}
		w.line("if %s == nil {\nw.Null()\n} else {", x)
		defer w.line("}")
	case *types.Array:
		if of = u.Elem(); isNum(of) {
			w.line("jsontext.NumList(w, %s[:])", x)
			return ""
		}
	default:
		return "there is no writer for it"
	}
	item := fmt.Sprintf("%s[%c]", x, 'i'+depth)
	w.line("w.OpenList()\nfor %c := range %s {", 'i'+depth, x)
	why = w.value(item, of, depth+1)
	w.line("}\nw.CloseList()")
	return why
}

// appends says whether a struct has a writer, or gets one.
func (w *file) appends(t types.Type) bool {
	named, ok := t.(*types.Named)
	if !ok || named.Obj().Pkg() == nil {
		return false
	}
	r, err := w.room2(named)
	if err != nil {
		return false
	}
	_, tagged, err := r.members(named.Obj())
	return err == nil && tagged && !r.is(named.Obj(), "request") && !r.is(named.Obj(), "type") || hasMethod(t, "AppendJSON")
}

func (p *program) room2(t *types.Named) (*room, error) { return p.room(t.Obj().Pkg().Path()) }

func isString(t types.Type) bool {
	b, ok := t.(*types.Basic)
	return ok && b.Kind() == types.String
}

func isAny(t types.Type) bool {
	i, ok := t.Underlying().(*types.Interface)
	return ok && i.Empty()
}

func isNum(t types.Type) bool {
	method, _ := plain(t, "")
	return method == "Num"
}

func isBasic(t types.Type) bool {
	_, ok := t.(*types.Basic)
	return ok
}

// picker writes the method that gives the place of a plain field by its name. To
// compare the name in a loop takes a third of the code that a switch over it takes.
func (w *file) picker(t *types.TypeName, members []member) {
	w.imports["slices"] = true
	var keys, cases strings.Builder
	n := 0
	for _, m := range members {
		if method, _ := plain(m.field.Type(), ""); method == "Text" || method == "Bool" || method == "Num" {
			fmt.Fprintf(&keys, "%q,\n", m.key)
			fmt.Fprintf(&cases, "case %d:\nreturn &x.%s\n", n, m.field.Name())
			n++
		}
	}
	list := strings.ToLower(t.Name()[:1]) + t.Name()[1:] + "Members"
	w.line("\nvar %s = []string{\n%s}", list, &keys)
	w.line("\n// member gives the place of a text, a number or a flag by its name, nil where there is none.\nfunc (x *%s) member(key string) any {", t.Name())
	w.line("switch slices.Index(%s, key) {\n%s}\nreturn nil\n}", list, &cases)
}
