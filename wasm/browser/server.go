package browser

import (
	"net"
	"net/http"
	"sync"
	"time"
)

// A Server serves pages on this machine, remembers what it was asked for,
// and can be gone for a while like a signal in the forest.
type Server struct {
	handler http.Handler
	address string
	server  *http.Server

	mu    sync.Mutex
	asked []string
}

// Serve starts a server on a free loopback port.
func Serve(h http.Handler) (*Server, error) {
	s := &Server{address: "127.0.0.1:0"}
	s.Swap(h)
	return s, s.Return()
}

// URL is the address of the site's root. It uses the name of this machine,
// which browsers treat as secure.
func (s *Server) URL() string {
	_, port, _ := net.SplitHostPort(s.address) // the address came from a listener
	return "http://localhost:" + port + "/"
}

// Swap serves something else from now on.
func (s *Server) Swap(h http.Handler) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.handler = h
}

// Leave stops answering; open connections end.
func (s *Server) Leave() { s.server.Close() }

// Return answers again, on the same port.
func (s *Server) Return() error {
	var l net.Listener
	var err error
	for range 100 { // the port may be held for a moment after leaving
		if l, err = net.Listen("tcp4", s.address); err == nil {
			break
		}
		time.Sleep(20 * time.Millisecond)
	}
	if err != nil {
		return err
	}
	s.address = l.Addr().String()
	s.server = &http.Server{Handler: http.HandlerFunc(s.answer)}
	go s.server.Serve(l) // ends with Leave
	return nil
}

// Asked gives the requests so far, each as host, path and query, and
// forgets them.
func (s *Server) Asked() []string {
	s.mu.Lock()
	defer s.mu.Unlock()
	asked := s.asked
	s.asked = nil
	return asked
}

func (s *Server) answer(w http.ResponseWriter, r *http.Request) {
	s.mu.Lock()
	s.asked = append(s.asked, r.Host+r.URL.RequestURI())
	h := s.handler
	s.mu.Unlock()
	h.ServeHTTP(w, r)
}
