// Package build makes the site and the single-file page from the static
// files, the Go program and the toolchain's own glue, and serves the site.
//
// The site is a directory of plain files that works from any path of any
// host. The single file is the same page with everything inlined: it opens
// from disk and inside a sandboxed frame, where no file can be fetched.
package build

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"pullline/wasm/site/schema"
)

// Files are the contents of a site by slash-separated path.
type Files map[string][]byte

// Names gives the paths in order.
func (f Files) Names() []string { return slices.Sorted(maps.Keys(f)) }

// A Result is a finished build.
type Result struct {
	Version string // one hash over everything shipped
	Parts   Files  // what it was made of
	Site    Files  // the site's files, the single-file page among them
	Single  []byte // the single-file page
}

// Names of the files that do not come from the static directory.
const (
	programFile = "rigging.wasm.gz"
	glueFile    = "wasm_exec.js"
	demoFile    = "demo.json"
)

const (
	indexFile  = "index.html"
	workerFile = "worker.js"
	singleFile = "pullline.html"

	calculatorFile = "rigging.js" // scripts of other pages import it
)

// forOthers are the files of the site that the page itself never asks for:
// what course websites take from here. They are not stored for use without a
// signal.
var forOthers = []string{
	singleFile, "embed.js", "course.html", "course.css", "course.js", planSchemaFile, reportSchemaFile, typesFile,
}

// What describes the format to other programs.
const (
	planSchemaFile   = "plan.schema.json"
	reportSchemaFile = "report.schema.json"
	typesFile        = "rigging.d.ts"
)

// Placeholders in worker.js.
const (
	versionMark = `"{{version}}"`
	filesMark   = `"{{files}}"`
)

// Root finds the repository from any directory inside it.
func Root() (string, error) {
	out, err := exec.Command("go", "env", "GOMOD").Output()
	if err != nil {
		return "", fmt.Errorf("go env GOMOD: %w", err)
	}
	mod := strings.TrimSpace(string(out))
	if mod == "" || mod == os.DevNull {
		return "", errors.New("run this inside the repository: no go.mod found")
	}
	return filepath.Dir(mod), nil
}

// Repository builds the site of the repository at root.
func Repository(root string) (*Result, error) {
	static, err := readTree(filepath.Join(root, "static"))
	if err != nil {
		return nil, err
	}
	demo, err := os.ReadFile(filepath.Join(root, "testdata", demoFile))
	if err != nil {
		return nil, fmt.Errorf("the demonstration plan: %w", err)
	}
	return WithPage(root, static, demo)
}

// WithPage builds a site from the given static files and demonstration plan
// around the Go program of the repository at root.
func WithPage(root string, static Files, demo []byte) (*Result, error) {
	program, err := compile(root)
	if err != nil {
		return nil, err
	}
	glue, err := toolchainGlue(root)
	if err != nil {
		return nil, err
	}
	parts := maps.Clone(static)
	parts[programFile] = program
	parts[glueFile] = glue
	parts[demoFile] = demo
	if err := describe(root, parts); err != nil {
		return nil, fmt.Errorf("describing the format: %w", err)
	}
	return Assemble(parts)
}

// describe adds the descriptions of plan and report.
func describe(root string, parts Files) error {
	plan := schema.Plan()
	report, err := schema.Report(root)
	if err != nil {
		return err
	}
	for name, s := range map[string]*schema.Schema{planSchemaFile: plan, reportSchemaFile: report} {
		if parts[name], err = s.JSON(); err != nil {
			return err
		}
	}
	types, err := schema.ForScripts(schema.RiggingHead, root)
	parts[typesFile] = []byte(types)
	return err
}

// Write puts the build into a directory: site/ and pullline.html.
func (r *Result) Write(dir string) error {
	site := filepath.Join(dir, "site")
	if err := os.RemoveAll(site); err != nil {
		return err
	}
	for _, name := range r.Site.Names() {
		path := filepath.Join(site, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, r.Site[name], 0o644); err != nil {
			return err
		}
	}
	return os.WriteFile(filepath.Join(dir, singleFile), r.Single, 0o644)
}

