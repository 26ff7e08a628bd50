// Package changes says what would make a plan right: the smallest single changes that
// bring it within its limits, each worked out again, and two together where no single
// one serves. What a leader would not think of changing stays: the tree, the
// allowance, and what is only known by measuring.
package changes

//go:generate go run pullline/wasm/site/codec/generate
