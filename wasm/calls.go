//go:build js && wasm

package main

import (
	"pullline/rigging/plan"
	"pullline/wasm/class/bench"
	"pullline/wasm/class/fall"
	"pullline/wasm/class/model"
	"pullline/wasm/class/practice"
	"pullline/wasm/page/survey"
	"pullline/wasm/screen"
)

// calls are the functions the page may call, by name.
var calls = map[string]func([]byte) []byte{
	"evaluate":  plan.EvaluateJSON,
	"working":   plan.WorkingJSON,
	"vary":      plan.VaryJSON,
	"view":      screen.ViewJSON,
	"edit":      screen.EditJSON,
	"act":       screen.ActJSON,
	"drag":      screen.DragJSON,
	"inventory": screen.InventoryJSON,
	"measure":   survey.JSON,
	"bench":     bench.JSON,
	"model":     model.JSON,
	"practice":  practice.JSON,
	"fall":      fall.JSON,
}
