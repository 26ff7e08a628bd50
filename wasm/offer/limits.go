package offer

import (
	"pullline/rigging/plan/field"
	"pullline/wasm/parts"
)

// PullerLimits are what may stop a puller.
var PullerLimits = []parts.Choice{
	{Value: "", Label: "choose"},
	{Value: field.Stall, Label: "its stall"},
	{Value: field.Device, Label: "a device that lets go"},
	{Value: field.Grip, Label: "its grip, pulling by driving"},
	{Value: field.Watched, Label: "a person watching"},
}
