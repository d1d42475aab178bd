package study

import "foilwright/lattice"

// Version is the program's version, shown in every result.
const Version = "0.1.0"

// Kernel names the arithmetic that computed the water's influences: plain Go, or
// the vectors of the processor. All give the same bits.
var Kernel = lattice.Kernel()
