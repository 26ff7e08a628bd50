package practice

import (
	"encoding/json"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/jsontext/jsontest"
	"pullline/wasm/class/marking"
	"pullline/wasm/draw"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// askFor asks as the page does.
func askFor(t testing.TB, request map[string]any) *Sheet {
	t.Helper()
	raw, err := json.Marshal(request)
	require.NoError(t, err)
	var s Sheet
	require.NoError(t, json.Unmarshal(JSON(raw), &s))
	return &s
}

func TestKindsOfQuestions(t *testing.T) {
	perGrade, seen := map[int]int{}, map[string]bool{}
	for _, k := range drills {
		assert.False(t, seen[k.id], k.id)
		seen[k.id] = true
		perGrade[k.grade]++
	}
	assert.GreaterOrEqual(t, len(drills), 16)
	for g := 1; g <= 5; g++ {
		assert.GreaterOrEqual(t, perGrade[g], 3, "grade %d", g)
	}
}

// The same seed gives the same sheet on every machine: written out here, and
// this test runs in WebAssembly as well.
func TestASeedsSheetIsFixed(t *testing.T) {
	s := askFor(t, map[string]any{"seed": "Kauri  7", "grade": "2", "settings": map[string]any{"units": "kN", "words": "nz"}})
	var lines []string
	for _, q := range s.Questions {
		lines = append(lines, q.ID+" "+q.Text)
		lines = append(lines, q.Given...)
	}
	assert.Equal(t, "kauri 7", s.Seed)
	assert.Equal(t, strings.TrimSpace(`
1 A rope runs over the redirect block without friction. What does the block carry?
T = 30 kN, tension of the rope
γ = 70°, angle between its legs
2 Two ropes are made fast to one anchor and pull different ways. What does the anchor carry?
F₁ = 18 kN, pull of one rope
F₂ = 20 kN, pull of the other
γ = 60°, angle between them
3 Two equal strops from one ring share an anchor load. What does each carry?
F = 25 kN, pull on the ring, midway between the legs
γ = 130°, angle between the legs
4 A pull line runs straight from the stem down to its anchor. With what force does it lift the anchor?
T = 45 kN, tension of the rope
h = 12 m, height of the rope's fastening above the anchor
d = 24 m, level distance from the stem to the anchor
5 Two legs of fixed length hold a ring. What does the first leg carry?
F = 20 kN, pull on the ring
α = 40°, angle of the first leg off the line of the pull
β = 30°, angle of the second leg off it, on the other side
6 A pull line runs straight from the stem down to its anchor. With what force does it lift the anchor?
T = 10 kN, tension of the rope
h = 14 m, height of the rope's fastening above the anchor
d = 16 m, level distance from the stem to the anchor
`), strings.ReplaceAll(strings.Join(lines, "\n"), "\u00a0", " "))
	assert.Equal(t, s, askFor(t, map[string]any{"seed": "kauri 7", "grade": "2", "settings": map[string]any{"units": "kN", "words": "nz"}}))
	other := askFor(t, map[string]any{"seed": "kauri 8", "grade": "2"})
	assert.NotEqual(t, s.Questions, other.Questions)
}

// Answers are kept by a key that is the same as long as the sheet reads the
// same, and the name on every page says what to ask for to have it again.
func TestASheetsKeyAndMark(t *testing.T) {
	sheet := func(seed, grade, units, words string, answers map[string]string) *Sheet {
		return askFor(t, map[string]any{"seed": seed, "grade": grade, "settings": map[string]string{"units": units, "words": words}, "answers": answers})
	}
	first := sheet("7", "2", "kN", "nz", nil)
	assert.Equal(t, "Sheet 7, grade 2, in kN", first.Mark)
	assert.Equal(t, "Sheet 7, mixed, in lbf", sheet("7", "mixed", "us", "us", nil).Mark)
	assert.Equal(t, first.Key, sheet(" 7", "2", "kN", "nz", map[string]string{"1": "20", "2": "x"}).Key)
	seen := map[string]bool{first.Key: true}
	for _, other := range []*Sheet{sheet("8", "2", "kN", "nz", nil), sheet("7", "3", "kN", "nz", nil), sheet("7", "2", "tf", "nz", nil), sheet("7", "2", "kN", "uk", nil)} {
		assert.NotEmpty(t, other.Key)
		assert.False(t, seen[other.Key])
		seen[other.Key] = true
	}
	for _, q := range sheet("7", "5", "kN", "nz", nil).Questions {
		assert.Equal(t, q.Kind == "number", q.Follows)
	}
}

// eachAsk calls do with the questions of many sheets, of every unit system
// in turn.
func eachAsk(t *testing.T, seeds int, do func(name string, u *units.System, q *ask)) {
	t.Helper()
	d := words.Locale{}
	for n := range seeds {
		u := units.Systems[n%len(units.Systems)]
		for _, g := range grades {
			if g.Value == "5" && n%20 != 0 || g.Value == mixedGrade && n%50 != 0 {
				continue // whole plans take long
			}
			all := asks(d, u, "seed "+strconv.Itoa(n), g.Value)
			require.Len(t, all, map[bool]int{true: 9, false: perSheet}[g.Value == mixedGrade], g.Value)
			for i, q := range all {
				do(u.Key+" seed "+strconv.Itoa(n)+" grade "+g.Value+" question "+strconv.Itoa(i+1)+": "+q.text, u, q)
			}
		}
	}
}

// typedIn writes a number as a person does who works in a unit system.
func typedIn(u *units.System, v float64, dim units.Dimension) string {
	return strconv.FormatFloat(units.RoundDigits(v/u.Units[dim].Size, 3), 'f', -1, 64)
}

// Over 500 seeds: the right answer counts as right, to three digits, in every
// unit system; every mistake is told from the right answer and from the
// others.
func TestAnswersAreToldApart(t *testing.T) {
	eachAsk(t, 500, func(name string, u *units.System, q *ask) {
		if q.options != nil {
			return
		}
		require.True(t, draw.Finite(q.want.Value) && q.want.Value > 0, name)
		require.GreaterOrEqual(t, len(q.want.Slips), 2, name)
		require.Equal(t, len(q.want.Slips), len(q.parts), name)
		require.Equal(t, marking.Right, marking.Judge(words.Locale{}, u, typedIn(u, q.want.Value, q.want.Dim), q.want).State, name)
		require.Equal(t, marking.Right, marking.Judge(words.Locale{}, u, q.figure(q.want.Value, q.want.Dim), q.want).State, name)
		for _, other := range units.Systems {
			unit := other.Units[q.want.Dim].Name
			require.Equal(t, marking.Right, marking.Judge(words.Locale{}, u, typedIn(other, q.want.Value, q.want.Dim)+" "+unit, q.want).State, "%s in %s", name, unit)
		}
		for i, s := range q.want.Slips {
			j := marking.Judge(words.Locale{}, u, typedIn(u, s.Value, q.want.Dim), q.want)
			require.Equal(t, marking.Wrong, j.State, "%s: %s", name, s.Says)
			require.Equal(t, i, j.Slip, "%s: %s", name, s.Says)
			require.True(t, q.parts[i] >= 1 && q.parts[i] <= len(q.steps), "%s: step %d", name, q.parts[i])
		}
	})
}

// Every question can be read: short, with a working that ends in the answer.
func TestQuestionsAreWhole(t *testing.T) {
	eachAsk(t, 60, func(name string, u *units.System, q *ask) {
		text := q.text
		require.LessOrEqual(t, utf8.RuneCountInString(text), 170, name)
		require.NotContains(t, text+strings.Join(q.given, ""), "{", name)
		require.NotContains(t, text+strings.Join(q.given, ""), units.None, name)
		require.NotEmpty(t, q.steps, name)
		for _, s := range q.steps {
			require.NotContains(t, s.Name+s.Result+strings.Join(s.Values, ""), "{", name)
			require.NotContains(t, s.Result, units.None, name)
			require.NotEmpty(t, s.Formula, name)
		}
		if q.options == nil {
			require.Equal(t, q.figure(q.want.Value, q.want.Dim), q.steps[len(q.steps)-1].Result, name)
			return
		}
		right := 0
		for i, o := range q.options {
			require.NotEmpty(t, q.whys[i], name)
			for _, other := range q.options[:i] {
				require.NotEqual(t, other.Label, o.Label, name)
			}
			if o.Value == q.right {
				right++
			}
		}
		require.Equal(t, 1, right, name)
	})
}

// given reads a number of what is given, in the units of kN.
func givenNumber(t *testing.T, q *ask, letter string) float64 {
	t.Helper()
	for _, g := range q.given {
		if rest, ok := strings.CutPrefix(g, letter+" = "); ok {
			number := regexp.MustCompile(`^[0-9.\x{202f}]+`).FindString(rest)
			v, err := strconv.ParseFloat(strings.ReplaceAll(number, "\u202f", ""), 64)
			require.NoError(t, err)
			return v
		}
	}
	require.Fail(t, "not given: "+letter, "%v", q.given)
	return 0
}

// arrow is a force of some size at an angle in degrees, as a complex number.
func arrow(size, deg float64) complex128 {
	return cmplx.Rect(size, deg*math.Pi/180)
}

// Every kind worked out a second way from what is given: by complex numbers
// for arrows, part by part for tackles, from the figures of the tables named.
func TestKindsWorkedASecondWay(t *testing.T) {
	const g = 9.80665
	ends := map[string]float64{ // US Army TM 5-3810-305-10, Table 4; US Army FM 55-501, 12-100
		"wire rope clips": 0.80, "wedge socket": 0.75, "hand-made eye splice with heavy thimble": 0.70,
	}
	// parts are the parts of a tackle by hand: from the haul on, each sheave
	// leaves η of the tension.
	parts := func(n int, e float64, fixed bool) float64 {
		sum, tension := 0.0, 1.0
		if fixed {
			tension *= e
		}
		for range n {
			sum += tension
			tension *= e
		}
		return sum
	}
	countOf := regexp.MustCompile(`(\d+) parts?`)
	counted := func(t *testing.T, q *ask) (n []int) {
		for _, line := range q.given {
			if m := countOf.FindStringSubmatch(line); m != nil {
				v, err := strconv.Atoi(m[1])
				require.NoError(t, err)
				n = append(n, v)
			}
		}
		return n
	}
	tonnes := regexp.MustCompile(`WLL = ([0-9.]+)`)
	tag := func(t *testing.T, q *ask) float64 { // t, as stamped, to kN
		for _, line := range q.given {
			if m := tonnes.FindStringSubmatch(line); m != nil {
				v, err := strconv.ParseFloat(m[1], 64)
				require.NoError(t, err)
				return v * g
			}
		}
		require.Fail(t, "no tag")
		return 0
	}
	fixed := func(q *ask) bool { return strings.Contains(strings.Join(q.given, " "), "fixed block") }
	lever := func(h, d float64) float64 { // distance of the line from the hinge, by similar triangles
		return h * math.Cos(math.Atan(h/d))
	}
	second := map[string]func(t *testing.T, q *ask) float64{
		"redirect-factor": func(t *testing.T, q *ask) float64 {
			return cmplx.Abs(arrow(1, 0) + arrow(1, givenNumber(t, q, "γ")))
		},
		"leg-share": func(t *testing.T, q *ask) float64 {
			return 1 / cmplx.Abs(arrow(1, 0)+arrow(1, givenNumber(t, q, "γ")))
		},
		"basket-factor": func(t *testing.T, q *ask) float64 {
			return cmplx.Abs(arrow(1, 0) + arrow(1, givenNumber(t, q, "γ")))
		},
		"level-share": func(t *testing.T, q *ask) float64 { return real(arrow(1, givenNumber(t, q, "α"))) },
		"block-load": func(t *testing.T, q *ask) float64 {
			return cmplx.Abs(arrow(givenNumber(t, q, "T"), 0) + arrow(givenNumber(t, q, "T"), givenNumber(t, q, "γ")))
		},
		"resultant": func(t *testing.T, q *ask) float64 {
			return cmplx.Abs(arrow(givenNumber(t, q, "F₁"), 0) + arrow(givenNumber(t, q, "F₂"), givenNumber(t, q, "γ")))
		},
		"equal-legs": func(t *testing.T, q *ask) float64 {
			return givenNumber(t, q, "F") / cmplx.Abs(arrow(1, 0)+arrow(1, givenNumber(t, q, "γ")))
		},
		"unequal-legs": func(t *testing.T, q *ask) float64 {
			// T₁·e^(iα) + T₂·e^(−iβ) = F, by Cramer's rule.
			a, b := arrow(1, givenNumber(t, q, "α")), arrow(1, -givenNumber(t, q, "β"))
			return givenNumber(t, q, "F") * imag(b) / (imag(b)*real(a) - imag(a)*real(b))
		},
		"uplift": func(t *testing.T, q *ask) float64 {
			return givenNumber(t, q, "T") * math.Sin(math.Atan2(givenNumber(t, q, "h"), givenNumber(t, q, "d")))
		},
		"half-turn": func(t *testing.T, q *ask) float64 { return givenNumber(t, q, "T₁") / givenNumber(t, q, "η") },
		"tackle-count": func(t *testing.T, q *ask) float64 {
			// The rope strokes of the picture, and the haul where it is one of them.
			c := draw.New(draw.Box{W: 320, H: 180})
			q.draw(c)
			n := -2.0 // the line it hauls is drawn as a rope, and the head of the haul
			for _, s := range c.Shapes {
				if s.Class == "rope" || s.Class == "haul" && !fixed(q) {
					n++
				}
			}
			return n
		},
		"tackle-haul": func(t *testing.T, q *ask) float64 {
			return givenNumber(t, q, "F") / parts(counted(t, q)[0], givenNumber(t, q, "η"), fixed(q))
		},
		"compound-haul": func(t *testing.T, q *ask) float64 {
			n, e := counted(t, q), givenNumber(t, q, "η")
			return givenNumber(t, q, "F") / parts(n[0], e, false) / parts(n[1], e, false)
		},
		"working-limit": func(t *testing.T, q *ask) float64 {
			for name, kept := range ends {
				if strings.Contains(strings.Join(q.given, " "), name) {
					return givenNumber(t, q, "MBL") / givenNumber(t, q, "DF") * kept
				}
			}
			return math.NaN()
		},
		"choked-sling": func(t *testing.T, q *ask) float64 { return tag(t, q) * 0.8 }, // EN 1492-1, Table 3, from memory
		"basket-limit": func(t *testing.T, q *ask) float64 {
			return tag(t, q) * cmplx.Abs(arrow(1, 0)+arrow(1, givenNumber(t, q, "γ")))
		},
		"choke-angle": func(t *testing.T, q *ask) float64 { // ASME B30.9, from memory
			switch angle := givenNumber(t, q, "α"); {
			case angle >= 90:
				return tag(t, q) * 0.87
			case angle >= 60:
				return tag(t, q) * 0.74
			default:
				return tag(t, q) * 0.62
			}
		},
		"line-moment": func(t *testing.T, q *ask) float64 {
			return givenNumber(t, q, "T") * lever(givenNumber(t, q, "h"), givenNumber(t, q, "d"))
		},
		"weight-moment": func(t *testing.T, q *ask) float64 {
			return givenNumber(t, q, "m") / 1000 * g * givenNumber(t, q, "x")
		},
		"lean-offset": func(t *testing.T, q *ask) float64 {
			return givenNumber(t, q, "z") * imag(arrow(1, givenNumber(t, q, "λ")))
		},
		"hinge-moment": func(t *testing.T, q *ask) float64 {
			// Half of the thickness yields in tension, half in compression: σ·(b·t/2)·(t/2).
			b, thick := givenNumber(t, q, "b")/100, givenNumber(t, q, "t")/100
			return givenNumber(t, q, "σ") * 1000 * b * thick / 2 * thick / 2
		},
		"pull-needed": func(t *testing.T, q *ask) float64 {
			return (givenNumber(t, q, "m")/1000*g*givenNumber(t, q, "x") + givenNumber(t, q, "M")) / lever(givenNumber(t, q, "h"), givenNumber(t, q, "d"))
		},
	}
	for i := range drills {
		k := &drills[i]
		if k.grade == 5 {
			continue // below
		}
		for n := range 40 {
			q := pose(words.Locale{}, &units.KN, k, diceOf("second", 100*i+n), map[string]bool{})
			require.NotNil(t, q, k.id)
			if q.options != nil {
				continue
			}
			work := second[k.id]
			require.NotNil(t, work, "%s has no second way", k.id)
			require.InEpsilon(t, work(t, q), q.want.Value, 1e-9, "%s %v", k.id, q.given) // the same numbers, summed another way
		}
	}
}

// Factors as published: 2, 1.73, 1.41 and 1 at 0°, 60°, 90° and 120°
// (Arboriculture Australia, Tree Rescue Manual, p. 118).
func TestPublishedAngleFactors(t *testing.T) {
	published := map[float64]string{60: "1.73", 90: "1.41", 120: "1"}
	seen := 0
	for n := range 300 {
		q := pose(words.Locale{}, &units.KN, &drills[0], diceOf("published", n), map[string]bool{})
		if text, ok := published[givenNumber(t, q, "γ")]; ok {
			seen++
			assert.Equal(t, marking.Right, marking.Judge(words.Locale{}, &units.KN, text, q.want).State, "%v", q.given)
			assert.Equal(t, text, q.steps[1].Result)
		}
	}
	assert.Positive(t, seen)
}

// The whole set-ups, piece by piece from the words of the question.
func TestWeakestPieceWorkedASecondWay(t *testing.T) {
	const g = 9.80665
	rope := regexp.MustCompile(`MBL ([0-9.]+) kN, design factor ([0-9.]+)`)
	wll := regexp.MustCompile(`WLL ([0-9.]+) t`)
	force := regexp.MustCompile(`(?:holds|rated) ([0-9.]+) kN`)
	value := func(text string) float64 {
		v, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err)
		return v
	}
	for i := range drills {
		if drills[i].grade != 5 {
			continue
		}
		for n := range 25 {
			q := pose(words.Locale{}, &units.KN, &drills[i], diceOf("setups", 100*i+n), map[string]bool{})
			require.NotNil(t, q)
			name := drills[i].id
			line, block, anchor := 0.0, 0.0, 0.0
			switch name {
			case "weakest-straight":
				line = givenNumber(t, q, "T")
			case "weakest-redirect":
				line = givenNumber(t, q, "T")
				block = cmplx.Abs(arrow(line, 0) + arrow(line, givenNumber(t, q, "γ")))
			default:
				haul := givenNumber(t, q, "S")
				m := regexp.MustCompile(`(\d):1`).FindStringSubmatch(strings.Join(q.given, " "))
				line = haul * value(m[1]) // no friction counted on: every part pulls with the haul
				anchor = line - haul
				block = line
			}
			worst, use := "", 0.0
			for _, text := range q.given {
				text = strings.ReplaceAll(text, "\u00a0", " ")
				piece, limit, ok := strings.Cut(text, ": ")
				if !ok {
					continue
				}
				load, holds := line, 0.0
				switch {
				case strings.Contains(piece, "Anchor of the tackle"):
					load = anchor
				case strings.Contains(piece, "block"):
					load = block
				}
				if m := rope.FindStringSubmatch(limit); m != nil {
					holds = value(m[1]) / value(m[2])
				} else if m := wll.FindStringSubmatch(limit); m != nil {
					holds = value(m[1]) * g
				} else if m := force.FindStringSubmatch(limit); m != nil {
					holds = value(m[1])
				} else {
					continue
				}
				if strings.Contains(limit, "choked") {
					holds *= 0.8
				}
				if load/holds > use {
					worst, use = piece, load/holds
				}
			}
			for _, o := range q.options {
				if o.Value == q.right {
					require.Equal(t, worst, o.Label, "%s %v", name, q.given)
				}
			}
			// The rope of the plan is not quite level, and the angle is given to a degree.
			require.InEpsilon(t, 100*use, q.also.want.Value, 0.02, "%s %v", name, q.given)
		}
	}
}

