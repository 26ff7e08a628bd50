// Package form asks for the fields of a plan or of a gear list, and turns what
// is typed into them into changes.
package form
