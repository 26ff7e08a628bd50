// Package model tells the model in words: what it assumes, how it computes,
// what it leaves out and when not to go by it.
package model

//go:generate go run pullline/wasm/site/codec/generate