func TestAnsweringASheet(t *testing.T) {
	ask := map[string]any{"seed": 12, "grade": 4, "box": map[string]any{"w": 320, "h": 180}}
	s := askFor(t, ask)
	assert.Equal(t, "12", s.Seed)
	assert.Equal(t, "4", s.Grade)
	assert.Empty(t, s.Message)
	assert.Equal(t, "0 of 6 right.", s.Score)
	for _, q := range s.Questions {
		assert.Empty(t, q.Solution, "not before it is answered")
		assert.Empty(t, q.Right)
		assert.Empty(t, q.State)
	}
	all := asks(words.Locale{}, &units.KN, "12", "4")
	answers := map[string]string{"1": "no idea", "99": "5"}
	for i, q := range all {
		if q.options != nil {
			answers[strconv.Itoa(i+1)] = q.right
		} else if i > 0 {
			answers[strconv.Itoa(i+1)] = q.figure(q.want.Value, q.want.Dim)
		}
	}
	wrong := ""
	for i, q := range all {
		if q.options == nil && i > 0 && wrong == "" {
			wrong = strconv.Itoa(i + 1)
			answers[wrong] = typedIn(&units.KN, q.want.Slips[0].Value, q.want.Dim)
		}
	}
	ask["answers"] = answers
	s = askFor(t, ask)
	for i, q := range s.Questions {
		switch {
		case q.ID == wrong:
			assert.Equal(t, marking.Wrong, q.State)
			assert.Contains(t, q.Says, words.Locale{}.Say(all[i].want.Slips[0].Says))
			assert.Equal(t, all[i].parts[0], q.PartsAt)
			assert.NotEmpty(t, q.Solution)
			assert.NotContains(t, q.Says, all[i].figure(all[i].want.Value, all[i].want.Dim), "a wrong answer may be tried again")
		case answers[q.ID] == "no idea" && q.Kind == "number":
			assert.Equal(t, marking.Unread, q.State)
			assert.Contains(t, q.Says, "Type a number")
			assert.Empty(t, q.Solution)
		default:
			assert.Equal(t, marking.Right, q.State, q.Text)
			assert.NotEmpty(t, q.Solution)
		}
	}
	assert.Equal(t, 1, s.Wrong)
}

