package build

import (
	"encoding/base64"
	"encoding/json"
	"fmt"
	"path"
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

// gone stands for the start tag of a script that is taken out; no page has it.
const gone = "\x00"

// sitePage adds the policy and the version to the page of the site, and names
// its modules, so that start.js can say which of them does not come. They are
// not preloaded: WebKit gives what it preloaded to later pages too, past the
// service worker, and so mixes versions.
func sitePage(parts Files, version string) (string, error) {
	page, err := rewriteTags(string(parts[indexFile]), func(t tag) (string, error) {
		if t.name != "script" || t.attr("type") != "module" {
			return t.text, nil
		}
		names, err := Modules(parts, t.attr("src"))
		return fmt.Sprintf(`%s data-modules="%s">`, strings.TrimSuffix(t.text, ">"), strings.Join(names, " ")), err
	})
	if err != nil {
		return "", err
	}
	return addMeta(page, sitePolicy, version)
}

// singlePage makes the page with everything inlined.
func singlePage(parts Files, version string) (string, error) {
	var styles, scripts []string // hashes of what is inlined
	var entry string
	page, err := rewriteTags(string(parts[indexFile]), func(t tag) (string, error) {
		href := t.attr("href")
		switch {
		case t.name == "link" && t.attr("rel") == "stylesheet":
			css, ok := parts[href]
			if !ok {
				return "", fmt.Errorf("static/%s: no style sheet %q", indexFile, href)
			}
			body := unixLines(css)
			for _, bad := range []string{"@import", "url(", "</style"} {
				if strings.Contains(body, bad) && !needsNoFile(body, bad) {
					return "", fmt.Errorf("static/%s: %s cannot be inlined", href, bad)
				}
			}
			styles = append(styles, hash(body))
			if media := t.attr("media"); media != "" {
				return `<style media="` + media + `">` + body + "</style>", nil
			}
			return "<style>" + body + "</style>", nil
		case t.name == "link":
			return "", nil // icon, manifest: files that a single file has not
		case t.name == "script" && t.attr("src") != "":
			if t.attr("type") == "" {
				body, ok := parts[t.attr("src")]
				if !ok {
					return "", fmt.Errorf("static/%s: no script %q", indexFile, t.attr("src"))
				}
				code, err := inlined(unixLines(body))
				scripts = append(scripts, hash(code))
				return "<script>" + code, err
			}
			if entry != "" || t.attr("type") != "module" {
				return "", fmt.Errorf("static/%s: want one module", indexFile)
			}
			entry = path.Clean(t.attr("src"))
			return gone, nil // the bundle comes at the end, after what it reads
		case t.attr("src") != "" && !strings.HasPrefix(t.attr("src"), "data:"):
			return "", fmt.Errorf("static/%s: <%s src=%q> cannot be inlined", indexFile, t.name, t.attr("src"))
		}
		return t.text, nil
	})
	if err != nil {
		return "", err
	}
	if entry == "" {
		return "", fmt.Errorf("static/%s loads no module", indexFile)
	}
	before, after, _ := strings.Cut(page, gone)
	_, after, _ = strings.Cut(after, "</script>")
	page = before + after

	code, err := Bundle(parts, entry)
	if err != nil {
		return "", err
	}
	scripts = append(scripts, hash(code))

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
	page = page[:end] + last + page[end:]
	if len(styles) == 0 {
		styles = []string{"'none'"}
	}
	policy := fmt.Sprintf(singlePolicy, strings.Join(scripts, " "), strings.Join(styles, " "))
	return addMeta(page, policy, version)
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
