package bench

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging/jsontext/jsontest"
	"pullline/wasm/class/marking"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// askFor asks as the page does.
func askFor(t testing.TB, request map[string]any) *View {
	t.Helper()
	raw, err := json.Marshal(request)
	require.NoError(t, err)
	var b View
	require.NoError(t, json.Unmarshal(JSON(raw), &b))
	return &b
}

var boxes = map[string]any{"w": 360, "h": 300}

// fact is the text of a number of a bench.
func (b *View) fact(id string) string {
	for _, f := range b.Facts {
		if f.ID == id {
			return f.Value
		}
	}
	return ""
}

// has says whether a bench shows a field.
func (b *View) has(key string) bool {
	return slices.ContainsFunc(b.Fields, func(f parts.Field) bool { return f.Path == key })
}

func TestEveryBenchStands(t *testing.T) {
	seen := map[string]bool{}
	for _, spec := range benches {
		assert.False(t, seen[spec.id], spec.id)
		seen[spec.id] = true
		b := askFor(t, map[string]any{"bench": spec.id, "box": boxes, "curve_box": boxes})
		require.True(t, b.Fresh, spec.id)
		require.NotNil(t, b.Picture, spec.id)
		assert.NotEmpty(t, b.Facts, spec.id)
		assert.NotEmpty(t, b.Working, spec.id)
		assert.NotEmpty(t, b.Picture.Handles, spec.id)
		assert.NotEmpty(t, b.Picture.Desc, spec.id)
		for _, n := range b.Notes {
			assert.NotEmpty(t, n.Source, "%s %s", spec.id, n.Code)
		}
		if spec.curve != nil {
			assert.NotNil(t, b.Curve, spec.id)
		}
		for i := range spec.inputs {
			if in := &spec.inputs[i]; in.numeric() {
				assert.Positive(t, in.step, spec.id+" "+in.key)
				assert.Positive(t, in.fine, spec.id+" "+in.key)
			}
		}
		for _, h := range b.Picture.Handles {
			assert.NotEmpty(t, h.Paths, spec.id+" "+h.ID)
		}
	}
}

// everyNumberOpens says that any number of a bench opens its step of the
// working, that the step comes to what is shown, and that what a value is
// said to come from is there, before it.
func everyNumberOpens(t *testing.T, b *View, with any) {
	t.Helper()
	steps := map[string]parts.Step{}
	for _, s := range b.Working {
		assert.NotContains(t, steps, s.Path, "%s %v", b.ID, with)
		for i, from := range s.From {
			if from != "" {
				assert.Contains(t, s.Values[i], steps[from].Result, "%s %s from %q: %v", b.ID, s.Path, from, with)
				assert.NotEmpty(t, steps[from].Path, "%s %s from %q", b.ID, s.Path, from)
			}
		}
		assert.NotEmpty(t, s.Formula, "%s %s", b.ID, s.Path)
		assert.NotEmpty(t, s.Source, "%s %s", b.ID, s.Path)
		steps[s.Path] = s
	}
	for _, f := range b.Facts {
		if f.Working == "" {
			assert.False(t, strings.ContainsAny(f.Value, "0123456789"), "%s: no working of %s, %s: %v", b.ID, f.ID, f.Value, with)
			continue
		}
		require.NotEmpty(t, steps[f.Working].Result, "%s %s", b.ID, f.ID)
		assert.Contains(t, f.Value, steps[f.Working].Result, "%s %s: %v", b.ID, f.ID, with) // beside it words, as of the piece
	}
}

// Also of every tackle there is.
func TestEveryNumberOfBenchesOpens(t *testing.T) {
	for _, spec := range benches {
		b := askFor(t, map[string]any{"bench": spec.id})
		everyNumberOpens(t, b, "as it starts")
		assert.NotEmpty(t, b.Facts[0].Working, spec.id)
		assert.True(t, slices.ContainsFunc(b.Working, func(s parts.Step) bool { return len(s.From) > 0 }), "no step leads to another: "+spec.id)
		for i := range spec.inputs {
			for _, o := range spec.inputs[i].options {
				values := map[string]string{spec.inputs[i].key: o.Value, "reeving": "load-anchor-block1;load-block1-load-haul"}
				if spec != &tackle {
					delete(values, "reeving")
				}
				everyNumberOpens(t, askFor(t, map[string]any{"bench": spec.id, "values": values, "settings": map[string]string{"units": "us"}}), values)
			}
		}
	}
}

