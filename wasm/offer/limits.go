package offer

import "pullline/wasm/parts"

// PullerLimits are what may stop a puller.
var PullerLimits = []parts.Choice{
	{Value: "", Label: "choose"},
	{Value: "stall", Label: "its stall"},
	{Value: "device", Label: "a device that lets go"},
	{Value: "grip", Label: "its grip, pulling by driving"},
	{Value: "watched", Label: "a person watching"},
}
