// Package survey measures a field of the plan from readings: the ways to do it,
// what each asks for, what it gives with its ±, and a picture of how to stand.
package survey

//go:generate go run pullline/wasm/site/codec/generate
