// Package browser drives real browsers for the tests of the page: a small
// client of the W3C WebDriver protocol (https://www.w3.org/TR/webdriver2/)
// on the standard library, and the starting of the browsers it speaks to.
package browser

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"strings"
	"time"
)

// A Page is one browser window under control. Its methods fail with an error
// that holds what the driver answered.
type Page struct {
	Engine string // "chromium" or "webkit"

	base    string // address of the session
	cleanup func()
}

// elementKey is the protocol's name for a reference to an element.
const elementKey = "element-6066-11e4-a52e-4f735466cecf"

// An Element is one element of the document that was open when it was found.
type Element struct {
	page *Page
	id   string
}

// MarshalJSON writes the reference, so that an element can be an argument of
// a script.
func (e Element) MarshalJSON() ([]byte, error) {
	return json.Marshal(map[string]string{elementKey: e.id})
}

// client has a limit: a driver that hangs must not hang the tests.
var client = &http.Client{Timeout: 90 * time.Second}

// call sends one command and decodes the value of its answer.
func call(method, url string, body, value any) error {
	var sent io.Reader
	if method == http.MethodPost {
		if body == nil {
			body = struct{}{}
		}
		text, err := json.Marshal(body)
		if err != nil {
			return err
		}
		sent = bytes.NewReader(text)
	}
	request, err := http.NewRequest(method, url, sent)
	if err != nil {
		return err
	}
	request.Header.Set("Content-Type", "application/json; charset=utf-8")
	response, err := client.Do(request)
	if err != nil {
		return err
	}
	defer response.Body.Close()
	text, err := io.ReadAll(response.Body)
	if err != nil {
		return err
	}
	var answer struct{ Value json.RawMessage }
	if err := json.Unmarshal(text, &answer); err != nil {
		return fmt.Errorf("%s %s: %s: %s", method, url, response.Status, text)
	}
	if response.StatusCode != http.StatusOK {
		var failure struct{ Error, Message string }
		json.Unmarshal(answer.Value, &failure) // best effort: the answer is an error anyway
		message, _, _ := strings.Cut(failure.Message, "\n")
		return fmt.Errorf("%s %s: %s: %s", method, url[strings.LastIndex(url, "/"):], failure.Error, message)
	}
	if value == nil {
		return nil
	}
	return json.Unmarshal(answer.Value, value)
}

func (p *Page) get(command string, value any) error {
	return call(http.MethodGet, p.base+command, nil, value)
}

func (p *Page) post(command string, body, value any) error {
	return call(http.MethodPost, p.base+command, body, value)
}

// Close ends the browser.
func (p *Page) Close() error {
	err := call(http.MethodDelete, p.base, nil, nil)
	if p.cleanup != nil {
		p.cleanup()
	}
	return err
}

// Go opens an address and waits until it has loaded.
func (p *Page) Go(url string) error {
	return p.post("/url", map[string]string{"url": url}, nil)
}

// Reload loads the page again.
func (p *Page) Reload() error { return p.post("/refresh", nil, nil) }

// Title gives the document's title.
func (p *Page) Title() (title string, err error) { return title, p.get("/title", &title) }

// Find gives the first element that matches a CSS selector.
func (p *Page) Find(css string) (Element, error) {
	var found map[string]string
	err := p.post("/element", map[string]string{"using": "css selector", "value": css}, &found)
	return Element{p, found[elementKey]}, err
}

// FindAll gives every element that matches a CSS selector.
func (p *Page) FindAll(css string) ([]Element, error) {
	var found []map[string]string
	err := p.post("/elements", map[string]string{"using": "css selector", "value": css}, &found)
	all := make([]Element, len(found))
	for i, f := range found {
		all[i] = Element{p, f[elementKey]}
	}
	return all, err
}

// WaitFor waits for an element that matches a CSS selector.
func (p *Page) WaitFor(css string, limit time.Duration) (Element, error) {
	for end := time.Now().Add(limit); ; time.Sleep(50 * time.Millisecond) {
		e, err := p.Find(css)
		if err == nil || time.Now().After(end) {
			return e, err
		}
	}
}

func (e Element) path() string { return "/element/" + e.id }

