//go:build !race

package mend_test

// designs is how many random plants have their repairs tried.
const designs = 5000
