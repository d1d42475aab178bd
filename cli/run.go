package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"runtime"
	"runtime/debug"
	"strings"

	"github.com/alecthomas/kong"

	"foilwright/report"
	"foilwright/study"
)

// The exit statuses.
const (
	found       = 0
	honestNo    = 1
	wrong       = 2
	interrupted = 130 // as shells count a process that a signal ended
)

// Run runs the command line and returns its exit status. args leave out the
// program's own name.
func Run(ctx context.Context, args []string, stdout, stderr io.Writer) (status int) {
	var out, errs bytes.Buffer
	defer func() {
		if p := recover(); p != nil {
			out.Reset()
			errs.Reset()
			fmt.Fprintf(&errs, "internal error: %v\nhint: this is the program's own fault; please report it with the command line, the boat files and the lines below\n"+
				"foilwright %s, %s %s/%s, arguments %q\n%s", p, study.Version, runtime.Version(), runtime.GOOS, runtime.GOARCH, args, debug.Stack())
			status = wrong
		}
		if _, err := stdout.Write(out.Bytes()); err != nil {
			status = wrong
			fmt.Fprintf(&errs, "the answer cannot be written: %v\n", err)
		}
		// Where errors cannot be written either, the status is all that is left.
		_, _ = stderr.Write(errs.Bytes())
	}()
	command, status, err := parse(args, &out)
	if err != nil {
		fmt.Fprintln(&errs, err)
		return status
	}
	if command == nil {
		return status
	}
	if d, ok := command.(*deskCommand); ok {
		return d.serve(ctx, stdout, &errs)
	}
	return run(ctx, command, stderr, &out, &errs)
}

// run answers one command.
func run(ctx context.Context, c command, stderr io.Writer, out, errs *bytes.Buffer) int {
	if s, ok := c.(*checkCommand); ok && s.Schema {
		text, err := study.Schema()
		if err != nil {
			fmt.Fprintln(errs, err)
			return wrong
		}
		out.Write(text)
		return found
	}
	question, err := c.question()
	if err != nil {
		fmt.Fprintln(errs, err)
		return wrong
	}
	request := study.Request{Boats: c.files(), Question: question, Open: open, Workers: runtime.GOMAXPROCS(0)}
	if request.Keep, err = keeper(c); err != nil {
		fmt.Fprintln(errs, err)
		return wrong
	}
	ticker := newTicker(stderr)
	request.Progress, request.Running = ticker.tick, ticker.running
	result, more, err := ask(ctx, c, request)
	ticker.clear()
	switch {
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(errs, "interrupted")
		if o, ok := c.(*oddsCommand); ok && o.Out != "" {
			fmt.Fprintf(errs, "hint: the same call again goes on with what %s holds\n", o.Out)
		}
		return interrupted
	case err != nil:
		fmt.Fprintln(errs, err)
		return wrong
	}
	if err := write(c, result, out, errs, more...); err != nil {
		out.Reset()
		fmt.Fprintln(errs, err)
		return wrong
	}
	switch result.Verdict {
	case study.Answered:
		return found
	case study.HonestNo:
		return honestNo
	}
	return wrong
}

// ask runs a request: all boats in one, or where a picture sets answers of each boat
// side by side one after the other.
func ask(ctx context.Context, c command, r study.Request) (*study.Result, []*study.Result, error) {
	if f, ok := c.(*figureCommand); !ok || !f.apart() {
		result, err := study.Run(ctx, r)
		return result, nil, err
	}
	var all []*study.Result
	for _, file := range c.files() {
		question, err := c.question()
		if err != nil {
			return nil, nil, err
		}
		own := r
		own.Boats, own.Question = []string{file}, question
		result, err := study.Run(ctx, own)
		if err != nil {
			return nil, nil, err
		}
		all = append(all, result)
	}
	return all[0], all[1:], nil
}

// write puts a result into the buffers.
func write(c command, r *study.Result, out, errs *bytes.Buffer, more ...*study.Result) error {
	if r.Verdict == study.Faulty {
		errs.WriteString(report.Faults(r))
	}
	if f, ok := c.(*figureCommand); ok {
		return f.draw(r, out, errs, more...)
	}
	if t, ok := c.(*polarCommand); ok && t.CSV && r.Verdict != study.Faulty {
		return writeCSV(r, out, errs)
	}
	if t, ok := c.(*towCommand); ok && r.Verdict != study.Faulty {
		switch {
		case t.CSV:
			return writeCSV(r, out, errs)
		case len(t.Plot) > 0:
			text, err := report.Plot(r, t.Plot)
			out.WriteString(text)
			return err
		}
	}
	if !c.json() {
		out.WriteString(report.Text(r))
		return nil
	}
	text, err := report.JSON(r)
	out.Write(text)
	return err
}

// writeCSV puts the figures alone on standard output, the caution beside them.
func writeCSV(r *study.Result, out, errs *bytes.Buffer) error {
	text, err := report.CSV(r)
	out.Write(text)
	fmt.Fprintln(errs, r.Caution)
	return err
}

// exit is how the parser ends by itself: after it has shown a page of help.
type exit struct{ status int }

// parse reads the arguments. A nil command without an error is one that has been
// dealt with: help was asked for.
func parse(args []string, out *bytes.Buffer) (c command, status int, err error) {
	defer func() {
		switch p := recover().(type) {
		case nil:
		case exit:
			c, status, err = nil, p.status, nil
		default:
			panic(p)
		}
	}()
	var g grammar
	parser, err := kong.New(&g,
		kong.Name("foilwright"), kong.Description(about), kong.Writers(out, out),
		kong.Exit(func(status int) { panic(exit{status}) }),
		kong.WithHyphenPrefixedParameters(true),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, NoExpandSubcommands: true, WrapUpperBound: 98}),
		kong.Vars{"version": "foilwright " + study.Version, "profiles": study.WindProfiles},
	)
	if err != nil {
		panic(err)
	}
	if len(args) == 0 {
		return nil, wrong, errors.New("no command is given\nhint: foilwright --help lists them; to begin: " + firstExample)
	}
	k, err := parser.Parse(args)
	if err != nil {
		return nil, wrong, fmt.Errorf("%s\nhint: %s", worded(err), helpFor(args))
	}
	return k.Selected().Target.Addr().Interface().(command), found, nil
}

// worded returns a fault of the call in the house's style.
func worded(err error) string {
	words := err.Error()
	if strings.HasPrefix(words, `expected "<file>`) {
		return "no boat file is named"
	}
	return strings.NewReplacer(" but got ", ", not ", "must be one of ", "takes one of ").Replace(words)
}

// helpFor names the page of help for a call.
func helpFor(args []string) string {
	for _, verb := range []string{"check", "levers", "tow", "trim", "polar", "compare", "why", "odds", "figure", "desk"} {
		if args[0] == verb {
			return "foilwright " + verb + " --help tells what it takes"
		}
	}
	return "foilwright --help lists the commands"
}
