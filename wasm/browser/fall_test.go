package browser

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/wasm/class/fall"
)

// fallShown is what the view of the fall shows.
type fallShown struct {
	Left, Turned, Away, Now string // numbers, and what the slider says of itself
	Slider                  float64
	Play                    string
	Events                  []string // ids of the moments
	Current                 string   // the one it stands at
	Shapes                  int      // in the picture
	Message                 string
}

func fallOn(t testing.TB, p *Page) (f fallShown) {
	t.Helper()
	inPage(t, p, &f, `
		for (let i = 0; i < 3; i++) await new Promise(requestAnimationFrame);
		await new Promise((r) => setTimeout(r, 300)); // working and notes follow at rest
		const root = document.querySelector("#view-fall");
		const slider = root.querySelector(".fall-slider"), values = [...root.querySelectorAll(".main-value")].map((n) => n.textContent);
		const message = root.querySelector(".fall-message");
		return {
			Left: values[0], Away: values[1], Turned: root.querySelector(".fall-turn-word").textContent, Now: slider.getAttribute("aria-valuetext"),
			Slider: Number(slider.value), Play: root.querySelector(".fall-play").textContent,
			Events: [...root.querySelectorAll(".fall-event")].map((b) => b.dataset.event),
			Current: root.querySelector(".fall-event[aria-current]")?.dataset.event ?? "",
			Shapes: root.querySelectorAll(".fall-picture .shapes > *").length, Message: message.hidden ? "" : message.textContent,
		};`)
	return f
}

// demoFall is the fall of the example as Go gives it.
func demoFall(t testing.TB, more map[string]any) (f fall.View) {
	t.Helper()
	plan, err := os.ReadFile("../../testdata/demo.json")
	require.NoError(t, err)
	request := map[string]any{"plan": json.RawMessage(plan), "settings": map[string]string{"units": "kN", "words": "nz"}}
	for k, v := range more {
		request[k] = v
	}
	raw, err := json.Marshal(request)
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(fall.JSON(raw), &f))
	return f
}

const fallQuery = "?view=fall&plan=example&units=kN&words=nz"

// The slider turns the tree by keyboard and by pointer, the moments are a
// press away, and the top of the tree can be dragged.
func TestFallBySliderAndMoments(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := class(t, engine, Options{}, fallQuery)
		want := demoFall(t, nil)
		f := fallOn(t, p)
		assert.Equal(t, want.Facts[0].Value, f.Left)
		assert.Equal(t, want.Whole[0].Value, f.Away)
		assert.Equal(t, "stand", f.Current)
		assert.Equal(t, "Play", f.Play, "nothing moves by itself")
		assert.Zero(t, f.Slider)
		assert.Len(t, f.Events, len(want.Events))
		shapes := f.Shapes
		assert.Greater(t, shapes, 20)

		require.NoError(t, p.Run(`document.querySelector(".fall-slider").focus()`))
		require.NoError(t, p.Press(Right, Right, Right))
		f = fallOn(t, p)
		assert.InDelta(t, 3, f.Slider, 1e-9)
		assert.Equal(t, "3.0°", f.Turned)
		assert.Contains(t, f.Now, "3.0°")
		require.NoError(t, p.PressWith(Shift, Left))
		assert.InDelta(t, 2.9, fallOn(t, p).Slider, 1e-9)

		for _, e := range want.Events {
			press(t, p, `[data-event="`+e.ID+`"]`)
			f = fallOn(t, p)
			assert.InDelta(t, e.Deg, f.Slider, 1e-6, e.ID)
			assert.Equal(t, e.ID, f.Current)
			assert.Equal(t, demoFall(t, map[string]any{"turn_deg": e.Deg}).Facts[0].Value, f.Left)
			assert.Equal(t, shapes, f.Shapes, "the same marks in another place")
			shot(t, p, "fall-"+e.ID)
		}

		press(t, p, `[data-event="stand"]`)
		fallOn(t, p)
		x, y := handleAt(t, p, "fall/top")
		require.NoError(t, p.Drag("mouse", x, y, x+120, y+30, 8))
		dragged := fallOn(t, p)
		assert.Greater(t, dragged.Slider, 5.0)
		assert.Less(t, dragged.Slider, 80.0)
	})
}

