package rigging

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestBight(t *testing.T) {
	b := Bight{Block: Vec{10, 0, 3}, From: Vec{0, 0, 9}, To: Vec{10, 6, 0}}
	for _, in := range []Vec{{8, 2, 0}, {6, 2, 5}, {9.9, 0.1, 0}, {6, 4, 0}, {10 - 4.2, 4.2, 0}} {
		assert.True(t, b.Holds(in), "%v", in)
		assert.True(t, Bight{b.Block, b.To, b.From}.Holds(in), "%v", in)
	}
	for _, out := range []Vec{{12, 2, 0}, {8, -1, 0}, {2, 5, 0}, {10.1, 3, 0}, {5, 5, 0}} {
		assert.False(t, b.Holds(out), "%v", out)
	}
	assert.False(t, Bight{Vec{5, 0, 0}, Vec{}, Vec{9, 0, 0}}.Holds(Vec{5, 0, 0}), "a rope that runs straight on")
}

// Seen from another side, nothing changes; every place between the legs' own ends and
// the block is inside.
func TestBightTurned(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 8))
	for range 2000 {
		some := func() Vec { return Vec{40*r.Float64() - 20, 40*r.Float64() - 20, 5 * r.Float64()} }
		b, p := Bight{some(), some(), some()}, some()
		sin, cos := math.Sincos(7 * r.Float64())
		turned := func(v Vec) Vec { return Vec{cos*v.X - sin*v.Y, sin*v.X + cos*v.Y, v.Z} }
		assert.Equal(t, b.Holds(p), Bight{turned(b.Block), turned(b.From), turned(b.To)}.Holds(turned(p)))
		u, v := 0.01+0.98*r.Float64(), r.Float64()
		inside := b.Block.Add(b.From.Sub(b.Block).Scale(u * v)).Add(b.To.Sub(b.Block).Scale(u * (1 - v)))
		assert.True(t, b.Holds(inside))
	}
}
