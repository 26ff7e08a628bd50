package browser

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// onPhone opens the page 360 pixels wide: as a phone's, or in a frame where
// the engine's windows cannot be so narrow.
func onPhone(t testing.TB, engine string) *Page {
	t.Helper()
	if engine == "chromium" {
		p, _ := fresh(t, engine, Options{Width: 360, Height: 780, Touch: true})
		return p
	}
	s := serve(t, aroundItself(site(t).Site, "phone.html", `<title>Phone</title><iframe title="phone" src="phone.html?framed" style="width: 360px; height: 740px; border: 0"></iframe>`))
	p := open(t, engine, Options{})
	require.NoError(t, p.Go(s.URL()+"phone.html"))
	frame, err := p.WaitFor("iframe", wait)
	require.NoError(t, err)
	require.NoError(t, p.Frame(frame))
	_, err = p.WaitFor("[data-path='tree.height_m'] .measure-open", wait)
	require.NoError(t, err)
	settle(t, p)
	return p
}

// openToMeasure opens the dialog of a field.
func openToMeasure(t testing.TB, p *Page, path, method string) {
	t.Helper()
	require.NoError(t, p.Await(nil, `
		const [path, method] = args;
		document.querySelector("[data-path='" + path + "'] .measure-open").click();
		if (method) {
			const select = document.querySelector("dialog.measure .measure-method select");
			select.value = method;
			select.dispatchEvent(new Event("change"));
		}
		await new Promise((r) => requestAnimationFrame(() => requestAnimationFrame(r)));`, path, method))
}

// readOff types a reading into the dialog.
func readOff(t testing.TB, p *Page, key, text string) {
	t.Helper()
	e, err := p.WaitFor("[data-reading='"+key+"'] :is(input, select)", wait)
	require.NoError(t, err)
	require.NoError(t, p.Run("arguments[0].scrollIntoView({block: 'center', behavior: 'instant'}); arguments[0].focus(); arguments[0].select?.()", e))
	require.NoError(t, e.Clear())
	require.NoError(t, e.Type(text))
}

func shownBy(t testing.TB, p *Page, css string) (text string) {
	t.Helper()
	require.NoError(t, p.Script(&text, "return document.querySelector(arguments[0])?.textContent ?? ''", css))
	return text
}

// A height from two angles: the published 50 ft with +124 % and −16 % (DeYoung,
// Forest Measurements, section 2.3, Example 1) makes 70 ft, and goes into the
// plan with its ± and the readings.
func TestMeasureAHeight(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := onPhone(t, engine)
		openToMeasure(t, p, "tree.height_m", "")
		var width struct{ Dialog, Window, Body, Inside float64 }
		require.NoError(t, p.Script(&width, `const d = document.querySelector("dialog.measure"), b = d.querySelector(".measure-body");
			return {dialog: d.getBoundingClientRect().width, window: innerWidth, body: b.scrollWidth, inside: b.clientWidth};`))
		assert.Equal(t, 360.0, width.Window)
		assert.Equal(t, 360.0, width.Dialog)
		assert.LessOrEqual(t, width.Body, width.Inside, "no sideways scrolling")
		readOff(t, p, "distance", "50 ft")
		readOff(t, p, "top", "far up")
		assert.Contains(t, shownBy(t, p, "[data-reading='top'] .field-problem"), "not a number")
		assert.Equal(t, "", shownBy(t, p, ".measure-result .measure-number"))
		readOff(t, p, "top", "51.11")
		readOff(t, p, "foot", "-9.09")
		assert.NotEmpty(t, shownBy(t, p, ".measure-result .measure-number"))
		assert.Contains(t, shownBy(t, p, ".measure-result .measure-plus"), "±")
		shot(t, p, "readings")
		press(t, p, ".measure-result button")
		settle(t, p)
		assert.Equal(t, "", shownBy(t, p, "dialog.measure"), "the dialog is closed")
		assert.InDelta(t, 70*0.3048, number(t, p, "tree", "height_m"), 0.1)
		assert.Greater(t, number(t, p, "plus_minus", "tree.height_m"), 0.2)
		assert.InDelta(t, 15.24, number(t, p, "readings", "tree.height_m", "values", "distance_m"), 1e-9)
		assert.NotEqual(t, "unknown", verdict(t, p), "kept readings are no problem")

		openToMeasure(t, p, "tree.height_m", "")
		var text string
		require.NoError(t, p.Script(&text, "return document.querySelector(\"[data-reading='top'] input\").value"))
		assert.Equal(t, "51.11", text, "the readings are kept")
		readOff(t, p, "foot", "-12")
		require.NoError(t, p.Press(Escape))
		openToMeasure(t, p, "tree.height_m", "")
		require.NoError(t, p.Script(&text, "return document.querySelector(\"[data-reading='foot'] input\").value"))
		assert.Equal(t, "-12", text, "what was typed and not used is not lost")
		require.NoError(t, p.Frame())
	})
}

