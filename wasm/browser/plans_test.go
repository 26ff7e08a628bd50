package browser

import (
	"bytes"
	"compress/flate"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"hash/crc32"
	"maps"
	"math/rand/v2"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/wasm/site/build"
)

// until is the part of a script that waits until a test gives something, as
// long as a busy machine may take for it.
const until = `
	const until = async (test) => {
		for (const end = performance.now() + 30000; performance.now() < end; await new Promise((r) => setTimeout(r, 10))) {
			const found = await test();
			if (found) return found;
		}
		throw new Error("never came: " + test);
	};`

// inPage runs a script that may use the page's own modules: module(name)
// gives one of them, until(test) waits, and click(css) presses what is there
// or comes.
func inPage(t testing.TB, p *Page, value any, script string, args ...any) {
	t.Helper()
	require.NoError(t, p.Await(value, ownModules+`
		`+until+`
		const visible = (css) => [...document.querySelectorAll(css)].find((e) => e.checkVisibility());
		const click = async (css) => (await until(() => visible(css))).click();
		const gone = () => until(() => !document.querySelector("dialog"));
		`+script, args...))
}

// plansSite serves the site and opens it in a new window without a plan.
func plansSite(t testing.TB, engine string) (*Page, *Server) {
	t.Helper()
	s := serve(t, site(t).Site.Handler())
	p := open(t, engine, Options{})
	visit(t, p, s.URL())
	return p, s
}

// write changes a field of the plan in work the way the form does.
func write(t testing.TB, p *Page, path, text string) {
	t.Helper()
	inPage(t, p, nil, `(await module("state")).edit(args[0], args[1]);`, path, text)
}

// names gives the names on a shelf of the list of plans.
func names(t testing.TB, p *Page) (list []string) {
	t.Helper()
	inPage(t, p, &list, `
		await until(() => document.querySelector(".shelves button[aria-pressed=true]"));
		return [...document.querySelectorAll(".plan-row .plan-title")].map((e) => e.textContent);`)
	return list
}

func planNow(t testing.TB, p *Page) (text string) {
	t.Helper()
	inPage(t, p, &text, `return JSON.stringify((await module("state")).state.plan);`)
	return text
}

func quiet(t testing.TB, p *Page) {
	t.Helper()
	if p.Engine != "chromium" {
		return
	}
	lines, err := p.Complaints()
	require.NoError(t, err)
	assert.Empty(t, lines)
}

