// Package pulls sets what was measured in the crew's pulls against what was
// computed for them, and offers what follows for the plan in work.
package pulls

//go:generate go run pullline/wasm/site/codec/generate
