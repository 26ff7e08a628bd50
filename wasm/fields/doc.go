// Package fields is the one catalogue of the fields of a plan: how each is
// named and explained, what it measures and what there is to choose from.
package fields
