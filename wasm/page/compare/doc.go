// Package compare shows two settings of one plan side by side: what was changed,
// and what comes of it.
package compare

//go:generate go run pullline/wasm/site/codec/generate
