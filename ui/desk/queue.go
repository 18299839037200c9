package desk

import "sync"

// queue runs jobs one after another on a goroutine of its own. Adding never
// waits, so the window never does.
type queue struct {
	mu     sync.Mutex
	wake   *sync.Cond
	jobs   []job
	edits  int  // counting jobs added and not done
	closed bool // no more jobs are taken
	done   chan struct{}
}

// job is one thing to do. Those that count are edits a person has made.
type job struct {
	counts bool
	run    func()
}

func newQueue() *queue {
	q := &queue{done: make(chan struct{})}
	q.wake = sync.NewCond(&q.mu)
	go q.work()
	return q
}

// add puts a job at the end; false if the queue is closed.
func (q *queue) add(j job) bool {
	q.mu.Lock()
	defer q.mu.Unlock()
	if q.closed {
		return false
	}
	q.jobs = append(q.jobs, j)
	if j.counts {
		q.edits++
	}
	q.wake.Signal()
	return true
}

// close takes no more jobs; done closes once those already in are through.
func (q *queue) close() {
	q.mu.Lock()
	defer q.mu.Unlock()
	q.closed = true
	q.wake.Signal()
}

// waiting returns how many edits are not done yet.
func (q *queue) waiting() int {
	q.mu.Lock()
	defer q.mu.Unlock()
	return q.edits
}

// settled counts an edit as done, before its outcome is shown.
func (q *queue) settled() {
	q.mu.Lock()
	defer q.mu.Unlock()
	q.edits--
}

func (q *queue) work() {
	defer close(q.done)
	for {
		q.mu.Lock()
		for len(q.jobs) == 0 && !q.closed {
			q.wake.Wait()
		}
		if len(q.jobs) == 0 {
			q.mu.Unlock()
			return
		}
		j := q.jobs[0]
		q.jobs[0] = job{}
		q.jobs = q.jobs[1:]
		q.mu.Unlock()
		j.run()
	}
}