func TestPlansAreKept(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, s := plansSite(t, engine)
		write(t, p, "name", "Alpha (invented)")
		inPage(t, p, nil, `await click("#menu-button"); await click("#plan-new"); await until(async () => !(await module("state")).state.plan.name);`)
		write(t, p, "name", "Beta (invented)")
		write(t, p, "notes", "by the weir")

		inPage(t, p, nil, `await click("#menu-button"); await click("#plan-list"); await until(() => document.querySelectorAll(".plan-row").length === 2);`)
		assert.Equal(t, []string{"Beta (invented)", "Alpha (invented)"}, names(t, p), "the last changed first")
		var words struct{ Alpha, Beta, Engine string }
		inPage(t, p, &words, `
			const word = (name) => [...document.querySelectorAll(".plan-row")].find((r) => r.textContent.includes(name)).querySelector(".plan-verdict").textContent;
			await until(() => !word("Alpha").includes("Not calculated") && !word("Beta").includes("Not calculated"));
			const { look } = await module("state");
			const { listPlans } = await module("plans");
			const alpha = (await listPlans()).find((r) => r.plan.name.startsWith("Alpha"));
			return { alpha: word("Alpha"), beta: word("Beta"), engine: look(alpha.plan).headline.word };`)
		assert.Equal(t, words.Engine, words.Alpha, "the verdict is in the calculator's words")
		assert.NotEqual(t, words.Alpha, words.Beta, "a plan with nothing in it is not judged")

		search := func(text string) []string {
			inPage(t, p, nil, `const box = document.querySelector(".list-top input"); box.value = args[0]; box.dispatchEvent(new Event("input"));`, text)
			return names(t, p)
		}
		assert.Equal(t, []string{"Alpha (invented)"}, search("radiata"), "by species")
		assert.Equal(t, []string{"Beta (invented)"}, search("WEIR"), "by notes")
		assert.Empty(t, search("nowhere"))
		search("")

		act := func(name, what string) {
			inPage(t, p, nil, `
				const row = [...document.querySelectorAll(".plan-row")].find((r) => r.querySelector(".plan-title").textContent === args[0]);
				const before = document.querySelector(".shelves").textContent;
				row.querySelector("[data-act=" + args[1] + "]").click();
				await until(() => document.querySelector(".shelves").textContent !== before);`, name, what)
		}
		shelf := func(id string) []string {
			inPage(t, p, nil, `await click("[data-shelf=" + args[0] + "]");`, id)
			return names(t, p)
		}
		act("Alpha (invented)", "duplicate")
		assert.ElementsMatch(t, []string{"Alpha (invented)", "Alpha (invented) (copy)", "Beta (invented)"}, names(t, p))
		act("Alpha (invented) (copy)", "delete")
		assert.Equal(t, []string{"Alpha (invented) (copy)"}, shelf("bin"))
		act("Alpha (invented) (copy)", "restore")
		assert.Len(t, shelf("plans"), 3)
		act("Alpha (invented)", "archive")
		assert.Equal(t, []string{"Alpha (invented)"}, shelf("archive"))
		act("Alpha (invented)", "unarchive")
		shelf("plans")
		act("Alpha (invented) (copy)", "delete")
		shelf("bin")
		inPage(t, p, nil, `
			[...document.querySelectorAll("dialog button")].find((b) => b.textContent === "Empty the bin").click();
			await until(() => document.querySelectorAll("dialog").length === 2);
			[...document.querySelectorAll("dialog")].at(-1).querySelector("button.main").click();
			await until(() => !document.querySelector(".plan-row"));`)
		shelf("plans")

		// Rename another plan than the one in work, then open it; its undo
		// steps are its own.
		inPage(t, p, nil, `
			[...document.querySelectorAll(".plan-row")].find((r) => r.textContent.includes("Alpha")).querySelector("[data-act=rename]").click();
			const box = await until(() => [...document.querySelectorAll("dialog")].at(-1).querySelector("input[maxlength]"));
			box.value = "Gamma (invented)";
			[...document.querySelectorAll("dialog")].at(-1).querySelector("button.main").click();
			await until(() => document.querySelector(".plan-list").textContent.includes("Gamma"));
			[...document.querySelectorAll(".plan-row")].find((r) => r.textContent.includes("Gamma")).querySelector(".plan-pick").click();
			await gone();`)
		assert.Contains(t, planNow(t, p), "Gamma (invented)")
		quiet(t, p)
		visit(t, p, s.URL())
		assert.Contains(t, planNow(t, p), "Gamma (invented)", "the plan in work comes back")
		shot(t, p, "back")
	})
}

// Undo goes back in the plan in sight, not in the one before.
func TestUndoIsPerPlan(t *testing.T) {
	p, _ := plansSite(t, "chromium")
	write(t, p, "name", "One (invented)")
	var got struct{ Fresh, Back bool }
	inPage(t, p, &got, `
		const state = await module("state"), plans = await module("plans");
		await plans.save();
		const one = plans.workId();
		await plans.startPlan({ version: 1, name: "Two (invented)" }, "own");
		const fresh = state.canUndo();
		await plans.openRecord(one);
		const back = state.canUndo();
		return { fresh, back };`)
	assert.False(t, got.Fresh)
	assert.True(t, got.Back)
}

// A page that is killed right after a change, without a word to it, has lost
// nothing.
func TestChangeSurvivesAKilledPage(t *testing.T) {
	t.Run("chromium", func(t *testing.T) {
		profile := t.TempDir()
		s := serve(t, site(t).Site.Handler())
		p := open(t, "chromium", Options{Profile: profile})
		visit(t, p, s.URL())
		write(t, p, "name", "First (invented)")
		inPage(t, p, nil, `await (await module("plans")).save();`)
		write(t, p, "notes", "the last word before the end")
		p.DevTools("Page.crash", nil, nil) // it cannot answer any more
		p.Close()

		p = open(t, "chromium", Options{Profile: profile})
		visit(t, p, s.URL())
		assert.Contains(t, planNow(t, p), "the last word before the end")
		assert.Contains(t, planNow(t, p), "First (invented)")
		var records int
		inPage(t, p, &records, `return (await (await module("plans")).listPlans()).length;`)
		assert.Equal(t, 1, records, "the same plan, not a copy")
	})
	t.Run("webkit", func(t *testing.T) { // its window cannot be killed; the page hears nothing of its end
		p, s := plansSite(t, "webkit")
		inPage(t, p, nil, `
			for (const name of ["pagehide", "visibilitychange", "unload", "beforeunload"]) {
				addEventListener(name, (event) => event.stopImmediatePropagation(), true);
			}
			const state = await module("state");
			globalThis.setTimeout = () => 0; // and comes to nothing that it had put off
			state.edit("name", "First (invented)");
			state.edit("notes", "the last word before the end");
			location.href = "manifest.webmanifest";`)
		require.NoError(t, p.WaitUntil(wait, `return location.pathname.endsWith("manifest.webmanifest")`))
		visit(t, p, s.URL())
		assert.Contains(t, planNow(t, p), "the last word before the end")
	})
}

