package browser

import (
	"bufio"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"time"
)

// Engines are the browsers the page is tested in: the two families of
// engine of the phones and computers it is meant for.
var Engines = []string{"chromium", "webkit"}

// ErrMissing marks an error that says what is not installed.
var ErrMissing = errors.New("not installed (make browsers installs it)")

// Options are those of a window. The zero value is a desktop window.
type Options struct {
	Width, Height int    // of the viewport in CSS pixels; 1280 × 800 by default; WebKit's is 500 wide at least
	Touch         bool   // a phone: touch, and the mobile viewport rules (Chromium only)
	Dark          bool   // prefer a dark scheme (Chromium only)
	LessMotion    bool   // prefer reduced motion (Chromium only)
	Profile       string // directory of a profile that outlives the window (Chromium only)
}

// A Driver is a running browser driver that opens windows.
type Driver struct {
	engine  string
	base    string
	display string // WebKit's
	stop    []func()
}

// Start starts the driver of an engine.
func Start(engine string) (*Driver, error) {
	d := &Driver{engine: engine}
	var err error
	switch engine {
	case "chromium":
		err = d.startChromium()
	case "webkit":
		err = d.startWebKit()
	default:
		err = fmt.Errorf("no engine %q: there are %s", engine, strings.Join(Engines, ", "))
	}
	if err != nil {
		d.Stop()
		return nil, err
	}
	return d, nil
}

// Stop ends the driver and what it started.
func (d *Driver) Stop() {
	for i := len(d.stop) - 1; i >= 0; i-- {
		d.stop[i]()
	}
	d.stop = nil
}

func (d *Driver) startChromium() error {
	driver, err := look("chromedriver")
	if err != nil {
		return err
	}
	port, err := freePort()
	if err != nil {
		return err
	}
	return d.serve(exec.Command(driver, "--port="+port), port)
}

func (d *Driver) startWebKit() error {
	driver, err := look("WebKitWebDriver")
	if err != nil {
		return err
	}
	if _, err := miniBrowser(); err != nil {
		return err
	}
	display, err := d.startDisplay()
	if err != nil {
		return err
	}
	port, err := freePort()
	if err != nil {
		return err
	}
	d.display = display
	cmd := exec.Command(driver, "--port="+port)
	home, err := os.MkdirTemp("", "pullline-webkit-")
	if err != nil {
		return err
	}
	d.stop = append(d.stop, func() { os.RemoveAll(home) })
	cmd.Env = d.webKitEnv(home)
	return d.serve(cmd, port)
}

// webKitEnv gives WebKit a profile of its own; no portal or bus of the
// person's desktop.
func (d *Driver) webKitEnv(home string) []string {
	return append(os.Environ(), "DISPLAY="+d.display, "GDK_BACKEND=x11", "NO_AT_BRIDGE=1",
		"HOME="+home, "XDG_DATA_HOME="+home, "XDG_CACHE_HOME="+home, "XDG_CONFIG_HOME="+home,
		// Where there is no graphics card, drawing as if there were one takes most of the time.
		"LIBGL_ALWAYS_SOFTWARE=1", "WEBKIT_DISABLE_COMPOSITING_MODE=1", "WEBKIT_SKIA_ENABLE_CPU_RENDERING=1",
		"LANGUAGE="+strings.ReplaceAll(language, "-", "_"))
}

// Alone opens an address in a browser that no driver holds, with a profile
// that outlives it, and gives a function that kills it without a word. A
// driven WebKit keeps no profile, this one does.
func (d *Driver) Alone(profile, url string) (kill func(), err error) {
	var cmd *exec.Cmd
	switch d.engine {
	case "chromium":
		binary, err := chromium()
		if err != nil {
			return nil, err
		}
		cmd = exec.Command(binary, append(chromiumArgs(profile), "--remote-debugging-port=0", url)...)
	default:
		binary, err := miniBrowser()
		if err != nil {
			return nil, err
		}
		cmd = exec.Command(binary, url)
		cmd.Env = d.webKitEnv(profile)
	}
	before := len(d.stop)
	if err := d.run(cmd); err != nil {
		return nil, err
	}
	d.stop = d.stop[:before]
	return sync.OnceFunc(func() {
		syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL) // the group: it is the first of it
		cmd.Wait()
	}), nil
}

