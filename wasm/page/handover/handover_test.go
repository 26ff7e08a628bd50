package handover

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func ask(t *testing.T, address, code string) View {
	request, err := json.Marshal(map[string]string{"address": address, "code": code})
	require.NoError(t, err)
	var v View
	require.NoError(t, json.Unmarshal(JSON(request), &v))
	return v
}

func TestOneCode(t *testing.T) {
	v := ask(t, "https://example.invalid/", "2n01234567"+strings.Repeat("1234567890", 150))
	require.Len(t, v.Codes, 1)
	assert.True(t, strings.HasPrefix(v.Codes[0].Text, "https://example.invalid/#plan=2n01234567123"))
	assert.LessOrEqual(t, v.Codes[0].Side, 97+8)
}

// Parts put together again are the code, whatever its length.
func TestSeveralCodes(t *testing.T) {
	for _, length := range []int{2100, 4000, 12345, 150000} {
		code := "2n89abcdef" + strings.Repeat("9876543210", length/10+1)[:length]
		v := ask(t, "https://example.invalid/", code)
		require.NotEmpty(t, v.Codes)
		joined := ""
		for _, c := range v.Codes {
			_, part, ok := strings.Cut(c.Text, "#part=")
			require.True(t, ok)
			fields := strings.Split(part, ".")
			require.Len(t, fields, 4)
			assert.Equal(t, "2n89abcdef", fields[2])
			joined += fields[3]
			assert.LessOrEqual(t, c.Side, 97+8)
		}
		assert.Equal(t, code, "2n89abcdef"+joined)
	}
}

func TestNoCode(t *testing.T) {
	assert.Empty(t, ask(t, strings.Repeat("x", 2000), "2n").Codes)
	assert.JSONEq(t, `{"codes": []}`, string(JSON([]byte("nonsense"))))
	assert.JSONEq(t, `{"codes": []}`, string(JSON(nil)))
}

func FuzzJSON(f *testing.F) {
	f.Add([]byte(`{"address": "https://example.invalid/", "code": "2n012345671234"}`))
	f.Fuzz(func(t *testing.T, raw []byte) {
		assert.True(t, json.Valid(JSON(raw)))
	})
}
