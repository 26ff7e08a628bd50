package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The safe number is never more than the one computed; one that is less than the
// haul planned, none, or none that is known leaves no room.
func TestHoldSurely(t *testing.T) {
	for safe, want := range map[float64]struct {
		hold, computed Num
		room           bool
	}{13: {12.6, 0, true}, 12.6: {12.6, 0, true}, 11: {11, 12.6, true}, 6.9: {6.9, 12.6, true}, 6.8: {6.8, 12.6, false}, 0: {0, 12.6, false}} {
		rep := Report{Pull: PullReport{HoldPullTo: 12.6}, Brief: BriefReport{StopHaulKN: 12.6}, Lines: []LineReport{{Role: "hold", HaulKN: 99}, {Role: "pull", HaulKN: 6.9}}}
		rep.HoldSurely(safe)
		assert.Equal(t, want.hold, rep.Pull.HoldPullTo, safe)
		assert.Equal(t, want.hold, rep.Brief.StopHaulKN, safe)
		assert.Equal(t, want.computed, rep.Pull.ComputedHold, safe)
		assert.Equal(t, want.room, !rep.NoRoom, safe)
	}
	rep := Report{Pull: PullReport{HoldPullTo: 12.6}, Lines: []LineReport{{Role: "pull", HaulKN: 6.9}}}
	rep.HoldSurely(math.NaN())
	assert.False(t, rep.Pull.HoldPullTo.Known())
	assert.True(t, rep.NoRoom)
	rep = Report{Pull: PullReport{HoldPullTo: None()}}
	rep.HoldSurely(5)
	assert.False(t, rep.Pull.HoldPullTo.Known(), "never a number where none was computed")
}
