package workbook

import (
	"context"
	"runtime"
	"sync"

	"github.com/jmoiron/sqlx"

	"parewell/recipes"
)

// load reads the Book and what undo and redo would take, as of one moment: the
// caller holds a transaction.
func load(ctx context.Context, c *sqlx.Conn) (*state, error) {
	s := &state{}
	if err := c.GetContext(ctx, &s.revision, "SELECT revision FROM meta"); err != nil {
		return nil, err
	}
	if err := s.readEnds(ctx, c); err != nil {
		return nil, err
	}
	entities, err := readEntities(ctx, c)
	if err != nil {
		return nil, err
	}
	s.book = recipes.NewBook(entities)
	return s, nil
}

// stack is some rows of one kind on their way from the file to a decoder.
type stack struct {
	kind   recipes.Kind
	bodies []string
	out    []recipes.Entity // as long as bodies
}

// stackSize is how many rows travel together: enough that handing them over
// costs nothing, few enough that both cores are busy to the end.
const stackSize = 64

// readEntities reads every entity of the file. SQLite hands rows out on one
// core, the others turn them from JSON into entities meanwhile.
func readEntities(ctx context.Context, c *sqlx.Conn) ([]recipes.Entity, error) {
	work := make(chan *stack, 64)
	var (
		wg    sync.WaitGroup
		once  sync.Once
		fault error
	)
	for range max(1, runtime.GOMAXPROCS(0)) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for s := range work {
				if err := s.decode(); err != nil {
					once.Do(func() { fault = err })
				}
			}
		}()
	}
	stacks, err := readStacks(ctx, c, work)
	close(work)
	wg.Wait()
	if err == nil {
		err = fault
	}
	if err != nil {
		return nil, err
	}
	n := 0
	for _, s := range stacks {
		n += len(s.out)
	}
	entities := make([]recipes.Entity, 0, n)
	for _, s := range stacks {
		entities = append(entities, s.out...)
	}
	return entities, nil
}

// readStacks hands every row of every table to work, in stacks.
func readStacks(ctx context.Context, c *sqlx.Conn, work chan<- *stack) ([]*stack, error) {
	var stacks []*stack
	have, err := tablesOf(ctx, c)
	if err != nil {
		return nil, err
	}
	for _, t := range have {
		rows, err := c.QueryxContext(ctx, "SELECT body FROM "+string(t.kind))
		if err != nil {
			return nil, err
		}
		s := &stack{kind: t.kind}
		send := func() {
			if len(s.bodies) > 0 {
				stacks = append(stacks, s)
				work <- s
			}
			s = &stack{kind: t.kind}
		}
		for rows.Next() {
			var body string
			if err := rows.Scan(&body); err != nil {
				rows.Close()
				return nil, err
			}
			if s.bodies = append(s.bodies, body); len(s.bodies) == stackSize {
				send()
			}
		}
		send()
		if err := rows.Err(); err != nil {
			return nil, err
		}
		rows.Close()
	}
	return stacks, nil
}

func (s *stack) decode() error {
	s.out = make([]recipes.Entity, 0, len(s.bodies))
	for _, body := range s.bodies {
		e, err := recipes.DecodeEntity(s.kind, []byte(body))
		if err != nil {
			return err
		}
		s.out = append(s.out, e)
	}
	s.bodies = nil
	return nil
}