// Click clicks in the middle of the element, scrolling it into view.
func (e Element) Click() error { return e.page.post(e.path()+"/click", nil, nil) }

// Clear empties a text field.
func (e Element) Clear() error { return e.page.post(e.path()+"/clear", nil, nil) }

// Type focuses the element and types a text, key by key.
func (e Element) Type(text string) error {
	return e.page.post(e.path()+"/value", map[string]string{"text": text}, nil)
}

// Text gives the element's text as shown.
func (e Element) Text() (text string, err error) {
	return text, e.page.get(e.path()+"/text", &text)
}

// Attribute gives an attribute, "" where there is none.
func (e Element) Attribute(name string) (string, error) {
	var value *string
	err := e.page.get(e.path()+"/attribute/"+name, &value)
	if value == nil {
		return "", err
	}
	return *value, err
}

// Label gives the element's accessible name.
func (e Element) Label() (label string, err error) {
	return label, e.page.get(e.path()+"/computedlabel", &label)
}

// Role gives the element's accessible role.
func (e Element) Role() (role string, err error) {
	return role, e.page.get(e.path()+"/computedrole", &role)
}

// A Rect is a place in CSS pixels.
type Rect struct{ X, Y, Width, Height float64 }

// Rect gives the element's place in the viewport.
func (e Element) Rect() (r Rect, err error) {
	return r, e.page.Script(&r, "const r = arguments[0].getBoundingClientRect(); return {x: r.x, y: r.y, width: r.width, height: r.height}", e)
}

// Run runs a script in the page, for what it does.
func (p *Page) Run(script string, args ...any) error { return p.Script(nil, script, args...) }

// Script runs the body of a function in the page and decodes what it gives.
func (p *Page) Script(value any, script string, args ...any) error {
	if args == nil {
		args = []any{}
	}
	return p.post("/execute/sync", map[string]any{"script": script, "args": args}, value)
}

// Await runs the body of an async function in the page, waits for it and
// decodes what it gives. The arguments are in args.
func (p *Page) Await(value any, script string, args ...any) error {
	if args == nil {
		args = []any{}
	}
	wrapped := `const args = Array.from(arguments), done = args.pop();
(async () => {` + script + `})().then((v) => done({value: v ?? null}), (e) => done({error: String(e)}));`
	var answer struct {
		Value json.RawMessage
		Error string
	}
	err := p.post("/execute/async", map[string]any{"script": wrapped, "args": args}, &answer)
	switch {
	case err != nil:
		return err
	case answer.Error != "":
		return fmt.Errorf("the script failed: %s", answer.Error)
	case value == nil:
		return nil
	}
	return json.Unmarshal(answer.Value, value)
}

// WaitUntil waits until a script gives true.
func (p *Page) WaitUntil(limit time.Duration, script string, args ...any) error {
	for end := time.Now().Add(limit); ; time.Sleep(50 * time.Millisecond) {
		var done bool
		err := p.Script(&done, script, args...)
		switch {
		case err == nil && done:
			return nil
		case time.Now().After(end):
			return fmt.Errorf("not true after %v (%v): %s", limit, err, script)
		}
	}
}

// Frame makes the scripts and searches that follow work inside a frame;
// without one, in the page itself again.
func (p *Page) Frame(frame ...Element) error {
	if len(frame) == 0 {
		return p.post("/frame", map[string]any{"id": nil}, nil)
	}
	return p.post("/frame", map[string]any{"id": frame[0]}, nil)
}

// Keys of the protocol that are not characters.
const (
	Tab      = "\ue004"
	Enter    = "\ue007"
	Shift    = "\ue008"
	Control  = "\ue009"
	Escape   = "\ue00c"
	Space    = " "
	PageUp   = "\ue00e"
	PageDown = "\ue00f"
	End      = "\ue010"
	Home     = "\ue011"
	Left     = "\ue012"
	Up       = "\ue013"
	Right    = "\ue014"
	Down     = "\ue015"
	Delete   = "\ue017"
	F2       = "\ue032"
)

type action map[string]any

func (p *Page) act(kind, id string, steps []action, more map[string]any) error {
	source := map[string]any{"type": kind, "id": id, "actions": steps}
	for k, v := range more {
		source[k] = v
	}
	return p.post("/actions", map[string]any{"actions": []any{source}}, nil)
}

