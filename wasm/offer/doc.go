// Package offer writes the published values that are offered by name beside the
// fields they fit. They are only offered: nothing takes one but the user.
package offer
