package offer

import "pullline/wasm/parts"

// PullerLimits are what may stop a puller.
var PullerLimits = []parts.Option{
	{Value: "", Label: "choose"},
	{Value: "stall", Label: "nothing but its stall: it pulls until it can no more"},
	{Value: "device", Label: "a device that lets go: relief valve, slipping clutch, shear pin"},
	{Value: "grip", Label: "its grip: it pulls by driving, until it slips"},
	{Value: "watched", Label: "a person who reads a load indicator and stops it"},
}
