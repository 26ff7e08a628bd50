package build

import (
	"errors"
	"fmt"
	"path"
	"regexp"
	"strings"
)

// Bundle joins the ES modules reachable from an entry into one script: a visit
// that asks for modules one after the other waits for each of them, and the
// single file has none to ask for. Every module becomes a function scope that
// gives its exports, in the order in which they depend on one another. The
// script exports them all by file name as modules, for tests of the page.
//
// It understands what this project's modules use, each starting a line:
//
//	import "./x.js"
//	import { a, b as c } from "./x.js"
//	import * as x from "./x.js"
//	export function|async function|class|const …
//	export { a, b as c }
//
// Anything else that imports or exports is an error with file and line, and
// so is a cycle. A module that awaits at its top level is not understood.
func Bundle(files Files, entry string) (string, error) {
	b := bundler{files: files, state: map[string]int{}}
	if err := b.add(path.Clean(entry), nil); err != nil {
		return "", err
	}
	b.out.WriteString("export const modules = {")
	for _, name := range b.order {
		fmt.Fprintf(&b.out, " %q: %s,", name, b.variable(name))
	}
	b.out.WriteString(" };\n")
	code, err := inlined(b.out.String())
	if err != nil {
		return "", fmt.Errorf("%s: %w", entry, err)
	}
	return code, nil
}

// modulesOf lists the modules reachable from an entry, each after those it
// imports.
func modulesOf(files Files, entry string) ([]string, error) {
	b := bundler{files: files, state: map[string]int{}}
	err := b.add(path.Clean(entry), nil)
	return b.order, err
}

// inlined makes a script fit to stand in a page: there it ends at the first
// closing tag, even inside a text.
func inlined(code string) (string, error) {
	if strings.Contains(code, "<!--") {
		return "", errors.New("<!-- cannot stand in an inlined script")
	}
	return strings.ReplaceAll(code, "</script", `<\/script`), nil
}

type bundler struct {
	files Files
	state map[string]int // 1 being added, 2 + index when added
	order []string       // added, in this order
	out   strings.Builder
}

// add writes a module after the modules it imports.
func (b *bundler) add(name string, trail []string) error {
	switch b.state[name] {
	case 0:
	case 1:
		return fmt.Errorf("static/%s: modules import one another: %s", name, strings.Join(append(trail, name), " → "))
	default:
		return nil
	}
	source, ok := b.files[name]
	if !ok {
		return fmt.Errorf("static/%s: there is no such module, imported by %s", name, strings.Join(trail, " → "))
	}
	b.state[name] = 1
	var body strings.Builder
	var exports []string
	lines := strings.Split(unixLines(source), "\n")
	for i := 0; i < len(lines); i++ {
		line := lines[i]
		fail := func(why string) error {
			return fmt.Errorf("static/%s:%d: %s: %s", name, i+1, why, strings.TrimSpace(line))
		}
		word := firstWord(line)
		switch {
		case word == "import" && !strings.HasPrefix(line, "import.meta"):
			first := i
			for !endsStatement(line) && i-first < 60 && i+1 < len(lines) {
				i++
				line += " " + strings.TrimSpace(lines[i])
			}
			text, err := b.importStatement(name, line, append(trail, name))
			if err != nil {
				if _, ours := err.(syntaxError); ours {
					return fmt.Errorf("static/%s:%d: %w: %s", name, first+1, err, line)
				}
				return err
			}
			body.WriteString(text + strings.Repeat("\n", i-first+1))
		case word == "export":
			rest := strings.TrimSpace(line[len("export"):])
			if strings.HasPrefix(rest, "{") {
				first := i
				for !strings.Contains(line, "}") && i+1 < len(lines) {
					i++
					line += " " + strings.TrimSpace(lines[i])
				}
				inside, tail, found := strings.Cut(line[strings.Index(line, "{")+1:], "}")
				if tail = strings.TrimSpace(tail); !found || tail != "" && tail != ";" {
					return fail("only export { names } is understood")
				}
				for _, p := range strings.Split(inside, ",") {
					if local, outer, ok := names(p); ok {
						exports = append(exports, outer+": "+local)
					} else if strings.TrimSpace(p) != "" {
						return fail("cannot read the exported name " + p)
					}
				}
				body.WriteString(strings.Repeat("\n", i-first+1))
				continue
			}
			id, ok := declared(rest)
			if !ok {
				return fail("only export of a function, class, const or { names } is understood")
			}
			exports = append(exports, id)
			body.WriteString(rest + "\n")
		case hasDynamicImport(line):
			return fail("import() is not understood")
		case forTypes(line): // nobody has to load it
			body.WriteString("\n")
		default:
			body.WriteString(line + "\n")
		}
	}
	b.order = append(b.order, name)
	b.state[name] = 1 + len(b.order)
	// No module waits at its top level: of an error in a script that does,
	// WebKit tells the page nothing.
	fmt.Fprintf(&b.out, "// %s\nconst %s = (() => {\n%sreturn { %s };\n})();\n",
		name, b.variable(name), strings.TrimRight(body.String(), "\n")+"\n", strings.Join(exports, ", "))
	return nil
}

// variable is the name of the bundle's constant holding a module's exports.
func (b *bundler) variable(name string) string {
	return fmt.Sprintf("module%d", b.state[name]-1)
}

