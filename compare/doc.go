// Package compare puts boats side by side: the best trim of each in the same
// wind, and what differs between them.
//
// In go boats and one request; out come their answers, a table of differences
// with its base, the differences in the balance sheet, and the side force that
// each can carry at one height stated for all.
//
// The package tells what differs, never why: it refuses to know causes, and it
// knows no files and no text for people beyond the names of figures.
package compare
