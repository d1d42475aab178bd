// Package boatfile turns a boat file into a sheet of quantities, and a sheet
// into a boat.
//
// In goes one YAML file, and by way of an opener the files that it names: the
// boat that it is like, files of shared unknowns, coordinates of sections, a
// resistance curve. Out comes a [Sheet], which knows its uncertain figures and
// their identity, what it assumed, how it differs from another sheet, and which
// [boat.Boat] follows from one draw of its unknowns; or [Faults], every one of
// them with file, line, column and what would do instead.
//
// The Go types in form.go and its neighbours are the format: the reader decodes
// into them and [Schema] is written from them.
//
// The package refuses to know water, wind, forces and results, where files come
// from, and how a fault is shown.
package boatfile