// Whatever the values in their ranges, every number is one and opens its
// working, and nothing that cannot be drawn is drawn.
func TestBenchesOverTheirRanges(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 2))
	for _, spec := range benches {
		for n := range 60 {
			values := map[string]any{}
			for i := range spec.inputs {
				in := &spec.inputs[i]
				switch {
				case len(in.options) > 0:
					values[in.key] = in.options[r.IntN(len(in.options))].Value
				case in.numeric():
					v := in.low + (in.high-in.low)*r.Float64()
					switch {
					case n == 0:
						v = in.low
					case n == 1:
						v = in.high
					case in.dim == units.Count:
						v = math.Round(v)
					}
					values[in.key] = strconv.FormatFloat(v, 'f', -1, 64)
				}
			}
			b := askFor(t, map[string]any{"bench": spec.id, "values": values, "box": boxes, "curve_box": boxes})
			require.True(t, b.Fresh, "%s %v: %+v", spec.id, values, b.Fields)
			everyNumberOpens(t, b, values)
			for _, f := range b.Facts {
				assert.NotContains(t, f.Value, "NaN", spec.id)
				assert.NotContains(t, f.Value, "Inf", spec.id)
			}
			for _, h := range b.Picture.Handles {
				require.True(t, draw.Finite(h.X) && draw.Finite(h.Y), "%s %s", spec.id, h.ID)
				if h.X < 0 || h.X > 360 || h.Y < 0 || h.Y > 300 {
					t.Errorf("%s: handle %s out of the picture at %v, %v with %v", spec.id, h.ID, h.X, h.Y, values)
				}
			}
		}
	}
}

// What a student is to guess first stands nowhere in the answer.
func TestBenchHoldsItsNumbersBack(t *testing.T) {
	for _, spec := range benches {
		if spec.question == "" {
			continue
		}
		open := askFor(t, map[string]any{"bench": spec.id, "box": boxes, "curve_box": boxes})
		require.NotEmpty(t, open.Facts, spec.id)
		raw, err := json.Marshal(map[string]any{"bench": spec.id, "box": boxes, "curve_box": boxes, "guess": true})
		require.NoError(t, err)
		text := string(JSON(raw))
		assert.NotContains(t, text, strings.Trim(strconv.Quote(open.Facts[0].Value), `"`), spec.id)
		var b View
		require.NoError(t, json.Unmarshal([]byte(text), &b))
		assert.True(t, b.Hidden, spec.id)
		assert.Empty(t, b.Facts, spec.id)
		assert.Empty(t, b.Working, spec.id)
		assert.Nil(t, b.Curve, spec.id)
		require.NotNil(t, b.Guess, spec.id)

		wrong := askFor(t, map[string]any{"bench": spec.id, "guess": true, "answer": "0.00001"})
		assert.Equal(t, marking.Wrong, wrong.Guess.State, spec.id)
		assert.NotEmpty(t, wrong.Facts, spec.id)
		unread := askFor(t, map[string]any{"bench": spec.id, "guess": true, "answer": "heavy"})
		assert.Equal(t, marking.Unread, unread.Guess.State, spec.id)
		assert.True(t, unread.Hidden, spec.id)
	}
}

// The mistakes a bench knows are told apart from the right answer where it
// starts.
func TestSlipsOfBenches(t *testing.T) {
	for _, spec := range benches {
		if spec.question == "" {
			continue
		}
		b := &work{u: &units.KN, spec: spec, in: map[string]float64{}, text: map[string]string{}, out: broken(words.Locale{}, "")}
		b.resolve(map[string]string{})
		spec.solve(b)
		want := spec.guess(b)
		state, _ := b.judge(units.Decimal(want.Value, -1), want)
		assert.Equal(t, marking.Right, state, spec.id)
		for _, s := range want.Slips {
			state, message := b.judge(units.Decimal(s.Value, -1), want)
			assert.Equal(t, marking.Wrong, state, "%s: %s", spec.id, s.Says)
			assert.Contains(t, message, b.Say(s.Says), spec.id)
		}
	}
}

