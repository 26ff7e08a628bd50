// Package bench holds the benches: one idea of the trade each, in a picture
// that can be dragged, with its number, curve and working. A bench is one
// value in a file of its own; redirect.go is the shortest.
package bench

//go:generate go run pullline/wasm/site/codec/generate
