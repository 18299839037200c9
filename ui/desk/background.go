package desk

import (
	"context"
	"sync"

	"parewell/recipes"
)

// slowWork knows the newest run of each sort of slow work.
type slowWork struct {
	mu      sync.Mutex
	newest  map[string]*run
	stopped bool
}

// run is one piece of slow work under way.
type run struct{ cancel context.CancelFunc }

// begin makes r the newest run of its name and cancels the one before; false
// once the desk is closing.
func (s *slowWork) begin(name string, r *run) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.stopped {
		return false
	}
	if old := s.newest[name]; old != nil {
		old.cancel()
	}
	if s.newest == nil {
		s.newest = map[string]*run{}
	}
	s.newest[name] = r
	return true
}

// is tells whether r is still the newest run of its name.
func (s *slowWork) is(name string, r *run) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return !s.stopped && s.newest[name] == r
}

// end forgets r unless a newer run has taken its place.
func (s *slowWork) end(name string, r *run) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.newest[name] == r {
		delete(s.newest, name)
	}
}

func (s *slowWork) stop() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.stopped = true
	for _, r := range s.newest {
		r.cancel()
	}
}

// Working returns how many pieces of slow work, and edits on disk, have not told
// their outcome yet.
func (d *Desk) Working() int {
	d.slow.mu.Lock()
	defer d.slow.mu.Unlock()
	return len(d.slow.newest) + int(d.untold.Load())
}

// Background runs work on a goroutine of its own with the newest Book, and done
// with its result on the window's thread. Starting work of the same name again
// cancels ctx of the earlier one and drops its answer.
func Background[T any](d *Desk, name string, work func(ctx context.Context, b *recipes.Book) T, done func(T)) {
	ctx, cancel := context.WithCancel(context.Background())
	r := &run{cancel}
	if !d.slow.begin(name, r) {
		cancel()
		return
	}
	book := d.Book()
	go func() {
		defer cancel()
		result := work(ctx, book)
		d.opts.Post(func() {
			if d.slow.is(name, r) {
				d.slow.end(name, r)
				done(result)
			}
		})
	}()
}
