package load

// RollingWeek is [Week] over the last seven days, a day at a time. The zero
// value is ready; days before the first one are unknown.
type RollingWeek struct {
	days [7]DayLoad // a ring, the oldest day at next
	next int
}

// Add appends a day. It reports whether the day has a load that counts; if not
// it is taken as unknown. It allocates nothing.
func (r *RollingWeek) Add(d DayLoad) bool {
	_, ok := d.value()
	r.days[r.next] = d
	r.next = (r.next + 1) % len(r.days)
	return ok
}

// Week is the last seven days, oldest first, summed up as by [Week].
func (r *RollingWeek) Week(d Divisor) (WeekLoad, bool) {
	var days [7]DayLoad
	n := copy(days[:], r.days[r.next:])
	copy(days[n:], r.days[:r.next])
	return Week(days, d)
}

// RollingMonth is [Coupled] and [Uncoupled] over the last 28 days, a day at a
// time. The zero value is ready; days before the first one are unknown.
type RollingMonth struct {
	days [chronicDays]DayLoad // a ring, the oldest day at next
	next int
}

// Add appends a day. It reports whether the day has a load that counts; if not
// it is taken as unknown. It allocates nothing.
func (r *RollingMonth) Add(d DayLoad) bool {
	_, ok := d.value()
	r.days[r.next] = d
	r.next = (r.next + 1) % len(r.days)
	return ok
}

// Coupled is that of the last 28 days.
func (r *RollingMonth) Coupled() (AcuteChronic, bool) {
	days := r.inOrder()
	return Coupled(days[:])
}

// Uncoupled is that of the last 28 days.
func (r *RollingMonth) Uncoupled() (AcuteChronic, bool) {
	days := r.inOrder()
	return Uncoupled(days[:])
}

func (r *RollingMonth) inOrder() (days [chronicDays]DayLoad) {
	n := copy(days[:], r.days[r.next:])
	copy(days[n:], r.days[:r.next])
	return days
}
