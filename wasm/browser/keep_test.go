package browser

import (
	"encoding/json"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func trimmed(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// openText opens a text as if it were a file the person chose, and agrees
// where the page asks, which it does unless it says what is wrong with the file.
func openText(t testing.TB, p *Page, name, text string) {
	t.Helper()
	require.NoError(t, p.Await(nil, until+`
		const chooser = document.getElementById("plan-file");
		const files = new DataTransfer();
		files.items.add(new File([args[1]], args[0], {type: "application/json"}));
		chooser.files = files.files;
		chooser.dispatchEvent(new Event("change", {bubbles: true}));
		const yes = () => document.querySelector("dialog[open] button.main");
		await until(() => yes() || document.getElementById("bars").textContent.includes(args[0]));
		yes()?.click();`, name, text))
	settle(t, p)
}

// saveText gives the text of the file the page saves.
func saveText(t testing.TB, p *Page) (text string) {
	t.Helper()
	require.NoError(t, p.Await(&text, until+`
		const make = URL.createObjectURL, click = HTMLAnchorElement.prototype.click;
		try {
			let made = null;
			URL.createObjectURL = (blob) => { made = blob; return make.call(URL, blob); };
			HTMLAnchorElement.prototype.click = () => {};
			document.getElementById("plan-save").click();
			return await (await until(() => made)).text();
		} finally {
			URL.createObjectURL = make;
			HTMLAnchorElement.prototype.click = click;
		}`))
	return text
}

// A plan goes out to a file and comes back as it was, with what this version
// does not know.
func TestSaveAndOpen(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{})
		var plan map[string]any
		require.NoError(t, json.Unmarshal([]byte(planOf(t, p)), &plan))
		plan["name"] = "Invented plan with more in it"
		plan["later_version"] = map[string]any{"of": []any{"some", 1.5, nil}}
		plan["tree"].(map[string]any)["bark"] = "thick"
		given, err := json.Marshal(plan)
		require.NoError(t, err)

		openText(t, p, "given.json", string(given))
		becomes(t, p, string(given))
		typeInto(t, p, "tree.height_m", "31")
		leave(t, p)
		settle(t, p)
		saved := saveText(t, p)
		plan["tree"].(map[string]any)["height_m"] = 31.0
		want, err := json.Marshal(plan)
		require.NoError(t, err)
		assert.JSONEq(t, string(want), saved, "only what was typed has changed")

		press(t, p, "#undo")
		openText(t, p, "saved.json", saved)
		becomes(t, p, saved)
	})
}

// becomes waits until the plan in work is the one given.
func becomes(t testing.TB, p *Page, want string) {
	t.Helper()
	var plan any
	require.NoError(t, json.Unmarshal([]byte(want), &plan))
	require.Eventually(t, func() bool {
		var now any
		return json.Unmarshal([]byte(planOf(t, p)), &now) == nil && assert.ObjectsAreEqual(plan, now)
	}, wait, 100*time.Millisecond, "the plan in work is %s", want)
}

// What is no plan changes nothing, and the page says so.
func TestOpeningWhatIsNoPlan(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{})
		plan, before := planOf(t, p), read(t, p)
		for name, text := range map[string]string{"words.json": "Dear all,", "list.json": "[1, 2]", "empty.json": "", "nothing.json": "null"} {
			openText(t, p, name, text)
			assert.Equal(t, plan, planOf(t, p), name)
			assert.Equal(t, before, read(t, p), name)
			var said string
			require.NoError(t, p.Script(&said, `return document.getElementById("bars").textContent`))
			assert.Contains(t, said, name)
		}
	})
}

// A change outlives the page, also without a signal.
func TestAChangeIsKept(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, s := fresh(t, engine, Options{})
		require.NoError(t, p.WaitUntil(wait, `return document.getElementById("offline-word").textContent.startsWith("Stored on this device")`))
		typeInto(t, p, "tree.height_m", "33.5")
		settle(t, p)
		before := read(t, p)
		s.Leave()
		require.NoError(t, p.Reload())
		_, err := p.WaitFor("[data-start=done] [data-verdict]", wait)
		require.NoError(t, err)
		settle(t, p)
		assert.Equal(t, 33.5, number(t, p, "tree", "height_m"))
		assert.Equal(t, "33.5", fieldText(t, p, "tree.height_m"))
		assert.Equal(t, before, read(t, p))
		require.NoError(t, s.Return())
	})
}
