package study

import (
	"errors"
	"slices"
)

// Gather reads boats as [Run] does, and returns the text of every file that makes them,
// by its name: with these alone they can be asked about again, whatever becomes of the
// files. The error tells what is wrong with the files, one fault to a line.
func Gather(boats []string, open func(name string) ([]byte, error)) (map[string]string, []Source, error) {
	files := map[string]string{}
	noted := func(name string) ([]byte, error) {
		text, err := open(name)
		if err == nil {
			files[name] = string(text)
		}
		return text, err
	}
	d := &desk{request: &Request{Boats: slices.Clone(boats), Open: noted}}
	if len(boats) == 0 {
		return nil, nil, errors.New("no boat file is named\nhint: name one")
	}
	if err := d.read(); err != nil {
		return nil, nil, err
	}
	return files, d.sources(), nil
}

// soFar returns what tells the answer so far; nil where nobody listens.
func soFar[T any](d *desk, q Question) func(T) {
	if d.request.Running == nil {
		return nil
	}
	return func(results T) {
		if r, err := d.result(q, Answered, results); err == nil {
			d.request.Running(r)
		}
	}
}
