package schema

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"strings"

	"pullline/rigging"
	"pullline/rigging/judgement/changes"
	"pullline/rigging/judgement/places"
	"pullline/rigging/judgement/sure"
	"pullline/rigging/plan"
)

// Report is the schema of a report, made from the Go types it is written
// from; what their comments say is taken from the source of the repository
// at root.
func Report(root string) (*Schema, error) {
	said, err := comments(filepath.Join(root, "rigging", "plan"))
	if err != nil {
		return nil, err
	}
	r := reporter{said: said, root: &Schema{
		Schema: Draft, Title: "Report",
		Description: "Everything computed from one plan. Loads, tensions and uses are at planned tension with the tree standing unless a name says otherwise. A number that could not be computed is null. Where problems is not empty the verdict is unknown or over.",
		Defs:        &Members{},
	}}
	if err := r.object(r.root, reflect.TypeFor[plan.Report]()); err != nil {
		return nil, err
	}
	return r.root, nil
}

// Sample is the schema of what is said of how sure a plan's numbers are.
func Sample(root string) (*Schema, error) {
	return answer(root, "Sample", "sure", reflect.TypeFor[sure.Answer]())
}

// Places is the schema of what is said of where a point may stand.
func Places(root string) (*Schema, error) {
	return answer(root, "Places", "places", reflect.TypeFor[places.Answer]())
}

// Changes is the schema of what is said of what would make a plan right.
func Changes(root string) (*Schema, error) {
	return answer(root, "Changes", "changes", reflect.TypeFor[changes.Answer]())
}

// answer is the schema of what a room of judgement answers, under a name that its
// parts have before their own.
func answer(root, title, room string, t reflect.Type) (*Schema, error) {
	r := reporter{said: map[string]string{}, prefix: title, root: &Schema{Title: title, Defs: &Members{}}}
	for _, dir := range []string{"plan", filepath.Join("judgement", room)} {
		said, err := comments(filepath.Join(root, "rigging", dir))
		if err != nil {
			return nil, err
		}
		maps.Copy(r.said, said)
	}
	r.root.Description = r.said[t.Name()]
	return r.root, r.object(r.root, t)
}

type reporter struct {
	said   map[string]string
	prefix string // of what is no part of a plan's report
	root   *Schema
}

func (r *reporter) object(s *Schema, t reflect.Type) error {
	s.Type, s.Properties, s.AdditionalProperties = "object", &Members{}, false
	for i := range t.NumField() {
		f := t.Field(i)
		key, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		if key == "-" || !f.IsExported() {
			continue
		}
		value, err := r.value(f.Type)
		if err != nil {
			return fmt.Errorf("%s.%s: %w", t.Name(), f.Name, err)
		}
		if f.Type.Kind() == reflect.Pointer && !strings.Contains(options, "omitempty") {
			value = &Schema{OneOf: []*Schema{value, {Type: "null"}}}
		}
		value.Description = r.said[t.Name()+"."+f.Name]
		if f.Type == reflect.TypeFor[plan.Num]() {
			value.Unit = unitOf(key)
		}
		s.Properties.put(key, value)
		if !strings.Contains(options, "omitempty") {
			s.Required = append(s.Required, key)
		}
	}
	return nil
}

func (r *reporter) value(t reflect.Type) (*Schema, error) {
	switch t {
	case reflect.TypeFor[plan.Num]():
		return &Schema{Type: []string{"number", "null"}}, nil
	case reflect.TypeFor[rigging.Verdict]():
		var all []any
		for _, v := range []rigging.Verdict{rigging.Within, rigging.Near, rigging.Over, rigging.Unknown} {
			all = append(all, v.String())
		}
		return &Schema{Type: "string", Enum: all}, nil
	}
	switch t.Kind() {
	case reflect.String:
		return &Schema{Type: "string"}, nil
	case reflect.Int:
		return &Schema{Type: "integer"}, nil
	case reflect.Float64:
		return &Schema{Type: "number"}, nil
	case reflect.Bool:
		return &Schema{Type: "boolean"}, nil
	case reflect.Interface:
		return &Schema{}, nil // any value
	case reflect.Pointer:
		return r.value(t.Elem())
	case reflect.Slice, reflect.Array:
		item, err := r.value(t.Elem())
		s := &Schema{Type: "array", Items: item}
		if t.Kind() == reflect.Array {
			s.MinItems, s.MaxItems = t.Len(), t.Len()
		}
		return s, err
	case reflect.Struct:
		name := t.Name()
		if t.PkgPath() != reflect.TypeFor[plan.Report]().PkgPath() {
			name = r.prefix + name
		}
		if r.root.Defs.Get(name) == nil {
			s := &Schema{Description: r.said[t.Name()]}
			r.root.Defs.put(name, s)
			if err := r.object(s, t); err != nil {
				return nil, err
			}
		}
		return ref(name), nil
	}
	return nil, fmt.Errorf("a report cannot hold a %s", t)
}

// unitOf is the unit a field's name ends in.
func unitOf(key string) string {
	i := strings.LastIndexByte(key, '_')
	if i < 0 {
		key = "_" + key // "deg", "kN"
		i = 0
	}
	switch unit := key[i+1:]; unit {
	case "kN", "m", "kNm", "kg", "kJ":
		return strings.ReplaceAll(unit, "kNm", "kN·m")
	case "m3":
		return "m³"
	case "deg":
		return "°"
	}
	return ""
}

// comments gives what the source says of every type and field of a package,
// by Type and Type.Field.
func comments(dir string) (map[string]string, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	said := map[string]string{}
	files := token.NewFileSet()
	for _, e := range entries {
		if !strings.HasSuffix(e.Name(), ".go") || strings.HasSuffix(e.Name(), "_test.go") {
			continue
		}
		file, err := parser.ParseFile(files, filepath.Join(dir, e.Name()), nil, parser.ParseComments)
		if err != nil {
			return nil, err
		}
		for _, decl := range file.Decls {
			types, ok := decl.(*ast.GenDecl)
			if !ok || types.Tok != token.TYPE {
				continue
			}
			for _, spec := range types.Specs {
				t := spec.(*ast.TypeSpec)
				said[t.Name.Name] = sentence(types.Doc.Text())
				fields, ok := t.Type.(*ast.StructType)
				if !ok {
					continue
				}
				for _, f := range fields.Fields.List {
					text := f.Doc.Text()
					if text == "" {
						text = f.Comment.Text()
					}
					for _, name := range f.Names {
						said[t.Name.Name+"."+name.Name] = sentence(text)
					}
				}
			}
		}
	}
	return said, nil
}

// sentence is a comment on one line, with a capital.
func sentence(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
