// Package show puts a report into words and numbers: verdict, main numbers, the
// pieces worst first, the working, and what a pull came to.
package show

//go:generate go run pullline/wasm/site/codec/generate