// What a version with a single plan kept becomes the first of the plans.
func TestPlanOfAnEarlierVersion(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		s := serve(t, site(t).Site.Handler())
		p := open(t, engine, Options{})
		require.NoError(t, p.Go(s.URL()+"manifest.webmanifest"))
		require.NoError(t, p.Run(`localStorage.setItem("pullline.plan", JSON.stringify({plan: {version: 1, name: "From before (invented)"}, origin: "own"}))`))
		for range 2 {
			visit(t, p, s.URL())
			assert.Contains(t, planNow(t, p), "From before (invented)")
			var records int
			inPage(t, p, &records, `return (await (await module("plans")).listPlans()).length;`)
			assert.Equal(t, 1, records)
		}
	})
}

// Two windows change the same plan: both are kept, and it is said.
func TestTwoWindows(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		files := build.Files{"hand.js": []byte(ownModules + `globalThis.module = module;`)}
		maps.Copy(files, site(t).Site)
		s := serve(t, aroundItself(files, "two.html", `<title>Two</title><body>`))
		p := open(t, engine, Options{})
		visit(t, p, s.URL())
		write(t, p, "name", "Shared (invented)")
		inPage(t, p, nil, `await (await module("plans")).save();`)
		require.NoError(t, p.Go(s.URL()+"two.html"))
		var got struct {
			Newer, Forked string
			Names         []string
		}
		inPage(t, p, &got, `
			const inWindow = async () => {
				const frame = document.createElement("iframe");
				frame.style = "width: 500px; height: 700px";
				frame.src = "two.html?framed";
				document.body.append(frame);
				await until(() => frame.contentDocument?.querySelector("[data-start=done] [data-verdict]"));
				const script = frame.contentDocument.createElement("script");
				script.type = "module";
				script.src = "hand.js"; // the policy allows the site's own files
				frame.contentDocument.body.append(script);
				await until(() => frame.contentWindow.module);
				frame.edit = (await frame.contentWindow.module("state")).edit;
				return frame;
			};
			const a = await inWindow(), b = await inWindow();
			const bar = (frame) => frame.contentDocument.querySelector("[data-bar=fork] p")?.textContent;
			a.edit("notes", "changed in a");
			const newer = await until(() => bar(b));
			b.edit("notes", "changed in b");
			const forked = await until(() => bar(b) !== newer && bar(b));
			const { readAll } = await a.contentWindow.module("storage");
			const names = (await readAll("plans")).map((r) => r.plan.name + ": " + r.plan.notes).sort();
			return { newer, forked, names };`)
		assert.Contains(t, got.Newer, "changed in another window")
		assert.Contains(t, got.Forked, "Both are kept")
		assert.Equal(t, []string{"Shared (invented) (copy): changed in b", "Shared (invented): changed in a"}, got.Names)
	})
}

