package browser

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A tackle is reeved by keyboard, one place after another: no number until it
// is whole, the focus stays at hand, and the address brings it back.
func TestTackleReevedByKeyboard(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := class(t, engine, Options{}, "?view=bench&bench=tackle&units=kN&words=nz")
		for _, do := range []string{"reeve-anew", "reeve-to-load", "reeve-to-anchor", "reeve-to-load", "reeve-to-haul"} {
			require.NoError(t, p.Run(`document.querySelector('#view-bench [data-do="'+arguments[0]+'"]').focus()`, do))
			require.NoError(t, p.Press(Enter))
			var near bool
			require.NoError(t, p.Script(&near, `return Boolean(document.activeElement.closest("#view-bench .actions"))`))
			assert.True(t, near, "focus after %s", do)
			if b := benchOn(t, p); do != "reeve-to-haul" {
				assert.Equal(t, "Not known", b.Main, do)
				assert.Equal(t, "unknown", b.State, do)
			}
		}
		b := benchOn(t, p)
		assert.Equal(t, "load-anchor-load-haul", b.Values["reeving"])
		assert.Equal(t, benchFact(t, "tackle", map[string]string{"tackle": "own", "reeving": "load-anchor-load-haul"}), b.Main)
		require.NoError(t, p.Reload())
		_, err := p.WaitFor("[data-start=done] [data-verdict]", wait)
		require.NoError(t, err)
		assert.Equal(t, b.Main, benchOn(t, p).Main)

		x, y := handleAt(t, p, "bench/haul")
		require.NoError(t, p.Drag("mouse", x, y, x-40, y, 4))
		assert.NotEqual(t, b.Values["hauled_m"], benchOn(t, p).Values["hauled_m"])
	})
}

// spotAt is the middle of a place of the picture that can be pressed, in the
// viewport.
func spotAt(t testing.TB, p *Page, do string) (x, y float64) {
	t.Helper()
	var at [2]float64
	require.NoError(t, p.Script(&at, `
		const spot = document.querySelector('#view-bench [data-spot="' + arguments[0] + '"]');
		spot.closest("figure").scrollIntoView({ block: "start", behavior: "instant" });
		const r = spot.querySelector("circle").getBoundingClientRect();
		return [r.x + r.width / 2, r.y + r.height / 2];`, do))
	return at[0], at[1]
}

// A tackle is reeved by pressing the places in its picture, by mouse and by
// touch, the same as with the buttons beside it.
func TestTackleReevedInThePicture(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		o, pointer := Options{}, "mouse"
		if engine == "chromium" {
			o, pointer = Options{Width: 360, Height: 780, Touch: true}, "touch"
		}
		p := class(t, engine, o, "?view=bench&bench=tackle&units=kN&words=nz&values=tackle:own")
		for _, place := range []string{"load", "anchor", "load", "haul"} {
			var same bool
			require.NoError(t, p.Script(&same, `
				return [...document.querySelectorAll("#view-bench .spot")].every((s) => s.querySelector("title").textContent ===
					document.querySelector('#view-bench [data-do="' + s.dataset.spot + '"]').textContent);`))
			assert.True(t, same, "the places say what the buttons say")
			x, y := spotAt(t, p, "reeve-to-"+place)
			require.NoError(t, p.Drag(pointer, x, y, x, y, 1))
			settle(t, p)
		}
		b := benchOn(t, p)
		assert.Equal(t, "load-anchor-load-haul", b.Values["reeving"])
		assert.Equal(t, benchFact(t, "tackle", map[string]string{"tackle": "own", "reeving": "load-anchor-load-haul"}), b.Main)
		var left int
		require.NoError(t, p.Script(&left, `return document.querySelectorAll("#view-bench .spot").length`))
		assert.Zero(t, left)
	})
}

// On a phone, and on a screen, no text of a large tackle's picture is small, covers another or
// is cut, and the tensions of all parts stand below it.
func TestLargeTacklesCanBeRead(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		o := Options{} // WebKit's window is no narrower
		if engine == "chromium" {
			o = Options{Width: 360, Height: 780, Touch: true}
		}
		p := class(t, engine, o, "?view=bench&bench=tackle&units=kN&words=nz")
		for _, tackle := range []string{"compound-2-2-2-2", "complex-15-third-order", "compound-4-fixed-3"} {
			inPage(t, p, nil, `(await module("place")).move({ view: "bench", bench: "tackle", values: "tackle:" + args[0] });`, tackle)
			settle(t, p)
			var got struct {
				Bad   []string
				Parts int
			}
			require.NoError(t, p.Script(&got, `
				const picture = document.querySelector("#view-bench .bench-picture svg"), edge = picture.getBoundingClientRect(), scale = picture.getScreenCTM().a;
				const texts = [...picture.querySelectorAll(".shapes text")].filter((n) => n.textContent).map((n) => ({ n, r: n.getBoundingClientRect() }));
				const bad = [];
				texts.forEach(({ n, r }, i) => {
					if (parseFloat(getComputedStyle(n).fontSize) * scale < 11) bad.push("small: " + n.textContent);
					if (r.left < edge.left || r.right > edge.right || r.top < edge.top - 2 || r.bottom > edge.bottom + 2) bad.push("cut: " + n.textContent);
					for (const m of texts.slice(i + 1)) {
						// A line's box is higher than its letters.
						if (Math.min(r.right, m.r.right) - Math.max(r.left, m.r.left) > 1 && Math.min(r.bottom, m.r.bottom) - Math.max(r.top, m.r.top) > r.height / 3) bad.push(n.textContent + " on " + m.n.textContent);
					}
				});
				return { Bad: bad, Parts: document.querySelectorAll("#view-bench .bench-parts .fact").length };`))
			assert.Empty(t, got.Bad, tackle)
			assert.GreaterOrEqual(t, got.Parts, 8, tackle)
			shot(t, p, tackle)
		}
	})
}

// Values as a bench starts are round in any units; one that was typed is
// converted, shown short, and the same again when the units are changed back.
func TestBenchUnitsAreChanged(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := class(t, engine, Options{}, "?view=bench&bench=redirect&units=kN&words=nz")
		units := func(key string) benchShown {
			t.Helper()
			inPage(t, p, nil, `(await module("settings")).choose("units", args[0]);`, key)
			return benchOn(t, p)
		}
		b := units("us")
		assert.Equal(t, "2200", b.Values["tension_kN"])
		assert.NotContains(t, b.Query, "values")
		assert.Equal(t, "1", units("tf").Values["tension_kN"])
		assert.Equal(t, "10", units("kN").Values["tension_kN"])

		require.NoError(t, p.Run(`const box = document.querySelector("#view-bench .field[data-path=tension_kN] input"); box.focus(); box.select()`))
		require.NoError(t, p.Press("1", "2", ".", "5"))
		require.NoError(t, p.Run(`document.activeElement.blur()`))
		benchOn(t, p) // before anything else is chosen
		b = units("us")
		assert.Equal(t, "2820", b.Values["tension_kN"])
		assert.Contains(t, b.Query, "tension_kN:12.5")
		assert.Equal(t, "12.5", units("kN").Values["tension_kN"])
	})
}
