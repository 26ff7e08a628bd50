package build

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A parameter of the page's address, as the page has it or README.
type parameter struct{ words, accepted, standard string }

// README's table of the parameters of an address says what the page's own
// table says.
func TestReadmeHasTheParameters(t *testing.T) {
	root, scripts := modules(t)
	source := strings.ReplaceAll(string(scripts["address.js"]), "allowed: SWITCH", `allowed: ["on", "off"]`)
	var names []string
	want := map[string]parameter{}
	row := regexp.MustCompile(`\{ name: "(\w+)", (?:allowed: \[([^\]]*)\]|accepts: say\("([^"]*)"\)), standard: "(\w*)", words: say\("([^"]*)"\) \}`)
	for _, m := range row.FindAllStringSubmatch(source, -1) {
		names = append(names, m[1])
		want[m[1]] = parameter{m[5], strings.ReplaceAll(m[2]+m[3], `"`, ""), m[4]}
	}
	require.Equal(t, strings.Count(source, `{ name: "`), len(names), "every parameter is read")

	readme, err := os.ReadFile(filepath.Join(root, "README.md"))
	require.NoError(t, err)
	_, table, found := strings.Cut(string(readme), "| parameter | what it says | accepted | default |\n|---|---|---|---|\n")
	require.True(t, found)
	table, _, _ = strings.Cut(table, "\n\n")
	var listed []string
	got := map[string]parameter{}
	for _, line := range strings.Split(strings.ReplaceAll(table, "`", ""), "\n") {
		cells := strings.Split(strings.Trim(line, "|"), "|")
		require.Len(t, cells, 4, line)
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		listed = append(listed, cells[0])
		got[cells[0]] = parameter{cells[1], cells[2], cells[3]}
	}
	assert.Equal(t, names, listed)
	assert.Equal(t, want, got)
}

// Every parameter has its control on the page.
func TestEveryParameterHasAControl(t *testing.T) {
	root, _ := modules(t)
	page, err := os.ReadFile(filepath.Join(root, "static", "index.html"))
	require.NoError(t, err)
	for _, id := range []string{"set-units", "set-words", "set-theme", "set-projector", "set-guess", "set-handles", "set-readonly", "class-open", "plan-example", "plan-open"} {
		assert.Contains(t, string(page), `id="`+id+`"`)
	}
	for _, view := range []string{"job", "bench", "fall", "practice", "model"} {
		assert.Contains(t, string(page), `data-goto="`+view+`"`)
	}
}
