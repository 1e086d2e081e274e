package main

import (
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"
)

// The benchmarks compare the whole bot with the bare library on the same machine
// in the same run, in turns, so that what else the machine does meets both. Each
// bot has an emulator of its own, which holds no request against the platform's
// document. All of it is one process. What is measured goes from the moment a
// person acts to the moment the answer's request comes in.
//
//	go test -run '^$' -bench Answer -benchtime 2000x ./cmd/blockbell
//
// gives each bot 2000 of each kind.

// turnLength is how many requests one bot gets before it is the other's turn.
const turnLength = 200

// act is what a person does; it returns the id that the answer will name.
type act func(c *benchClub, n int) (id string, err error)

func askBlock(c *benchClub, n int) (string, error) {
	a := c.lifters[n%people].Command("#training-log", "block")
	return a.ID, a.Err()
}

// logLine says something new each time: about the same words again within minutes
// the bot asks back. No line beats the best single the lifters told.
func logLine(c *benchClub, n int) (string, error) {
	k := c.lines[n%people].Add(1)
	text := fmt.Sprintf("squat %gx%d @8", 60+float64(k%120)/2, 1+k/120%5)
	return c.lifters[n%people].Say("#training-log", text)
}

// mixed is mostly commands: the marks under log lines count against the 50
// requests a second that the platform allows a bot, the answers to commands do
// not. The whole bot keeps to that limit by itself.
func mixed(c *benchClub, n int) (string, error) {
	if n%8 == 0 {
		return logLine(c, n)
	}
	return askBlock(c, n)
}

// BenchmarkAnswer: "paced" comes so often a second, whether answers come or not;
// in "crowd" everybody acts again as soon as they were answered. There is no crowd
// of log lines, which would measure the platform's limit.
func BenchmarkAnswer(b *testing.B) {
	ours, bare := wholeBot(b), bareBot(b)
	for _, c := range []*benchClub{ours, bare} { // connections and caches are warm
		crowd(c, b, people, askBlock)
		crowd(c, b, people/2, logLine)
	}
	for _, bench := range []struct {
		name string
		act  act
		load pattern
	}{
		{"block/paced=200", askBlock, paced(200)},
		{"block/crowd=64", askBlock, crowd},
		{"line/paced=30", logLine, paced(30)},
		{"mixed/paced=200", mixed, paced(200)},
	} {
		b.Run(bench.name, func(b *testing.B) { inTurns(b, ours, bare, bench.load, bench.act) })
	}
}

// inTurns gives both bots b.N requests and reports how long they took.
func inTurns(b *testing.B, ours, bare *benchClub, load pattern, what act) {
	var waits [2][]time.Duration
	var spent [2]time.Duration
	for left := b.N; left > 0; left -= turnLength {
		for i, c := range []*benchClub{ours, bare} {
			began := time.Now()
			waits[i] = append(waits[i], load(c, b, min(left, turnLength), what)...)
			spent[i] += time.Since(began)
		}
	}
	b.ReportMetric(0, "ns/op") // the pace of the load says nothing
	for i, c := range []*benchClub{ours, bare} {
		prefix := []string{"", "bare-"}[i]
		slices.Sort(waits[i])
		b.ReportMetric(milliseconds(share(waits[i], 50)), prefix+"p50-ms")
		b.ReportMetric(milliseconds(share(waits[i], 99)), prefix+"p99-ms")
		b.ReportMetric(float64(len(waits[i]))/spent[i].Seconds(), prefix+"per-s")
		b.ReportMetric(float64(c.lost.Swap(0)), prefix+"lost")
	}
	b.ReportMetric(float64(share(waits[0], 50))/float64(share(waits[1], 50)), "p50-ratio")
}

// share is the value that percent of the sorted values do not exceed.
func share(sorted []time.Duration, percent int) time.Duration {
	return sorted[(len(sorted)*percent+99)/100-1]
}

func milliseconds(d time.Duration) float64 { return float64(d) / float64(time.Millisecond) }

// pattern has people act n times and returns how long each waited for the answer.
type pattern func(c *benchClub, b *testing.B, n int, what act) []time.Duration

// paced acts so many times a second, whether answers come or not, and then waits
// for them.
func paced(perSecond int) pattern {
	return func(c *benchClub, b *testing.B, n int, what act) []time.Duration {
		waits := make([]time.Duration, n)
		var answered sync.WaitGroup
		next := time.Now()
		pace := time.NewTimer(0)
		defer pace.Stop()
		for i := range n {
			<-pace.C
			began := time.Now()
			id, err := what(c, i)
			if err != nil {
				b.Fatal(err)
			}
			answered.Go(func() { waits[i] = c.await(id).Sub(began) })
			next = next.Add(time.Second / time.Duration(perSecond))
			pace.Reset(time.Until(next))
		}
		answered.Wait()
		return waits
	}
}

// crowd has everybody act again as soon as they were answered.
func crowd(c *benchClub, b *testing.B, n int, what act) []time.Duration {
	waits := make([]time.Duration, n)
	var all sync.WaitGroup
	for person := range people {
		all.Go(func() {
			for i := person; i < n; i += people {
				began := time.Now()
				id, err := what(c, i)
				if err != nil {
					b.Error(err)
					return
				}
				waits[i] = c.await(id).Sub(began)
			}
		})
	}
	all.Wait()
	return waits
}

// longestWait is how long an answer is waited for. On a machine that stands still for
// seconds the bot drops a command, because the platform would refuse the answer.
const longestWait = 10 * time.Second

// await waits for an answer and tells when it came; one that never came counts
// as lost, and as a wait as long as that.
func (c *benchClub) await(id string) time.Time {
	limit := time.NewTimer(longestWait)
	defer limit.Stop()
	a := c.answer(id)
	select {
	case <-a.got:
	case now := <-limit.C:
		c.lost.Add(1)
		return now
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	delete(c.answers, id)
	return a.at
}
