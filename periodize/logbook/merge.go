package logbook

// Merge is the union of logs. Order and repetition make no difference: it is
// commutative, associative and idempotent, so that copies of a log that were
// carried apart can be merged in any way. Where one id was given to different
// things all of them are kept; [Log.Clashes] lists them and none counts.
//
// Merge does not bound the length of its result; readers and writers do.
func Merge(logs ...Log) Log {
	switch len(logs) {
	case 0:
		return Log{}
	case 1:
		return logs[0]
	case 2:
		return Log{unique(joined(logs[0].list, logs[1].list))}
	}
	half := len(logs) / 2
	return Merge(Merge(logs[:half]...), Merge(logs[half:]...))
}

// joined lists the entries of two sorted lists, sorted.
func joined(a, b []Entry) []*Entry {
	out := make([]*Entry, 0, len(a)+len(b))
	for len(a) > 0 && len(b) > 0 {
		if compareIDs(&b[0], &a[0]) < 0 {
			a, b = b, a
		}
		out = append(out, &a[0])
		a = a[1:]
	}
	for i := range a {
		out = append(out, &a[i])
	}
	for i := range b {
		out = append(out, &b[i])
	}
	return out
}
