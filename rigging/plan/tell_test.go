package plan

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
)

var plainly = &text.Voice{}

func say(s text.Saying) string { return plainly.Say(s) }

// said is a report with its sentences.
func said(rep Report) Report {
	rep.Tell(plainly)
	return rep
}

// keyAt is where a function takes the key of a sentence, of which kinds, and where
// its arguments begin; −1 where they are not told apart.
var keyAt = map[string]struct {
	kinds     []string
	key, args int
}{
	"caution":    {[]string{"caution."}, 0, 3},
	"unusual":    {[]string{"caution."}, 0, 3},
	"reason":     {[]string{"why."}, 1, 3},
	"problem":    {[]string{"problem."}, 4, 5},
	"problemAt":  {[]string{"problem."}, 4, 5},
	"wrong":      {[]string{"problem."}, 3, 4},
	"csvProblem": {[]string{"problem."}, 3, 4},
	"none":       {[]string{"problem."}, 0, 1},
	"takes":      {[]string{"takes."}, 0, 1},
	"assume":     {[]string{"assumed."}, 2, 4},
	"optional":   {[]string{"assumed."}, 2, 4},
}

// asks is how many arguments a sentence of package text asks for.
func asks(sentence func(n int) string) int {
	n := 0
	for sentence(n+1) != sentence(n) {
		n++
	}
	return n
}

// asked is that of a key.
func asked(key string) int {
	return asks(func(n int) string {
		args := make([]any, n)
		for i := range args {
			args[i] = text.Words("\x00" + strconv.Itoa(i))
		}
		return say(text.Saying{Key: key, Args: args})
	})
}

// Every key in the source has a sentence, which takes just the arguments that
// stand there, and no sentence is idle.
func TestEverySentenceIsUsed(t *testing.T) {
	known := map[string]bool{}
	for _, key := range text.Keys() {
		assert.False(t, known[key], "%s stands there twice", key)
		known[key] = true
	}
	used := map[string]bool{}
	fset := token.NewFileSet()
	packages, err := parser.ParseDir(fset, ".", func(f fs.FileInfo) bool { return !strings.HasSuffix(f.Name(), "_test.go") }, 0)
	require.NoError(t, err)
	rigging, err := parser.ParseDir(fset, "..", func(f fs.FileInfo) bool { return !strings.HasSuffix(f.Name(), "_test.go") }, 0)
	require.NoError(t, err)
	packages["rigging"] = rigging["rigging"] // faults are named there
	judgement, err := parser.ParseDir(fset, "../judgement/changes", func(f fs.FileInfo) bool { return !strings.HasSuffix(f.Name(), "_test.go") }, 0)
	require.NoError(t, err)
	packages["changes"] = judgement["changes"]
	table, err := parser.ParseDir(fset, "field", nil, 0)
	require.NoError(t, err)
	packages["field"] = table["field"] // and defaults here
	calls := 0
	for _, p := range packages {
		ast.Inspect(p, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.BasicLit: // wherever it stands: many keys are chosen before they are said
				if n.Kind == token.STRING {
					value, _ := strconv.Unquote(n.Value)
					for _, kind := range []string{"caution", "why", "problem", "takes", "assumed", "source", "problem.tackle", "problem.unknown_field", "change"} {
						used[kind+"."+value] = true
					}
					used[value], used["step."+value], used["step."+value+".source"], used["formulas."+value] = true, true, true, true
				}
			case *ast.CallExpr:
				name := ""
				switch f := n.Fun.(type) {
				case *ast.SelectorExpr:
					name = f.Sel.Name
				case *ast.Ident:
					name = f.Name
				}
				at, says := keyAt[name]
				if !says || p.Name != "plan" || len(n.Args) <= at.key {
					return true
				}
				lit, constant := n.Args[at.key].(*ast.BasicLit)
				if !constant || lit.Kind != token.STRING {
					return true
				}
				key, _ := strconv.Unquote(lit.Value)
				calls++
				for _, kind := range at.kinds {
					if assert.True(t, known[kind+key], "%s: %s%s has no sentence", fset.Position(n.Pos()), kind, key) && !n.Ellipsis.IsValid() {
						assert.Equal(t, asked(kind+key), len(n.Args)-at.args, "%s: arguments of %s%s", fset.Position(n.Pos()), kind, key)
					}
				}
			}
			return true
		})
	}
	assert.Greater(t, calls, 200)
	for key := range known {
		variant := strings.TrimSuffix(strings.TrimSuffix(key, ".whole"), ".above") // Range.Sentence
		for _, what := range []string{"piece", "puller", "point"} {                // judgeRows
			for _, how := range []string{"over", "near", "unknown"} {
				used["why."+what+"_"+how] = true
			}
		}
		for _, kind := range field.DefectKind.Row().Words { // cautionStem
			used["caution.stem_defect."+kind] = true
		}
		used["why.watched"], used["why.watched.unknown"], used["why.at_most_over"], used["why.not_judged"] = true, true, true, true // by constants
		used["assumed.crown_broadleaf.stand"], used["assumed.crown_conifer.stand"] = true, true
		used["letter.a_rope_here.which"], used["name.greatest.turn"], used["name.most_load.turn"] = true, true, true
		used["takes.plan_field"], used["takes.gear_list_field"] = true, true
		assert.True(t, used[variant] || strings.HasPrefix(key, "field."), "%s is idle", key)
	}
}

// Whatever a plan comes to, each saying has its sentence and the arguments that
// this asks for.
func TestSayingsFitTheirSentences(t *testing.T) {
	known := map[string]int{}
	for _, key := range text.Keys() {
		known[key] = asked(key)
	}
	fits := func(s text.Saying) {
		n, there := known[s.Key]
		assert.True(t, there, "%s has no sentence", s.Key)
		assert.Equal(t, n, len(s.Args), s.Key)
	}
	r := rand.New(rand.NewPCG(10, 1))
	for range 300 {
		rep := Evaluate(anyPlan(t, r).raw(t))
		for _, p := range rep.Problems {
			fits(p.Saying)
			fits(p.Takes)
		}
		for _, y := range rep.Why {
			fits(y.Saying)
		}
		for _, c := range rep.Cautions {
			fits(c.Saying)
		}
		for _, a := range rep.Assumed {
			fits(a.Saying)
		}
		for _, w := range rep.Working {
			fits(w.Saying)
			fits(text.Saying{Key: "step." + w.From + ".source"})
			for _, v := range w.Values {
				fits(v.Saying)
			}
		}
	}
}

// A range problem of the plan reads as a person would say it.
func TestRangeProblemReadsPlainly(t *testing.T) {
	rep := said(Evaluate([]byte(`{"tree": {"height_m": 1}}`)))
	require.NotEmpty(t, rep.Problems)
	assert.Equal(t, "Height must be a number from 2 to 130 m.", rep.Problems[0].Message)
	assert.Equal(t, "a number from 2 to 130 m", rep.Problems[0].Accepted)
}
