// Package cli is the command line.
//
// In go arguments and two writers; out come text or JSON and an exit status: 0
// the answer was found, 1 the honest answer is no, 2 the input or the call is
// wrong, 130 interrupted. Nothing is written before it is whole.
//
// The package turns flags into requests of package study and leaves text to
// package report. It refuses to know physics and boats.
package cli
