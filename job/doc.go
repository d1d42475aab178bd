// Package job does long questions in the background, one at a time, and keeps each in
// a run folder beside the boats.
//
// In goes a [Request]: a question about some boats, with an opener for their files. It
// becomes a folder runs/<date>-<verb>-<boats>-<fingerprint>, and out come its [State]
// and its answer. The folder holds request.json,
// with the text of every file as it was when the question was asked; state.json, how far
// the work has come; pieces of the work; and in the end result.json and answer.txt.
// Files are whole or not there. Work that a program left unfinished, however it ended,
// is taken up by the next one from the pieces that it finds.
//
// The package refuses to know physics, browsers and networks. It leaves one core of the
// machine free, and touches nothing outside of its folder.
package job