// A choice: each wrong one is answered with why, and nothing else counts.
func TestAnsweringAChoice(t *testing.T) {
	for n := range 40 {
		seed := strconv.Itoa(n)
		for i, q := range asks(words.Locale{}, &units.KN, seed, "1") {
			if q.options == nil {
				continue
			}
			id := strconv.Itoa(i + 1)
			for k, o := range q.options {
				s := askFor(t, map[string]any{"seed": seed, "grade": "1", "answers": map[string]string{id: o.Value}})
				got := s.Questions[i]
				assert.Contains(t, got.Says, q.whys[k])
				assert.Equal(t, o.Value == q.right, got.State == marking.Right)
			}
			s := askFor(t, map[string]any{"seed": seed, "grade": "1", "answers": map[string]string{id: "z"}})
			assert.Equal(t, marking.Unread, s.Questions[i].State)
			return
		}
	}
}

func TestUnitsMixedUp(t *testing.T) {
	for _, c := range []struct {
		u       *units.System
		text    string
		want    marking.Wanted
		message string
	}{
		{&units.KN, "20000", marking.Wanted{Value: 20, Dim: units.Kilonewtons, Tolerance: 0.03}, "1000"},
		{&units.KN, "2.04", marking.Wanted{Value: 20, Dim: units.Kilonewtons, Tolerance: 0.03}, "9.81"},
		{&units.KN, "196", marking.Wanted{Value: 20, Dim: units.Kilonewtons, Tolerance: 0.03}, "9.81"},
		{&units.KN, "0.25", marking.Wanted{Value: 25, Dim: units.Metres, Tolerance: 0.03}, "centimetres"},
		{&units.US, "4.5", marking.Wanted{Value: 20, Dim: units.Kilonewtons, Tolerance: 0.03}, "kips"},
		{&units.US, "2.25", marking.Wanted{Value: 20, Dim: units.Kilonewtons, Tolerance: 0.03}, "short tons"},
		{&units.KN, "173", marking.Wanted{Value: 1.73, Dim: units.Plain, Tolerance: 0.02}, "%"},
		{&units.KN, "0.85", marking.Wanted{Value: 85, Dim: units.Percents, Tolerance: 0.05}, "percent"},
		{&units.KN, "12", marking.Wanted{Value: 20, Dim: units.Kilonewtons, Tolerance: 0.03}, "Too low"},
		{&units.KN, "31", marking.Wanted{Value: 20, Dim: units.Kilonewtons, Tolerance: 0.03}, "Too high"},
	} {
		j := marking.Judge(words.Locale{}, c.u, c.text, c.want)
		assert.Equal(t, marking.Wrong, j.State, c.text)
		assert.Contains(t, j.Says, c.message, c.text)
	}
	for _, text := range []string{"20", "20 kN", "20,3 kN", "2.04 t", "20000 N", "4500 lbf"} {
		assert.Equal(t, marking.Right, marking.Judge(words.Locale{}, &units.KN, text, marking.Wanted{Value: 20, Dim: units.Kilonewtons, Tolerance: 0.03}).State, text)
	}
	never := []string{"", " ", "x", "20 m", "2 tons", "NaN", "nan kN", "1e999", "inf", "-inf", "Infinity kN", "0x14", "20 20", "20..", "--20", "20 kN kN", "2*10", "40/0", "1e400/1e399", "twenty", "20°", "20 %", "🙂"}
	for _, text := range never {
		assert.Equal(t, marking.Unread, marking.Judge(words.Locale{}, &units.KN, text, marking.Wanted{Value: 20, Dim: units.Kilonewtons, Tolerance: 0.03}).State, text)
		for dim := range units.Dimensions { // and it never counts as right, whatever is asked for
			for _, v := range []float64{1e-3, 1, 1e9} {
				assert.NotEqual(t, marking.Right, marking.Judge(words.Locale{}, &units.US, text, marking.Wanted{Value: v * 1.234, Dim: dim, Tolerance: 0.05}).State, text)
			}
		}
	}
	assert.Equal(t, marking.Right, marking.Judge(words.Locale{}, &units.KN, "3:1", marking.Wanted{Value: 3, Dim: units.Plain, Tolerance: 0.02}).State)
}

