package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"time"

	"wardian/build/preview"
)

// serve shows a built site on loopback until the context ends. It answers only
// under its own name, so that a page elsewhere on the web can't read it by
// pointing a name at this machine.
func serve(ctx context.Context, v voice, site string, port int) error {
	listener, err := net.Listen("tcp", fmt.Sprintf("127.0.0.1:%d", port))
	if err != nil {
		return err
	}
	root, err := os.OpenRoot(site)
	if err != nil {
		listener.Close()
		return err
	}
	defer root.Close()
	port = listener.Addr().(*net.TCPAddr).Port
	server := &http.Server{Handler: preview.Gate(port, http.FileServerFS(root.FS())), ReadHeaderTimeout: 5 * time.Second}
	v.tell(fmt.Sprintf("http://127.0.0.1:%d/", port))
	v.say("press Ctrl-C to end")
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
		server.Close()
		if err := <-ended; !errors.Is(err, http.ErrServerClosed) {
			return err
		}
		return ctx.Err()
	}
}
