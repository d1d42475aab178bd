// Package balance adds up everything that acts on one boat in one state: every
// load item by item, and the six sums that a steady state brings to zero.
//
// In go a boat, a state and the conditions; out come the items, their sum, and
// the figures that an analyst reads off them: wind seen, drag by cause, drag
// angles, the three centres of a foil, the righting-moment budget.
//
// The package does not look for a balance (that is trim) and does not know how
// any load comes about (that is foil, sail and hull).
package balance
