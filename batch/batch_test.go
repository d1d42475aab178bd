package batch

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"
)

// squares is work whose pieces take turns in how long they take.
func squares(n int, took *[]string) Work {
	return Work{Until: n,
		Do: func(_ context.Context, piece int) ([]byte, error) {
			time.Sleep(time.Duration(piece*7%5) * 100 * time.Microsecond)
			return fmt.Appendf(nil, "%d", piece*piece), nil
		},
		Take: func(piece int, made []byte) error {
			*took = append(*took, fmt.Sprintf("%d:%s", piece, made))
			return nil
		},
	}
}

// Pieces are taken in order, each once, on any number of goroutines.
func TestCoresTakeInOrder(t *testing.T) {
	var want []string
	for i := range 200 {
		want = append(want, fmt.Sprintf("%d:%d", i, i*i))
	}
	for _, workers := range []int{0, 1, 2, 7} {
		var took []string
		if err := Cores(workers)(t.Context(), squares(200, &took)); err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(took, want) {
			t.Errorf("%d goroutines: took %v", workers, took)
		}
	}
	if err := Cores(2)(t.Context(), Work{From: 3, Until: 3}); err != nil {
		t.Errorf("no pieces: %v", err)
	}
}

// The first piece that fails for itself is the error; what was taken before is an
// unbroken beginning.
func TestCoresTellTheFirstFault(t *testing.T) {
	fault := errors.New("piece 41 is broken")
	for _, workers := range []int{1, 3} {
		var took []string
		w := squares(100, &took)
		do := w.Do
		w.Do = func(ctx context.Context, piece int) ([]byte, error) {
			if piece == 41 {
				return nil, fault
			}
			if piece > 41 {
				<-ctx.Done()
				return nil, ctx.Err()
			}
			return do(ctx, piece)
		}
		if err := Cores(workers)(t.Context(), w); !errors.Is(err, fault) {
			t.Errorf("%d goroutines: error %v, want %v", workers, err, fault)
		}
		for i, got := range took {
			if !strings.HasPrefix(got, fmt.Sprintf("%d:", i)) {
				t.Errorf("%d goroutines: place %d holds %s", workers, i, got)
			}
		}
		if len(took) > 41 {
			t.Errorf("%d goroutines: %d pieces were taken past the fault", workers, len(took)-41)
		}
	}
	stop := errors.New("enough")
	w := squares(50, new([]string))
	w.Take = func(int, []byte) error { return stop }
	if err := Cores(2)(t.Context(), w); !errors.Is(err, stop) {
		t.Errorf("error %v, want that of Take", err)
	}
}

func TestCoresCanBeInterrupted(t *testing.T) {
	ctx, interrupt := context.WithCancel(t.Context())
	var took []string
	w := squares(1000, &took)
	take := w.Take
	w.Take = func(piece int, made []byte) error {
		if piece == 20 {
			interrupt()
		}
		return take(piece, made)
	}
	if err := Cores(2)(ctx, w); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want that of the context", err)
	}
	if len(took) == 1000 {
		t.Error("nothing was given up")
	}
}

func TestCoresRaisePanics(t *testing.T) {
	defer func() {
		if p := recover(); p != "internal error: odd" {
			t.Errorf("raised %v", p)
		}
	}()
	w := squares(20, new([]string))
	w.Do = func(context.Context, int) ([]byte, error) { panic("internal error: odd") }
	t.Error(Cores(2)(t.Context(), w))
}

// Kept pieces are not made again; those of other work and damaged ones are.
func TestKept(t *testing.T) {
	folder := Folder(t.TempDir())
	run := func(identity string, n int) (made int, took []string) {
		var count atomic.Int64
		w := squares(n, &took)
		do := w.Do
		w.Do = func(ctx context.Context, piece int) ([]byte, error) {
			count.Add(1)
			return do(ctx, piece)
		}
		if err := Kept(Cores(2), folder, "samples", identity)(t.Context(), w); err != nil {
			t.Fatal(err)
		}
		return int(count.Load()), took
	}
	made, first := run("one", 30)
	if made != 30 {
		t.Errorf("%d pieces were made of 30", made)
	}
	made, second := run("one", 40)
	if made != 10 || !slices.Equal(second[:30], first) {
		t.Errorf("%d pieces were made again, want the 10 new ones: %v", made, second)
	}
	if made, _ = run("two", 40); made != 40 {
		t.Errorf("%d pieces were made of other work, want all 40", made)
	}
	at := filepath.Join(string(folder), "samples", "000007")
	data, err := os.ReadFile(at)
	if err != nil {
		t.Fatal(err)
	}
	data[len(data)-1] ^= 1
	for _, damaged := range [][]byte{data, data[:10], nil} {
		if err := os.WriteFile(at, damaged, 0o666); err != nil {
			t.Fatal(err)
		}
		if made, again := run("two", 40); made != 1 || !slices.Equal(again, second) {
			t.Errorf("%d pieces were made after one was damaged: %v", made, again)
		}
	}
}

// A file is whole or not there, and what a killed run left is tidied.
func TestFolder(t *testing.T) {
	folder := Folder(t.TempDir())
	if data, err := folder.Get("samples/000001"); data != nil || err != nil {
		t.Errorf("a file that is not there: %q, %v", data, err)
	}
	if err := os.MkdirAll(filepath.Join(string(folder), "samples"), 0o777); err != nil {
		t.Fatal(err)
	}
	left := filepath.Join(string(folder), "samples", "000001.123.part")
	if err := os.WriteFile(left, []byte("ha"), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := folder.Put("samples/000001", []byte("half and half")); err != nil {
		t.Fatal(err)
	}
	data, err := folder.Get("samples/000001")
	if err != nil || !bytes.Equal(data, []byte("half and half")) {
		t.Errorf("kept %q, %v", data, err)
	}
	names, err := filepath.Glob(filepath.Join(string(folder), "samples", "*"))
	if err != nil || len(names) != 1 {
		t.Errorf("the folder holds %v, %v", names, err)
	}
	if err := os.WriteFile(filepath.Join(string(folder), "plain"), nil, 0o666); err != nil {
		t.Fatal(err)
	}
	if err := folder.Put("plain/000001", nil); err == nil || !strings.Contains(err.Error(), "cannot be written") {
		t.Errorf("a file in the way of a folder: %v", err)
	}
	if _, err := folder.Get("samples"); err == nil || !strings.Contains(err.Error(), "cannot be read") {
		t.Errorf("a folder in place of a file: %v", err)
	}
}
