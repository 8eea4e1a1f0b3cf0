// Package arch is the policy of the tree, as data, and the test that enforces
// it: which package may import which, how long a file may be, that what is
// exported is documented, and what may stand nowhere.
//
// The policy says what the house is. If a change breaks the test, the change is
// usually wrong; if the policy is wrong, change it in a commit of its own, with
// the reason in docs/decisions.
package arch