// Sizes describes every file in bytes as shipped and gzipped, and the sums.
func (r *Result) Sizes() string {
	var b strings.Builder
	var plain, packed int
	line := func(name string, body []byte) (int, int) {
		zipped := len(pack(body))
		if strings.HasSuffix(name, ".gz") {
			zipped = len(body)
		}
		fmt.Fprintf(&b, "%9d %9d  %s\n", len(body), zipped, name)
		return len(body), zipped
	}
	fmt.Fprintf(&b, "%9s %9s\n", "bytes", "gzip")
	for _, name := range r.Site.Names() {
		p, z := line(name, r.Site[name])
		if slices.Contains(forOthers, name) {
			continue
		}
		plain, packed = plain+p, packed+z
	}
	fmt.Fprintf(&b, "%9d %9d  what a visitor of the page loads\n", plain, packed)
	return b.String()
}

// Assemble makes the result from the parts: the static files, the program,
// the glue, the demonstration plan and the descriptions.
func Assemble(parts Files) (*Result, error) {
	for _, name := range []string{indexFile, workerFile} {
		if _, ok := parts[name]; !ok {
			return nil, fmt.Errorf("static/%s is missing", name)
		}
	}
	r := &Result{Version: version(parts), Parts: parts, Site: maps.Clone(parts)}

	h, err := readHead(parts)
	if err != nil {
		return nil, err
	}
	code, err := Bundle(parts, h.entry)
	if err != nil {
		return nil, err
	}
	styles, err := h.styles(parts)
	if err != nil {
		return nil, err
	}
	if err := dropJoined(r.Site, h); err != nil {
		return nil, err
	}
	r.Site[pageScript], r.Site[pageStyle] = []byte(code), []byte(styles)
	page, err := sitePage(h, parts, r.Version)
	if err != nil {
		return nil, err
	}
	r.Site[indexFile] = []byte(page)

	worker, err := fillWorker(string(parts[workerFile]), r.Version, r.Site)
	if err != nil {
		return nil, err
	}
	r.Site[workerFile] = []byte(worker)

	single, err := singlePage(h, parts, styles, code, r.Version)
	if err != nil {
		return nil, err
	}
	r.Single = []byte(single)
	r.Site[singleFile] = r.Single
	return r, nil
}

// dropJoined takes out of a site what is joined in the page's script and style
// sheet, but for the modules that scripts of other pages import.
func dropJoined(site Files, h head) error {
	joined, err := modulesOf(site, h.entry)
	if err != nil {
		return err
	}
	apart, err := modulesOf(site, calculatorFile)
	if err != nil {
		return err
	}
	for _, name := range joined {
		if !slices.Contains(apart, name) {
			delete(site, name)
		}
	}
	for _, t := range h.sheets {
		delete(site, t.attr("href"))
	}
	return nil
}

// version is one hash over the names and contents of all parts, and over the
// policies the builder adds.
func version(parts Files) string {
	h := sha256.New()
	for _, name := range parts.Names() {
		fmt.Fprintf(h, "%s %d\n", name, len(parts[name]))
		h.Write(parts[name])
	}
	fmt.Fprintln(h, sitePolicy, singlePolicy)
	return hex.EncodeToString(h.Sum(nil))[:12]
}

// A storedFile is what the service worker knows of a file: its type, and the
// SHA-256 in base64 of what it takes for it.
type storedFile []string

// fillWorker writes the version and the list of files to store into the
// service worker. What only others ask for stays out. The page itself is
// stored under "./", because some hosts answer index.html with a redirection.
func fillWorker(source, version string, site Files) (string, error) {
	list := map[string]storedFile{}
	for _, name := range site.Names() {
		if name == workerFile || slices.Contains(forOthers, name) {
			continue
		}
		sums, err := sumsOf(name, site[name])
		if err != nil {
			return "", err
		}
		kept := append(storedFile{contentType(name)}, sums...)
		if name == indexFile {
			name = "./"
		}
		list[name] = kept
	}
	text, err := json.Marshal(list) // in the order of the names
	if err != nil {
		return "", err
	}
	for _, mark := range []string{versionMark, filesMark} {
		if strings.Count(source, mark) != 1 {
			return "", fmt.Errorf("static/%s: want %s exactly once", workerFile, mark)
		}
	}
	source = strings.Replace(source, versionMark, `"`+version+`"`, 1)
	return strings.Replace(source, filesMark, string(text), 1), nil
}