// Press presses and releases keys one after the other on what has the focus.
func (p *Page) Press(keys ...string) error {
	var steps []action
	for _, k := range keys {
		steps = append(steps, action{"type": "keyDown", "value": k}, action{"type": "keyUp", "value": k})
	}
	return p.act("key", "keyboard", steps, nil)
}

// PressWith presses keys while another is held.
func (p *Page) PressWith(held string, keys ...string) error {
	steps := []action{{"type": "keyDown", "value": held}}
	for _, k := range keys {
		steps = append(steps, action{"type": "keyDown", "value": k}, action{"type": "keyUp", "value": k})
	}
	return p.act("key", "keyboard", append(steps, action{"type": "keyUp", "value": held}), nil)
}

// Drag presses at one place of the viewport, moves to another in a number of
// steps, and lets go there. The pointer is "mouse", "pen" or "touch".
func (p *Page) Drag(pointer string, x, y, toX, toY float64, steps int) error {
	list := strokes(x, y, toX, toY, steps)
	list = append(list, action{"type": "pointerUp", "button": 0})
	return p.act("pointer", pointer, list, map[string]any{"parameters": map[string]string{"pointerType": pointer}})
}

// strokes are the actions of a press and the moves that follow it.
func strokes(x, y, toX, toY float64, steps int) []action {
	move := func(x, y float64) action {
		return action{"type": "pointerMove", "duration": 16, "x": int(x), "y": int(y), "origin": "viewport"}
	}
	list := []action{move(x, y), {"type": "pointerDown", "button": 0}}
	for i := 1; i <= steps; i++ {
		f := float64(i) / float64(steps)
		list = append(list, move(x+f*(toX-x), y+f*(toY-y)))
	}
	return list
}

// Hold presses at one place of the viewport and moves to another, without
// letting go; LetGo does that.
func (p *Page) Hold(pointer string, x, y, toX, toY float64, steps int) error {
	return p.act("pointer", pointer, strokes(x, y, toX, toY, steps), map[string]any{"parameters": map[string]string{"pointerType": pointer}})
}

// LetGo ends what Hold began.
func (p *Page) LetGo(pointer string) error {
	return p.act("pointer", pointer, []action{{"type": "pointerUp", "button": 0}}, map[string]any{"parameters": map[string]string{"pointerType": pointer}})
}

// Screenshot gives a PNG of the viewport.
func (p *Page) Screenshot() ([]byte, error) {
	return p.binary(func(v *string) error { return p.get("/screenshot", v) })
}

// PDF gives the page as printed on A4.
func (p *Page) PDF() ([]byte, error) {
	body := map[string]any{"page": map[string]float64{"width": 21, "height": 29.7}, "shrinkToFit": false}
	return p.binary(func(v *string) error { return p.post("/print", body, v) })
}

func (p *Page) binary(command func(*string) error) ([]byte, error) {
	var text string
	if err := command(&text); err != nil {
		return nil, err
	}
	return base64.StdEncoding.DecodeString(text)
}

// SetWindow sets the outer size of the window in CSS pixels.
func (p *Page) SetWindow(width, height int) error {
	return p.post("/window/rect", map[string]int{"width": width, "height": height}, nil)
}

// DevTools sends a command of Chromium's own protocol.
func (p *Page) DevTools(command string, params map[string]any, value any) error {
	if p.Engine != "chromium" {
		return fmt.Errorf("%s: only Chromium understands this", command)
	}
	if params == nil {
		params = map[string]any{}
	}
	return p.post("/goog/cdp/execute", map[string]any{"cmd": command, "params": params}, value)
}

// Complaints gives the warnings and errors of the browser's console since the
// last call: failed requests, scripts that failed, what the policy blocked
// (Chromium only).
func (p *Page) Complaints() ([]string, error) {
	var entries []struct{ Level, Message string }
	if err := p.post("/se/log", map[string]string{"type": "browser"}, &entries); err != nil {
		return nil, err
	}
	var lines []string
	for _, e := range entries {
		lines = append(lines, e.Level+": "+e.Message)
	}
	return lines, nil
}