// All plans go into one file and come back: new, the same, different.
func TestBackupRoundTrip(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := plansSite(t, engine)
		var text string
		inPage(t, p, &text, `
			const plans = await module("plans"), backup = await module("backup");
			await (await module("inventory")).addPieces([{ id: "sling 1", kind: "sling", wll_t: 2 }]);
			for (const name of ["One", "Two", "Three"]) await plans.addPlan({ version: 1, name: name + " (invented)", notes: "as sent" });
			return await backup.backupText();`)
		var file struct {
			Kind    string
			Version int
			Plans   []struct{ Plan map[string]any }
			Gear    []any
		}
		require.NoError(t, json.Unmarshal([]byte(text), &file))
		assert.Equal(t, "pull-line plans", file.Kind)
		assert.Equal(t, 1, file.Version)
		assert.Len(t, file.Plans, 3)
		assert.Len(t, file.Gear, 1)

		p, _ = plansSite(t, engine)
		add := `
			const plans = await module("plans"), opening = await module("opening");
			const list = async () => (await plans.listPlans()).filter((r) => r.revision && !r.binned).map((r) => r.plan.name + ": " + r.plan.notes).sort();
			const done = opening.openFile(new File([args[0]], "all.json"));
			const words = (await until(() => document.querySelector("dialog .dialog-body p + p"))).textContent;`
		var got struct {
			Words string
			Names []string
		}
		inPage(t, p, &got, add+`await click("dialog button.main"); await done; return { words, names: await list() };`, text)
		assert.Contains(t, got.Words, "3 new, 0 already here, 0 different")
		assert.Len(t, got.Names, 3)
		for range 2 { // the second time it is here already
			var gear int
			inPage(t, p, &gear, `
				const { gearPieces, addPieces } = await module("inventory");
				await addPieces(JSON.parse(args[0]).gear);
				return (await gearPieces()).length;`, text)
			assert.Equal(t, 1, gear)
		}

		inPage(t, p, &got, `
			{
				const plans = await module("plans"), state = await module("state");
				const one = (await plans.listPlans()).find((r) => r.plan.name === "One (invented)");
				await plans.openRecord(one.id);
				state.edit("notes", "changed here");
				const two = (await plans.listPlans()).find((r) => r.plan.name === "Two (invented)");
				await plans.openRecord(two.id);
				state.edit("notes", "changed here");
				await plans.save();
			}`+add+`
			const boxes = [...document.querySelectorAll("dialog .merge input")];
			const row = boxes.find((b) => b.closest("li").textContent.includes("Two"));
			row.click();
			await click("dialog button.main");
			await done;
			return { words, names: await list() };`, text)
		assert.Contains(t, got.Words, "0 new, 1 already here, 2 different")
		assert.Equal(t, []string{"One (invented) (copy): as sent", "One (invented): changed here", "Three (invented): as sent", "Two (invented): as sent"}, got.Names)
		assert.Contains(t, planNow(t, p), "as sent", "the plan in work is the one that took its place")
		quiet(t, p)
	})
}

// bigPlan is a plan of about so many bytes that packs badly.
func bigPlan(bytes int) string {
	r := rand.New(rand.NewPCG(1, 2))
	notes := make([]byte, bytes)
	for i := range notes {
		notes[i] = "abcdefghijklmnopqrstuvwxyz ABCDEFGHIJKLMNOPQRSTUVWXYZ 0123456789."[r.IntN(64)]
	}
	text, err := json.Marshal(map[string]any{"version": 1, "name": "Long (invented) – ½ · 木", "notes": string(notes)})
	if err != nil {
		panic(err) // plain texts have a JSON form
	}
	return string(text)
}

func TestLinkRoundTrip(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, s := plansSite(t, engine)
		for name, plan := range map[string]string{"example": string(site(t).Site["demo.json"]), "60 kB": bigPlan(60000)} {
			for _, packed := range []bool{true, false} {
				var link string
				inPage(t, p, &link, `
					const share = await module("share");
					const had = globalThis.CompressionStream;
					if (!args[1]) delete globalThis.CompressionStream;
					const code = await share.planCode(JSON.parse(args[0]));
					globalThis.CompressionStream = had;
					return share.linkFor(code);`, plan, packed)
				require.True(t, strings.HasPrefix(link, s.URL()+"#plan=2"), name)
				before := planNow(t, p)
				require.NoError(t, p.Go("about:blank"))
				visit(t, p, link)
				inPage(t, p, nil, `await until(() => document.querySelector("dialog .look"));`)
				assert.Equal(t, before, planNow(t, p), "nothing changes before the answer")
				shot(t, p, "asked "+name)
				inPage(t, p, nil, `
					await click("dialog button.main");
					await gone();
					const { state } = await module("state");
					await until(() => state.plan.name === JSON.parse(args[0]).name);`, plan)
				assert.JSONEq(t, plan, planNow(t, p), name)
				var hash string
				require.NoError(t, p.Script(&hash, "return location.hash"))
				assert.Empty(t, hash)
			}
		}
		quiet(t, p)
	})
}