// chromium finds the browser.
func chromium() (string, error) {
	for _, name := range []string{"chromium", "chromium-browser"} {
		if binary, err := exec.LookPath(name); err == nil {
			return binary, nil
		}
	}
	return "", fmt.Errorf("chromium: %w", ErrMissing)
}

func chromiumArgs(profile string) []string {
	return []string{
		"--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--no-first-run",
		"--disable-background-networking", "--disable-component-update", "--disable-default-apps",
		"--disable-sync", "--hide-scrollbars", "--accept-lang=" + language, "--user-data-dir=" + profile,
	}
}

// startDisplay starts an X server without a screen.
func (d *Driver) startDisplay() (string, error) {
	server, err := look("Xvfb")
	if err != nil {
		return "", err
	}
	read, write, err := os.Pipe()
	if err != nil {
		return "", err
	}
	defer read.Close()
	cmd := exec.Command(server, "-displayfd", "3", "-screen", "0", "2000x1400x24", "-nolisten", "tcp")
	cmd.ExtraFiles = []*os.File{write}
	err = d.run(cmd)
	write.Close()
	if err != nil {
		return "", err
	}
	read.SetReadDeadline(time.Now().Add(20 * time.Second))
	number, err := bufio.NewReader(read).ReadString('\n')
	if err != nil {
		return "", fmt.Errorf("Xvfb did not start: %w", err)
	}
	return ":" + strings.TrimSpace(number), nil
}

// run starts a process in a group of its own, so that all of it ends with
// the driver.
func (d *Driver) run(cmd *exec.Cmd) error {
	cmd.SysProcAttr = ownGroup()
	if os.Getenv("PULLLINE_DRIVER_LOG") != "" {
		cmd.Stdout, cmd.Stderr = os.Stderr, os.Stderr
	}
	if err := cmd.Start(); err != nil {
		return err
	}
	d.stop = append(d.stop, func() {
		syscall.Kill(-cmd.Process.Pid, syscall.SIGTERM)
		done := make(chan struct{})
		go func() { cmd.Wait(); close(done) }()
		select {
		case <-done:
		case <-time.After(3 * time.Second):
		}
		syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL)
		<-done
	})
	return nil
}

// serve runs a driver and waits until it answers.
func (d *Driver) serve(cmd *exec.Cmd, port string) error {
	if err := d.run(cmd); err != nil {
		return err
	}
	d.base = "http://127.0.0.1:" + port
	for end := time.Now().Add(20 * time.Second); ; time.Sleep(50 * time.Millisecond) {
		var status struct{ Ready bool }
		err := call(http.MethodGet, d.base+"/status", nil, &status)
		if err == nil && status.Ready {
			return nil
		}
		if time.Now().After(end) {
			return fmt.Errorf("%s does not answer: %v", filepath.Base(cmd.Path), err)
		}
	}
}

// Open opens a window.
func (d *Driver) Open(o Options) (*Page, error) {
	if o.Width == 0 {
		o.Width, o.Height = 1280, 800
	}
	if d.engine == "chromium" {
		return d.openChromium(o)
	}
	return d.openWebKit(o)
}

func (d *Driver) openChromium(o Options) (*Page, error) {
	profile, remove := o.Profile, func() {}
	if profile == "" {
		made, err := os.MkdirTemp("", "pullline-chromium-")
		if err != nil {
			return nil, err
		}
		profile, remove = made, func() { os.RemoveAll(made) }
	}
	binary, err := chromium()
	if err != nil {
		remove()
		return nil, err
	}
	p, err := d.session(map[string]any{
		"goog:chromeOptions": map[string]any{"binary": binary, "args": chromiumArgs(profile)},
		"goog:loggingPrefs":  map[string]string{"browser": "WARNING"},
	}, remove)
	if err != nil {
		return nil, err
	}
	// A headless window is 500 pixels wide at least; emulation goes below.
	err = p.Resize(o.Width, o.Height, o.Touch)
	if err == nil && o.Touch {
		err = p.DevTools("Emulation.setTouchEmulationEnabled", map[string]any{"enabled": true}, nil)
	}
	if err == nil && (o.Dark || o.LessMotion) {
		var features []map[string]string
		if o.Dark {
			features = append(features, map[string]string{"name": "prefers-color-scheme", "value": "dark"})
		}
		if o.LessMotion {
			features = append(features, map[string]string{"name": "prefers-reduced-motion", "value": "reduce"})
		}
		err = p.DevTools("Emulation.setEmulatedMedia", map[string]any{"features": features}, nil)
	}
	if err != nil {
		p.Close()
		return nil, err
	}
	return p, nil
}

