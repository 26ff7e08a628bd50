// Package brief gathers what the crew is told before the cut, and suggests what
// the plan does not say itself.
package brief

//go:generate go run pullline/wasm/site/codec/generate
