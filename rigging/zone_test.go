package rigging

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func randomZone(r *rand.Rand) Zone {
	z := Zone{Apex: Vec{60*r.Float64() - 30, 60*r.Float64() - 30, 5 * r.Float64()}, Toward: 20 * r.Float64(), Half: math.Pi / 2 * r.Float64(), Reach: 1 + 60*r.Float64()}
	if r.IntN(6) == 0 {
		z.Half = math.Pi
	}
	return z
}

func randomPlace(r *rand.Rand) Vec { return Vec{160*r.Float64() - 80, 160*r.Float64() - 80, 0} }

// A place in a sector by its distance and its angle off the middle, in complex
// numbers: the left of the lay is up.
func TestZoneAgainstAngles(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 1))
	inside := 0
	for range 20000 {
		z, p := randomZone(r), randomPlace(r)
		at := complex(p.X-z.Apex.X, p.Y-z.Apex.Y)
		off := math.Abs(cmplx.Phase(at / cmplx.Exp(complex(0, -z.Toward))))
		if math.Abs(cmplx.Abs(at)-z.Reach) < 1e-6 || math.Abs(off-z.Half) < 1e-6 {
			continue
		}
		want := cmplx.Abs(at) <= z.Reach && off <= z.Half
		require.Equal(t, want, z.Contains(p), "%v %v", z, p)
		if want {
			inside++
		}
	}
	assert.Greater(t, inside, 500)
}

// A ray is in a zone where places along it are.
func TestZoneAlongARay(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 2))
	for range 500 {
		z, p, way := randomZone(r), randomPlace(r), AtBearing(2*math.Pi*r.Float64(), 1, 0)
		from, to := z.through(p, way)
		for d := 0.0; d < 200; d += 0.7 {
			if math.Abs(d-from) > 1e-6 && math.Abs(d-to) > 1e-6 {
				require.Equal(t, z.Contains(p.Add(way.Scale(d))), from <= d && d <= to)
			}
		}
	}
}

// A clear place is clear, and no place of a fine grid is that much nearer.
func TestClearPlace(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 3))
	in := func(zones []Zone, p Vec) bool {
		for i := range zones {
			if zones[i].Contains(p) {
				return true
			}
		}
		return false
	}
	moved := 0
	for range 150 {
		zones := make([]Zone, 1+r.IntN(8))
		for i := range zones {
			zones[i] = randomZone(r)
		}
		p := randomPlace(r)
		clear := ClearPlace(p, zones)
		require.False(t, in(zones, clear))
		if !in(zones, p) {
			require.Equal(t, p, clear)
			continue
		}
		moved++
		far := clear.Sub(p).Norm()
		for range 2000 {
			q := p.Add(AtBearing(2*math.Pi*r.Float64(), math.Max(0, far-2.5*roomNeeded)*r.Float64(), 0))
			roomy := true
			for k := range 8 {
				roomy = roomy && !in(zones, q.Add(AtBearing(float64(k)*math.Pi/4, 1.5*roomNeeded, 0)))
			}
			require.False(t, roomy && !in(zones, q), "%v is nearer than %v", q, clear)
		}
	}
	assert.Greater(t, moved, 20)
}

// Beyond all reach in one direction it is clear whatever the zones.
func TestFarOutIsClear(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 4))
	for range 200 {
		z := randomZone(r)
		way := AtBearing(2*math.Pi*r.Float64(), 1, 0)
		assert.False(t, z.Contains(way.Scale(z.Apex.Norm()+z.Reach+1)))
	}
}

func TestZonesOfAPull(t *testing.T) {
	// A rope from a tree to a winch 50 m ahead flies 50 m past either, and 10° aside.
	recoil := Recoil(Vec{0, 0, 12}, Vec{50, 0, 0})
	in := func(zones []Zone, bearing, distance float64) bool {
		for i := range zones {
			if zones[i].Contains(AtBearing(bearing*Deg, distance, 0)) {
				return true
			}
		}
		return false
	}
	assert.True(t, in(recoil, 0, 25) && in(recoil, 0, 99) && in(recoil, 180, 49) && in(recoil, 9, 50) && in(recoil, -9, 90))
	assert.False(t, in(recoil, 0, 110) || in(recoil, 180, 60) || in(recoil, 90, 15) || in(recoil, 12, 90))

	// Round a block ahead to a winch on the right: inside the corner on the right.
	corner := Bight{Block: Vec{X: 40}, To: Vec{X: 40, Y: -40}}
	inside, flight := corner.Zones(), corner.Flight()
	assert.True(t, in(inside, 30, 35) && flight.Contains(Vec{30, -10, 0}))
	assert.False(t, in(inside, -30, 35) || in(inside, 10, 45) || flight.Contains(Vec{50, 10, 0}))
	assert.Empty(t, Bight{Block: Vec{X: 40}, To: Vec{X: 80}}.Zones())

	// The tree lands 45° to either side, and as far as it drifts where it is not held.
	held, loose := Landing(30, 45*Deg, 0), Landing(30, 45*Deg, 60*Deg)
	assert.True(t, in(held, 44, 29) && in(held, -44, 29) && in(loose, 44, 29) && in(loose, -104, 29))
	assert.False(t, in(held, 46, 20) || in(held, 0, 31) || in(loose, 46, 20) || in(loose, -106, 20))
}
