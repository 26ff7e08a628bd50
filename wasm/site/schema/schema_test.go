package schema

import (
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/rigging/plan/field"
)

const root = "../../.."

func demo(t testing.TB) map[string]any {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root, "testdata", "demo.json"))
	require.NoError(t, err)
	v, err := decoded(text)
	require.NoError(t, err)
	return v.(map[string]any)
}

// asJSON gives a value as it comes out of its JSON text, and the text.
func asJSON(t testing.TB, v any) (any, []byte) {
	t.Helper()
	text, err := json.Marshal(v)
	require.NoError(t, err)
	out, err := decoded(text)
	require.NoError(t, err)
	return out, text
}

func report(t testing.TB) *Schema {
	t.Helper()
	s, err := Report(root)
	require.NoError(t, err)
	return s
}

// What is shipped is what is tested: every keyword survives being written.
func TestSchemasAreJSON(t *testing.T) {
	for _, s := range []*Schema{Plan(), report(t)} {
		text, err := s.JSON()
		require.NoError(t, err)
		v, err := decoded(text)
		require.NoError(t, err)
		assert.Equal(t, Draft, v.(map[string]any)["$schema"])
		for _, found := range regexp.MustCompile(`"\$ref": "#/\$defs/(\w+)"`).FindAllSubmatch(text, -1) {
			assert.NotNil(t, s.Defs.Get(string(found[1])), "%s is defined", found[1])
		}
		assert.NotContains(t, string(text), "{block}", "words are put in")
	}
}

// Every kind of anchor has a branch of the schema with its fields, and every object a
// name.
func TestEveryAnchorKindHasItsSchema(t *testing.T) {
	p := Plan()
	for _, kind := range field.AnchorKinds() {
		branch := p.Defs.Get("Anchor" + typeName(kind.Row().Word))
		require.NotNil(t, branch, kind.Row().Word)
		for _, f := range kind.Row().Fields {
			assert.NotNil(t, branch.Properties.Get(f.Key()), "%s of %s", f.Key(), kind.Row().Word)
		}
	}
	for _, f := range field.All() {
		if k := f.Row().Kind; (k == field.Object || k == field.Objects) && !strings.HasPrefix(f.Path(), "readings.") {
			assert.NotEmpty(t, planTypes[f], f.Path())
		}
	}
}

// withTackle is the invented example with another tackle.
func withTackle(t testing.TB, field string, value any) map[string]any {
	p := demo(t)
	tackle := p["lines"].([]any)[0].(map[string]any)["tackle"].(map[string]any)
	delete(tackle, "stages")
	tackle[field] = value
	return p
}

// readyPlans are the plans the page comes with: the invented example, and the
// same with every ready-made tackle.
func readyPlans(t testing.TB) map[string]map[string]any {
	plans := map[string]map[string]any{"demo": demo(t)}
	for _, r := range rigging.ReadyReevings() {
		if len(r.Stages) > 0 {
			var stages []any
			for _, s := range r.Stages {
				stages = append(stages, map[string]any{"parts": s.Parts, "haul_from": s.HaulFrom})
			}
			plans[r.Key] = withTackle(t, "stages", stages)
			continue
		}
		var nodes, ropes []any
		for _, n := range r.Reeving.Nodes {
			nodes = append(nodes, map[string]any{"id": n.ID, "kind": n.Kind, "at": n.At})
		}
		for _, rope := range r.Reeving.Ropes {
			one := map[string]any{"path": rope.Path}
			if rope.Efficiency > 0 {
				one["efficiency"] = rope.Efficiency
			}
			ropes = append(ropes, one)
		}
		plans[r.Key] = withTackle(t, "reeving", map[string]any{"nodes": nodes, "ropes": ropes})
	}
	return plans
}

