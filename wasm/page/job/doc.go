// Package job asks for the plan of a job and changes it: its form, what is typed
// into it, and what its buttons do.
package job

//go:generate go run pullline/wasm/site/codec/generate
