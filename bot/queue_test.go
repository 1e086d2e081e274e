package bot

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"
	"testing"
	"testing/synctest"
	"time"
)

func TestQueueKeepsOnePersonsOrderAndServesOthersMeanwhile(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		q := newQueue()
		var mu sync.Mutex
		var order []string
		note := func(s string) { mu.Lock(); order = append(order, s); mu.Unlock() }
		hold := make(chan struct{})
		go q.do(t.Context(), "ana", func() { <-hold; note("ana 0") })
		synctest.Wait()
		for i := 1; i <= 5; i++ {
			go q.do(t.Context(), "ana", func() { note(fmt.Sprint("ana ", i)) })
			synctest.Wait() // so that they arrive in this order
		}
		go q.do(t.Context(), "ben", func() { note("ben") })
		synctest.Wait()
		close(hold)
		synctest.Wait()
		if want := []string{"ben", "ana 0", "ana 1", "ana 2", "ana 3", "ana 4", "ana 5"}; !slices.Equal(order, want) {
			t.Errorf("order %v, want %v", order, want)
		}
		if len(q.tail) != 0 {
			t.Errorf("%d people are still in the queue", len(q.tail))
		}
	})
}

func TestQueueGivesUpWithItsContextAndKeepsTheOrder(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		q := newQueue()
		hold := make(chan struct{})
		done := []string{}
		go q.do(t.Context(), "ana", func() { <-hold; done = append(done, "first") })
		synctest.Wait()
		ctx, cancel := context.WithTimeout(t.Context(), time.Second)
		defer cancel()
		var err error
		go func() { err = q.do(ctx, "ana", func() { done = append(done, "given up") }) }()
		synctest.Wait()
		go q.do(t.Context(), "ana", func() { done = append(done, "third") })
		time.Sleep(2 * time.Second) // the bubble's clock, not the wall's
		synctest.Wait()
		if !errors.Is(err, context.DeadlineExceeded) || len(done) != 0 {
			t.Fatalf("err %v, done %v before the first was", err, done)
		}
		close(hold)
		synctest.Wait()
		if want := []string{"first", "third"}; !slices.Equal(done, want) {
			t.Errorf("done %v, want %v", done, want)
		}
	})
}