// sumsOf gives the sums of what a file may arrive as: some hosts declare a
// packed one as compressed transfer, then it arrives unpacked.
func sumsOf(name string, body []byte) ([]string, error) {
	if !strings.HasSuffix(name, ".gz") {
		return []string{sum(body)}, nil
	}
	unpacked, err := unpack(body)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return []string{sum(body), sum(unpacked)}, nil
}

func sum(body []byte) string {
	h := sha256.Sum256(body)
	return base64.StdEncoding.EncodeToString(h[:])
}

// toolchain gives what to set for the go command, so that the program and its
// glue come from the toolchain that go.mod names: another one, newer ones too,
// gives other bytes.
func toolchain(root string) (string, error) {
	cmd := exec.Command("go", "mod", "edit", "-json")
	cmd.Dir = root
	out, err := cmd.Output()
	if err != nil {
		return "", fmt.Errorf("go mod edit: %w", err)
	}
	var mod struct{ Toolchain string }
	if err := json.Unmarshal(out, &mod); err != nil {
		return "", err
	}
	if mod.Toolchain == "" {
		return "", errors.New("go.mod names no toolchain")
	}
	return "GOTOOLCHAIN=" + mod.Toolchain, nil
}

// compile builds the Go program and packs it.
func compile(root string) ([]byte, error) {
	program, err := link(root)
	if err != nil {
		return nil, err
	}
	if program, err = slim(program); err != nil {
		return nil, fmt.Errorf("making the program smaller: %w", err)
	}
	return pack(program), nil
}

// link builds the Go program as the linker leaves it.
func link(root string) ([]byte, error) {
	pinned, err := toolchain(root)
	if err != nil {
		return nil, err
	}
	dir, err := os.MkdirTemp("", "pullline-build-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	out := filepath.Join(dir, "rigging.wasm")
	// No build identity: the version is a hash of what is shipped, and a
	// commit that changes nothing shipped must not change it.
	//
	// What reads plans and writes the screen is built without inlining: that
	// takes about 80 kB off the packed module (6 %). The mechanics, where the
	// time goes, keeps it.
	cmd := exec.Command("go", "build", "-trimpath", "-buildvcs=false", "-ldflags=-s -w -buildid=",
		"-gcflags=pullline/rigging/plan=-l", "-gcflags=pullline/wasm/...=-l", "-o", out, "./wasm")
	cmd.Dir = root
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOFLAGS=", "GOWASM=", "GOEXPERIMENT=", pinned)
	if text, err := cmd.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("building the program: %w\n%s", err, text)
	}
	return os.ReadFile(out)
}

// toolchainGlue reads the script that must come from the same toolchain as
// the program.
func toolchainGlue(root string) ([]byte, error) {
	pinned, err := toolchain(root)
	if err != nil {
		return nil, err
	}
	cmd := exec.Command("go", "env", "GOROOT")
	cmd.Dir = root
	cmd.Env = append(os.Environ(), pinned)
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("go env GOROOT: %w", err)
	}
	return os.ReadFile(filepath.Join(strings.TrimSpace(string(out)), "lib", "wasm", glueFile))
}

// pack gzips as small as it goes, without a name or a time.
func pack(body []byte) []byte {
	var b bytes.Buffer
	w, _ := gzip.NewWriterLevel(&b, gzip.BestCompression) // the level is valid
	w.Write(body)                                         // a bytes.Buffer takes everything
	w.Close()
	return b.Bytes()
}

func unpack(body []byte) ([]byte, error) {
	r, err := gzip.NewReader(bytes.NewReader(body))
	if err != nil {
		return nil, err
	}
	return io.ReadAll(r)
}

// readTree reads all files below a directory, leaving out dotfiles.
func readTree(dir string) (Files, error) {
	files := Files{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case strings.HasPrefix(d.Name(), ".") && path != dir:
			if d.IsDir() {
				return filepath.SkipDir
			}
			return nil
		case d.IsDir():
			return nil
		}
		rel, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		files[filepath.ToSlash(rel)], err = os.ReadFile(path)
		return err
	})
	return files, err
}