// language is the one the browsers ask for, whatever the person's own: the
// page takes its first guess at words and units from it.
const language = "en-NZ"

func (d *Driver) openWebKit(o Options) (*Page, error) {
	if o.Touch || o.Dark || o.LessMotion || o.Profile != "" {
		return nil, errors.New("webkit: touch, dark, less motion and a profile cannot be set here")
	}
	binary, err := miniBrowser()
	if err != nil {
		return nil, err
	}
	p, err := d.session(map[string]any{"webkitgtk:browserOptions": map[string]any{
		"binary": binary, "args": []string{"--automation"},
	}}, nil)
	if err != nil {
		return nil, err
	}
	if err := p.Resize(o.Width, o.Height, false); err != nil {
		p.Close()
		return nil, err
	}
	return p, nil
}

// session opens a session with the capabilities wanted.
func (d *Driver) session(want map[string]any, cleanup func()) (*Page, error) {
	var answer struct{ SessionID string }
	body := map[string]any{"capabilities": map[string]any{"alwaysMatch": want}}
	if err := call(http.MethodPost, d.base+"/session", body, &answer); err != nil {
		if cleanup != nil {
			cleanup()
		}
		return nil, fmt.Errorf("%s: %w", d.engine, err)
	}
	p := &Page{Engine: d.engine, base: d.base + "/session/" + answer.SessionID, cleanup: cleanup}
	err := p.post("/timeouts", map[string]int{"script": 60000, "pageLoad": 30000}, nil)
	if err != nil {
		p.Close()
		return nil, err
	}
	return p, nil
}

// Resize sets the size of the viewport in CSS pixels; as a phone's where
// touch is wanted.
func (p *Page) Resize(width, height int, touch bool) error {
	if p.Engine == "chromium" {
		return p.DevTools("Emulation.setDeviceMetricsOverride", map[string]any{
			"width": width, "height": height, "deviceScaleFactor": 1, "mobile": touch,
		}, nil)
	}
	// The window has bars of unknown height: set, measure, set again.
	w, h := width, height
	for range 3 {
		if err := p.SetWindow(w, h); err != nil {
			return err
		}
		var inner struct{ W, H int }
		for end := time.Now().Add(time.Second); ; time.Sleep(50 * time.Millisecond) {
			if err := p.Script(&inner, "return {w: innerWidth, h: innerHeight}"); err != nil {
				return err
			}
			if inner.W == width && inner.H == height {
				return nil
			}
			if time.Now().After(end) {
				break
			}
		}
		w, h = w+width-inner.W, h+height-inner.H
	}
	return fmt.Errorf("webkit: the window does not take a viewport of %d × %d", width, height)
}

// look finds a program, also where people without rights have no path to.
func look(name string) (string, error) {
	if path, err := exec.LookPath(name); err == nil {
		return path, nil
	}
	for _, dir := range []string{"/usr/bin", "/usr/lib/chromium"} {
		if path, err := exec.LookPath(filepath.Join(dir, name)); err == nil {
			return path, nil
		}
	}
	return "", fmt.Errorf("%s: %w", name, ErrMissing)
}

// miniBrowser finds the browser that comes with the WebKit driver.
func miniBrowser() (string, error) {
	for _, pattern := range []string{
		"/usr/lib/*/webkit2gtk-4.1/MiniBrowser",
		"/usr/lib/*/webkitgtk-6.0/MiniBrowser",
		"/usr/lib/*/webkit2gtk-4.0/MiniBrowser",
		"/usr/libexec/webkit2gtk-4.*/MiniBrowser",
	} {
		if found, _ := filepath.Glob(pattern); len(found) > 0 { // the patterns are well formed
			return found[0], nil
		}
	}
	return "", fmt.Errorf("WebKit's MiniBrowser: %w", ErrMissing)
}

func freePort() (string, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return "", err
	}
	defer l.Close()
	_, port, err := net.SplitHostPort(l.Addr().String())
	return port, err
}
