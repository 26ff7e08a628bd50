// Package codec writes, from the source of the program, what the calls of the
// page are carried in: the Go code that writes answers and reads requests as
// JSON without reflection, and the types of both for scripts. It belongs to the
// site builder and is no part of the program that is shipped.
//
// A package that has a line
//
//	//go:generate go run pullline/wasm/site/codec/generate
//
// gets a file json_gen.go. Every struct of it whose fields have json tags is an
// answer, or a part of one, and gets a method AppendJSON that writes what
// encoding/json would; every field has to say what it is called, or "-".
//
// Directives in the comment of a type say more:
//
//	//codec:members    also gets a method member, which gives a plain field by its name
//	//codec:request    is read and not written: gets a method Take, which reads one member
//	//codec:type TEXT  is TEXT to scripts, and written and read by hand
//
// and in that of a function of the table of calls
//
//	//codec:call REQUEST ANSWER   what the call takes and gives
//
// In a request a field is read by the reader of its type (see readers), or by the
// function that its tag "read" names. What is of a wrong type counts as left out.
package codec