// Played in real time the tree is on the ground when the time that Go gives
// is over, and stays there; half speed takes twice as long.
func TestFallInRealTime(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := class(t, engine, Options{}, fallQuery)
		want := demoFall(t, nil)
		start := fallOn(t, p)
		var played struct{ Seconds, Frames float64 }
		inPage(t, p, &played, `
			const root = document.querySelector("#view-fall"), slider = root.querySelector(".fall-slider");
			const from = performance.now();
			root.querySelector(".fall-play").click();
			let frames = 0, last = slider.value;
			while (Number(slider.value) < Number(slider.max) - 1e-6 && performance.now() - from < 30000) {
				await new Promise(requestAnimationFrame);
				if (slider.value !== last) frames++;
				last = slider.value;
			}
			return { Seconds: (performance.now() - from) / 1000, Frames: frames };`)
		// No sooner than it is, and on a machine that others use as well a few
		// frames late.
		assert.Greater(t, played.Seconds, want.DurationS-0.05)
		assert.Less(t, played.Seconds, want.DurationS+2)
		assert.Greater(t, played.Frames, 4.0, "it moves, and does not jump")
		t.Logf("%.0f pictures in %.1f s", played.Frames, played.Seconds)
		f := fallOn(t, p)
		assert.Equal(t, "land", f.Current)
		assert.Equal(t, "Play", f.Play)
		assert.Equal(t, "0.0\u00a0s", f.Left)

		// Once more, slower, and stopped on the way: it stands where it stopped.
		press(t, p, `[data-rate="0.5"]`)
		var seconds float64
		inPage(t, p, &seconds, `
			const play = document.querySelector(".fall-play"), slider = document.querySelector(".fall-slider");
			const from = performance.now();
			play.click();
			while (performance.now() - from < 2000) await new Promise(requestAnimationFrame);
			play.click();
			return (performance.now() - from) / 1000;`)
		stopped := fallOn(t, p)
		at := demoFall(t, map[string]any{"turn_deg": stopped.Slider})
		assert.InDelta(t, seconds/2, at.TimeS, 0.5) // the last picture may be a slow frame ago
		assert.Equal(t, "Play", stopped.Play)
		assert.Equal(t, stopped, fallOn(t, p))
		assert.Equal(t, start.Away, stopped.Away)
	})
}

// With less motion asked for, a fall that is asked for comes as single pictures.
func TestFallWithLessMotion(t *testing.T) {
	p := class(t, "chromium", Options{LessMotion: true}, fallQuery)
	fallOn(t, p)
	var frames float64
	inPage(t, p, &frames, `
		const slider = document.querySelector(".fall-slider");
		document.querySelector(".fall-play").click();
		let frames = 0, last = slider.value;
		const from = performance.now();
		while (performance.now() - from < 3000) {
			await new Promise(requestAnimationFrame);
			if (slider.value !== last) frames++;
			last = slider.value;
		}
		document.querySelector(".fall-play").click();
		return frames;`)
	assert.LessOrEqual(t, frames, 8.0)
	assert.Positive(t, frames)
}

// The keys of projector mode, and a plan that cannot fall.
func TestFallByKeysAndWithoutAPlan(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := class(t, engine, Options{Width: 1280, Height: 720}, fallQuery+"&projector=on")
		fallOn(t, p)
		require.NoError(t, p.Press("e"))
		assert.Equal(t, "commit", fallOn(t, p).Current)
		require.NoError(t, p.Press("e", "e"))
		f := fallOn(t, p)
		assert.Equal(t, "land", f.Current)
		require.NoError(t, p.PressWith(Shift, "E"))
		assert.Equal(t, "face", fallOn(t, p).Current)
		require.NoError(t, p.Press("r", "p"))
		inPage(t, p, nil, `await until(() => Number(document.querySelector(".fall-slider").value) > 0);`)
		require.NoError(t, p.Press("p"))
		f = fallOn(t, p)
		assert.Greater(t, f.Slider, 0.0)
		assert.Less(t, f.Slider, 94.0)
		shot(t, p, "fall-projector")

		inPage(t, p, nil, `const s = await module("state"); const plan = structuredClone(s.state.plan); delete plan.tree.height_m; s.openPlan(plan, "own");`)
		f = fallOn(t, p)
		assert.Contains(t, f.Message, "No fall can be shown")
		var seen bool
		require.NoError(t, p.Script(&seen, `return document.querySelector(".fall-body").checkVisibility({ visibilityProperty: true }) || !document.querySelector(".fall-notes").checkVisibility({ visibilityProperty: true })`))
		assert.False(t, seen, "no number stands, and the cautions do")
	})
}