// One right answer of 12 kN, as people write it; the units' sizes are those
// of NIST Special Publication 811, appendix B.8.
func TestARightAnswerInAnotherUnit(t *testing.T) {
	want := marking.Wanted{Value: 12, Dim: units.Kilonewtons, Tolerance: 0.02}
	for _, u := range units.Systems {
		for _, text := range []string{"12 kN", "12kN", "12,0 kn", "12.1 KN", "12 000 N", "12000 N", "12\u202f000\u00a0N", "1.2e4 N", "1.22 tf", "1,22 t", "1224 kgf", "2700 lbf", "2,700.0 lbf", "2.7 kip", "+12 kN", "24/2 kN"} {
			assert.Equal(t, marking.Right, marking.Judge(words.Locale{}, u, text, want).State, "%s %s", u.Key, text)
		}
	}
	for u, text := range map[*units.System]string{&units.KN: "12,1", &units.TF: "1,22", &units.US: "2 700"} {
		assert.Equal(t, marking.Right, marking.Judge(words.Locale{}, u, text, want).State, "%s %s", u.Key, text)
	}
	for _, text := range []string{"27.1 kN·m", "27,1 kNm", "27.1 kN.m", "27.1 kN m", "27100 N·m", "2.76 tf·m", "20 000 ft·lbf", "20 000 ft-lbs", "20000 ft lb", "20000 ft.lbf"} {
		assert.Equal(t, marking.Right, marking.Judge(words.Locale{}, &units.KN, text, marking.Wanted{Value: 27.1, Dim: units.KilonewtonMetres, Tolerance: 0.03}).State, text)
	}
}

