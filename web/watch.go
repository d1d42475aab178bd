package web

import (
	"context"
	"io/fs"
	"time"
)

// watchTime is how often the folder is looked at for files that changed.
const watchTime = time.Second

// seen is how a file looked when the folder was last looked at.
type seen struct {
	modified time.Time
	size     int64
}

// watch tells the pages of files that appear, change or go, until the context ends.
func (d *Desk) watch(ctx context.Context) {
	tick := time.NewTicker(watchTime)
	defer tick.Stop()
	before := d.look()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		now := d.look()
		for name, is := range now {
			if was, known := before[name]; !known || was != is {
				d.changed(name)
			}
		}
		for name := range before {
			if _, there := now[name]; !there {
				d.changed(name)
			}
		}
		before = now
	}
}

// look returns the files of the folder as they look.
func (d *Desk) look() map[string]seen {
	all := map[string]seen{}
	d.walk(func(name string, e fs.DirEntry) {
		if info, err := e.Info(); err == nil {
			all[name] = seen{info.ModTime(), info.Size()}
		}
	})
	return all
}

// Changed is a file that is not as it was.
type Changed struct {
	File    string `json:"file"`
	Version string `json:"version"` // of what stands there now; empty where it is gone
}

func (d *Desk) changed(name string) {
	// What cannot be read counts as gone.
	disk, _ := d.onDisk(name)
	d.cry("files", name, Changed{name, disk.Version})
}
