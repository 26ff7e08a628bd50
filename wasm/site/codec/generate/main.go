// Command generate writes the generated code of the package it is run in.
package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"pullline/wasm/site/codec"
)

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "generate:", err)
		os.Exit(1)
	}
}

func run() error {
	dir, err := os.Getwd()
	if err != nil {
		return err
	}
	root := dir
	for {
		if _, err := os.Stat(filepath.Join(root, "go.mod")); err == nil {
			break
		}
		if filepath.Dir(root) == root {
			return fmt.Errorf("%s is in no module", dir)
		}
		root = filepath.Dir(root)
	}
	path := "pullline" + filepath.ToSlash(strings.TrimPrefix(dir, root))
	name, text, err := codec.File(root, path)
	if err != nil {
		return err
	}
	return os.WriteFile(name, text, 0o644)
}