// What could not be read is said with why.
func TestWhyAnAnswerIsNotRead(t *testing.T) {
	force, length, factor := marking.Wanted{Value: 20, Dim: units.Kilonewtons, Tolerance: 0.03}, marking.Wanted{Value: 3, Dim: units.Metres, Tolerance: 0.03}, marking.Wanted{Value: 1.5, Dim: units.Plain, Tolerance: 0.02}
	for _, c := range []struct {
		u    *units.System
		text string
		want marking.Wanted
		says string
	}{
		{&units.KN, "much", force, "Type a number in kN, or with its unit after it."},
		{&units.KN, "20 m", force, `What follows the number in "20 m" is not a unit of what is asked for.`},
		{&units.KN, "20 kN·m", force, `"20 kN·m" is not a unit`},
		{&units.KN, "3 kN", length, `"3 kN" is not a unit`},
		{&units.KN, "1.5 kN", factor, `"1.5 kN" is not a unit`},
		{&units.KN, "2 tons", force, "tonnes or short tons"},
		{&units.US, "4,500", force, `The comma in "4,500" can be read two ways`},
		{&units.US, "4,500 lbf", force, `The comma in "4,500 lbf" can be read two ways`},
	} {
		j := marking.Judge(words.Locale{}, c.u, c.text, c.want)
		assert.Equal(t, marking.Unread, j.State, c.text)
		assert.Contains(t, j.Says, "Type a number", c.text)
		assert.Contains(t, j.Says, c.says, c.text)
	}
}

