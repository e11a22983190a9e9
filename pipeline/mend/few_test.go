//go:build race

package mend_test

// Under the race detector each takes ten times as long, and there is no race
// in it to find: a part of them does.
const designs = 250