// importStatement adds the imported module and gives the statement that takes
// its names.
func (b *bundler) importStatement(from, line string, trail []string) (string, error) {
	line = strings.TrimSuffix(strings.TrimSpace(stripComment(line)), ";")
	rest := strings.TrimSpace(strings.TrimPrefix(line, "import"))
	clause, target := "", rest
	if rest == "" || rest[0] != '"' && rest[0] != '\'' {
		i := strings.LastIndex(rest, "from")
		if i < 0 {
			return "", syntaxError("only static imports are understood")
		}
		clause, target = strings.TrimSpace(rest[:i]), strings.TrimSpace(rest[i+len("from"):])
	}
	if len(target) < 3 || target[0] != target[len(target)-1] || target[0] != '"' && target[0] != '\'' {
		return "", syntaxError("cannot read the module's name")
	}
	target = target[1 : len(target)-1]
	if !strings.HasPrefix(target, "./") && !strings.HasPrefix(target, "../") {
		return "", syntaxError("only relative imports are understood")
	}
	target = path.Join(path.Dir(from), target)

	var take []string
	switch {
	case clause == "":
	case strings.HasPrefix(clause, "{") && strings.HasSuffix(clause, "}"):
		for _, p := range strings.Split(clause[1:len(clause)-1], ",") {
			if outer, local, ok := names(p); ok {
				take = append(take, outer+": "+local)
			} else if strings.TrimSpace(p) != "" {
				return "", syntaxError("cannot read the imported name " + p)
			}
		}
	case strings.HasPrefix(clause, "*"):
		star, local, ok := strings.Cut(clause, " as ")
		if strings.TrimSpace(star) != "*" || !ok || !isName(strings.TrimSpace(local)) {
			return "", syntaxError("cannot read the imported name")
		}
		if err := b.add(target, trail); err != nil {
			return "", err
		}
		return "const " + strings.TrimSpace(local) + " = " + b.variable(target) + ";", nil
	default:
		return "", syntaxError("only import { names } or * as name is understood")
	}
	if err := b.add(target, trail); err != nil {
		return "", err
	}
	if len(take) == 0 {
		return "", nil
	}
	return "const { " + strings.Join(take, ", ") + " } = " + b.variable(target) + ";", nil
}

// A syntaxError is a form the bundler does not understand.
type syntaxError string

func (e syntaxError) Error() string { return string(e) }

// names reads "a" or "a as b".
func names(text string) (first, second string, ok bool) {
	f := strings.Fields(text)
	switch {
	case len(f) == 1 && isName(f[0]):
		return f[0], f[0], true
	case len(f) == 3 && f[1] == "as" && isName(f[0]) && isName(f[2]):
		return f[0], f[2], true
	}
	return "", "", false
}

// declared gives the name that a declaration declares.
func declared(text string) (string, bool) {
	for _, head := range []string{"async function* ", "async function ", "function* ", "function ", "class ", "const "} {
		rest, ok := strings.CutPrefix(text, head)
		if !ok {
			continue
		}
		end := 0
		for end < len(rest) && isNameByte(rest[end]) {
			end++
		}
		name := rest[:end]
		// "const a = 1, b = 2" would hide b: one name a statement.
		if head == "const " && !strings.HasPrefix(strings.TrimSpace(rest[end:]), "=") {
			return "", false
		}
		return name, isName(name)
	}
	return "", false
}

// endsStatement says whether an import has been read to its module's name.
func endsStatement(line string) bool {
	line = strings.TrimSuffix(strings.TrimSpace(stripComment(line)), ";")
	return strings.HasSuffix(line, `"`) || strings.HasSuffix(line, "'") || strings.Contains(line, "(")
}

// stripComment takes a line comment off an import, whose text has no other //.
func stripComment(line string) string {
	if i := strings.Index(line, " //"); i >= 0 {
		return line[:i]
	}
	return line
}

// remark is a comment within a line.
var remark = regexp.MustCompile(`/\*.*?\*/`)

// forTypes says whether a line only tells the types of what follows.
func forTypes(line string) bool {
	line = strings.TrimSpace(line)
	return strings.HasPrefix(line, "/** @") && remark.ReplaceAllString(line, "") == ""
}

func hasDynamicImport(line string) bool {
	code := strings.TrimSpace(remark.ReplaceAllString(line, ""))
	if strings.HasPrefix(code, "//") || strings.HasPrefix(code, "*") {
		return false
	}
	i := strings.Index(code, "import(")
	return i == 0 || i > 0 && !isNameByte(code[i-1])
}

func firstWord(line string) string {
	end := 0
	for end < len(line) && isNameByte(line[end]) {
		end++
	}
	return line[:end]
}

func isName(s string) bool {
	if s == "" || '0' <= s[0] && s[0] <= '9' {
		return false
	}
	for i := range len(s) {
		if !isNameByte(s[i]) {
			return false
		}
	}
	return true
}

func isNameByte(c byte) bool {
	return isLetter(c) || '0' <= c && c <= '9' || c == '_' || c == '$'
}

func unixLines(text []byte) string {
	return strings.ReplaceAll(string(text), "\r\n", "\n")
}