// Whatever cannot be used is said, and the default is shown.
func TestSeedsAndGradesThatCannotBeUsed(t *testing.T) {
	for _, seed := range []any{"", "   ", strings.Repeat("x", 25), "a\u0000b", []int{1}, true, map[string]any{}} {
		s := askFor(t, map[string]any{"seed": seed})
		assert.Equal(t, "1", s.Seed, seed)
		assert.Contains(t, s.Message, "seed", seed)
		assert.Len(t, s.Questions, perSheet)
	}
	for _, grade := range []any{"6", 0, "", -1, 1.5, strings.Repeat("9", 1000), []any{}} {
		s := askFor(t, map[string]any{"grade": grade})
		assert.Equal(t, "1", s.Grade, grade)
		assert.Contains(t, s.Message, "grade", grade)
		assert.Less(t, len(s.Message), 200)
	}
	s := askFor(t, map[string]any{})
	assert.Empty(t, s.Message)
	assert.Equal(t, "1", s.Seed)
	assert.Equal(t, "tōtara 7", askFor(t, map[string]any{"seed": " tōtara   7 "}).Seed)
	var broken Sheet
	require.NoError(t, json.Unmarshal(JSON([]byte("[")), &broken))
	assert.NotEmpty(t, broken.Message)
	assert.Empty(t, broken.Questions)
}

