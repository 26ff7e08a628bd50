package rigging

import (
	"errors"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The start of the whole solution, and by itself, are the same number.
func TestStartIsThatOfTheWholePull(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	solved := 0
	for range 200 {
		s := randomSetup(r)
		p, err := s.Solve()
		if err != nil {
			continue
		}
		solved++
		start, err := s.Start()
		assert.NoError(t, err)
		assert.Equal(t, p.Start, start)
	}
	assert.Positive(t, solved)
}

func TestStartWithoutPull(t *testing.T) {
	s := randomSetup(rand.New(rand.NewPCG(1, 1)))
	s.Lines = nil
	_, err := s.Start()
	assert.ErrorIs(t, err, ErrNoPullLine)
	// A line that runs to a place behind the tree pulls it off the lay.
	s = Setup{Tree: Tree{Height: 20, Diameter: 0.5, FormFactor: 0.4, Density: 900, Strength: 40 * MPa},
		Hinge: GuideHinge(0.5), FaceOpening: 70 * Deg, Allowance: 1}
	s.Lines = []Line{{Share: 1, Path: []Station{StemStation(s.Tree, 0, 10, 1), {At: Vec{X: -20}}}}}
	_, err = s.Start()
	var cannot *CannotPullError
	assert.True(t, errors.As(err, &cannot))
}
