// Package draft looks things up in a plan, or a gear list, as it stands while
// it is being written: whatever is missing or wrong.
//
// A path names a place in it the way problems and assumed values do:
// "lines[0].path[1].efficiency". Keys hold no dots or brackets, with one
// exception: whatever follows "plus_minus." is a single key, itself the path
// of the field the give-or-take belongs to.
package draft