// The region's words are used, and its units.
func TestSheetInTheRegionsWords(t *testing.T) {
	raw := map[string]any{"seed": "words", "grade": "3", "solutions": true, "settings": map[string]any{"words": "uk"}}
	out, err := json.Marshal(askFor(t, raw))
	require.NoError(t, err)
	for _, word := range []string{"strop", "block and tackle"} {
		assert.NotContains(t, string(out), word)
	}
	assert.Contains(t, string(out), "pulley system")
	raw["settings"] = map[string]any{"words": "us"}
	out, err = json.Marshal(askFor(t, raw))
	require.NoError(t, err)
	assert.Contains(t, string(out), "lbf")
}

// A picture stays in its box and has the room for what it says.
func TestPicturesOfQuestions(t *testing.T) {
	for n := range 30 {
		for _, box := range []draw.Box{{W: 300, H: 170}, {W: 420, H: 220}, {W: 1000, H: 420}} {
			for _, g := range grades {
				if g.Value == "5" && n > 4 || g.Value == mixedGrade {
					continue
				}
				sheet := work(&asked{Seed: "pictures " + strconv.Itoa(n), Grade: g.Value, Box: box})
				for _, q := range sheet.Questions {
					if q.Picture == nil {
						continue
					}
					require.NotEmpty(t, q.Picture.Title)
					require.NotEmpty(t, q.Picture.Desc)
					for _, s := range q.Picture.Shapes {
						require.True(t, s.X >= 0 && s.X <= box.W && s.Y >= 0 && s.Y <= box.H, "%s: %+v", q.Text, s)
						if s.Kind == "path" {
							require.NotEmpty(t, s.D, q.Text)
						}
					}
				}
			}
		}
	}
}

