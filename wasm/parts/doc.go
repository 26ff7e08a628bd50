// Package parts holds what the views of the page are made of (fields, options,
// facts, notes, steps of a working, changes to a plan) and writes them.
package parts

//go:generate go run pullline/wasm/site/codec/generate
