package foilwright_test

import (
	"context"
	"flag"
	"runtime"
	"testing"

	"foilwright/trim"
)

// How many trims in a row are looked at for memory that grows:
//
//	go test -run TestTrimsKeepNoMemory -trims 10000 -timeout 1h .
var trims = flag.Int("trims", 60, "trims in a row whose memory is looked at")

// grain is what the heap may differ by between two halves of a run, bytes: the
// test's own and the runtime's, not one trim's scratch memory.
const grain = 64 << 10

// Trims in a row keep nothing: the heap after the second half is that after the
// first.
func TestTrimsKeepNoMemory(t *testing.T) {
	b := example(t, sailed[0])
	var w trim.Workspace
	base, err := trim.Best(context.Background(), b, oneStart(), &w)
	if err != nil {
		t.Fatal(err)
	}
	half := func() uint64 {
		for k := range *trims / 2 {
			r := request(17 + float64(k%7)/10)
			r.From, r.Starts = base, trim.OnlyFrom
			if _, err := trim.Best(context.Background(), b, r, &w); err != nil {
				t.Fatal(err)
			}
		}
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	first := half()
	second := half()
	t.Logf("%d trims: %.1f MB on the heap half-way, %.1f MB at the end", *trims, float64(first)/1e6, float64(second)/1e6)
	if second > first+grain {
		t.Errorf("the heap grew by %d bytes over %d trims", second-first, *trims/2)
	}
}
