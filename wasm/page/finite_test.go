package page

import (
	"encoding/json"
	"maps"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"pullline/wasm/class/fall"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/page/survey"
	"pullline/wasm/request"
)

// noNumber are the ways a number that is none is written by Go and by the
// page's own language.
var noNumber = regexp.MustCompile(`(?i)\b(nan|infinity|undefined|[+-]?inf)\b|∞|%!`)

// hostileNumbers are finite, and at the ends of what a double can hold; the
// last is beyond it.
var hostileNumbers = []json.RawMessage{
	[]byte("0"), []byte("-0"), []byte("5e-324"), []byte("1e-310"), []byte("2.3e-308"), []byte("1e-200"), []byte("-1e-300"), []byte("1e-9"), []byte("1e15"),
	[]byte("1e21"), []byte("1e155"), []byte("1.7976931348623157e308"), []byte("-1.7976931348623157e308"), []byte("1e999"),
}

// unnumbered walks an answer and fails at a text that shows no number where
// one should be.
func unnumbered(t testing.TB, req, out []byte) {
	t.Helper()
	var tree any
	require.NoError(t, json.Unmarshal(out, &tree), "%.400s", out)
	texts(tree, func(key, text string) {
		if noNumber.MatchString(text) && !strings.Contains(string(req), text) {
			t.Errorf("%s: %q\n%.3000s", key, text, req)
		}
	})
}

// No text that is shown of a hostile plan has a number that is none: every
// number of it in turn, and several at once.
func TestNoShownNumberIsNone(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("many views")
	}
	box := map[string]any{"w": 700, "h": 400}
	calls := func(plan any, system string) {
		t.Helper()
		req, err := json.Marshal(map[string]any{
			"plan": plan, "settings": request.Settings{Units: system}, "field": "tree.height_m", "path": "tree.height_m", "text": "3", "turn_deg": 20,
			"boxes": map[string]any{"side": box, "plan": box, "curve": box}, "box": box, "handle": "side/stem", "x": 100, "y": 100,
		})
		require.NoError(t, err)
		for _, call := range []func([]byte) []byte{JSON, fall.JSON, survey.JSON} {
			unnumbered(t, req, call(req))
		}
	}
	rng := rand.New(rand.NewPCG(3, 14))
	systems := []string{"kN", "tf", "us"}
	for _, text := range []string{drafttest.Full, string(drafttest.Demo(t))} {
		paths := numbersIn(decoded(t, text))
		for i, path := range paths {
			d := decoded(t, text)
			setAt(d, path, hostileNumbers[rng.IntN(len(hostileNumbers))])
			calls(d, systems[i%3])
		}
		for i := range 150 {
			d := decoded(t, text)
			for range 1 + rng.IntN(6) {
				setAt(d, paths[rng.IntN(len(paths))], hostileNumbers[rng.IntN(len(hostileNumbers))])
			}
			calls(d, systems[i%3])
		}
	}
}

func decoded(t testing.TB, text string) (tree any) {
	t.Helper()
	require.NoError(t, json.Unmarshal([]byte(text), &tree))
	return tree
}

// numbersIn gives the keys that lead to every number of a plan but its version.
func numbersIn(tree any) (paths [][]any) {
	var find func(at []any, v any)
	find = func(at []any, v any) {
		below := func(key, v any) { find(append(slices.Clone(at), key), v) }
		switch x := v.(type) {
		case map[string]any:
			for _, key := range slices.Sorted(maps.Keys(x)) {
				below(key, x[key])
			}
		case []any:
			for i := range x {
				below(i, x[i])
			}
		case float64:
			if len(at) > 1 {
				paths = append(paths, at)
			}
		}
	}
	find(nil, tree)
	return paths
}

// setAt puts a value in the place of another one.
func setAt(tree any, path []any, value any) {
	for _, key := range path[:len(path)-1] {
		switch key := key.(type) {
		case string:
			tree = tree.(map[string]any)[key]
		case int:
			tree = tree.([]any)[key]
		}
	}
	switch key := path[len(path)-1].(type) {
	case string:
		tree.(map[string]any)[key] = value
	case int:
		tree.([]any)[key] = value
	}
}
