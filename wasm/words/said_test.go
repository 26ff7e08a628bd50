//go:build !js

package words_test

import (
	"go/ast"
	"go/constant"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// notSaid are rooms and files with other English than texts, and why.
var notSaid = map[string]string{
	"browser":         "tests",
	"draft/drafttest": "tests",
	"site":            "for those who build the page and run its server",
	"units":           "units as they are written and typed",
	"words.go":        "the words of the trade, which Say puts into texts",
}

// notTexts are constants that look like texts, and what they are.
var notTexts = map[string]string{
	"stem stump":                            "a class of marks",
	"label label-note":                      "a class of marks",
	"Made up for practice":                  "the name of a plan that nobody sees",
	"its end, left out":                     "a reduction of a piece that nobody sees",
	"qr: the text is too long for one code": "an error that nobody sees",
	"the top":                               "a part of a reading's name in package rigging, to be replaced",
	"the lay":                               "a word of package rigging's texts, to be replaced",
}

const textType = "/wasm/words.Text"

// Two words, or one that begins like a sentence.
var english = regexp.MustCompile(`[A-Za-z]{2,}[,:;.]? \(?[A-Za-z]{2,}|^[A-Z][a-z]{2,}`)

// No room has English in a constant that is no Text:
// none that is put together by + or by fmt, none that is shown as it is.
func TestRoomsSayTheirTexts(t *testing.T) {
	exports := exportData(t)
	fset := token.NewFileSet()
	imports := importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	for _, room := range rooms(t) {
		packages, err := parser.ParseDir(fset, "../"+room, func(f os.FileInfo) bool { return !strings.HasSuffix(f.Name(), "_test.go") }, 0)
		require.NoError(t, err)
		for _, p := range packages {
			var files []*ast.File
			for _, f := range p.Files {
				files = append(files, f)
			}
			info := types.Info{Types: map[ast.Expr]types.TypeAndValue{}}
			_, err := (&types.Config{Importer: imports}).Check("pullline/wasm/"+room, fset, files, &info)
			require.NoError(t, err)
			said := map[ast.Expr]bool{} // parts of a constant that is a Text
			for _, f := range files {
				ast.Inspect(f, func(n ast.Node) bool {
					if sum, ok := n.(*ast.BinaryExpr); ok && info.Types[sum].Value != nil && (said[sum] || strings.HasSuffix(info.TypeOf(sum).String(), textType)) {
						said[sum.X], said[sum.Y] = true, true
					}
					return true
				})
			}
			for e, v := range info.Types {
				if _, literal := e.(*ast.BasicLit); !literal || said[e] || notSaid[filepath.Base(fset.Position(e.Pos()).Filename)] != "" || v.Value == nil || v.Value.Kind() != constant.String {
					continue
				}
				text := constant.StringVal(v.Value)
				if strings.HasSuffix(v.Type.String(), textType) || !english.MatchString(text) || notTexts[text] != "" || strings.HasPrefix(text, "{\"") {
					continue
				}
				t.Errorf("%s: %q is shown without being said", fset.Position(e.Pos()), text)
			}
		}
	}
}

// rooms are those of the page that say anything.
func rooms(t *testing.T) (list []string) {
	require.NoError(t, filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || !d.IsDir() {
			return err
		}
		room := filepath.ToSlash(strings.TrimPrefix(path, ".."+string(filepath.Separator)))
		if notSaid[room] != "" || d.Name() == "testdata" {
			return filepath.SkipDir
		}
		if files, _ := filepath.Glob(filepath.Join(path, "*.go")); len(files) > 0 && path != ".." {
			list = append(list, room)
		}
		return nil
	}))
	return list
}

// exportData finds what the compiler has on each package, by import path.
func exportData(t *testing.T) map[string]string {
	out, err := exec.Command("go", "list", "-export", "-deps", "-f", "{{.ImportPath}} {{.Export}}", "pullline/wasm/...").Output()
	require.NoError(t, err)
	files := map[string]string{}
	for line := range strings.Lines(string(out)) {
		if path, file, ok := strings.Cut(strings.TrimSpace(line), " "); ok {
			files[path] = file
		}
	}
	return files
}
