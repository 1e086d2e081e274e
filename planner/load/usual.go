package load

// UsualWeek is the mean of some weeks: hard sets by muscle group.
func UsualWeek(weeks []WeekVolume) map[Muscle]float64 {
	sum := map[Muscle]float64{}
	for _, w := range weeks {
		for m, sets := range w.Muscles {
			sum[m] += sets / float64(len(weeks))
		}
	}
	return sum
}
