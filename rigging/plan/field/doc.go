// Package field is the one table of the fields of the plan format and of the
// gear list: a row for each, with its place, kind, unit, accepted range,
// choices, way of rounding, and what is taken where it is left out, from what
// source. The reader, the forms, the schema, the drawings and the gear list's
// table of values all take these from here; they are typed nowhere else.
//
// What a field is called and how it is explained to a crew stands with those
// who say it, under the very Field: package text has the names that begin a
// problem's sentence, package wasm/fields the labels and helps of the form. Tests
// there hold every row to its words.
package field