func TestBenchKeepsWhatIsTyped(t *testing.T) {
	for _, spec := range benches {
		for i := range spec.inputs {
			in := &spec.inputs[i]
			if !in.numeric() || !askFor(t, map[string]any{"bench": spec.id}).has(in.key) {
				continue
			}
			b := askFor(t, map[string]any{"bench": spec.id, "values": map[string]string{}, "set": in.key, "text": "a lot", "box": boxes})
			assert.False(t, b.Fresh, spec.id)
			assert.Empty(t, b.Facts, spec.id)
			assert.Equal(t, "a lot", b.Values[in.key])
			for _, f := range b.Fields {
				assert.Equal(t, f.Path == in.key, f.Text == "a lot", f.Path)
				assert.Equal(t, f.Path == in.key, f.Problem != "", f.Path)
			}
			b = askFor(t, map[string]any{"bench": spec.id, "values": map[string]string{in.key: units.Decimal(in.high+1, -1)}, "box": boxes})
			assert.False(t, b.Fresh, spec.id+" "+in.key)
		}
	}
}

// Every handle moves by arrow keys and by dragging, and stays in range.
func TestBenchHandlesMove(t *testing.T) {
	for _, spec := range benches {
		b := askFor(t, map[string]any{"bench": spec.id, "box": boxes})
		for _, h := range b.Picture.Handles {
			moved := false
			for _, step := range [][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
				to := askFor(t, map[string]any{"bench": spec.id, "box": boxes, "handle": h.ID, "step_x": step[0], "step_y": step[1]})
				require.True(t, to.Fresh, spec.id)
				moved = moved || to.Values[h.Paths[0]] != b.Values[h.Paths[0]]
			}
			assert.True(t, moved, spec.id+" "+h.ID)
			for _, at := range [][2]float64{{0, 0}, {360, 0}, {0, 300}, {360, 300}, {h.X, h.Y}, {-1e9, 1e9}} {
				to := askFor(t, map[string]any{"bench": spec.id, "box": boxes, "handle": h.ID, "x": at[0], "y": at[1]})
				require.True(t, to.Fresh, "%s %s %v %+v", spec.id, h.ID, at, to.Fields)
			}
		}
	}
}

// An arrow key never moves a handle the other way along its axis.
func TestArrowKeysMoveHandlesTheirWay(t *testing.T) {
	for _, spec := range benches {
		b := askFor(t, map[string]any{"bench": spec.id, "box": boxes})
		for _, h := range b.Picture.Handles {
			for _, key := range []struct {
				axis string
				x, y int
			}{{"x", 3, 0}, {"y", 0, 3}} { // right, up
				if !strings.Contains(h.Axes, key.axis) {
					continue
				}
				to := askFor(t, map[string]any{"bench": spec.id, "box": boxes, "handle": h.ID, "step_x": key.x, "step_y": key.y})
				for _, now := range to.Picture.Handles {
					if now.ID == h.ID {
						way := (now.X-h.X)*float64(key.x) + (h.Y-now.Y)*float64(key.y)
						assert.GreaterOrEqual(t, way, -0.5, "%s %s %s", spec.id, h.ID, key.axis)
					}
				}
			}
		}
	}
}

// Whatever the units, a bench starts from round numbers that it takes.
func TestBenchesStartRound(t *testing.T) {
	for _, spec := range benches {
		for _, units := range []string{"kN", "tf", "us"} {
			b := askFor(t, map[string]any{"bench": spec.id, "settings": map[string]any{"units": units}, "guess": true, "answer": "0.00001"})
			assert.True(t, b.Fresh, spec.id+" "+units)
			assert.NotEmpty(t, b.Facts, spec.id+" "+units)
			for _, f := range b.Fields {
				if f.Kind == "number" {
					assert.LessOrEqual(t, len(strings.Trim(f.Text, "-0.")), 5, "%s %s %s: %s", spec.id, units, f.Path, f.Text)
				}
			}
		}
	}
}

