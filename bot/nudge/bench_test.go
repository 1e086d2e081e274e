package nudge_test

import (
	"fmt"
	"runtime"
	"testing"
	"time"

	"blockbell/bot/nudge"
	"blockbell/planner"
	"blockbell/store"
)

// hundred is a club of a hundred lifters with a season and a meet each.
func hundred() nudge.Facts {
	f := club()
	for i := range 100 {
		m := ana()
		m.Lifter.ID, m.Lifter.Handle, m.Lifter.Name = planner.LifterID(i+1), fmt.Sprintf("lifter%02d", i), fmt.Sprintf("Lifter %02d", i)
		f.Members = append(f.Members, m)
	}
	return f
}

// One look back over a fortnight, as each minute's run makes it.
func BenchmarkDueHundredLifters(b *testing.B) {
	f := hundred()
	now := time.Date(2027, 6, 5, 8, 0, 0, 0, time.UTC)
	for b.Loop() {
		nudge.Due(f, now.AddDate(0, 0, -14), now)
	}
}

// A run of a club of a hundred in a minute in which nothing is due.
func BenchmarkRunNothingDue(b *testing.B) {
	h := newHouse(b, hundred())
	now := time.Date(2027, 6, 6, 12, 0, 0, 0, time.UTC)
	h.run(now)
	for b.Loop() {
		h.run(now)
	}
}

// world is a club of many lifters in thirty zones.
func world(b *testing.B, lifters int) nudge.Facts {
	zones := []string{
		"Europe/Lisbon", "Europe/Paris", "Europe/Helsinki", "Europe/Moscow", "Asia/Dubai", "Asia/Kabul", "Asia/Karachi", "Asia/Kolkata", "Asia/Kathmandu", "Asia/Dhaka",
		"Asia/Yangon", "Asia/Bangkok", "Asia/Shanghai", "Asia/Tokyo", "Australia/Adelaide", "Australia/Sydney", "Pacific/Noumea", "Pacific/Auckland", "Pacific/Chatham", "Pacific/Kiritimati",
		"Atlantic/Azores", "America/Noronha", "America/Sao_Paulo", "America/Halifax", "America/New_York", "America/Chicago", "America/Denver", "America/Los_Angeles", "America/Anchorage", "Pacific/Honolulu",
	}
	f := club()
	for i := range lifters {
		m := ana()
		m.Lifter.ID, m.Lifter.Handle, m.Lifter.Name = planner.LifterID(i+1), fmt.Sprintf("lifter%05d", i), fmt.Sprintf("Lifter %05d", i)
		m.Zone = place(b, zones[i%len(zones)])
		f.Members = append(f.Members, m)
	}
	return f
}

// A minute in which nothing is due, in a club of ten thousand in thirty zones.
func BenchmarkTickTenThousandNothingDue(b *testing.B) {
	h := newHouse(b, world(b, 10_000))
	h.Read = func(tx *store.Tx, id planner.LifterID, _ time.Time) error { return tx.PassOver(id) }
	now := time.Date(2027, 3, 20, 12, 0, 0, 0, time.UTC)
	h.run(now)
	b.ReportAllocs()
	b.ResetTimer()
	for b.Loop() {
		h.run(now)
	}
}

// What the process holds in memory for that club once it has looked at everybody,
// apart from the database's own cache.
func BenchmarkTickTenThousandHeap(b *testing.B) {
	h := newHouse(b, world(b, 10_000))
	now := time.Date(2027, 3, 20, 12, 0, 0, 0, time.UTC)
	h.run(now)
	for b.Loop() {
		h.run(now)
	}
	var m runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&m)
	b.ReportMetric(float64(m.HeapAlloc)/1e6, "heap-MB")
	b.ReportMetric(float64(m.Sys)/1e6, "sys-MB")
	runtime.KeepAlive(h)
}

// The same minute after something changed about ten of them.
func BenchmarkTickTenThousandTenChanged(b *testing.B) {
	h := newHouse(b, world(b, 10_000))
	now := time.Date(2027, 3, 20, 12, 0, 0, 0, time.UTC)
	h.run(now)
	b.ReportAllocs()
	for b.Loop() {
		b.StopTimer()
		h.update(func(tx *store.Tx) error {
			for id := range planner.LifterID(10) {
				if err := tx.SetNudge(id*900+1, "meet", false); err != nil {
					return err
				}
				if err := tx.SetNudge(id*900+1, "meet", true); err != nil {
					return err
				}
			}
			return nil
		})
		b.StartTimer()
		h.run(now)
	}
}
