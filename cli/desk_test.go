package cli

import (
	"net"
	"path/filepath"
	"testing"
)

// A folder's desk comes back to its address, by whatever name the folder is opened, and
// takes another where that is in use.
func TestDeskHasAnAddressOfItsOwn(t *testing.T) {
	folder := t.TempDir()
	same := filepath.Join(folder, "..", filepath.Base(folder))
	if a, b := usualAddress(folder), usualAddress(same); a != b {
		t.Errorf("one folder has %s and %s", a, b)
	}
	if a, b := usualAddress(folder), usualAddress(filepath.Join(folder, "other")); a == b {
		t.Errorf("two folders share %s", a)
	}
	first, err := (&deskCommand{Folder: folder}).listen()
	if err != nil {
		t.Fatal(err)
	}
	defer first.Close()
	second, err := (&deskCommand{Folder: folder}).listen()
	if err != nil {
		t.Fatal(err)
	}
	defer second.Close()
	for _, l := range []net.Listener{first, second} {
		if !l.Addr().(*net.TCPAddr).IP.IsLoopback() {
			t.Errorf("%s is not the loopback", l.Addr())
		}
	}
	if first.Addr().String() == second.Addr().String() {
		t.Errorf("two desks have %s", first.Addr())
	}
}
