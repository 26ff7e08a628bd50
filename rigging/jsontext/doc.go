// Package jsontext reads and writes JSON texts (RFC 8259) without
// reflection: a text becomes a tree of maps, lists and plain values, and
// what is written is written field by field.
//
// It stands in for encoding/json in everything that goes into the
// WebAssembly module; the tests keep encoding/json as the reference. What it
// changed, measured with the example plan; the calls are the program's in
// Node, the quickest of 800, with what the page itself does to write the
// plan and read the answer:
//
//	                      encoding/json    here
//	module, gzipped          1.540 MB      1.417 MB   (encoding/json alone: 139 kB)
//	evaluate                 2.8 ms        1.5 ms
//	view of a drag           4.0 ms        3.2 ms
//	reading the plan         0.14 ms       0.06 ms    (native)
//
// The code that writes a struct is generated from its tags, by
// wasm/site/codec; package jsontest holds what it writes against encoding/json.
//
// Differences from encoding/json: lists and objects lie at most MaxDepth in
// each other; a float that is not finite is written as null; <, > and & are
// not escaped.
package jsontext
