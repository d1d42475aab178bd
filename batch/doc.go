// Package batch does many pieces of work over a machine's cores, in such a way
// that nobody can tell afterwards how many cores there were, or whether the
// work was killed half-way and taken up again.
//
// In goes [Work], a function that turns the number of a piece into bytes; out
// come those bytes in the order of the pieces. A [Runner] is a way of doing
// work: [Cores] does it on goroutines, and [Kept] wraps another runner so that
// finished pieces are kept by a [Keeper] and not done again. [Folder] keeps
// them in files.
//
// The package refuses to know what the pieces are about, boats and figures, and
// how progress is shown.
package batch