// In other units a bench starts from the round numbers of those; what was
// moved or typed is converted and kept to its last digit, and shown short.
func TestBenchesInOtherUnits(t *testing.T) {
	systems := []string{"kN", "tf", "us"}
	in := func(units string) map[string]any { return map[string]any{"units": units} }
	for _, spec := range benches {
		for i := range spec.inputs {
			key := spec.inputs[i].key
			if !spec.inputs[i].numeric() || !askFor(t, map[string]any{"bench": spec.id}).has(key) {
				continue
			}
			for _, from := range systems {
				start := askFor(t, map[string]any{"bench": spec.id, "settings": in(from)})
				require.Empty(t, start.Changed, spec.id)
				v, err := strconv.ParseFloat(start.Values[key], 64)
				require.NoError(t, err)
				text := units.Decimal(v*1.013+0.3, -1)
				if v*1.013+0.3 > spec.inputs[i].high {
					text = units.Decimal(v*0.987, -1)
				}
				if spec.inputs[i].dim == units.Count {
					text = units.Decimal(v+1, -1)
				}
				changed := askFor(t, map[string]any{"bench": spec.id, "settings": in(from), "values": map[string]string{key: text}})
				require.Equal(t, map[string]string{key: text}, changed.Changed, spec.id)
				for _, to := range systems {
					fresh := askFor(t, map[string]any{"bench": spec.id, "settings": in(to)})
					assert.Equal(t, fresh.Fields, askFor(t, map[string]any{"bench": spec.id, "settings": in(to), "values": start.Changed}).Fields, spec.id)
					there := askFor(t, map[string]any{"bench": spec.id, "settings": in(to), "values": changed.Changed})
					assert.Equal(t, text, there.Values[key], spec.id)
					for _, f := range there.Fields {
						if f.Kind == "number" {
							assert.LessOrEqual(t, len(strings.Trim(strings.ReplaceAll(f.Text, ".", ""), "-0")), mostDigits, "%s %s: %s", spec.id, f.Path, f.Text)
						}
					}
				}
			}
		}
	}
	lbf := askFor(t, map[string]any{"bench": "redirect", "settings": in("us"), "values": map[string]string{"tension_kN": "12.5"}})
	assert.Equal(t, "2820", lbf.field("tension_kN").Text, "as the picture has it: 2 810.1 lbf, rounded up")
	assert.Equal(t, "2200", askFor(t, map[string]any{"bench": "redirect", "settings": in("us")}).field("tension_kN").Text)
	odd := askFor(t, map[string]any{"bench": "redirect", "settings": in("kN"), "values": map[string]string{"tension_kN": "9.80665"}})
	assert.Equal(t, "9.81", odd.field("tension_kN").Text, "1 tf, rounded up")
	typed := askFor(t, map[string]any{"bench": "redirect", "settings": in("us"), "set": "tension_kN", "text": "1234.5"})
	assert.Equal(t, "1234.5", typed.field("tension_kN").Text, "as typed")
}

func (b *View) field(key string) parts.Field {
	for _, f := range b.Fields {
		if f.Path == key {
			return f
		}
	}
	return parts.Field{}
}

// Arrow keys and drags go by round numbers of the user's units.
func TestBenchHandlesMoveByRoundSteps(t *testing.T) {
	for _, units := range []string{"kN", "tf", "us"} {
		for _, spec := range benches {
			request := func(more map[string]any) *View {
				more["bench"], more["settings"], more["box"] = spec.id, map[string]any{"units": units}, boxes
				return askFor(t, more)
			}
			for _, h := range request(map[string]any{}).Picture.Handles {
				for _, more := range []map[string]any{{"step_x": 1, "step_y": 1}, {"step_x": -2, "step_y": 1, "fine": true}, {"x": h.X + 23, "y": h.Y - 31}} {
					more["handle"] = h.ID
					to := request(more)
					for _, key := range h.Paths {
						if _, moved := to.Changed[key]; moved {
							assert.LessOrEqual(t, len(strings.Trim(strings.ReplaceAll(to.field(key).Text, ".", ""), "-0")), 4, "%s %s %s: %s", spec.id, units, key, to.field(key).Text)
						}
					}
				}
			}
		}
	}
}

// A field that is empty is no value, and there is no number then.
func TestBenchWithAnEmptyField(t *testing.T) {
	for _, spec := range benches {
		for _, f := range askFor(t, map[string]any{"bench": spec.id}).Fields {
			if f.Kind == "number" {
				b := askFor(t, map[string]any{"bench": spec.id, "set": f.Path, "text": "", "box": boxes})
				assert.False(t, b.Fresh, spec.id+" "+f.Path)
				assert.Empty(t, b.Facts, spec.id+" "+f.Path)
				assert.NotEmpty(t, b.field(f.Path).Problem, spec.id+" "+f.Path)
			}
		}
	}
}

