package build

import (
	"bytes"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The memory is the same whatever segments it is cut into.
func TestSegmentsKeepTheMemory(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 9))
	for range 50 {
		image := make([]byte, 1+r.IntN(40000))
		for range r.IntN(60) {
			image[r.IntN(len(image))] = byte(r.IntN(256))
		}
		again, err := readSegments(writeSegments(split(image)))
		require.NoError(t, err)
		back := make([]byte, len(image))
		copy(back, joined(again))
		require.Equal(t, image, back)
	}
}

// Whole numbers as the WebAssembly core specification (5.2.2) writes them,
// with the example of DWARF 5, table 7.8: −2, 127, −127, 128, −128.
func TestSignedNumbers(t *testing.T) {
	for v, want := range map[int64][]byte{2: {2}, -2: {0x7e}, 127: {0xff, 0}, -127: {0x81, 0x7f}, 128: {0x80, 1}, -128: {0x80, 0x7f}} {
		assert.Equal(t, want, appendSigned(nil, v))
		r := &wasmReader{rest: want}
		assert.Equal(t, v, r.signed())
		assert.False(t, r.bad)
	}
}

func TestSlimRefusesRubbish(t *testing.T) {
	for _, rubbish := range []string{"", "\x00asm", "\x00asm\x01\x00\x00\x00\x0b\x7f", "\x00asm\x01\x00\x00\x00\x0b\x01\x01"} {
		_, err := slim([]byte(rubbish))
		assert.Error(t, err, "%q", rubbish)
	}
}

// A program does the same made slim: it computes, grows its stack, collects
// garbage, and recovers from a fault in the middle of deep calls.
func TestSlimProgramRuns(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("Node is not installed: the slim program runs in the browser tests only")
	}
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "go.mod"), []byte("module try\n\ngo 1.24\n"), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "main.go"), []byte(`package main

import (
	"os"
	"runtime"
	"strconv"
)

type node struct{ left, right *node }

func tree(depth int) *node {
	if depth == 0 {
		return &node{}
	}
	return &node{tree(depth - 1), tree(depth - 1)}
}

func (n *node) count() int {
	if n.left == nil {
		return 1
	}
	return 1 + n.left.count() + n.right.count()
}

func deep(n int, list []int) (sum int) {
	defer func() {
		if n%1000 == 0 {
			if r := recover(); r != nil {
				sum = -1
			}
		}
	}()
	if n == 0 {
		return list[len(list)]
	}
	return deep(n-1, list) + 1
}

func main() {
	total := 0
	for range 40 {
		total += tree(12).count()
		runtime.GC()
	}
	os.Stdout.WriteString(strconv.Itoa(total) + " " + strconv.Itoa(deep(5000, []int{1})) + "\n")
	pc, _, line, ok := runtime.Caller(0)
	os.Stdout.WriteString(runtime.FuncForPC(pc).Name() + " " + strconv.Itoa(line) + " " + strconv.FormatBool(ok) + "\n")
}
`), 0o600))
	build := exec.Command("go", "build", "-ldflags=-s -w", "-o", "whole.wasm", ".")
	build.Dir = dir
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOFLAGS=", "GOWORK=off")
	out, err := build.CombinedOutput()
	require.NoError(t, err, string(out))
	whole, err := os.ReadFile(filepath.Join(dir, "whole.wasm"))
	require.NoError(t, err)
	small, err := slim(whole)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "slim.wasm"), small, 0o600))
	assert.Less(t, len(pack(small)), len(pack(whole))*9/10)

	goroot, err := exec.Command("go", "env", "GOROOT").Output()
	require.NoError(t, err)
	run := func(name string) string {
		cmd := exec.Command(node, filepath.Join(strings.TrimSpace(string(goroot)), "lib", "wasm", "wasm_exec_node.js"), filepath.Join(dir, name))
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, string(out))
		return string(out)
	}
	before, after := run("whole.wasm"), run("slim.wasm")
	first := func(s string) string { return s[:strings.Index(s, "\n")] }
	assert.Equal(t, first(before), first(after))
	assert.Contains(t, after, "main.main 0 true")
	again, err := slim(whole)
	require.NoError(t, err)
	assert.True(t, bytes.Equal(small, again), "the same each time")
}
