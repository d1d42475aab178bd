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

// An answer that is kept does not keep the memory that it was computed in: each of ten, of which
// every one had a workspace of its own, holds a fraction of what a workspace does.
func TestAnswersKeepLittleMemory(t *testing.T) {
	b := example(t, sailed[0])
	const answers = 10
	heap := func() uint64 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	search := func(w *trim.Workspace) *trim.Result {
		res, err := trim.Best(context.Background(), b, oneStart(), w)
		if err != nil {
			t.Fatal(err)
		}
		return res
	}
	search(new(trim.Workspace)) // what is made once for all
	before := heap()
	workspaces := make([]trim.Workspace, answers)
	var kept []*trim.Result
	for i := range workspaces {
		kept = append(kept, search(&workspaces[i]))
	}
	with := heap()
	runtime.KeepAlive(workspaces)
	workspaces = nil
	without := heap()
	runtime.KeepAlive(kept)
	t.Logf("an answer holds %.0f kB, a workspace %.0f", float64(without-before)/answers/1e3, float64(with-without)/answers/1e3)
	if without-before > (with-without)/4 {
		t.Errorf("%d answers hold %d bytes, their workspaces hold %d", answers, without-before, with-without)
	}
}
