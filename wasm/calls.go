//go:build js && wasm

package main

// calls are the functions the page may call, by name.
var calls = map[string]func([]byte) []byte{
	"evaluate": nil, // plan.EvaluateJSON
	"view":     nil, // screen.ViewJSON
	"edit":     nil, // screen.EditJSON
	"act":      nil, // screen.ActJSON
	"drag":     nil, // screen.DragJSON
}
