// Package jsontext reads and writes JSON texts (RFC 8259) without
// reflection: a text becomes a tree of maps, lists and plain values, and
// what is written is written field by field.
//
// It stands in for encoding/json in everything that goes into the
// WebAssembly module; the tests keep encoding/json as the reference.
package jsontext
