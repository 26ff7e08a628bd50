// Package scene draws a plan: from the side, from above, its pull over the turn
// and its fall. What can be drawn is read from the plan as it stands, so that
// one that cannot be computed still shows what is known.
package scene

//go:generate go run pullline/wasm/site/codec/generate