// The phone's own angle: refused or not there, typing goes on; else its sights
// are averaged.
func TestMeasureByThePhone(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := onPhone(t, engine)
		ask := func(permission string) {
			require.NoError(t, p.Run(`globalThis.DeviceOrientationEvent ??= class {};
				DeviceOrientationEvent.requestPermission = async () => arguments[0];`, permission))
		}
		ask("denied")
		openToMeasure(t, p, "tree.height_m", "height_angles")
		press(t, p, "[data-reading='top'] .measure-phone-open")
		require.NoError(t, p.WaitUntil(wait, "return document.querySelector('.measure-phone[data-state=denied]') !== null"))
		assert.Contains(t, shownBy(t, p, ".measure-phone[data-state=denied]"), "Type the angle")
		readOff(t, p, "top", "40")
		readOff(t, p, "distance", "30 m")
		readOff(t, p, "foot", "-3")
		assert.NotEmpty(t, shownBy(t, p, ".measure-result .measure-number"), "typing works without the phone's leave")

		ask("granted")
		press(t, p, "[data-reading='foot'] .measure-phone-open")
		require.NoError(t, p.Await(nil, until+`
			const tilt = (beta) => dispatchEvent(Object.assign(new Event("deviceorientation"), { beta, gamma: 0 }));
			const take = () => document.querySelector("[data-reading='foot'] .measure-take");
			await until(() => {
				tilt(-5);
				return take() && !take().disabled;
			});
			for (const beta of [-5, -5.3, -5.6]) {
				tilt(beta);
				take().click();
			}
			await new Promise((r) => requestAnimationFrame(r));`))
		var foot string
		require.NoError(t, p.Script(&foot, "return document.querySelector(\"[data-reading='foot'] input\").value"))
		assert.Equal(t, "-5.3", foot)
		assert.Contains(t, shownBy(t, p, "[data-reading='foot'] .measure-sighted"), "3 sights")
		shot(t, p, "phone")
		readOff(t, p, "foot", "-2")
		assert.Equal(t, "", shownBy(t, p, "[data-reading='foot'] .measure-sighted"), "what is typed counts")
		require.NoError(t, p.Frame())
	})
}

