// Package places says where a point of a plan may stand: for each place what the plan
// comes to with the point moved there, and what rules the place out.
package places

//go:generate go run pullline/wasm/site/codec/generate
