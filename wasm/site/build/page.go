package build

import (
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"path"
	"regexp"
	"strings"
)

// The content security policies: nothing is allowed but what is used. The
// single file allows exactly the scripts and styles inlined in it.
const (
	sitePolicy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; " +
		"img-src 'self' data: blob:; connect-src 'self'; manifest-src 'self'; worker-src 'self'; " +
		"font-src 'self'; base-uri 'none'; form-action 'none'"
	singlePolicy = "default-src 'none'; script-src %s 'wasm-unsafe-eval'; style-src %s; " +
		"img-src data: blob:; base-uri 'none'; form-action 'none'"
)

// Where the page's modules and style sheets are joined.
const (
	pageScript = "page.js"
	pageStyle  = "page.css"
)

// A head is what the page loads, taken out of it: one module, of which the
// others are reached, and style sheets.
type head struct {
	page   string // without its style sheets and its module
	entry  string
	sheets []tag
}

// style and module stand in a head's page where the first style sheet was and
// where the module was; no page has them.
const (
	style  = "\x00style"
	module = "\x00module"
)

func readHead(parts Files) (head, error) {
	var h head
	page, err := rewriteTags(string(parts[indexFile]), func(t tag) (string, error) {
		switch {
		case t.name == "link" && t.attr("rel") == "stylesheet":
			h.sheets = append(h.sheets, t)
			if len(h.sheets) > 1 {
				return "", nil
			}
			return style, nil
		case t.name == "script" && t.attr("type") == "module":
			if h.entry != "" {
				return "", fmt.Errorf("static/%s: want one module", indexFile)
			}
			h.entry = path.Clean(t.attr("src"))
			return module, nil
		}
		return t.text, nil
	})
	if err != nil {
		return h, err
	}
	if h.entry == "" || len(h.sheets) == 0 {
		return h, fmt.Errorf("static/%s: want a module and a style sheet", indexFile)
	}
	h.page = strings.Replace(page, module+"</script>", module, 1)
	return h, nil
}

// styles joins the style sheets of the page in their order.
func (h head) styles(parts Files) (string, error) {
	var b strings.Builder
	for _, t := range h.sheets {
		name := t.attr("href")
		css, ok := parts[name]
		if !ok {
			return "", fmt.Errorf("static/%s: no style sheet %q", indexFile, name)
		}
		body := unixLines(css)
		for _, bad := range []string{"@import", "@charset", "url(", "</style"} {
			if strings.Contains(body, bad) && !needsNoFile(body, bad) {
				return "", fmt.Errorf("static/%s: %s cannot be joined with others", name, bad)
			}
		}
		light, err := lightOnly(body)
		if err != nil {
			return "", fmt.Errorf("static/%s: %w", name, err)
		}
		body += light
		if media := t.attr("media"); media != "" {
			body = "@media " + media + " {\n" + body + "\n}"
		}
		b.WriteString(strings.TrimRight(body, "\n") + "\n")
	}
	return b.String(), nil
}

var lightAndDark = regexp.MustCompile(`(?m)^\s*(--[\w-]+: )light-dark\((.*), .*\);$`)

// lightOnly gives the light colours of a sheet once more for browsers that do
// not know light-dark: they would show none, and no line of a drawing.
func lightOnly(css string) (string, error) {
	found := lightAndDark.FindAllStringSubmatch(css, -1)
	if len(found) != strings.Count(css, "light-dark(") {
		return "", errors.New("light-dark() is understood on lines of its own only: --name: light-dark(…, …);")
	}
	if len(found) == 0 {
		return "", nil
	}
	var b strings.Builder
	b.WriteString("\n@supports not (color: light-dark(#000, #fff)) {\n:root {\n")
	for _, m := range found {
		b.WriteString(m[1] + m[2] + ";\n")
	}
	b.WriteString("}\n}\n")
	return b.String(), nil
}

// fill gives the page with what stands for its style sheets and its module.
func (h head) fill(styles, script string) string {
	return strings.NewReplacer(style, styles, module, script).Replace(h.page)
}