func TestPlansAndReportsSatisfyTheirSchemas(t *testing.T) {
	plans, reports := Plan(), report(t)
	for name, p := range readyPlans(t) {
		v, text := asJSON(t, p)
		assert.Empty(t, check(plans, v), name)
		out, err := decoded(plan.EvaluateJSON(text))
		require.NoError(t, err)
		assert.Empty(t, check(reports, out), name)
	}
	for _, text := range []string{``, `[`, `[]`, `{}`, `7`, `{"after": {"peak_kN": 3}}`, `{"points": [null, 3], "gear": [{}], "lines": [{}]}`} {
		out, err := decoded(plan.EvaluateJSON([]byte(text)))
		require.NoError(t, err)
		assert.Empty(t, check(reports, out), text)
	}
}

// formatProblem says whether a problem is one of a single field's own: its
// type, its range, its being there or not known. What is wrong only together
// with other fields, such as a name nobody has or a place above the top,
// cannot be said in a schema.
func formatProblem(p plan.Problem) bool {
	_, key, _ := strings.Cut(p.Saying.Key, ".")
	switch strings.TrimSuffix(strings.TrimSuffix(key, ".whole"), ".above") {
	case "number", "missing.number", "missing.choice", "choice", "flag", "text", "entry_text", "date", "object", "list", "unknown_field.plan", "node_name", "crown_bearing", "lean_bearing":
		return true
	}
	return false
}

// Random plans made from the schema alone are read without a problem of any
// single field, and their reports satisfy the report's schema.
func TestRandomPlansOfTheSchemaAreRead(t *testing.T) {
	plans, reports := Plan(), report(t)
	r := rand.New(rand.NewPCG(51, 1))
	m := maker{root: plans, r: r}
	for range 200 {
		v, text := asJSON(t, m.make(plans, "", 0))
		require.Empty(t, check(plans, v), "%s", text)
		out := plan.Evaluate(text)
		for _, p := range out.Problems {
			assert.False(t, formatProblem(p), "%s: %s\n%s", p.Path, p.Saying.Key, text)
		}
		answer, err := decoded(plan.EvaluateJSON(text))
		require.NoError(t, err)
		assert.Empty(t, check(reports, answer))
	}
}

// A plan that the schema refuses is one the reader has a problem with, and
// the other way round where the problem is one of a single field.
func TestSchemaAndReaderAgree(t *testing.T) {
	plans := Plan()
	r := rand.New(rand.NewPCG(51, 2))
	m := maker{root: plans, r: r}
	hostile := []any{nil, "", "A", "pull", true, []any{}, map[string]any{}, 0.0, -1.0, 1e-9, 1e9, 90.0, 0.5, 3.0, []any{1.0}, map[string]any{"x": 1.0}, "2026-13-01", "2026-03-31"}
	refused, problems := 0, 0
	for i := range 1200 {
		p := demo(t)
		if i%2 == 1 {
			v, _ := asJSON(t, m.make(plans, "", 0))
			p = v.(map[string]any)
		}
		places := spots(p)
		place := places[r.IntN(len(places))]
		what := "removed"
		switch k := r.IntN(len(hostile) + 4); {
		case k < len(hostile):
			place.set(hostile[k])
			what = fmt.Sprint(hostile[k])
		case k == len(hostile) && place.add != nil:
			place.add("strange", 1.0)
			what = "a strange field"
		default:
			place.remove()
		}
		v, text := asJSON(t, p)
		wrong := check(plans, v)
		found := plan.Evaluate(text).Problems
		own := slices.DeleteFunc(slices.Clone(found), func(p plan.Problem) bool { return !formatProblem(p) })
		if len(wrong) > 0 {
			refused++
			require.NotEmpty(t, found, "%s %s: the schema says %v\n%s", place.path, what, wrong, text)
		}
		if len(own) > 0 {
			problems++
			require.NotEmpty(t, wrong, "%s %s: the reader says %s: %s\n%s", place.path, what, own[0].Path, own[0].Saying.Key, text)
		}
	}
	assert.Greater(t, refused, 400)
	assert.Greater(t, problems, 400)
}

// A spot is a place in a document where a value stands.
type spot struct {
	path   string
	set    func(any)
	remove func()
	add    func(key string, v any) // where the value is an object
}