// The single file opens links to itself.
func TestLinkToTheSingleFile(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := open(t, engine, Options{})
		visit(t, p, singleFile(t)+"#plan="+codeOf("d", []byte(`{"version":1,"name":"Linked (invented)"}`)))
		require.NoError(t, p.WaitUntil(wait, `return Boolean(document.querySelector("dialog .look"))`))
		require.NoError(t, p.Run(`document.querySelector("dialog button.main").click()`))
		require.NoError(t, p.WaitUntil(wait, `return document.getElementById("plan-name").textContent === "Linked (invented)"`))
	})
}

// codeOf makes a code in another way than the page does.
func codeOf(kind string, text []byte) string {
	packed := text
	if kind == "d" {
		var b bytes.Buffer
		w, _ := flate.NewWriter(&b, flate.BestCompression) // the level is valid
		w.Write(text)                                      // a bytes.Buffer takes everything
		w.Close()
		packed = b.Bytes()
	}
	return fmt.Sprintf("1%s%08x%s", kind, crc32.ChecksumIEEE(text), base64.RawURLEncoding.EncodeToString(packed))
}

// What is no plan changes nothing, is answered with a sentence, and stops
// nothing.
func TestHostileLinksAndTexts(t *testing.T) {
	good := codeOf("d", []byte(`{"version":1,"name":"Good (invented)"}`))
	deep := strings.Repeat(`{"a":`, 20000) + "1" + strings.Repeat("}", 20000)
	table := map[string]string{
		"nothing":            "",
		"not base64":         good[:10] + "!!!!",
		"percent":            "%E0%A4%A",
		"cut off":            good[:len(good)-4],
		"one letter changed": good[:len(good)-2] + "xx",
		"wrong check sum":    good[:2] + "00000000" + good[10:],
		"later code":         "3" + good[1:],
		"unknown packing":    "1z" + good[2:],
		"later plan":         codeOf("d", []byte(`{"version":2,"name":"Later"}`)),
		"not JSON":           codeOf("d", []byte(`version: 1`)),
		"not UTF-8":          codeOf("j", []byte{'{', 0xff, 0xfe, '}'}),
		"list":               codeOf("d", []byte(`[1]`)),
		"number":             codeOf("j", []byte(`7`)),
		"null":               codeOf("d", []byte(`null`)),
		"text":               codeOf("d", []byte(`"plan"`)),
		"prototype":          codeOf("d", []byte(`{"version":1,"__proto__":{"verdict":"within"}}`)),
		"constructor":        codeOf("d", []byte(`{"version":1,"tree":{"constructor":{"prototype":{"a":1}}}}`)),
		"deep":               codeOf("d", []byte(deep)),
		"many values":        codeOf("d", []byte(`{"version":1,"points":[`+strings.Repeat("0,", 100000)+`0]}`)),
		"bomb":               codeOf("d", make([]byte, 100<<20)),
		"long":               "1j00000000" + strings.Repeat("A", 1<<20),
	}
	each(t, func(t *testing.T, engine string) {
		p, _ := plansSite(t, engine)
		write(t, p, "name", "Mine (invented)")
		inPage(t, p, nil, `await (await module("plans")).save();`)
		before := planNow(t, p)
		for name, code := range table {
			var got struct {
				Said   string
				Dialog bool
				Plans  int
			}
			inPage(t, p, &got, `
				document.querySelector("[data-bar=file]")?.remove();
				location.hash = "#plan=" + args[0];
				const bar = await until(() => document.querySelector("[data-bar=file] p"));
				const { listPlans } = await module("plans");
				return { said: bar.textContent, dialog: Boolean(document.querySelector("dialog")), plans: (await listPlans()).length };`, code)
			assert.Contains(t, got.Said, "Nothing was changed.", name)
			assert.False(t, got.Dialog, name)
			assert.Equal(t, 1, got.Plans, name)
			assert.Equal(t, before, planNow(t, p), name)
			t.Logf("%s: %s", name, got.Said)
		}
		for name, text := range map[string]string{
			"not JSON": "<html>", "empty": " ", "deep": deep, "list": "[]", "deep list": strings.Repeat("[", 1<<20),
			"prototype": `{"version":1,"__proto__":{}}`, "big": `{"version":1,"notes":"` + strings.Repeat("x", 300000) + `"}`,
			"backup of nothing known": `{"kind":"pull-line plans"}`, "later backup": `{"kind":"pull-line plans","version":2,"plans":[]}`,
			"link in a message": "Look: http://localhost/#plan=" + good[:20] + " bye",
		} {
			var said string
			inPage(t, p, &said, `
				document.querySelector("[data-bar=file]")?.remove();
				await (await module("opening")).openFile(new File([args[0]], "given.json"));
				return document.querySelector("[data-bar=file] p")?.textContent ?? "";`, text)
			assert.Contains(t, said, "Nothing was changed.", name)
			assert.Equal(t, before, planNow(t, p), name)
		}
		// A backup with plans that cannot be any takes the others.
		var words string
		inPage(t, p, &words, `
			(await module("opening")).openFile(new File([args[0]], "all.json"));
			const dialog = await until(() => document.querySelector("dialog .dialog-body"));
			const text = dialog.textContent;
			await click(".dialog-close");
			return text;`, `{"kind":"pull-line plans","version":1,"plans":[{"plan":{"version":1,"name":"Good (invented)"}},{"plan":[]},null,{"plan":{"__proto__":1}},{"id":"../../x","changed":"never","plan":{"version":1}}],"gear":"none"}`)
		assert.Contains(t, words, "2 plans: 2 new")
		assert.Contains(t, words, "3 entries in the file cannot be read")
		var polluted bool
		require.NoError(t, p.Script(&polluted, "return 'verdict' in {} || 'a' in {}"))
		assert.False(t, polluted)
		quiet(t, p)
	})
}

