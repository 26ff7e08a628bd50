package browser

import (
	"bytes"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// scanned reads the QR code that the page shows, with a general-purpose decoder
// in the place of the other phone's camera.
func scanned(t *testing.T, p *Page) string {
	t.Helper()
	png, err := p.Screenshot()
	require.NoError(t, err)
	command := exec.Command("zbarimg", "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", "-")
	command.Stdin = bytes.NewReader(png)
	out, err := command.Output()
	require.NoError(t, err, "zbarimg (Debian zbar-tools) reads no code in the picture")
	return strings.TrimSuffix(string(out), "\n")
}

// A plan goes to another phone by its camera, in one code or in several.
func TestHandedOverByQRCode(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		for name, text := range map[string]string{"example": string(site(t).Site["demo.json"]), "several codes": bigPlan(3000)} {
			p, s := plansSite(t, engine)
			inPage(t, p, nil, `
				const { showSending } = await module("sending");
				await showSending(JSON.parse(args[0]));
				await click("[data-do=show-qr]");
				await until(() => document.querySelector(".qr svg"));`, text)
			shot(t, p, name)
			links := []string{scanned(t, p)}
			for {
				var more bool
				require.NoError(t, p.Script(&more, `return Boolean(document.querySelector("[data-do=qr-next]:enabled"))`))
				if !more {
					break
				}
				inPage(t, p, nil, `await click("[data-do=qr-next]");`)
				links = append(links, scanned(t, p))
			}
			assert.Equal(t, name == "example", len(links) == 1)
			for i, link := range links {
				require.True(t, strings.HasPrefix(link, s.URL()+"#"), link)
				require.NoError(t, p.Go("about:blank"))
				visit(t, p, link)
				if i+1 < len(links) {
					inPage(t, p, nil, `await until(() => document.querySelector("[data-bar=file]"));`)
					shot(t, p, name+" waiting")
				}
			}
			inPage(t, p, nil, `
				await until(() => document.querySelector("dialog .look"));
				await click("dialog button.main");
				await gone();
				const { state } = await module("state");
				await until(() => state.plan.name === JSON.parse(args[0]).name);`, text)
			assert.JSONEq(t, text, planNow(t, p), name)
			quiet(t, p)
		}
	})
}
