package codec

import "go/types"

const request = module + "/wasm/request"

// readers are the functions of package request that read a value of a type.
var readers = map[string]string{
	"string":                  "Text",
	"int":                     "Steps",
	"map[string]string":       "Texts",
	module + "/wasm/draw.Box": "Box",
}

// reader writes the method that reads one member of a request.
func (w *file) reader(t *types.TypeName, members []member) {
	w.line("\n// Take reads one member; any of a wrong type counts as left out.\nfunc (x *%s) Take(key string, v any) {\nswitch key {", t.Name())
	var embedded []string
	for _, m := range members {
		x, of := "x."+m.field.Name(), m.field.Type()
		if m.key == "" {
			embedded = append(embedded, m.field.Name())
			continue
		}
		w.line("case %q:", m.key)
		named, _ := of.(*types.Named)
		switch {
		case m.read != "":
			w.line("%s = %s(v)", x, m.read)
		case readers[of.String()] != "":
			w.line("%s = %s(v)", x, w.call(request, readers[of.String()]))
		case of.String() == "bool":
			w.line("%s = v == true", x)
		case of.String() == "float64":
			w.line("%s(&%s, v)", w.call(request, "Number"), x)
		case types.IsInterface(of):
			w.line("%s = v", x)
		case named != nil && w.takes(named):
			w.line("%s(v, %s.Take)", w.call(request, "Each"), x)
		default:
			w.fail(t, m, "there is no reader for it; name a function in the tag read")
		}
	}
	if len(embedded) > 0 {
		w.line("default:")
		for _, name := range embedded {
			w.line("x.%s.Take(key, v)", name)
		}
	}
	w.line("}\n}")
}

// takes says whether a struct is read by a method of its own.
func (w *file) takes(t *types.Named) bool {
	r, err := w.room2(t)
	return err == nil && r.is(t.Obj(), "request")
}
