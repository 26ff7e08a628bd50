// Command site builds the offline page and serves it.
//
//	go run ./wasm/site build    writes dist/site/ and dist/pullline.html
//	go run ./wasm/site serve    builds, then serves the site on this machine
package main

import (
	"errors"
	"flag"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strconv"

	"pullline/wasm/site/build"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "site:", err)
		os.Exit(1)
	}
}

func run(args []string) error {
	if len(args) == 0 {
		return errors.New("say build or serve")
	}
	flags := flag.NewFlagSet("site "+args[0], flag.ContinueOnError)
	out := flags.String("out", "", "directory to write to (default dist in the repository)")
	port := flags.Int("port", 0, "port to serve on, 0 for a free one")
	if err := flags.Parse(args[1:]); err != nil {
		return err
	}
	if args[0] != "build" && args[0] != "serve" {
		return fmt.Errorf("no command %q: say build or serve", args[0])
	}

	root, err := build.Root()
	if err != nil {
		return err
	}
	if *out == "" {
		*out = filepath.Join(root, "dist")
	}
	result, err := build.Repository(root)
	if err != nil {
		return err
	}
	if err := result.Write(*out); err != nil {
		return err
	}
	fmt.Printf("%sversion %s\n", result.Sizes(), result.Version)
	if args[0] == "build" {
		return nil
	}

	// Loopback only: this server is for trying the page on this machine.
	listener, err := net.Listen("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(*port)))
	if err != nil {
		return err
	}
	fmt.Printf("http://%s/\nhttp://%s/course.html  an example course page\n", listener.Addr(), listener.Addr())
	return http.Serve(listener, result.Site.Handler())
}
