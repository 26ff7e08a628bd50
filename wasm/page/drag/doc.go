// Package drag turns a handle dragged in a drawing of a plan into changes of the
// plan.
package drag

//go:generate go run pullline/wasm/site/codec/generate
