// Package why splits the difference between two boats into causes that a person
// would name, so that the parts add up to the whole.
//
// In go two sheets, a question about the wind, and which figure of the answer is
// asked about. Out come the causes with their parts by Shapley's value, the same
// for other figures of the best trims, how pairs of causes act on one another, and
// the ledger: what each cause does in a fixed state, with nothing trimmed anew.
//
// The differences of the two boat files are gathered into causes by a table of
// rules on their paths (see Rules), or as the person who asks says. A mixed boat
// has some causes as the second boat has them and the others as the first. The
// worth of every mix that is needed is a full best trim of it.
//
// The package refuses to know which figures there are, how a load comes about and
// how an answer is shown.
package why
