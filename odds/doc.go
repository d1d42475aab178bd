// Package odds tells how sure an answer is: every uncertain figure of some boats
// is drawn, many times, from what their files say of it, and the boats are
// compared in each sample.
//
// In goes a [Plan]: unknowns, each drawn once a sample for all boats that share
// it, and a function that evaluates one sample, which for boats is [Fleet]: a
// full best trim of every boat. Out comes a [Result]: how each boat's progress
// and the difference of every pair is spread, the chance that one is faster, and
// which input that comes from.
//
// Samples are scrambled Sobol points ([Points]). A boat that cannot sail in a
// sample loses it; it is counted and never left out. Which input matters is read
// off a sparse polynomial that is fitted to the samples, whose own error stands
// beside it; unknowns are independent of one another, since what two figures share
// is an unknown of its own.
//
// The package refuses to know files and folders, words for people, and how work
// is spread over cores.
package odds