// The text and the code can be pasted, also in the middle of a message that
// broke it into lines.
func TestPasting(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := plansSite(t, engine)
		text := `{"version":1,"name":"Pasted (invented)"}`
		code := codeOf("d", []byte(text))
		for _, pasted := range map[string]string{
			"text": text, "code": code, "plain code": codeOf("j", []byte(text)), "link": "https://example.org/a/b/?x=1#plan=" + code,
			"message": "Here it is:\nhttps://example.org/#plan=" + code + " and good luck", "broken": "https://example.org/#plan=" + code[:15] + "\r\n" + code[15:],
		} {
			inPage(t, p, nil, `
				await click("#menu-button"); await click("#plan-open");
				(await until(() => document.querySelector("dialog textarea"))).value = args[0];
				await click("dialog [data-do=look]");
				await until(() => document.querySelector("dialog .look")?.textContent.includes("Pasted"));
				await click(".dialog-close");
				await gone();`, pasted)
		}
		inPage(t, p, nil, `
			const data = new DataTransfer();
			data.setData("text/plain", args[0]);
			document.body.dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true }));
			await until(() => document.querySelector("dialog .look")?.textContent.includes("Pasted"));
			await click(".dialog-close");
			await gone();`, code)
		var focused string
		require.NoError(t, p.Script(&focused, "return document.activeElement.id"))
		assert.Equal(t, "menu-button", focused, "the focus comes back")
		quiet(t, p)
	})
}

// Where the browser keeps nothing the page says so once and works. A header
// denies the page its storage here; inside a frame nothing is said.
func TestPlansWithoutStorage(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		files := build.Files{"pullline.html": site(t).Single}.Handler()
		s := serve(t, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			w.Header().Set("Content-Security-Policy", "sandbox allow-scripts")
			files.ServeHTTP(w, r)
		}))
		p := open(t, engine, Options{})
		require.NoError(t, p.Go(s.URL()+"pullline.html"))
		assert.NotEqual(t, "unknown", verdict(t, p))
		require.NoError(t, p.WaitUntil(wait, `
			for (const d of document.querySelectorAll("#form details.section:not([open])")) d.open = true;
			return Boolean(document.querySelector('.field[data-path="notes"] textarea'));`))
		typed := `
			const box = document.querySelector('.field[data-path="notes"] textarea');
			box.value = arguments[0];
			box.dispatchEvent(new Event("input", { bubbles: true }));
			box.dispatchEvent(new Event("change", { bubbles: true }));`
		require.NoError(t, p.Run(typed, "one"))
		require.NoError(t, p.WaitUntil(wait, `return document.querySelectorAll("[data-bar=loss]").length === 1`))
		require.NoError(t, p.Run(`document.querySelector("[data-bar=loss] button.plain").click();`+typed, "two"))
		time.Sleep(time.Second)
		require.NoError(t, p.WaitUntil(time.Second, `return !document.querySelector("[data-bar=loss]")`), "said once")
		require.NoError(t, p.Run(`document.getElementById("plan-new").click()`))
		require.NoError(t, p.WaitUntil(wait, `return document.getElementById("plan-name").textContent === "Unnamed plan"`))
		require.NoError(t, p.Run(`document.getElementById("plan-list").click()`))
		require.NoError(t, p.WaitUntil(wait, `return document.querySelectorAll(".plan-row").length === 2 && document.querySelector(".keeping").dataset.keeping === "visit"`))
		shot(t, p, "list")
		quiet(t, p)
	})
}

