package study

// Version is the program's version, shown in every result.
const Version = "0.1.0"

// Kernel names the arithmetic that computes the water's influences: plain Go.
const Kernel = "scalar"
