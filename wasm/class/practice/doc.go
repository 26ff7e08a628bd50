// Package practice makes sheets of questions with made-up numbers, marks the
// answers to them and works each out.
package practice

//go:generate go run pullline/wasm/site/codec/generate
