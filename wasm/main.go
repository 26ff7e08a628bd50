//go:build js && wasm

// Command wasm is the bridge between the page and the Go packages: one
// function on the page's global object, text in and text out.
//
//	pullline(call, input string) string
//
// Input and output are JSON documents. The bridge knows no document: it only
// finds the call by name and makes sure that there is always an answer. What
// has no better answer is a report with one problem and the verdict unknown.
package main

import (
	"fmt"
	"strconv"
	"syscall/js"
)

func main() {
	js.Global().Set("pullline", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if len(args) != 2 || args[0].Type() != js.TypeString || args[1].Type() != js.TypeString {
			return problem("pullline takes the name of a call and a JSON text")
		}
		return answer(args[0].String(), args[1].String())
	}))
	select {} // stay, so that the page can call
}

// answer runs a call. Whatever goes wrong inside it becomes a problem.
func answer(name, input string) (output string) {
	defer func() {
		if r := recover(); r != nil {
			output = problem("The calculation failed and gives no result: " + fmt.Sprint(r))
		}
	}()
	call, ok := calls[name]
	if !ok {
		return problem("There is no call named " + strconv.Quote(name))
	}
	return string(call([]byte(input)))
}

// problem is the report of one problem that has no place in the plan.
func problem(message string) string {
	return `{"version":1,"verdict":"unknown","at_most_verdict":"unknown","why":[],"problems":[{"path":"","message":` + quoteJSON(message) + `}]}`
}

// quoteJSON writes a text as a JSON string without encoding/json, which may
// be what has just failed.
func quoteJSON(s string) string {
	quoted := []byte{'"'}
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			quoted = append(quoted, '\\', byte(r))
		case r < ' ':
			quoted = append(quoted, ' ')
		default:
			quoted = append(quoted, string(r)...)
		}
	}
	return string(append(quoted, '"'))
}
