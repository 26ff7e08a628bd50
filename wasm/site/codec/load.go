package codec

import (
	"fmt"
	"go/ast"
	"go/build"
	"go/parser"
	"go/token"
	"go/types"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
)

// A program is the source of this module, read as far as it is asked for.
// Function bodies and other modules are left out, so that a package can be read
// that does not compile for want of what is to be generated.
type program struct {
	root  string // directory of the module
	files *token.FileSet
	read  map[string]*room
}

// A room is one package of it.
type room struct {
	*types.Package
	dir    string
	source []*ast.File
	said   map[string]*ast.CommentGroup // of a type, and of a field as Type.Field
}

const module = "pullline"

func newProgram(root string) *program {
	return &program{root: root, files: token.NewFileSet(), read: map[string]*room{}}
}

// Import makes a program an importer for the type checker.
func (p *program) Import(path string) (*types.Package, error) {
	if path != module && !strings.HasPrefix(path, module+"/") {
		other := types.NewPackage(path, path[strings.LastIndexByte(path, '/')+1:])
		other.MarkComplete()
		return other, nil
	}
	r, err := p.room(path)
	if err != nil {
		return nil, err
	}
	return r.Package, nil
}

// room reads a package, once.
func (p *program) room(path string) (*room, error) {
	if r := p.read[path]; r != nil {
		return r, nil
	}
	r := &room{dir: filepath.Join(p.root, filepath.FromSlash(strings.TrimPrefix(path, module))), said: map[string]*ast.CommentGroup{}}
	context := build.Default
	context.GOOS, context.GOARCH = "js", "wasm"
	found, err := context.ImportDir(r.dir, 0)
	if err != nil {
		return nil, err
	}
	for _, name := range found.GoFiles {
		if name == fileName {
			continue
		}
		file, err := parser.ParseFile(p.files, filepath.Join(r.dir, name), nil, parser.ParseComments)
		if err != nil {
			return nil, err
		}
		r.source = append(r.source, file)
		r.listen(file)
	}
	// What is missing stays an invalid type, which no writer is made for.
	checker := types.Config{Importer: p, IgnoreFuncBodies: true, Error: func(error) {}}
	r.Package, _ = checker.Check(path, p.files, r.source, nil)
	p.read[path] = r
	return r, nil
}

// listen keeps the comments of a file's types and their fields.
func (r *room) listen(file *ast.File) {
	for _, decl := range file.Decls {
		group, ok := decl.(*ast.GenDecl)
		if !ok || group.Tok != token.TYPE {
			continue
		}
		for _, spec := range group.Specs {
			t := spec.(*ast.TypeSpec)
			if r.said[t.Name.Name] = t.Doc; t.Doc == nil {
				r.said[t.Name.Name] = group.Doc
			}
			fields, ok := t.Type.(*ast.StructType)
			if !ok {
				continue
			}
			for _, f := range fields.Fields.List {
				doc := f.Doc
				if doc == nil {
					doc = f.Comment
				}
				for _, name := range f.Names {
					r.said[t.Name.Name+"."+name.Name] = doc
				}
			}
		}
	}
}

// directive gives what a comment says after //codec:NAME.
func directive(doc *ast.CommentGroup, name string) (text string, ok bool) {
	if doc == nil {
		return "", false
	}
	for _, c := range doc.List {
		if rest, found := strings.CutPrefix(c.Text, "//codec:"+name); found && (rest == "" || rest[0] == ' ') {
			return strings.TrimSpace(rest), true
		}
	}
	return "", false
}

func (r *room) is(t *types.TypeName, name string) bool {
	_, ok := directive(r.said[t.Name()], name)
	return ok
}

// A member is one field of a struct as it stands in a text.
type member struct {
	field *types.Var
	key   string
	may   bool // left out where it is empty
	read  string
}

// members gives the fields of a struct with json tags; ok is false for any other
// type.
func (r *room) members(t *types.TypeName) (list []member, ok bool, err error) {
	s, isStruct := t.Type().Underlying().(*types.Struct)
	if !isStruct || t.IsAlias() {
		return nil, false, nil
	}
	var without []string
	for i := range s.NumFields() {
		f, tag := s.Field(i), reflect.StructTag(s.Tag(i))
		text, tagged := tag.Lookup("json")
		key, options, _ := strings.Cut(text, ",")
		switch {
		case !tagged && f.Embedded():
			list = append(list, member{field: f})
		case !tagged:
			if f.Exported() {
				without = append(without, f.Name())
			}
		case key == "-":
			ok = true
		case key == "" || options != "" && options != "omitempty":
			return nil, false, fmt.Errorf("%s.%s.%s: the tag %q is not one that can be written", r.Name(), t.Name(), f.Name(), text)
		default:
			ok = true
			list = append(list, member{f, key, options != "", tag.Get("read")})
		}
	}
	if ok && len(without) > 0 {
		return nil, false, fmt.Errorf("%s.%s: %s has no json tag, though others have; give it one, or \"-\"", r.Name(), t.Name(), strings.Join(without, ", "))
	}
	return list, ok, nil
}

// typeNames gives the types of a package in the order of the source.
func (r *room) typeNames() (all []*types.TypeName) {
	for _, name := range r.Scope().Names() {
		if t, ok := r.Scope().Lookup(name).(*types.TypeName); ok {
			all = append(all, t)
		}
	}
	slices.SortFunc(all, func(a, b *types.TypeName) int { return int(a.Pos()) - int(b.Pos()) })
	return all
}

func hasMethod(t types.Type, name string) bool {
	object, _, _ := types.LookupFieldOrMethod(t, true, nil, name)
	_, ok := object.(*types.Func)
	return ok
}