// sitePage makes the page of the site: with one script and one style sheet,
// the policy and the version. What it loads has the version in its address, so
// that nothing a browser or a network has kept of another version is taken for
// it. Nothing is preloaded: WebKit gives what it preloaded to later pages too,
// past the service worker. The script that asks for the program early is told
// its sums.
func sitePage(h head, parts Files, version string) (string, error) {
	page, err := rewriteTags(h.page, func(t tag) (string, error) {
		if t.name != "script" {
			return t.text, nil
		}
		for _, name := range []string{"src", "data-program", "data-unpack"} {
			if file := t.attr(name); file != "" {
				t.text = strings.Replace(t.text, `"`+file+`"`, `"`+file+"?"+version+`"`, 1)
			}
		}
		if name := t.attr("data-program"); name != "" {
			sums, err := sumsOf(name, parts[name])
			if err != nil {
				return "", err
			}
			t.text = fmt.Sprintf(`%s data-sums="sha256-%s">`, strings.TrimSuffix(t.text, ">"), strings.Join(sums, " sha256-"))
		}
		return t.text, nil
	})
	if err != nil {
		return "", err
	}
	h.page = page
	return addMeta(h.fill(
		fmt.Sprintf(`<link rel="stylesheet" href="%s?%s">`, pageStyle, version),
		fmt.Sprintf(`<script type="module" src="%s?%s"></script>`, pageScript, version),
	), sitePolicy, version)
}

// singlePage makes the page with everything inlined.
func singlePage(h head, parts Files, styles, code, version string) (string, error) {
	var scripts []string // hashes of what is inlined
	page, err := rewriteTags(h.page, func(t tag) (string, error) {
		switch src := t.attr("src"); {
		case t.name == "link":
			return "", nil // icon, manifest: files that a single file has not
		case t.name == "script" && src != "":
			body, ok := parts[src]
			if !ok {
				return "", fmt.Errorf("static/%s: no script %q", indexFile, src)
			}
			text, err := inlined(unixLines(body))
			scripts = append(scripts, hash(text))
			return "<script>" + text, err
		case src != "" && !strings.HasPrefix(src, "data:"):
			return "", fmt.Errorf("static/%s: <%s src=%q> cannot be inlined", indexFile, t.name, src)
		}
		return t.text, nil
	})
	if err != nil {
		return "", err
	}

	// A "<" inside a JSON string may be written as its escape.
	if !json.Valid(parts[demoFile]) {
		return "", fmt.Errorf("testdata/%s is not JSON", demoFile)
	}
	demo := strings.ReplaceAll(string(parts[demoFile]), "<", `\u003c`)
	last := `<script type="application/json" id="demo-plan">` + demo + "</script>\n" +
		`<script type="application/octet-stream" id="rigging-wasm">` + base64.StdEncoding.EncodeToString(parts[programFile]) + "</script>\n" +
		`<script type="module">` + code + "</script>\n"
	end := strings.LastIndex(page, "</body>")
	if end < 0 {
		return "", fmt.Errorf("static/%s has no </body>", indexFile)
	}
	h.page = page[:end] + module + page[end:]
	h.page = strings.Replace(h.page, module, "", 1) // the module comes at the end, after what it reads
	scripts = append(scripts, hash(code))
	policy := fmt.Sprintf(singlePolicy, strings.Join(scripts, " "), hash(styles))
	return addMeta(h.fill("<style>"+styles+"</style>", last), policy, version)
}

// needsNoFile says whether every url( in a style sheet is a data URL or a
// place in the page itself.
func needsNoFile(css, what string) bool {
	if what != "url(" {
		return false
	}
	for _, rest := range strings.Split(css, "url(")[1:] {
		rest = strings.TrimLeft(rest, ` "'`)
		if !strings.HasPrefix(rest, "data:") && !strings.HasPrefix(rest, "#") {
			return false
		}
	}
	return true
}

