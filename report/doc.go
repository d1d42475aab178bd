// Package report turns results into text for people: tables and sentences.
//
// In goes a result of package study; out comes plain text a hundred columns
// wide, or the same result as JSON. Numbers become text through package quantity
// alone. What a person reads says windward and leeward, never a bare sign.
//
// The package computes nothing and refuses to know where its text goes.
package report
