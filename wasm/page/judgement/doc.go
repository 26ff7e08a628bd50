// Package judgement says on the page, in words, how sure a plan is, what would make it
// right, and where its points may stand.
package judgement

//go:generate go run pullline/wasm/site/codec/generate
