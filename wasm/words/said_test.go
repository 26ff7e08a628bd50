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
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Rooms whose every text is said through Locale.Say. The others follow.
var saidRooms = []string{
	"class/bench", "class/marking", "draw", "fields", "keyed", "offer", "request",
}

// notSaid are constants that look like texts and are none: what only the
// program reads, and names as they stand in print.
var notSaid = map[string]bool{}

const textType = "/wasm/words.Text"

// Two words, or one that begins like a sentence.
var english = regexp.MustCompile(`[A-Za-z]{2,}[,:;.]? \(?[A-Za-z]{2,}|^[A-Z][a-z]{2,}`)

// A room that says its texts has no English in a constant that is no Text:
// none that is put together by + or by fmt, none that is shown as it is.
func TestRoomsSayTheirTexts(t *testing.T) {
	exports := exportData(t)
	fset := token.NewFileSet()
	imports := importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	for _, room := range saidRooms {
		dir := "../" + room
		packages, err := parser.ParseDir(fset, dir, func(f os.FileInfo) bool { return !strings.HasSuffix(f.Name(), "_test.go") }, 0)
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
				if _, literal := e.(*ast.BasicLit); !literal || said[e] || v.Value == nil || v.Value.Kind() != constant.String {
					continue
				}
				text := constant.StringVal(v.Value)
				if strings.HasSuffix(v.Type.String(), textType) || !english.MatchString(text) || notSaid[text] {
					continue
				}
				t.Errorf("%s: %q is shown without being said", fset.Position(e.Pos()), text)
			}
		}
	}
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
