// Package study is the single door for every face: a request goes in, boats and
// one question, and a result comes out that can be printed, saved and compared.
//
// The request names files; an opener that the face supplies reads them. The
// result carries the program's version, the kernel that computed it, and a
// fingerprint of everything that went in, so that a figure can be traced.
//
// The package holds no physics and writes nothing for people to read but errors:
// text and tables are package report's. It refuses to know where files come
// from, command lines, screens and networks.
package study
