// Package fall rehearses the fall of a plan's tree: a picture of any moment of
// it, with the numbers of that moment.
package fall

//go:generate go run pullline/wasm/site/codec/generate
