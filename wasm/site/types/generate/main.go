// Command generate writes the generated types into the folder it is run in.
package main

import (
	"fmt"
	"os"

	"pullline/wasm/site/build"
	"pullline/wasm/site/types"
)

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "generate:", err)
		os.Exit(1)
	}
}

func run() error {
	root, err := build.Root()
	if err != nil {
		return err
	}
	text, err := types.Program(root)
	if err != nil {
		return err
	}
	return os.WriteFile(types.FileName, []byte(text), 0o644)
}