// A picture made here, by the projection of a level camera of 1000 px at a
// height of 1.5 m, 30 m from a tree of 20 m and a pole of 4 m, gives them back.
func TestMeasureFromAPicture(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := onPhone(t, engine)
		openToMeasure(t, p, "tree.height_m", "photo")
		require.NoError(t, p.Await(nil, until+`
			const canvas = Object.assign(document.createElement("canvas"), { width: 1500, height: 2000 });
			const at = (x, z) => [750 + 1000 * x / 30, 1000 - 1000 * (z - 1.5) / 30];
			const pen = canvas.getContext("2d");
			pen.fillStyle = "#bcd6e6"; pen.fillRect(0, 0, 1500, 2000);
			const line = (colour, width, from, to) => {
				Object.assign(pen, { strokeStyle: colour, lineWidth: width });
				pen.beginPath(); pen.moveTo(...from); pen.lineTo(...to); pen.stroke();
			};
			line("#5b3c20", 20, at(0, 0), at(0, 20));
			line("#c00000", 8, at(2, 0), at(2, 4));
			const blob = await new Promise((r) => canvas.toBlob(r, "image/png"));
			const files = new DataTransfer();
			files.items.add(new File([blob], "tree.png", { type: "image/png" }));
			const input = document.querySelector(".photo-file");
			input.files = files.files;
			input.dispatchEvent(new Event("change"));
			const overlay = document.querySelector(".photo-marks");
			await until(() => document.querySelector(".photo-stage:not([hidden]) img[src]"));
			for (let i = 0; i < 2; i++) document.querySelector("[aria-label='Larger picture']").click();
			for (const [x, z] of [[2, 0], [2, 4], [0, 0], [0, 20], [0, 2], [0, 15]]) {
				const box = overlay.getBoundingClientRect(), [px, py] = at(x, z);
				const where = { bubbles: true, pointerId: 1, clientX: box.left + px * box.width / 1500, clientY: box.top + py * box.height / 2000 };
				overlay.dispatchEvent(new PointerEvent("pointerdown", where));
				overlay.dispatchEvent(new PointerEvent("pointerup", where));
				await new Promise((r) => requestAnimationFrame(r));
			}`))
		readOff(t, p, "pole_length", "4 m")
		readOff(t, p, "distance", "30 m")
		require.NoError(t, p.Run("for (let i = 0; i < 2; i++) document.querySelector(\"[aria-label='Smaller picture']\").click(); document.querySelector('.photo-chips').scrollIntoView()"))
		shot(t, p, "picture")
		press(t, p, "button[data-use=height]")
		settle(t, p)
		assert.InDelta(t, 20, number(t, p, "tree", "height_m"), 0.25, "marks to a pixel of the screen, two of the enlarged picture")
		assert.Greater(t, number(t, p, "plus_minus", "tree.height_m"), 0.5)
		assert.Equal(t, 1500.0, number(t, p, "readings", "tree.height_m", "values", "picture_width_px"))
		assert.NotContains(t, planOf(t, p), "image", "the picture is not in the plan")

		// Arrow keys move a mark.
		before := number(t, p, "readings", "tree.height_m", "values", "top_y_px")
		require.NoError(t, p.Run("document.querySelector('.photo-mark[data-mark=top]').focus()"))
		require.NoError(t, p.Press(Up, Up))
		press(t, p, "button[data-use=height]")
		settle(t, p)
		assert.InDelta(t, before-8, number(t, p, "readings", "tree.height_m", "values", "top_y_px"), 1e-6)

		// Opened again the marks are there without the picture, and when the
		// page is loaded again as well.
		for _, how := range []string{"again", "after a reload"} {
			require.NoError(t, p.Press(Escape))
			if how != "again" {
				require.NoError(t, p.Run("location.reload()"))
				require.NoError(t, p.WaitUntil(wait, "return document.querySelector(\"[data-path='tree.height_m'] .measure-open\") !== null && !document.querySelector('dialog')"))
				settle(t, p)
			}
			openToMeasure(t, p, "tree.height_m", "")
			var placed int
			require.NoError(t, p.Script(&placed, "return document.querySelectorAll('.photo-mark').length"))
			assert.Equal(t, 6, placed, how)
			assert.NotEmpty(t, shownBy(t, p, ".measure-result .measure-number"), how)
		}
		require.NoError(t, p.Frame())
		if engine == "chromium" {
			lines, err := p.Complaints()
			require.NoError(t, err)
			assert.Empty(t, lines)
		}
	})
}
