package bench

import "pullline/wasm/words"

// Marks that the pictures of the benches share.

// sheaveFriction is where the loss at a sheave comes from.
const sheaveFriction words.Text = "statics: friction of the pin in proportion to the load on it"

// anchorNote says what every number about an anchor is.
func (b *work) anchorNote() {
	b.note("anchor_estimate", words.AnchorEstimate, words.CommonPractice)
}

// leftOut says what the bench does not count.
func (b *work) leftOut(message words.Text, args ...string) {
	b.note("left_out", message, "what this bench covers", args...)
}
