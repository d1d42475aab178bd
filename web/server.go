package web

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log"
	"net"
	"net/http"
	"os"
	"sync"
	"time"

	"foilwright/job"
	"foilwright/study"
)

// Desk is a folder of boats, open in a browser.
type Desk struct {
	root  *os.Root
	shelf study.Shelf
	queue *job.Queue
	pages pages

	saving sync.Mutex // held while a file is looked at and written
}

// Open opens a folder. The error says what is wrong with it.
func Open(folder string) (*Desk, error) {
	info, err := os.Stat(folder)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil, fmt.Errorf("%s: there is no such folder\nhint: name a folder with boat files, such as examples/which-foil", folder)
	case err != nil:
		return nil, fmt.Errorf("%s: cannot be opened: %w", folder, errors.Unwrap(err))
	case !info.IsDir():
		return nil, fmt.Errorf("%s: is a file, and a folder is wanted\nhint: name the folder that it is in", folder)
	}
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, fmt.Errorf("%s: cannot be opened: %w", folder, errors.Unwrap(err))
	}
	d := &Desk{root: root}
	d.queue = job.New(root, jobWorkers(), func(s job.State) { d.cry("job", s.ID, s) })
	return d, nil
}

// Close lets go of the folder.
func (d *Desk) Close() error { return d.root.Close() }

// Times after which a connection that says nothing is let go.
const (
	headerTime  = 10 * time.Second
	requestTime = 30 * time.Second // for one request and its answer; not of a socket
	idleTime    = 2 * time.Minute
	writeTime   = 10 * time.Second // for one message
	farewell    = 3 * time.Second
)

// longestHeader is the most that a request may have before its body, bytes.
const longestHeader = 64 << 10

// Serve answers on a listener, and does jobs, until the context ends.
func (d *Desk) Serve(ctx context.Context, l net.Listener) error {
	server := &http.Server{
		Handler: d.guarded(l.Addr()), ReadHeaderTimeout: headerTime, ReadTimeout: requestTime, WriteTimeout: requestTime, IdleTimeout: idleTime,
		MaxHeaderBytes: longestHeader, ErrorLog: log.New(io.Discard, "", 0), // what comes of connections is told to who opened them
		BaseContext: func(net.Listener) context.Context { return ctx },
	}
	ctx, giveUp := context.WithCancel(ctx)
	var beside sync.WaitGroup
	beside.Go(func() { d.queue.Work(ctx) })
	beside.Go(func() { d.watch(ctx) })
	beside.Go(func() { d.foresee(ctx) })
	defer func() {
		giveUp()
		beside.Wait()
	}()
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(few(l, mostConnections)) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), farewell)
	defer cancel()
	if err := server.Shutdown(last); err != nil {
		return server.Close()
	}
	return nil
}

// routes are all that is served.
func (d *Desk) routes() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /live", d.live)
	mux.HandleFunc("GET /files", d.list)
	mux.HandleFunc("GET /texts", d.listTexts)
	mux.HandleFunc("GET /text", d.readText)
	mux.HandleFunc("PUT /text", d.saveText)
	mux.HandleFunc("POST /variant", d.makeVariant)
	mux.HandleFunc("POST /rename", d.renameText)
	mux.HandleFunc("GET /schema", d.schema)
	mux.Handle("GET /", page())
	return mux
}
