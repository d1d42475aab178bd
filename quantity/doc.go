// Package quantity turns what a person writes into a quantity with its unit and
// its spread, and turns numbers back into text.
//
// In goes one piece of text and the dimension that is wanted there; out comes a
// value in SI (angles in radians, temperatures in kelvin), its distribution, and
// the unit that it was written in, or an [*Error] that says what is wrong, where,
// and what would do instead.
//
//	5.20 m                      exact
//	5.20 m ± 0.05 m             normal; ± (also +/- and +-) is one standard deviation
//	5.20 ± 0.05 m               the same: a unit serves the bare numbers before it
//	1180 kg ± 2 %               a deviation of 2 % of the value
//	5.1 to 5.3 m                uniform
//	5.1 / 5.2 / 5.4 m           low, likely and high: triangular
//	6 x 88 kg                   a count times a quantity (also ×)
//	1.00 ± 0.50 within 0 to 2   a normal whose tails are cut, see [Cut]
//
// [ParseRange] reads limits (12 to 32 deg, at least 0.15 m, at most 24 kN) and
// [ParseList] the points of a sweep (8, 10, 12 kn or 8 to 20 kn by 2). Units are
// case-sensitive, since kN and kn are both in daily use. The decimal sign is a
// point; thousands are not set apart.
//
// [Format] and its relatives are the only place in the program where a number
// becomes text.
//
// The package refuses to know boats, files and YAML: it has no idea which value
// may be negative, where a text stood, or what two quantities share. It imports
// the standard library and package si.
package quantity
