//go:build browser

package browser

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The emptying follows an edit, once what is in sight has been painted: with
// the outflow higher than the lowest level a plant without a pump stops by itself.
func TestEmptyingFollowsAnEdit(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	p.shows("#emptying", "the transfer takes")
	p.typed("pump.kind", "none")
	p.typed("delivery.height", "1.5 m")
	p.until(`document.querySelector("#emptying").textContent.includes("dies of itself")`)
	assert.NotEmpty(t, p.text("#figure-level-of-rest .value"))
	p.until(`document.querySelector("#figure-level-of-air .formula sub") !== null || document.querySelector("#figure-transfer-time .formula sub") !== null`)
}