// A plan changed before a new version took over is there after.
func TestPlanSurvivesANewVersion(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		next := versionWith(t, "next", nil)
		s := serve(t, site(t).Site.Handler())
		p := open(t, engine, Options{})
		stored(t, p, s.URL())
		s.Swap(next.Site.Handler())
		offered(t, p, "")
		inPage(t, p, nil, `
			(await module("state")).edit("name", "Before the new version (invented)");
			document.querySelector("[data-bar=update] button").click();`)
		if err := p.WaitUntil(wait, inUse+`return inUse(arguments[0])`, next.Version); lost(err) {
			require.NoError(t, p.Go(s.URL()))
			take(t, p, s.URL(), next.Version)
		} else {
			require.NoError(t, err)
		}
		visit(t, p, s.URL())
		assert.Contains(t, planNow(t, p), "Before the new version (invented)")
	})
}

// The whole browser goes at once, as with an empty battery, once a change has
// been stored.
func TestStoredChangeSurvivesAKilledBrowser(t *testing.T) {
	profile := t.TempDir()
	s := serve(t, site(t).Site.Handler())
	p := open(t, "chromium", Options{Profile: profile})
	visit(t, p, s.URL())
	write(t, p, "name", "Stored (invented)")
	inPage(t, p, nil, `await (await module("plans")).save();`)
	p.DevTools("Browser.crash", nil, nil) // it cannot answer any more
	p.Close()

	p = open(t, "chromium", Options{Profile: profile})
	visit(t, p, s.URL())
	assert.Contains(t, planNow(t, p), "Stored (invented)")
}

// The panels fit a small phone, and gloves find their buttons.
func TestPanelsFitASmallPhone(t *testing.T) {
	s := serve(t, site(t).Site.Handler())
	p := open(t, "chromium", Options{Width: 320, Height: 640, Touch: true})
	visit(t, p, s.URL())
	write(t, p, "name", strings.Repeat("Averylongnamewithoutaspace", 4))
	for name, show := range map[string]string{
		"list":    `await click("#plan-list"); await until(() => document.querySelector(".plan-more")); document.querySelector(".plan-more").open = true;`,
		"open":    `await click("#plan-open");`,
		"send":    `await click("#plan-send"); (await until(() => document.querySelector(".send-more"))).open = true;`,
		"preview": `location.hash = "#plan=" + await (await module("share")).planCode({ version: 1, name: "Other (invented)" });`,
		"backup": `(await module("opening")).openFile(new File([JSON.stringify({ kind: "pull-line plans", version: 1,
			plans: [{ plan: { version: 1, name: (await module("state")).state.plan.name } }, { plan: { version: 1 } }], gear: [{}] })], "a-long-name-of-a-file-of-plans.json"));`,
	} {
		var got struct {
			Wide  bool
			Small []string
		}
		inPage(t, p, &got, `
			if (document.getElementById("menu").hidden) await click("#menu-button");
			`+show+`
			const dialog = await until(() => document.querySelector("dialog"));
			await new Promise((r) => setTimeout(r, 300));
			const small = [...dialog.querySelectorAll("button, summary, input[type=text], textarea")].filter((e) => e.checkVisibility())
				.filter((e) => e.getBoundingClientRect().height < 48).map((e) => e.outerHTML);
			const wide = [dialog, ...dialog.querySelectorAll("*")].some((e) => e.checkVisibility() && e.localName !== "textarea" && e.getBoundingClientRect().right > 320.5);
			await click(".dialog-close");
			await gone();
			return { wide, small };`)
		assert.False(t, got.Wide, "%s: nothing reaches beyond the screen", name)
		assert.Empty(t, got.Small, name)
	}
}
