// Package accuracy sets values that tests compute beside the outside values
// they are held against, so that one table can show them all.
//
// In goes a row: which published value, what the program makes of it, and how
// far apart the two may be. Out comes a failed test where they are further apart
// (Check), and a line in the test's log (Check and Note) that Parse reads back;
// docs/physics.md is made from such lines.
//
// It serves tests alone: no program imports it. It knows no physics and no
// tolerance of its own; what is true stands in the published files, how near is
// near enough in the tests.
package accuracy
