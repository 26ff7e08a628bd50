package codec

import (
	"fmt"
	"go/ast"
	"go/types"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// callsPath is the package that has the table of calls. What is under mechanics the
// schema describes: its calls are open to scripts of other pages, and planPath has the
// types that others have parts of.
const (
	callsPath = module + "/wasm"
	mechanics = module + "/rigging/"
	planPath  = mechanics + "plan"
)

// Types describes what the calls of the page take and give, as TypeScript
// declarations: the table of calls, and a namespace for each package that has types
// of theirs. The request and the answer of a call are named by a directive at its
// function,
//
//	//codec:call REQUEST ANSWER
//
// where a request may be of several types.
func Types(root string) (string, error) {
	d := &describer{program: newProgram(root), done: map[*types.TypeName]bool{}, spaces: map[string]*strings.Builder{}}
	calls, err := d.calls()
	if err != nil {
		return "", err
	}
	var out strings.Builder
	out.WriteString("interface Calls {\n" + calls + "}\n")
	for _, name := range slices.Sorted(maps.Keys(d.spaces)) {
		fmt.Fprintf(&out, "\ndeclare namespace %s {%s}\n", name, d.spaces[name])
	}
	return out.String(), d.err
}

type describer struct {
	*program
	done   map[*types.TypeName]bool
	spaces map[string]*strings.Builder // by package name
	err    error
}

func (d *describer) fail(format string, args ...any) string {
	if d.err == nil {
		d.err = fmt.Errorf(format, args...)
	}
	return "never"
}

// calls are the lines of the table of calls.
func (d *describer) calls() (string, error) {
	bridge, err := d.room(callsPath)
	if err != nil {
		return "", err
	}
	imported := map[string]string{}
	for _, p := range bridge.Imports() {
		imported[p.Name()] = p.Path()
	}
	var out strings.Builder
	for _, file := range bridge.source {
		ast.Inspect(file, func(n ast.Node) bool {
			pair, ok := n.(*ast.KeyValueExpr)
			if !ok {
				return true
			}
			name, named := pair.Key.(*ast.BasicLit)
			function, of := pair.Value.(*ast.SelectorExpr)
			if !named || !of {
				return true
			}
			call, err := strconv.Unquote(name.Value)
			in, ok := function.X.(*ast.Ident)
			if err != nil || !ok || strings.HasPrefix(imported[in.Name], mechanics) {
				return true
			}
			path := imported[in.Name]
			request, answer := d.call(path, function.Sel.Name)
			fmt.Fprintf(&out, "  %s(request: %s): Answer<%s>;\n", call, request, answer)
			return true
		})
	}
	return out.String(), nil
}

// call gives the types of what a function takes and gives.
func (d *describer) call(path, function string) (request, answer string) {
	r, err := d.room(path)
	if err != nil {
		return d.fail("%w", err), ""
	}
	for _, file := range r.source {
		for _, decl := range file.Decls {
			f, ok := decl.(*ast.FuncDecl)
			if !ok || f.Recv != nil || f.Name.Name != function {
				continue
			}
			text, _ := directive(f.Doc, "call")
			var all []string
			for _, name := range strings.Fields(text) {
				all = append(all, d.named(r, name))
			}
			last := len(all) - 1
			if last < 1 {
				return d.fail("%s.%s: the comment of a call says //codec:call REQUEST ANSWER", r.Name(), function), ""
			}
			return strings.Join(all[:last], " & "), all[last]
		}
	}
	return d.fail("there is no %s.%s", path, function), ""
}

// named describes a type that a package knows by a name.
func (d *describer) named(r *room, name string) string {
	scope := r.Scope()
	if of, rest, other := strings.Cut(name, "."); other {
		for _, p := range r.Imports() {
			if p.Name() == of {
				scope, name = p.Scope(), rest
			}
		}
	}
	t, ok := scope.Lookup(name).(*types.TypeName)
	if !ok {
		return d.fail("%s knows no type %s", r.Path(), name)
	}
	return d.of(t.Type())
}

// of writes a type.
func (d *describer) of(t types.Type) string {
	if named, ok := t.(*types.Named); ok && named.Obj().Pkg() != nil {
		return d.ofNamed(named)
	}
	switch u := t.Underlying().(type) {
	case *types.Basic:
		switch {
		case u.Info()&types.IsString != 0:
			return "string"
		case u.Info()&types.IsBoolean != 0:
			return "boolean"
		case u.Info()&types.IsNumeric != 0:
			return "number"
		}
	case *types.Interface:
		return "unknown"
	case *types.Pointer:
		return d.of(u.Elem())
	case *types.Slice:
		return d.list(u.Elem())
	case *types.Array:
		return d.list(u.Elem())
	case *types.Map:
		return "{ [key: string]: " + d.of(u.Elem()) + " }"
	}
	return d.fail("there are no words for a %s", t)
}

func (d *describer) list(of types.Type) string {
	item := d.of(of)
	if strings.ContainsAny(item, "|{") {
		item = "(" + item + ")"
	}
	return item + "[]"
}

func (d *describer) ofNamed(t *types.Named) string {
	name := t.Obj()
	if name.Pkg().Path() == planPath {
		return "plan." + name.Name()
	}
	r, err := d.room(name.Pkg().Path())
	if err != nil {
		return d.fail("%w", err)
	}
	text, written := directive(r.said[name.Name()], "type")
	switch {
	case written:
	case hasMethod(t, "MarshalText"):
		return "string"
	default:
		if _, isStruct := t.Underlying().(*types.Struct); !isStruct {
			return d.of(t.Underlying())
		}
	}
	full := name.Pkg().Name() + "." + name.Name()
	if d.done[name] {
		return full
	}
	d.done[name] = true
	space := d.spaces[name.Pkg().Name()]
	if space == nil {
		space = &strings.Builder{}
		d.spaces[name.Pkg().Name()] = space
	} else if !d.oneOf(name.Pkg()) {
		return d.fail("two packages are called %s", name.Pkg().Name())
	}
	if written {
		fmt.Fprintf(space, "\n%s  type %s = %s;\n", said(r.said[name.Name()], "  "), name.Name(), text)
		return full
	}
	body := d.members(r, name)
	space.WriteString(body)
	return full
}

// oneOf says whether no other package of the same name has been described.
func (d *describer) oneOf(p *types.Package) bool {
	for t := range d.done {
		if t.Pkg().Name() == p.Name() && t.Pkg() != p {
			return false
		}
	}
	return true
}

// members writes the interface of a struct.
func (d *describer) members(r *room, t *types.TypeName) string {
	list, ok, err := r.members(t)
	if err != nil {
		return d.fail("%w", err)
	}
	if !ok && !r.is(t, "request") {
		return d.fail("%s.%s has no json tags", r.Name(), t.Name())
	}
	asked := r.is(t, "request") // a request may leave anything out
	var extends []string
	var out strings.Builder
	for _, m := range list {
		if m.key == "" {
			extends = append(extends, d.of(m.field.Type()))
			continue
		}
		mark := ""
		if m.may || asked {
			mark = "?"
		}
		fmt.Fprintf(&out, "%s    %s%s: %s;\n", said(r.said[t.Name()+"."+m.field.Name()], "    "), m.key, mark, d.of(m.field.Type()))
	}
	head := ""
	if len(extends) > 0 {
		head = "extends " + strings.Join(extends, ", ") + " "
	}
	return fmt.Sprintf("\n%s  interface %s %s{\n%s  }\n", said(r.said[t.Name()], "  "), t.Name(), head, &out)
}

// said is a comment of the source as one of a script.
func said(doc *ast.CommentGroup, indent string) string {
	text := strings.Join(strings.Fields(doc.Text()), " ")
	if text == "" {
		return ""
	}
	return indent + "/** " + strings.ReplaceAll(text, "*/", "* /") + " */\n"
}