// The letters grow with the picture, none is lost in a larger one, and
// handles stay in it.
func TestBenchLettersGrowWithThePicture(t *testing.T) {
	words := func(d *draw.Drawing) (out []string) {
		for _, s := range d.Shapes {
			if s.Kind == "text" && s.Text != "" {
				out = append(out, s.Text)
			}
		}
		return out
	}
	for _, spec := range benches {
		small := askFor(t, map[string]any{"bench": spec.id, "box": map[string]any{"w": 312, "h": 267}}).Picture
		assert.Equal(t, float64(draw.Font), small.Font, spec.id)
		last := small.Font
		for _, box := range [][2]float64{{560, 380}, {740, 518}, {1000, 518}, {1300, 900}} {
			d := askFor(t, map[string]any{"bench": spec.id, "box": map[string]any{"w": box[0], "h": box[1]}}).Picture
			assert.GreaterOrEqual(t, d.Font, last, "%s %v", spec.id, box)
			assert.LessOrEqual(t, d.Font, mostFont, "%s %v", spec.id, box)
			last = d.Font
			assert.GreaterOrEqual(t, len(words(d)), len(words(small)), "%s %v: %q, small %q", spec.id, box, words(d), words(small))
			for _, h := range d.Handles {
				assert.True(t, h.X >= 0 && h.X <= d.W && h.Y >= 0 && h.Y <= d.H, "%s %v %s", spec.id, box, h.ID)
			}
		}
		assert.Greater(t, last, 18.0, spec.id)
	}
}

func TestUnknownBench(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "no such"})
	assert.Contains(t, b.Message, "no such")
	assert.Equal(t, benches[0].id, b.ID)
	b = askFor(t, map[string]any{"bench": "redirect", "values": map[string]string{"colour": "3"}})
	assert.Contains(t, b.Message, "colour")
}

func TestBenchJSONAsItsTags(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	for range 20 {
		var b View
		b.Values, b.Changed = map[string]string{}, map[string]string{"key": "text"}
		for i := range 3 {
			key := "key" + strconv.Itoa(i)
			b.Values[key] = "text"
			b.Fields = append(b.Fields, parts.Field{Path: key, Label: "label"})
		}
		jsontest.Fill(&b.Guess, r)
		jsontest.Fill(&b.Picture, r)
		jsontest.Fill(&b.Facts, r)
		jsontest.Fill(&b.Working, r)
		jsontest.Fill(&b.Notes, r)
		jsontest.Fill(&b.Actions, r)
		jsontest.Fill(&b.Benches, r)
		jsontest.Fill(&b.Lacks, r)
		jsontest.Fill(&b.Message, r)
		jsontest.SameAsTags(t, &b, b.AppendJSON)
	}
}

func FuzzBenchJSON(f *testing.F) {
	f.Add([]byte(`{"bench":"redirect","values":{"included_deg":"60"}}`)) // as the page asks
	f.Add([]byte(`{"bench":"redirect","values":{"included_deg":"1e400"},"box":{"w":1e9,"h":-1}}`))
	f.Add([]byte(`{"handle":"bench/right","x":1e300}`))
	f.Add([]byte(`[`))
	f.Fuzz(func(t *testing.T, raw []byte) {
		var b View
		require.NoError(t, json.Unmarshal(JSON(raw), &b))
		assert.NotContains(t, b.Message, "fault in the program")
	})
}

// The names of a curve's axes find room on a phone.
func TestBenchAxesAreNamedInFull(t *testing.T) {
	for _, spec := range benches {
		b := askFor(t, map[string]any{"bench": spec.id, "box": boxes, "curve_box": boxes})
		if b.Curve == nil {
			continue
		}
		c := draw.New(draw.Box{W: b.Curve.W, H: b.Curve.H})
		for _, s := range b.Curve.Shapes {
			if s.Kind == "text" && s.Class == "tick" {
				assert.Less(t, c.TextWidth(s.Text), 0.9*b.Curve.W, "%s: %s", spec.id, s.Text)
			}
		}
	}
}

