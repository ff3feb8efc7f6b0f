package main

import (
	"fmt"
	"io"
	"os"
	"sync"
	"time"

	"wardian/content/source"
)

// How Wardian speaks. It addresses nobody and apologises for nothing; it says
// what was done, where, and which command comes next. A line starts in lower
// case unless it starts with a name, and ends without a full stop. Data (what
// was asked for) goes to standard output, all talk to standard error. It has no
// colours; moving lines are for terminals only.

type form int

const (
	longForm form = iota
	lineForm
	jsonForm
)

// voice is where a command's words go.
type voice struct {
	out, talk io.Writer
	quiet     bool
	form      form
	onOut     bool // findings are the data that was asked for
}

// tell prints data.
func (v voice) tell(line string) { fmt.Fprintln(v.out, line) }

// say prints talk.
func (v voice) say(line string) {
	if !v.quiet {
		fmt.Fprintln(v.talk, line)
	}
}

// findings tells all findings and, where some are errors, gives the error that
// ends the command.
func (v voice) findings(report *source.Report) error {
	list := report.Findings()
	to := v.talk
	if v.onOut {
		to = v.out
	}
	for _, f := range list {
		var err error
		switch v.form {
		case jsonForm:
			_, err = fmt.Fprintf(to, "%s\n", f.JSON())
		case lineForm:
			_, err = fmt.Fprintln(to, f.Line())
		default:
			_, err = fmt.Fprintln(to, f.Long())
		}
		if err != nil {
			return err
		}
	}
	errors := report.Errors()
	if len(list) > 0 && v.form == longForm {
		fmt.Fprintf(v.talk, "%s, %s\n", counted(errors, "error", "errors"), counted(len(list)-errors, "warning", "warnings"))
	}
	if errors > 0 {
		return findings{errors}
	}
	return nil
}

// doing says on a terminal what is being done, at once, in a line that is taken
// back by what it gives; elsewhere it says nothing. What is printed in between
// must be printed behind that.
func (v voice) doing(what string) (done func()) {
	if v.quiet || !terminal(v.talk) {
		return func() {}
	}
	fmt.Fprint(v.talk, "\r\x1b[K"+what)
	var once sync.Once
	return func() { once.Do(func() { fmt.Fprint(v.talk, "\r\x1b[K") }) }
}

// progress gives a teller of progress that speaks once a second from the first
// second on, in one line that is written over; nil where the talk is no
// terminal.
func (v voice) progress(what string) func(done, of int) {
	if v.quiet || !terminal(v.talk) {
		return nil
	}
	return progressTo(v.talk, what, time.Now)
}

func progressTo(talk io.Writer, what string, now func() time.Time) func(done, of int) {
	var mu sync.Mutex
	next := now().Add(time.Second)
	spoke := false
	return func(done, of int) {
		mu.Lock()
		defer mu.Unlock()
		if spoke && done == of {
			fmt.Fprint(talk, "\r\x1b[K")
			return
		}
		if at := now(); at.After(next) {
			next, spoke = at.Add(time.Second), true
			fmt.Fprintf(talk, "\r\x1b[K%d of %d %s", done, of, what)
		}
	}
}

// terminal tells whether a stream is a terminal that lines may move on. The null
// device passes for one, which does no harm.
func terminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok || os.Getenv("TERM") == "dumb" {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// counted is a number with its noun.
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
