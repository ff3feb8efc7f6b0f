// Command wardian turns a plant-import diary kept as Markdown files into a
// static site.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
	"time"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	go func() {
		// Whoever stops a command waits no longer than a blink. A picture half
		// made is no loss: the site's folder is exchanged in one step, and what
		// lies beside it is cleared away by the next build.
		<-ctx.Done()
		time.Sleep(80 * time.Millisecond)
		os.Exit(exitStopped)
	}()
	os.Exit(run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