// A frame of the fall costs no more than a frame of a drag in the job, and
// that is one of 60 a second on a machine of one's own.
func TestFallFrameIsQuick(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := class(t, engine, Options{}, fallQuery)
		var ms struct{ Fall, View float64 }
		inPage(t, p, &ms, `
			const { ask, state } = await module("state");
			const box = { w: 700, h: 400 };
			const fall = (turn_deg) => ask("fall", { plan: state.plan, speed: "", turn_deg, light: true, box, curve_box: box, course_box: box });
			const view = () => ask("view", { plan: state.plan, light: true, boxes: { side: box, plan: box, curve: box } });
			const time = (call) => {
				const from = performance.now();
				for (let i = 0; i < 5; i++) call(10 * i);
				return (performance.now() - from) / 5;
			};
			const best = { Fall: Infinity, View: Infinity }; // in turns: the machine does other things as well
			for (let round = 0; round < 20; round++) {
				best.Fall = Math.min(best.Fall, time(fall));
				best.View = Math.min(best.View, time(view));
			}
			return best;`)
		t.Logf("%s: %.1f ms a frame, %.1f ms one of a drag", engine, ms.Fall, ms.View)
		assert.Less(t, ms.Fall, 1.5*ms.View) // the half is for a coarse clock
	})
}

// At 1280 × 720 in projector mode picture, slider, moments and the numbers of
// the turn stand in one view and can be read from the back row; keys turn the
// tree, and a line of the working comes up beside the picture.
func TestFallAtTheProjector(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := class(t, engine, Options{Width: 1280, Height: 720}, fallQuery+"&projector=on")
		require.NoError(t, p.WaitUntil(wait, `return Boolean(document.querySelector('.fall-picture [data-handle="fall/top"]'))`))
		out := func(css ...string) (out []string) {
			require.NoError(t, p.Script(&out, `
				const foot = document.getElementById("key-line").getBoundingClientRect().top;
				return arguments[0].filter((css) => {
					const r = document.querySelector(css).getBoundingClientRect();
					return r.top < 0 || r.bottom > foot + 1 || r.width === 0;
				});`, css))
			return out
		}
		assert.Empty(t, out(".fall-picture .picture-box", ".fall-slider", ".fall-events", ".fall-mains .main-value", `#view-fall [data-fact="need"]`, `#view-fall [data-fact="haul:pull"]`, `#view-fall [data-fact="hold:hold"]`), "to be scrolled to")
		var small struct{ Text, Numbers []string }
		require.NoError(t, p.Script(&small, `
			const list = (css, least) => [...document.querySelectorAll(css)].filter((e) => e.checkVisibility() && e.textContent.trim() && parseFloat(getComputedStyle(e).fontSize) < least).map((e) => e.className + " " + e.textContent);
			return { Text: list("#view-fall *:not(svg *)", 20), Numbers: list("#view-fall .value, #view-fall .main-value, #view-fall .reveal-result", 32) };`))
		assert.Empty(t, small.Text)
		assert.Empty(t, small.Numbers)

		turned := func(want string) {
			t.Helper()
			assert.NoError(t, p.WaitUntil(wait, `return document.querySelector(".fall-turn-word").textContent === arguments[0]`, want))
		}
		require.NoError(t, p.Run("document.activeElement.blur()"))
		require.NoError(t, p.Press(Right, Right, Left))
		turned("1.0°")
		require.NoError(t, p.PressWith(Shift, Right))
		turned("1.1°")
		require.NoError(t, p.Press("v"))
		require.NoError(t, p.WaitUntil(wait, `return document.querySelector('.fall-speeds [data-rate="0.5"]').getAttribute("aria-pressed") === "true"`))
		require.NoError(t, p.Press("l"))
		require.NoError(t, p.WaitUntil(wait, `
			const last = document.querySelector("#view-fall .reveal-last"), foot = document.getElementById("key-line").getBoundingClientRect().top;
			const r = last?.getBoundingClientRect(), q = document.querySelector(".fall-picture .picture-box").getBoundingClientRect();
			return Boolean(r) && r.top >= 0 && r.bottom <= foot && q.top >= 0 && q.bottom <= foot;`))
		assert.Equal(t, []string{"Pull needed here"}, texts(t, p, "#view-fall .reveal-name"))
	})
}
