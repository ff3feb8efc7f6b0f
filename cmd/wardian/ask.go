package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
)

// Who is asked. A question goes to the person who sits at the standard input. A
// script has nobody there, and is asked nothing: it says --yes.

// asker puts a question and tells whether the answer was a yes; no answer at all
// is an error.
type asker func(v voice, question string) (yes bool, err error)

// answering finds the person to ask; close gives a terminal back. Where the
// standard input brought a list, and the talk goes to a terminal, the person is
// asked at the terminal that the command was started from. A nil asker means that
// nobody is there.
func answering(in io.Reader, broughtList bool, talk io.Writer) (ask asker, close func() error) {
	nothing := func() error { return nil }
	if f := person(in); f != nil && !broughtList {
		return askOn(f), nothing
	}
	if t, ok := talk.(*os.File); broughtList && ok && sitsAt(t) {
		if f, err := os.Open(controlling); err == nil {
			return askOn(f), f.Close
		}
	}
	return nil, nothing
}

// controlling is the terminal that a command was started from, whatever its
// input is; Windows has none of that name, and asks nobody then.
const controlling = "/dev/tty"

// person is standard input, if somebody sits at it.
func person(in io.Reader) *os.File {
	if f, ok := in.(*os.File); ok && sitsAt(f) {
		return f
	}
	return nil
}

// sitsAt tells whether a file is a terminal, however dumb. The null device is a
// device of characters too, and nobody sits there.
func sitsAt(f *os.File) bool {
	info, err := f.Stat()
	if err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return false
	}
	null, err := os.Stat(os.DevNull)
	return err != nil || !os.SameFile(info, null)
}

func askOn(f *os.File) asker {
	in := bufio.NewReader(f)
	return func(v voice, question string) (bool, error) {
		for {
			fmt.Fprint(v.talk, question+" [y/N] ")
			answer, err := in.ReadString('\n')
			switch strings.ToLower(strings.TrimSpace(answer)) {
			case "y", "yes":
				return true, nil
			case "n", "no":
				return false, nil
			case "":
				if err != nil {
					fmt.Fprintln(v.talk)
					return false, unanswered(err)
				}
				return false, nil
			}
			if err != nil {
				return false, unanswered(err)
			}
			v.say("y for yes, n for no")
		}
	}
}

// unanswered is the error of a question that got no answer.
func unanswered(err error) error {
	if errors.Is(err, io.EOF) {
		return wrongUse{message: "nothing was written: the question wasn't answered", next: "call again and answer y, or call with --yes"}
	}
	return fmt.Errorf("read the answer: %w", err)
}
