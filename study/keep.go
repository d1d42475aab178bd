package study

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"runtime/debug"

	"foilwright/batch"
	"foilwright/odds"
)

// Names of what a kept study holds, beside the pieces of its samples.
const (
	runFile     = "run.json"
	samplesFile = SamplesFile
	samplesKept = "samples"
	tornadoKept = "tornado"
	windsKept   = "winds"
)

// SamplesFile is what a keeper has the samples of finished odds under.
const SamplesFile = "samples.parquet"

// Pieces returns the names of all that a keeper has of work that is not done, files and
// folders of them: once there is an answer they are of no more use.
func Pieces() []string { return []string{runFile, samplesKept, tornadoKept, windsKept} }

// kept is what run.json tells of the study that a keeper holds.
type kept struct {
	Identity string   `json:"identity"` // SHA-256 of all that a sample depends on
	Version  string   `json:"version"`
	Kernel   string   `json:"kernel"`
	Seed     uint64   `json:"seed"`
	Boats    []string `json:"boats"` // fingerprints
	Caution  string   `json:"caution"`
}

// runners returns the ways of doing the question's work: with a keeper, what an
// earlier run of the same question left is taken up.
func (q *Odds) runners(d *desk) (odds.Runners, error) {
	cores := batch.Cores(d.request.Workers)
	if d.request.Keep == nil {
		return odds.Runners{Samples: cores, Tornado: cores}, nil
	}
	identity, err := q.identity(d)
	if err != nil {
		return odds.Runners{}, err
	}
	run := kept{Identity: identity, Version: Version, Kernel: Kernel, Seed: q.Seed, Caution: Caution}
	for _, s := range d.sheets {
		run.Boats = append(run.Boats, s.Fingerprint())
	}
	text, err := json.MarshalIndent(run, "", "  ")
	if err != nil {
		return odds.Runners{}, fmt.Errorf("internal error: the run cannot be written: %w", err)
	}
	text = append(text, '\n')
	before, err := d.request.Keep.Get(runFile)
	switch {
	case err != nil:
		return odds.Runners{}, err
	case before == nil:
		err = d.request.Keep.Put(runFile, text)
	case !bytes.Equal(before, text):
		err = fmt.Errorf("the folder for results holds another run: other boats, another question, seed or version of the program\nhint: name another folder, or remove that one; more samples of the same question may go into it")
	}
	return odds.Runners{
		Samples: batch.Kept(cores, d.request.Keep, samplesKept, identity),
		Tornado: batch.Kept(cores, d.request.Keep, tornadoKept, identity),
	}, err
}

// piece returns a part of an answer, one wind's or all of it: as the keeper has it, or made, and then
// kept. A part that was kept has what its JSON holds.
func piece[T any](ctx context.Context, d *desk, q Question, number int, made func() (T, error)) (T, error) {
	var part T
	if d.request.Keep == nil {
		return made()
	}
	question, err := json.Marshal(q)
	if err != nil {
		return part, fmt.Errorf("internal error: the question cannot be written: %w", err)
	}
	prints := make([]string, len(d.sheets))
	for i, s := range d.sheets {
		prints[i] = s.Fingerprint()
	}
	fresh := false
	run := batch.Kept(batch.Cores(1), d.request.Keep, windsKept, fingerprint(Build(), prints, q.Verb(), question))
	err = run(ctx, batch.Work{From: number, Until: number + 1,
		Do: func(context.Context, int) ([]byte, error) {
			fresh = true
			if part, err = made(); err != nil {
				return nil, err
			}
			return json.Marshal(part)
		},
		Take: func(_ int, text []byte) error {
			if fresh {
				return nil
			}
			return json.Unmarshal(text, &part)
		},
	})
	return part, err
}

// Build tells the program apart from others of its version, where it was built
// from a commit.
func Build() string {
	revision := ""
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" || s.Key == "vcs.modified" {
				revision += " " + s.Value
			}
		}
	}
	return Version + " " + Kernel + revision
}

// fingerprint is a SHA-256 over boats and a question, and what else is said.
func fingerprint(more string, boats []string, verb string, question []byte) string {
	hash := sha256.New()
	if more != "" {
		fmt.Fprintf(hash, "%s\n", more)
	}
	for _, b := range boats {
		fmt.Fprintf(hash, "boat %s\n", b)
	}
	fmt.Fprintf(hash, "%s %s\n", verb, question)
	return fmt.Sprintf("%x", hash.Sum(nil))
}
