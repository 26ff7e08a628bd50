// Package gear keeps the crew's gear list: its pieces and their dates, tables
// read and written, picking a piece for a plan, and looking a piece over.
package gear

//go:generate go run pullline/wasm/site/codec/generate