func spots(v any) (all []spot) {
	var walk func(v any, path string)
	one := func(path string, value any, set func(any), remove func()) {
		s := spot{path: path, set: set, remove: remove}
		if o, ok := value.(map[string]any); ok {
			s.add = func(key string, v any) { o[key] = v }
		}
		all = append(all, s)
		walk(value, path)
	}
	walk = func(v any, path string) {
		switch v := v.(type) {
		case map[string]any:
			for _, k := range slices.Sorted(maps.Keys(v)) {
				one(path+"."+k, v[k], func(x any) { v[k] = x }, func() { delete(v, k) })
			}
		case []any:
			for i := range v {
				one(fmt.Sprintf("%s[%d]", path, i), v[i], func(x any) { v[i] = x }, func() { v[i] = nil })
			}
		}
	}
	walk(v, "")
	return all
}

// A maker makes random values that satisfy a schema.
type maker struct {
	root *Schema
	r    *rand.Rand
}

func (m maker) make(s *Schema, key string, depth int) any {
	if s.Ref != "" {
		return m.make(m.root.Defs.Get(strings.TrimPrefix(s.Ref, "#/$defs/")), key, depth)
	}
	if s.Const != nil {
		return s.Const
	}
	if s.Enum != nil {
		return s.Enum[m.r.IntN(len(s.Enum))]
	}
	if s.Properties == nil && len(s.OneOf) > 0 {
		return m.make(s.OneOf[m.r.IntN(len(s.OneOf))], key, depth)
	}
	switch s.Type {
	case "boolean":
		return m.r.IntN(2) == 0
	case "integer":
		return *s.Minimum + float64(m.r.IntN(int(*s.Maximum-*s.Minimum)+1))
	case "number":
		low := s.Minimum
		if low == nil {
			low = s.ExclusiveMinimum
		}
		if m.r.IntN(6) == 0 {
			return *s.Maximum
		}
		return *s.Maximum - (*s.Maximum-*low)*m.r.Float64()
	case "string":
		if strings.HasPrefix(s.Pattern, "^(19") {
			return fmt.Sprintf("20%02d-%02d-%02d", m.r.IntN(60), 1+m.r.IntN(12), 1+m.r.IntN(28))
		}
		return string("ABCDEF"[m.r.IntN(6)])
	case "array":
		n := s.MinItems + m.r.IntN(3)
		if s.MaxItems > 0 {
			n = min(n, s.MaxItems)
		}
		list := make([]any, n)
		for i := range list {
			list[i] = m.make(s.Items, "", depth+1)
		}
		return list
	}
	for { // until the rules over several fields hold
		o := map[string]any{}
		if s.Properties == nil {
			if of, ok := s.AdditionalProperties.(*Schema); ok {
				o["tree.height_m"] = m.make(of, "", depth+1)
			}
			return o
		}
		for _, key := range s.Properties.Names {
			if slices.Contains(s.Required, key) || m.r.IntN(2) == 0 {
				o[key] = m.make(s.Properties.Get(key), key, depth+1)
			}
		}
		if v, _ := decodedAgain(o); len((checker{m.root}).check(s, v, "")) == 0 {
			return o
		}
	}
}

func decodedAgain(v any) (any, error) {
	text, err := json.Marshal(v)
	if err != nil {
		return nil, err
	}
	return decoded(text)
}

func TestTypes(t *testing.T) {
	text, err := Types("// head\n", Plan(), report(t))
	require.NoError(t, err)
	for _, want := range []string{
		"// head\n\n/**", "export interface Plan {", "export interface Report {", "  tree: Tree;\n", "  name?: string;\n",
		"export type Anchor = AnchorRated | ", `  kind: "rated";`, `"within" | "near" | "over" | "unknown"`, "verdict: ", "number | null", "[path: string]: number",
	} {
		assert.Contains(t, text, want)
	}
	assert.NotContains(t, text, "{block}")
	names := map[string]bool{}
	for _, found := range regexp.MustCompile(`(?m)^export (?:interface|type) (\w+)`).FindAllStringSubmatch(text, -1) {
		assert.False(t, names[found[1]], "%s is declared once", found[1])
		names[found[1]] = true
	}
}
