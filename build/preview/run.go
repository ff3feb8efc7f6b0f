package preview

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"time"
)

// Options say what to preview, and who is told what.
type Options struct {
	Folder string                 // watched
	Pass   func(path string) bool // paths in it that are passed over; may be nil
	Read   func(Change) Reading   // reads the folder; called one at a time, first with All set
	Style  []byte                 // the site's style sheet
	Port   int                    // 0: Wish if it is free, else any that is
	Wish   int
	Ready  func(address string) // called when the server listens; may be nil
	Told   func(Told)           // called after each reading, the first too; may be nil
	Blind  func(error)          // called if events can't be had (see Watcher); may be nil
}

// Run serves until the context ends, whose error it gives then, at once: what is
// being read meanwhile is left to itself.
func Run(ctx context.Context, o Options) error {
	listeners, port, err := listen(o.Port, o.Wish)
	if err != nil {
		return err
	}
	s := NewServer(o.Style)
	server := &http.Server{Handler: s.Handler(port), ReadHeaderTimeout: 5 * time.Second, MaxHeaderBytes: 1 << 16}
	defer server.Close()
	ended := make(chan error, len(listeners))
	for _, l := range listeners {
		go func() { ended <- server.Serve(l) }()
	}
	if o.Ready != nil {
		o.Ready(fmt.Sprintf("http://127.0.0.1:%d/", port))
	}
	read := func(c Change) {
		r := o.Read(c)
		if ctx.Err() != nil {
			return
		}
		open, anew := s.Show(r)
		if o.Told != nil && ctx.Err() == nil {
			o.Told(Told{Change: c, Reading: r, Open: open, Anew: anew, Took: time.Since(c.Began)})
		}
	}
	watcher, err := Watch(o.Folder, o.Pass, read)
	if err != nil {
		return err
	}
	if o.Blind != nil && watcher.Blind() != nil {
		o.Blind(watcher.Blind())
	}
	go func() {
		read(Change{All: true, Began: time.Now()})
		watcher.Run(ctx)
	}()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
		return ctx.Err()
	}
}

// listen opens a port on loopback, and the same on IPv6's loopback where there
// is one and it is free: "localhost" may lead to either.
func listen(port, wish int) ([]net.Listener, int, error) {
	at := func(host string, port int) (net.Listener, error) {
		return net.Listen("tcp", net.JoinHostPort(host, fmt.Sprint(port)))
	}
	var four net.Listener
	err := errors.New("no port")
	if port != 0 {
		four, err = at("127.0.0.1", port)
	} else {
		for _, p := range []int{wish, 0} {
			if four, err = at("127.0.0.1", p); err == nil {
				break
			}
		}
	}
	if err != nil {
		return nil, 0, err
	}
	port = four.Addr().(*net.TCPAddr).Port
	listeners := []net.Listener{four}
	if six, err := at("::1", port); err == nil {
		listeners = append(listeners, six)
	}
	return listeners, port, nil
}
