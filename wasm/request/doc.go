// Package request reads what every call of the page has in common. What is of
// a wrong type counts as left out.
package request

//go:generate go run pullline/wasm/site/codec/generate
