package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
	"net"
	"os/exec"
	"path/filepath"
	"runtime"

	"foilwright/study"
	"foilwright/web"
)

type deskCommand struct {
	Folder string `arg:"" optional:"" default:"." help:"The folder with boat files; else the one that you are in."`
	Listen string `placeholder:"127.0.0.1:0" help:"Listen on this address and port; else on the loopback, where only this machine reaches it, on a free port: the same one for the same folder where it can be had, since browsers keep drafts by address."`
	NoOpen bool   `help:"Do not open the browser."`
}

func (*deskCommand) files() []string { return nil }
func (*deskCommand) json() bool      { return false }

func (*deskCommand) question() (study.Question, error) {
	return nil, errors.New("internal error: the desk asks its questions itself")
}

// Help shows an example.
func (*deskCommand) Help() string {
	return `The address is the first line that is printed. Ctrl-C ends it; what runs is taken up the next time.

Example:
  foilwright desk examples/which-foil`
}

// serve opens the desk until the context ends.
func (c *deskCommand) serve(ctx context.Context, stdout io.Writer, errs *bytes.Buffer) int {
	desk, err := web.Open(c.Folder)
	if err != nil {
		fmt.Fprintln(errs, err)
		return wrong
	}
	defer desk.Close()
	l, err := c.listen()
	if err != nil {
		fmt.Fprintf(errs, "--listen: %s: %v\nhint: another program may have the port; 127.0.0.1:0 takes a free one\n", c.Listen, err)
		return wrong
	}
	address := "http://" + l.Addr().String() + "/"
	if _, err := fmt.Fprintln(stdout, address); err != nil {
		fmt.Fprintf(errs, "the address cannot be written: %v\n", err)
		return wrong
	}
	if host, _, err := net.SplitHostPort(l.Addr().String()); err == nil && !net.ParseIP(host).IsLoopback() {
		fmt.Fprintln(stdout, "Anyone who reaches this address can read and change the boats in the folder.")
	}
	if !c.NoOpen {
		browse(address)
	}
	if err := desk.Serve(ctx, l); err != nil {
		fmt.Fprintf(errs, "the desk ended: %v\n", err)
		return wrong
	}
	return found
}

// listen opens the address to listen on.
func (c *deskCommand) listen() (net.Listener, error) {
	if c.Listen != "" {
		return net.Listen("tcp", c.Listen)
	}
	if l, err := net.Listen("tcp", usualAddress(c.Folder)); err == nil {
		return l, nil
	}
	return net.Listen("tcp", "127.0.0.1:0")
}

// usualAddress returns the address that a folder's desk has unless it is taken: its
// port, of those for passing use (RFC 6335), follows from the folder's path.
func usualAddress(folder string) string {
	const first, many = 49152, 16384
	if whole, err := filepath.Abs(folder); err == nil {
		folder = whole
	}
	hash := fnv.New32a()
	hash.Write([]byte(folder))
	return fmt.Sprintf("127.0.0.1:%d", first+hash.Sum32()%many)
}

// browse opens an address in the person's browser. Where there is none, the printed
// address is what they have.
func browse(address string) {
	name, args := "xdg-open", []string{address}
	switch runtime.GOOS {
	case "darwin":
		name = "open"
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", address}
	}
	command := exec.Command(name, args...)
	if command.Start() == nil {
		_ = command.Process.Release() // nobody waits for a browser
	}
}
