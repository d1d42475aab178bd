package batch

import (
	"bytes"
	"context"
	"crypto/sha256"
	"fmt"
)

// Keeper keeps named bytes. Get returns nil for a name that it does not have.
// Put either keeps all of the bytes or none. Both may be called from any
// goroutine.
type Keeper interface {
	Get(name string) ([]byte, error)
	Put(name string, data []byte) error
}

// seal is how many bytes of a kept piece hold its seal.
const seal = sha256.Size

// Kept returns the runner that asks keeper for each piece, under the name
// name/000123, and has inner make and then keeps those that are missing.
//
// A piece is sealed with a SHA-256 over identity, its name and its bytes, so
// that one of other work, or one that was damaged, counts as missing. identity
// must tell all that the pieces depend on.
func Kept(inner Runner, keeper Keeper, name, identity string) Runner {
	return func(ctx context.Context, w Work) error {
		do := w.Do
		w.Do = func(ctx context.Context, piece int) ([]byte, error) {
			called := fmt.Sprintf("%s/%06d", name, piece)
			kept, err := keeper.Get(called)
			if err != nil {
				return nil, err
			}
			if len(kept) >= seal && bytes.Equal(kept[:seal], sealOf(identity, called, kept[seal:])) {
				return kept[seal:], nil
			}
			data, err := do(ctx, piece)
			if err != nil {
				return nil, err
			}
			return data, keeper.Put(called, append(sealOf(identity, called, data), data...))
		}
		return inner(ctx, w)
	}
}

func sealOf(identity, name string, data []byte) []byte {
	h := sha256.New()
	fmt.Fprintf(h, "%q %q %d\n", identity, name, len(data))
	h.Write(data)
	return h.Sum(nil)
}