// A mass is its weight in tonnes and in pounds: nobody is told there that the
// two were mixed up.
func TestMassForForceIsASlipInKilonewtonsOnly(t *testing.T) {
	for _, id := range []string{"lean", "stall", "slings", "machine"} {
		for _, u := range []*units.System{&units.KN, &units.TF, &units.US} {
			b := &work{u: u.Exact(), spec: byID(id), in: map[string]float64{}, text: map[string]string{}, out: broken(words.Locale{}, "")}
			b.resolve(map[string]string{})
			b.spec.solve(b)
			told := false
			for _, s := range b.spec.guess(b).Slips {
				told = told || draw.Finite(s.Value) && strings.Contains(string(s.Says), "9.81")
			}
			assert.Equal(t, u == &units.KN, told, "%s %s", id, u.Key)
		}
	}
}

// A working can be followed with the numbers it shows, however small they are:
// what is divided there comes, within the digits shown, to the result shown.
func TestWorkingsAddUpAsShown(t *testing.T) {
	small := map[string]string{"tension_kN": "0.52", "pull_kN": "0.12", "first_kN": "0.52", "load_kN": "0.11", "haul_kN": "0.52", "stall_kN": "1.1", "rated_kN": "0.9", "wll_t": "0.11"}
	divided := 0
	for _, spec := range benches {
		for _, u := range []*units.System{&units.KN, &units.TF, &units.US} {
			values := map[string]string{}
			for i := range spec.inputs {
				if v, ok := small[spec.inputs[i].key]; ok {
					values[spec.inputs[i].key] = v
				}
			}
			b := askFor(t, map[string]any{"bench": spec.id, "values": values, "settings": map[string]string{"units": u.Key}})
			require.True(t, b.Fresh, spec.id)
			for _, s := range b.Working {
				over, under, ok := strings.Cut(s.Formula, "/")
				if _, shown, named := strings.Cut(over, " = "); named {
					over = shown
				}
				worth := func(letter string) (float64, bool) {
					for _, v := range s.Values {
						if text, found := strings.CutPrefix(v, letter+" = "); found {
							text, _, _ = strings.Cut(text, " (")
							digits, unit, _ := strings.Cut(strings.ReplaceAll(text, "\u202f", ""), "\u00a0")
							v, ok := units.ParseNumber(digits)
							if unit == "ft" || unit == "m" { // lengths to the smaller unit
								v *= map[string]float64{"ft": 12, "m": 100}[unit]
							}
							return v, ok
						}
					}
					return 0, false
				}
				a, okA := worth(over)
				c, okC := worth(under)
				result := strings.TrimSuffix(strings.TrimSuffix(strings.ReplaceAll(s.Result, "\u202f", ""), " : 1"), "\u00a0%")
				r, okR := units.ParseNumber(result)
				if !ok || !okA || !okC || !okR {
					continue
				}
				_, decimals, _ := strings.Cut(result, ".")
				place := math.Pow(10, -float64(len(decimals))) // of the last digit shown
				if strings.HasSuffix(s.Result, "%") {
					r, place = r/100, place/100
				}
				divided++
				assert.InDelta(t, a/c, r, place+0.011*r, "%s %s %s: %v = %s", spec.id, u.Key, s.Formula, s.Values, s.Result)
			}
		}
	}
	assert.Greater(t, divided, 30)
}

// A course author finds the names of the benches in README, in their order.
func TestReadmeNamesTheBenches(t *testing.T) {
	readme, err := os.ReadFile("../../../README.md")
	require.NoError(t, err)
	_, listed, found := strings.Cut(string(readme), "The benches are ")
	require.True(t, found)
	listed, _, _ = strings.Cut(listed, ".")
	var names []string
	for _, theme := range themes {
		for _, b := range theme.benches {
			names = append(names, b.id)
		}
	}
	listed = strings.NewReplacer("`", "", "\n", " ", " and", ",").Replace(listed)
	assert.Equal(t, names, strings.Split(listed, ", "))
}

func BenchmarkBench(b *testing.B) {
	for _, id := range []string{"redirect", "tackle"} {
		raw, err := json.Marshal(map[string]any{"bench": id, "box": boxes, "curve_box": boxes})
		require.NoError(b, err)
		b.Run(id, func(b *testing.B) {
			for b.Loop() {
				JSON(raw)
			}
		})
	}
}
