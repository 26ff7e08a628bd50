package browser

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// gear runs a script about the gear list, with words for what a person does:
// type into a field, choose a file, and save one.
func gear(t testing.TB, p *Page, value any, script string, args ...any) {
	t.Helper()
	inPage(t, p, value, `
		const part = (path) => document.querySelector('dialog [data-path="' + path + '"]');
		const type = async (path, text) => {
			const input = (await until(() => part(path))).querySelector("input, select, textarea");
			if (input.type === "checkbox") input.checked = text === "true";
			else input.value = text;
			input.dispatchEvent(new Event(input.tagName === "SELECT" || input.type === "checkbox" ? "change" : "input", {bubbles: true}));
		};
		const openGear = async () => {
			document.getElementById("menu-button").click();
			await click("#gear-list");
			await until(() => document.querySelector("dialog.inventory"));
		};
		const close = async () => {
			await click("dialog.inventory .dialog-close");
			await gone();
		};
		const saved = async (button) => { // the text of what the page hands to the browser's downloads
			const make = URL.createObjectURL;
			let file;
			URL.createObjectURL = (blob) => make.call(URL, file = blob);
			await click(button);
			URL.createObjectURL = make;
			return {name: file.name, text: await file.text()};
		};
		const choose = async (text) => {
			const files = new DataTransfer();
			files.items.add(new File([text], "gear.csv"));
			const chooser = document.querySelector("dialog.inventory input[type=file]");
			chooser.files = files.files;
			chooser.dispatchEvent(new Event("change"));
			await until(() => visible(".gear-message"));
		};
		const rows = () => [...document.querySelectorAll(".gear-row")].map((r) => r.dataset.fit + ": " + r.querySelector(".gear-title").textContent);
		`+script, args...)
}

// A piece is added, picked into the plan, retired and picked again: the plan
// is unknown and names it, until somebody says why it may be used.
func TestGearListIntoAPlan(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := plansSite(t, engine)
		require.Equal(t, "within", verdict(t, p))
		gear(t, p, nil, `
			await openGear();
			await click("[data-do=add]");
			await type("pieces[0].id", "red strop");
			await type("pieces[0].kind", "sling");
			await type("pieces[0].wll_kN", "60");
			await click("[data-do=pick]");
			await until(() => document.querySelector(".gear-message").textContent.includes("is in the plan"));`)
		assert.Equal(t, "within", verdict(t, p))
		assert.Contains(t, planNow(t, p), `"red strop"`)
		shot(t, p, "gear-piece")

		gear(t, p, nil, `
			await click("[data-do=retire]");
			await until(() => visible(".gear-state").textContent.startsWith("Retired"));
			await click("[data-do=pick]");
			await close();`)
		require.NoError(t, p.WaitUntil(wait, `return document.querySelector("[data-verdict]").dataset.verdict === "unknown"`))
		var sentence string
		gear(t, p, &sentence, `return document.getElementById("verdict-sentence").textContent;`)
		assert.Contains(t, sentence, "red strop")
		assert.Contains(t, sentence, "retired")

		var cautions string
		gear(t, p, &cautions, `
			const { state, edit } = await module("state");
			const i = state.plan.gear.findIndex((g) => g.retired);
			edit("gear[" + i + "].cleared", "judged sound by the inspector today");
			await until(() => document.querySelector("[data-verdict]").dataset.verdict === "within");
			return (await until(() => document.getElementById("caution-list").textContent.includes("judged sound") && document.getElementById("caution-list"))).textContent;`)
		assert.Contains(t, cautions, "red strop")

		// The list is there after a reload, and stands as it was left.
		require.NoError(t, p.Reload())
		_, err := p.WaitFor("[data-start=done] [data-verdict]", wait)
		require.NoError(t, err)
		var kept []string
		gear(t, p, &kept, `await openGear(); return rows();`)
		assert.Equal(t, []string{"retired: Red strop"}, kept)
		shot(t, p, "gear-list")
		quiet(t, p)
	})
}

// The list goes out as a table and comes back; a row that is wrong comes back
// to be mended.
func TestGearListAsATable(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := plansSite(t, engine)
		var got struct {
			Before, After []string
			Table, Again  struct{ Name, Text string }
			Rest, Said    string
			Mended        []string
		}
		gear(t, p, &got, `
			const out = {};
			await openGear();
			await choose("id;kind;wll_t;next_inspection;notes\nA;shackle;4,75;2199-01-01;'=1+1\nB;sling;four;;\n");
			out.said = document.querySelector(".gear-message").textContent;
			out.rest = visible(".gear-mend textarea").value;
			visible(".gear-mend textarea").value = out.rest.replace("four", "4");
			await click("[data-do=again]");
			await until(() => rows().length === 2);
			out.mended = rows();
			document.querySelector(".gear-files").open = true;
			out.table = await saved("[data-do=save-table]");
			out.before = rows();
			for (let i = 0; i < 2; i++) {
				await click(".gear-open");
				await click("[data-do=delete]");
				await click("dialog:not(.inventory) button.main");
				await until(() => visible(".gear-list") || visible("[data-do=add]"));
			}
			await until(() => rows().length === 0);
			await choose(out.table.text);
			await until(() => rows().length === 2);
			out.after = rows();
			out.again = await saved("[data-do=save-table]");
			return out;`)
		assert.Contains(t, got.Said, "1 row is not taken")
		assert.Equal(t, "id;kind;wll_t;next_inspection;notes\nB;sling;four;;", got.Rest, "a text box ends its lines so")
		assert.Equal(t, []string{"in_date: A", "undated: B"}, got.Mended)
		assert.Equal(t, "gear-list.csv", got.Table.Name)
		assert.Contains(t, got.Table.Text, "A,shackle,,4.75,")
		assert.Contains(t, got.Table.Text, "'=1+1")
		assert.Equal(t, got.Before, got.After)
		assert.Equal(t, got.Table, got.Again)
		quiet(t, p)
	})
}

// A worksheet comes to no outcome before every question is answered, and
// retires the piece where a published limit is reached.
func TestGearListWorksheet(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := plansSite(t, engine)
		var got struct{ First, Then, State string }
		gear(t, p, &got, `
			const out = {};
			await openGear();
			await click("[data-do=add]");
			await type("pieces[0].kind", "sling");
			await type("pieces[0].wll_kN", "20");
			await click("[data-do=sheet]");
			out.first = (await until(() => visible(".gear-outcome"))).dataset.outcome + " " + visible("[data-do=record]").disabled;
			await type("answers.made_of", "wire_rope");
			await type("answers.breaks_in_a_lay", "10");
			await until(() => document.querySelector(".gear-outcome").dataset.outcome === "retire");
			out.then = document.querySelector(".gear-result").textContent;
			await click("[data-do=record-retire]");
			out.state = (await until(() => visible(".gear-state"))).textContent;
			return out;`)
		assert.Equal(t, "open true", got.First)
		assert.Contains(t, got.Then, "10 broken wires in one lay")
		assert.Contains(t, got.Then, "WAC 296-24-29425")
		assert.Contains(t, got.State, "Retired")
		quiet(t, p)
	})
}
