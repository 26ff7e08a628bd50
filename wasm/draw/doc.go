// Package draw lays out pictures as shapes in paint order: a canvas with its
// marks, labels that find their own room, layouts that carry metres to pixels
// and back, and axes. It knows no plan.
package draw

//go:generate go run pullline/wasm/site/codec/generate
