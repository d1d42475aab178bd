package odds

import (
	"crypto/sha256"
	_ "embed"
	"encoding/binary"
	"fmt"
	"math/bits"
	"strconv"
	"strings"
)

//go:embed directions.txt
var directions string

// sobolBits is how many binary digits the points of the sequence have. Digits
// below them come from the scramble alone.
const sobolBits = 32

// MostUnknowns is how many dimensions the table of direction numbers has.
const MostUnknowns = 256

// sequence is one dimension of a Sobol sequence: its direction numbers, the
// binary point before the first bit.
type sequence [sobolBits]uint32

// sequences returns the first dimensions of the Sobol sequence (Sobol' 1967) by
// the direction numbers of Joe and Kuo (2008): the first dimension is van der
// Corput's, the others follow from a primitive polynomial of degree s,
// coefficients a, and initial numbers m₁ … m_s.
func sequences(count int) ([]sequence, error) {
	if count > MostUnknowns {
		return nil, fmt.Errorf("%d unknowns are more than the %d that can be drawn\nhint: make figures exact that do not matter", count, MostUnknowns)
	}
	all := make([]sequence, 0, MostUnknowns)
	var first sequence
	for i := range first {
		first[i] = 1 << (sobolBits - 1 - i)
	}
	all = append(all, first)
	for row := range strings.Lines(directions) {
		if strings.HasPrefix(row, "#") {
			continue
		}
		var numbers []uint32
		for _, field := range strings.Fields(row) {
			n, err := strconv.ParseUint(field, 10, 32)
			if err != nil {
				panic("internal error: direction numbers: " + err.Error())
			}
			numbers = append(numbers, uint32(n))
		}
		all = append(all, directed(int(numbers[1]), numbers[2], numbers[3:]))
	}
	return all[:max(count, 0)], nil
}

// directed returns the direction numbers that follow from a polynomial and its
// initial numbers: Bratley and Fox (1988), equation 2.
func directed(degree int, inner uint32, initial []uint32) sequence {
	var v sequence
	for i := range v {
		if i < degree {
			v[i] = initial[i] << (sobolBits - 1 - i)
			continue
		}
		v[i] = v[i-degree] ^ v[i-degree]>>degree
		for k := 1; k < degree; k++ {
			if inner>>(degree-1-k)&1 == 1 {
				v[i] ^= v[i-k]
			}
		}
	}
	return v
}

// at returns the point of an index as binary digits. Points come in the order of
// the Gray code of their index (Antonov and Saleev 1979): every run of a power of
// two that begins at a multiple of it holds the same points as in plain order.
func (s *sequence) at(index uint32) uint32 {
	gray, x := index^index>>1, uint32(0)
	for ; gray != 0; gray &= gray - 1 {
		x ^= s[bits.TrailingZeros32(gray)]
	}
	return x
}

// scramble is one unknown's own nested uniform scramble (Owen 1995): each binary
// digit is turned over or not by a fair coin that depends on the digits before
// it. The coins are a hash of the scramble's key, which itself is one of seed and
// identity, and of those digits, so that nothing is stored: the idea of Burley
// (2020), with a coin for each digit in place of his permutation of all at once.
type scramble uint64

// scrambleOf returns the scramble of a seed and an unknown's name.
func scrambleOf(seed uint64, name string) scramble {
	sum := sha256.Sum256(fmt.Appendf(nil, "%d %s", seed, name))
	return scramble(binary.LittleEndian.Uint64(sum[:]))
}

// apply returns the scrambled point in (0, 1), on the middles of 2⁵³ intervals.
func (s scramble) apply(x uint32) float64 {
	turned := uint64(0)
	for digit := range sobolBits {
		before := uint64(x) >> (sobolBits - digit) // the digits ahead of this one
		turned = turned<<1 | mixed(uint64(s)+mixed(before|1<<(digit+sobolBits)))&1
	}
	const more = 53 - sobolBits
	low := mixed(uint64(s)^mixed(uint64(x)|1<<63)) >> (64 - more)
	whole := (turned^uint64(x))<<more | low
	return (float64(whole) + 0.5) / (1 << 53)
}

// mixed is the finaliser of splitmix64 (Steele, Lea and Flood 2014).
func mixed(z uint64) uint64 {
	z += 0x9e3779b97f4a7c15
	z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9
	z = (z ^ (z >> 27)) * 0x94d049bb133111eb
	return z ^ (z >> 31)
}

// Points are scrambled Sobol points in the unit cube, one dimension for each
// name. They never change and may be shared between goroutines.
type Points struct {
	sequences []sequence
	scrambles []scramble
}

// NewPoints returns the points of a seed. The scramble of a dimension is a pure
// function of seed and name; the sequence is that of the name's place.
func NewPoints(seed uint64, names []string) (*Points, error) {
	all, err := sequences(len(names))
	if err != nil {
		return nil, err
	}
	p := &Points{sequences: all}
	for _, name := range names {
		p.scrambles = append(p.scrambles, scrambleOf(seed, name))
	}
	return p, nil
}

// At returns coordinate dimension of the point of an index, in (0, 1).
func (p *Points) At(index uint32, dimension int) float64 {
	return p.scrambles[dimension].apply(p.sequences[dimension].at(index))
}
