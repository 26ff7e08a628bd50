//go:build js && wasm

package main

import (
	"pullline/rigging/judgement/changes"
	"pullline/rigging/judgement/places"
	"pullline/rigging/judgement/sure"
	"pullline/rigging/plan"
	"pullline/wasm/class/bench"
	"pullline/wasm/class/fall"
	"pullline/wasm/class/model"
	"pullline/wasm/class/practice"
	"pullline/wasm/page"
	"pullline/wasm/page/compare"
	"pullline/wasm/page/drag"
	"pullline/wasm/page/gear"
	"pullline/wasm/page/handover"
	"pullline/wasm/page/job"
	"pullline/wasm/page/judgement"
	"pullline/wasm/page/pulls"
	"pullline/wasm/page/survey"
)

// calls are the functions the page may call, by name.
var calls = map[string]func([]byte) []byte{
	"evaluate":  plan.EvaluateJSON,
	"working":   plan.WorkingJSON,
	"vary":      plan.VaryJSON,
	"sample":    new(sure.Caller).JSON,
	"places":    places.JSON,
	"changes":   changes.JSON,
	"view":      page.JSON,
	"sure":      judgement.SureJSON,
	"right":     judgement.RightJSON,
	"stand":     judgement.StandJSON,
	"edit":      job.EditJSON,
	"act":       job.ActJSON,
	"drag":      drag.JSON,
	"inventory": gear.JSON,
	"measure":   survey.JSON,
	"bench":     bench.JSON,
	"model":     model.JSON,
	"practice":  practice.JSON,
	"fall":      fall.JSON,
	"compare":   compare.JSON,
	"handover":  handover.JSON,
	"pulls":     pulls.JSON,
}