// The number asked for stands nowhere before it is answered.
func TestSheetHoldsItsAnswersBack(t *testing.T) {
	eachAsk(t, 40, func(name string, u *units.System, q *ask) {
		answer := q.figure(q.want.Value, q.want.Dim)
		if q.options != nil || q.want.Dim == units.Plain || q.draw == nil || strings.Contains(strings.Join(q.given, " "), answer) {
			return
		}
		c := draw.New(draw.Box{W: 400, H: 220})
		title, desc := q.draw(c)
		text := title + desc
		for _, s := range c.Finish("", "").Shapes {
			text += "\n" + s.Text
		}
		require.NotContains(t, text+q.text, answer, name)
	})
}

func TestSheetJSONAsItsTags(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	for range 20 {
		var s Sheet
		jsontest.Fill(&s, r)
		jsontest.SameAsTags(t, &s, s.AppendJSON)
	}
}

func FuzzJSON(f *testing.F) {
	f.Add([]byte(`{"seed":"1","grade":"2","answers":{"1":"20 kN"},"box":{"w":320,"h":180}}`)) // as the page asks
	f.Add([]byte(`{"seed":7,"grade":5,"settings":{"units":"us","words":"us"},"solutions":true}`))
	f.Add([]byte(`{"seed":1e400,"grade":[],"answers":[1],"box":{"w":1e9,"h":-1}}`))
	f.Add([]byte(`[`))
	f.Fuzz(func(t *testing.T, raw []byte) {
		var s Sheet
		require.NoError(t, json.Unmarshal(JSON(raw), &s))
		assert.NotContains(t, s.Message, "fault in the program")
		for _, q := range s.Questions {
			assert.NotContains(t, q.Text, "NaN")
		}
	})
}

// A share of a bridle and a factor off a sling are two ways to the same
// number.
func TestLegShareIsTheBridles(t *testing.T) {
	for deg := 10.0; deg < 170; deg += 10 {
		sin, cos := math.Sincos(rad(deg / 2))
		shared, err := rigging.Bridle{Legs: []rigging.Vec{{X: cos, Y: sin}, {X: cos, Y: -sin}}, SelfAdjusting: true}.Share(rigging.Vec{X: -1})
		require.NoError(t, err)
		assert.InEpsilon(t, shared.Tension[0], rigging.SlingAngleFactor(math.Pi/2-rad(deg/2))/2, 1e-12)
	}
}
