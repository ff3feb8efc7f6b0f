// Command wardian turns a plant-import diary kept as Markdown files into a
// static site.
package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"
	"sync"
	"syscall"
	"time"
)

// passing are folders that a command made for as long as it runs.
var passing folders

type folders struct {
	mu   sync.Mutex
	dirs []string
}

func (f *folders) add(dir string) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.dirs = append(f.dirs, dir)
}

// clear takes the folders away. It may be called twice, by the command's end and
// by whoever stops it.
func (f *folders) clear() {
	f.mu.Lock()
	defer f.mu.Unlock()
	for _, dir := range f.dirs {
		os.RemoveAll(dir)
	}
	f.dirs = nil
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	go func() {
		// Whoever stops a command waits no longer than a blink. A picture half
		// made is no loss: the site's folder is exchanged in one step, and what
		// lies beside it is cleared away by the next build.
		<-ctx.Done()
		time.Sleep(80 * time.Millisecond)
		passing.clear()
		fmt.Fprintln(os.Stderr, "wardian: stopped")
		os.Exit(exitStopped)
	}()
	os.Exit(run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
