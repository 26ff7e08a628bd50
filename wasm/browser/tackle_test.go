package browser

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A tackle is reeved by keyboard, one place after another: no number until it
// is whole, the focus stays at hand, and the address brings it back.
func TestTackleReevedByKeyboard(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := class(t, engine, Options{}, "?view=bench&bench=tackle&units=kN&words=nz")
		for _, do := range []string{"reeve-anew", "reeve-to-L", "reeve-to-A", "reeve-to-L", "reeve-to-H"} {
			require.NoError(t, p.Run(`document.querySelector('#view-bench [data-do="'+arguments[0]+'"]').focus()`, do))
			require.NoError(t, p.Press(Enter))
			var near bool
			require.NoError(t, p.Script(&near, `return Boolean(document.activeElement.closest("#view-bench .actions"))`))
			assert.True(t, near, "focus after %s", do)
			if b := benchOn(t, p); do != "reeve-to-H" {
				assert.Equal(t, "Not known", b.Main, do)
				assert.Equal(t, "unknown", b.State, do)
			}
		}
		b := benchOn(t, p)
		assert.Equal(t, "LALH", b.Values["reeving"])
		assert.Equal(t, benchFact(t, "tackle", map[string]string{"tackle": "own", "reeving": "LALH"}), b.Main)
		require.NoError(t, p.Reload())
		_, err := p.WaitFor("[data-verdict]", wait)
		require.NoError(t, err)
		assert.Equal(t, b.Main, benchOn(t, p).Main)

		x, y := handleAt(t, p, "bench/haul")
		require.NoError(t, p.Drag("mouse", x, y, x-40, y, 4))
		assert.NotEqual(t, b.Values["hauled_m"], benchOn(t, p).Values["hauled_m"])
	})
}
