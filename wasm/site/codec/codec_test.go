package codec

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const root = "../../.."

// What is checked in is what the source gives today.
func TestGeneratedCodeIsFresh(t *testing.T) {
	paths, err := Packages(root)
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	for _, path := range paths {
		name, want, err := File(root, path)
		require.NoError(t, err)
		got, err := os.ReadFile(name)
		require.NoError(t, err)
		assert.Equal(t, string(want), string(got), "%s is stale: run go generate ./...", name)
	}
}

// source makes a package of its own of a text, in a module of its own.
func source(t *testing.T, text string) (string, error) {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "x.go"), []byte("package x\n"+text), 0o600))
	_, out, err := File(dir, module)
	return string(out), err
}

// A field cannot be forgotten: what has no writer stops the generator, and so does a
// field without a name among fields that have one.
func TestNothingIsLeftOut(t *testing.T) {
	for text, want := range map[string]string{
		"type A struct { B string `json:\"b\"`; C string }":                      "C has no json tag",
		"type A struct { B chan int `json:\"b\"` }":                              "there is no writer",
		"type A struct { B map[string]int `json:\"b\"` }":                        "of maps only",
		"type A struct { B string `json:\"b,string\"` }":                         "is not one that can be written",
		"type A struct { B string `json:\",omitempty\"` }":                       "is not one that can be written",
		"type A struct { B C `json:\"b\"` }\ntype C struct { D string }":         "there is no writer",
		"type A struct { B *C `json:\"b,omitempty\"` }\ntype C struct { D int }": "has no writer",
		"type A struct { C; B string `json:\"b\"` }\ntype C struct { D int }":    "no key of its own",
		"//codec:request\ntype A struct { B []int `json:\"b\"` }":                "there is no reader",
	} {
		_, err := source(t, text)
		assert.ErrorContains(t, err, want, text)
	}
}

// Each kind of field by the writer's own method for it.
func TestWriters(t *testing.T) {
	out, err := source(t, `
type Word string
type Num float64
type State int
func (State) MarshalText() ([]byte, error) { return nil, nil }
func (State) String() string { return "" }
type B struct { C string `+"`json:\"c\"`"+` }
//codec:members
type A struct {
	Text  string     `+"`json:\"text\"`"+`
	Word  Word       `+"`json:\"word,omitempty\"`"+`
	Num   Num        `+"`json:\"num\"`"+`
	State State      `+"`json:\"state\"`"+`
	None  string     `+"`json:\"-\"`"+`
	own   int
	Some  any        `+"`json:\"some,omitempty\"`"+`
	List  []B        `+"`json:\"list\"`"+`
	Place [3]Num     `+"`json:\"place\"`"+`
	Rows  [][]B      `+"`json:\"rows,omitempty\"`"+`
	Part  B          `+"`json:\"part,omitempty\"`"+`
	Other *B         `+"`json:\"other\"`"+`
}`)
	require.NoError(t, err)
	for _, want := range []string{
		`w.Text("text", x.Text)`, `w.TextIf("word", string(x.Word))`, `w.Num("num", float64(x.Num))`, `w.Text("state", x.State.String())`,
		"if x.Some != nil {\n\t\tw.Value(\"some\", x.Some)\n\t}", `jsontext.Objects(w, "list", x.List, (*B).AppendJSON)`,
		"w.Key(\"place\")\n\tjsontext.NumList(w, x.Place[:])",
		"if len(x.Rows) > 0 {", "x.Rows[i][j].AppendJSON(w)", "w.Key(\"part\")\n\tx.Part.AppendJSON(w)", "if x.Other == nil {\n\t\tw.Null()",
		"case 2:\n\t\treturn &x.Num",
	} {
		assert.Contains(t, out, want)
	}
	assert.NotContains(t, out, "None")
	assert.NotContains(t, out, "own")
}

// No struct of the program is written by hand beside the generated code.
func TestNoWriterByHand(t *testing.T) {
	paths, err := Packages(root)
	require.NoError(t, err)
	for _, path := range paths {
		files, err := filepath.Glob(filepath.Join(root, strings.TrimPrefix(path, module), "*.go"))
		require.NoError(t, err)
		for _, name := range files {
			text, err := os.ReadFile(name)
			require.NoError(t, err)
			if filepath.Base(name) != fileName {
				assert.NotRegexp(t, regexp.MustCompile(`(?m)^func \(.*\) AppendJSON\(`), string(text), name)
			}
		}
	}
}
