// Package marking marks the answers that students type, and says of a wrong
// one which common mistake leads to it.
package marking
