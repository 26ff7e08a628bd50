package bench

import "pullline/wasm/words"

// Marks that the pictures of the benches share.

// sheaveFriction is where the loss at a sheave comes from.
const sheaveFriction = "statics: friction of the pin in proportion to the load on it"

// anchorNote says what every number about an anchor is.
func (b *work) anchorNote() {
	b.note("anchor_estimate", "What an anchor holds is an estimate until a competent person has judged it in place.", words.CommonPractice)
}

// leftOut says what the bench does not count.
func (b *work) leftOut(message string) {
	b.note("left_out", message, "what this bench covers")
}
