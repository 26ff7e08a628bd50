package types

import (
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is checked in is what the source gives today.
func TestTypesAreFresh(t *testing.T) {
	want, err := Program("../../..")
	require.NoError(t, err)
	got, err := os.ReadFile(FileName)
	require.NoError(t, err)
	assert.Equal(t, want, string(got), "%s is stale: run go generate ./...", FileName)
}

// The page's scripts keep to the types of what the program takes and gives, and to
// those of their own.
func TestScriptsKeepTheirTypes(t *testing.T) {
	t.Parallel()
	for _, config := range []string{"tsconfig.json", "workers.json"} {
		out, err := compiler(t, "--project", config).CombinedOutput()
		assert.NoError(t, err, "%s:\n%s", config, out)
	}
}

// What is wrong is found: a name that the program does not know, a value of another
// type or one that may be missing, a parameter that nothing is said of.
func TestWrongTypesAreFound(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	here, err := os.Getwd()
	require.NoError(t, err)
	config := fmt.Sprintf(`{"extends": %q, "files": [%q], "include": ["*.js"], "exclude": []}`, here+"/tsconfig.json", here+"/"+FileName)
	require.NoError(t, os.WriteFile(dir+"/tsconfig.json", []byte(config), 0o600))
	wrong := map[string]string{
		"name.js":    `/** @param {parts.Fact} fact */ export const f = (fact) => fact.lable;`,
		"missing.js": `/** @param {draw.Shape} shape */ export const f = (shape) => shape.text.length;`,
		"number.js":  `/** @param {Calls} calls */ export const f = (calls) => calls.fall({ turn_deg: "3" });`,
		"trouble.js": `/** @param {Calls} calls */ export const f = (calls) => calls.bench({}).facts.length;`,
		"request.js": `/** @param {Calls} calls */ export const f = (calls) => calls.edit({ path: "x", fine: 1 });`,
		"any.js":     `export const f = (fact) => fact;`,
	}
	for name, code := range wrong {
		require.NoError(t, os.WriteFile(dir+"/"+name, []byte(code), 0o600))
	}
	out, err := compiler(t, "--project", dir).CombinedOutput()
	require.Error(t, err)
	for name := range wrong {
		assert.Contains(t, string(out), name+"(1,")
	}
	assert.Equal(t, len(wrong), strings.Count(string(out), ": error "), "%s", out)
}

// compiler is TypeScript's, which only checks here.
func compiler(t *testing.T, args ...string) *exec.Cmd {
	if os.Getenv("PULLLINE_NO_TYPES") == "1" {
		t.Skip("PULLLINE_NO_TYPES=1: the page's scripts are not checked by types")
	}
	path, err := exec.LookPath("tsc")
	if err != nil {
		path = "/usr/bin/tsc"
		_, err = os.Stat(path)
	}
	require.NoError(t, err, "TypeScript is missing, which checks the page's scripts: install the Debian package node-typescript (make typescript does), or set PULLLINE_NO_TYPES=1")
	return exec.Command(path, append([]string{"--pretty", "false"}, args...)...)
}
