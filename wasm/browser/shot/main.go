// Command shot takes a picture of a page, for people who look at it.
//
//	go run ./wasm/browser/shot -width 360 -height 740 -touch -out phone.png
//	go run ./wasm/browser/shot -full -dark -out dark.png
//	go run ./wasm/browser/shot -pdf -out sheet.pdf
//
// Without -url it builds the site and takes the picture of that.
package main

import (
	"encoding/base64"
	"flag"
	"fmt"
	"os"
	"time"

	"pullline/wasm/browser"
	"pullline/wasm/site/build"
)

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "shot:", err)
		os.Exit(1)
	}
}

func run() error {
	var o browser.Options
	url := flag.String("url", "", "address of the page (default: the site, built and served)")
	query := flag.String("query", "", "what to add to the site's address, such as ?a=b or #c")
	flag.IntVar(&o.Width, "width", 1280, "width of the viewport in CSS pixels")
	flag.IntVar(&o.Height, "height", 800, "height of the viewport in CSS pixels")
	flag.BoolVar(&o.Dark, "dark", false, "prefer a dark scheme")
	flag.BoolVar(&o.Touch, "touch", false, "a phone with touch")
	engine := flag.String("engine", "chromium", "chromium or webkit")
	full := flag.Bool("full", false, "the whole page, not only what the viewport shows (chromium)")
	pdf := flag.Bool("pdf", false, "the page as printed on A4, a PDF (chromium)")
	letter := flag.Bool("letter", false, "the page as printed on US Letter, a PDF (chromium)")
	script := flag.String("script", "", "a script to run in the page first; it may await")
	pause := flag.Duration("pause", 500*time.Millisecond, "wait before the picture")
	colours := flag.Int("colours", 0, "write the picture with this many colours at most, for a small file (up to 256)")
	out := flag.String("out", "shot.png", "file to write")
	flag.Parse()

	if *url == "" {
		root, err := build.Root()
		if err != nil {
			return err
		}
		result, err := build.Repository(root)
		if err != nil {
			return err
		}
		server, err := browser.Serve(result.Site.Handler())
		if err != nil {
			return err
		}
		defer server.Leave()
		*url = server.URL()
	}

	driver, err := browser.Start(*engine)
	if err != nil {
		return err
	}
	defer driver.Stop()
	page, err := driver.Open(o)
	if err != nil {
		return err
	}
	defer page.Close()
	if err := page.Go(*url + *query); err != nil {
		return err
	}
	if _, err := page.WaitFor("[data-start=done] [data-verdict]", 10*time.Second); err != nil {
		fmt.Fprintln(os.Stderr, "shot: no verdict on the page yet, taking the picture anyway")
	}
	if *script != "" {
		if err := page.Await(nil, *script); err != nil {
			return err
		}
	}
	time.Sleep(*pause)

	picture, err := take(page, *pdf, *letter, *full)
	if err != nil {
		return err
	}
	if *colours > 0 {
		if picture, err = reduce(picture, *colours); err != nil {
			return err
		}
	}
	return os.WriteFile(*out, picture, 0o644)
}

func take(page *browser.Page, pdf, letter, full bool) ([]byte, error) {
	switch {
	case letter:
		var sheet struct{ Data string }
		err := page.DevTools("Page.printToPDF", map[string]any{"paperWidth": 8.5, "paperHeight": 11, "preferCSSPageSize": false}, &sheet)
		if err != nil {
			return nil, err
		}
		return base64.StdEncoding.DecodeString(sheet.Data)
	case pdf:
		return page.PDF()
	case full:
		var shot struct{ Data string }
		err := page.DevTools("Page.captureScreenshot", map[string]any{"captureBeyondViewport": true, "format": "png"}, &shot)
		if err != nil {
			return nil, err
		}
		return base64.StdEncoding.DecodeString(shot.Data)
	}
	return page.Screenshot()
}
