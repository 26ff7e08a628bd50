// Package page puts the view of the job together from what its rooms make: what
// the report says, the form, the drawings, the working, the briefing, and how
// far the job has come. The page only places what it is given here; it holds no
// formula, limit, unit or word of the trade of its own.
package page

//go:generate go run pullline/wasm/site/codec/generate
