package logbook

// Merge is the union of logs. Order and repetition make no difference: it is
// commutative, associative and idempotent, so that copies of a log that were
// carried apart can be merged in any way. Where one id was given to different
// things all of them are kept; [Log.Clashes] lists them and none counts.
//
// Merge does not bound the length of its result; readers and writers do.
func Merge(logs ...Log) Log {
	n := 0
	for _, l := range logs {
		n += len(l.list)
	}
	list := make([]Entry, 0, n)
	for _, l := range logs {
		list = append(list, l.list...)
	}
	return Log{united(list)}
}
