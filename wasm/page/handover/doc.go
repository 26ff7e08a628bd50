// Package handover puts the link of a plan into QR codes for another phone's
// camera: one where it fits, else several to be read in turn.
package handover

//go:generate go run pullline/wasm/site/codec/generate