// addMeta writes the policy and the version right after the character set,
// before anything the policy governs. A policy the source has is replaced.
func addMeta(source, policy, version string) (string, error) {
	done := false
	page, err := rewriteTags(source, func(t tag) (string, error) {
		switch {
		case t.name == "meta" && strings.EqualFold(t.attr("http-equiv"), "Content-Security-Policy"),
			t.name == "meta" && t.attr("name") == "version":
			return "", nil
		case t.name == "meta" && t.attr("charset") != "" && !done:
			done = true
			return t.text + "\n<meta http-equiv=\"Content-Security-Policy\" content=\"" + policy + "\">" +
				"\n<meta name=\"version\" content=\"" + version + "\">", nil
		}
		return t.text, nil
	})
	if err == nil && !done {
		err = fmt.Errorf("static/%s: want <meta charset=\"utf-8\"> at the top of the head", indexFile)
	}
	return page, err
}

// hash is the source expression that allows one inlined script or style.
func hash(body string) string {
	return "'sha256-" + sum([]byte(body)) + "'"
}

// A tag is one start tag of the page.
type tag struct {
	text, name string
	attrs      map[string]string
}

func (t tag) attr(name string) string { return t.attrs[name] }

// rewriteTags replaces every start tag of a page with what the function
// gives. Comments, and the contents of scripts and styles, stay as they are.
func rewriteTags(page string, replace func(tag) (string, error)) (string, error) {
	var b strings.Builder
	for {
		open := strings.IndexByte(page, '<')
		if open < 0 || open+1 == len(page) {
			b.WriteString(page)
			return b.String(), nil
		}
		b.WriteString(page[:open])
		page = page[open:]
		if strings.HasPrefix(page, "<!--") {
			end := strings.Index(page, "-->")
			if end < 0 {
				return "", fmt.Errorf("static/%s: a comment has no end", indexFile)
			}
			b.WriteString(page[:end+3])
			page = page[end+3:]
			continue
		}
		if !isLetter(page[1]) {
			b.WriteByte('<')
			page = page[1:]
			continue
		}
		t, err := readTag(page)
		if err != nil {
			return "", err
		}
		page = page[len(t.text):]
		text, err := replace(t)
		if err != nil {
			return "", err
		}
		b.WriteString(text)
		if t.name == "script" || t.name == "style" {
			end := strings.Index(page, "</"+t.name)
			if end < 0 {
				return "", fmt.Errorf("static/%s: <%s> has no end", indexFile, t.name)
			}
			b.WriteString(page[:end])
			page = page[end:]
		}
	}
}

// readTag reads the start tag at the start of the text.
func readTag(text string) (tag, error) {
	t := tag{attrs: map[string]string{}}
	i := 1
	for i < len(text) && !strings.ContainsRune(" \t\r\n/>", rune(text[i])) {
		i++
	}
	t.name = strings.ToLower(text[1:i])
	for i < len(text) {
		switch c := text[i]; {
		case c == '>':
			t.text = text[:i+1]
			return t, nil
		case strings.IndexByte(" \t\r\n/", c) >= 0:
			i++
			continue
		}
		start := i
		for i < len(text) && strings.IndexByte(" \t\r\n/>=", text[i]) < 0 {
			i++
		}
		name, value := strings.ToLower(text[start:i]), ""
		if i < len(text) && text[i] == '=' {
			i++
			if i < len(text) && (text[i] == '"' || text[i] == '\'') {
				end := strings.IndexByte(text[i+1:], text[i])
				if end < 0 {
					break
				}
				value = text[i+1 : i+1+end]
				i += end + 2
			} else {
				start := i
				for i < len(text) && strings.IndexByte(" \t\r\n>", text[i]) < 0 {
					i++
				}
				value = text[start:i]
			}
		} else if i == start {
			i++
			continue
		}
		t.attrs[name] = value
	}
	return tag{}, fmt.Errorf("static/%s: the tag <%s has no end", indexFile, t.name)
}

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }
