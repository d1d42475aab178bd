// Package trim finds the best that a crew can do with one boat: the state in
// which all six equations close and the boat is fastest, or makes best progress
// to windward or leeward, within every limit.
//
// In go a boat, the wind, water and air, and the aim; out comes the best state
// with its loads and figures, the limits that hold it, other optima that were
// met, or the reason why there is no answer.
//
// The search is a constrained minimisation over speed, leeway, heel, pitch,
// height, the wind angle where it is free, and every free control, with the six
// equations as equalities (solve.Minimise), from several starts that are a
// function of the request alone. The set of six variables that close the
// equations is picked at the answer for its condition, and the answer polished
// on it by Newton's method.
//
// The package knows no files and no words for people beyond names of limits
// and controls; it does not know how a load comes about.
package trim
