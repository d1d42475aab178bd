package web

import (
	"context"
	"encoding/json"
	"slices"
	"sync"

	"github.com/coder/websocket"
)

// Heard is what the desk tells pages without having been asked.
type Heard struct {
	Event string `json:"event"`
	Body  any    `json:"body"`
}

// pages are the pages that are open.
type pages struct {
	mu   sync.Mutex
	open []*talk
}

// mostPages is how many pages may be open at a time.
const mostPages = 32

// join takes a page in; false where there are too many.
func (p *pages) join(t *talk) bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	if len(p.open) >= mostPages {
		return false
	}
	p.open = append(p.open, t)
	return true
}

func (p *pages) leave(t *talk) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.open = slices.DeleteFunc(p.open, func(o *talk) bool { return o == t })
}

// cry tells all pages of an event. What is about the same thing takes the place of what
// a page has not yet taken: a slow page misses steps and never the last.
func (d *Desk) cry(event, about string, body any) {
	text, err := json.Marshal(Heard{event, body})
	if err != nil {
		return // events are the desk's own types, which can be written
	}
	d.pages.mu.Lock()
	defer d.pages.mu.Unlock()
	for _, t := range d.pages.open {
		t.news.put(event+" "+about, text)
	}
}

// news are events that a page has not yet taken.
type news struct {
	mu    sync.Mutex
	order []string
	texts map[string][]byte
	ready chan struct{}
}

func newNews() *news { return &news{texts: map[string][]byte{}, ready: make(chan struct{}, 1)} }

func (n *news) put(key string, text []byte) {
	n.mu.Lock()
	defer n.mu.Unlock()
	if _, there := n.texts[key]; !there {
		n.order = append(n.order, key)
	}
	n.texts[key] = text
	select {
	case n.ready <- struct{}{}:
	default:
	}
}

func (n *news) take() [][]byte {
	n.mu.Lock()
	defer n.mu.Unlock()
	var all [][]byte
	for _, key := range n.order {
		all = append(all, n.texts[key])
	}
	n.order = nil
	clear(n.texts)
	return all
}

// crying sends events to a page until it goes.
func (p *talk) crying(ctx context.Context) {
	for {
		select {
		case <-ctx.Done():
			return
		case <-p.news.ready:
		}
		for _, text := range p.news.take() {
			p.write(ctx, text)
		}
	}
}

// write sends a message. A page that does not take it in time is let go.
func (p *talk) write(ctx context.Context, text []byte) {
	own, cancel := context.WithTimeout(ctx, writeTime)
	defer cancel()
	_ = p.conn.Write(own, websocket.MessageText, text)
}
