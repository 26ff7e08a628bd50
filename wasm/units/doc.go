// Package units writes numbers in the units of a user's choice and reads them
// as people type them. A number comes and goes in the unit the plan keeps it
// in; what has to be held is rounded up, what can be relied on down.
package units
