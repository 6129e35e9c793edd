// Package seasontest makes random seasons for tests and checks plans against the
// laws that every plan obeys.
//
// The checker reads the JSON of a plan and the request it was made for, and
// nothing else: it shares no code with the engine, the candidate starts or the
// judge, and works with the time package instead of the calendar's resolver. It
// favours plain loops over speed. It is not for programs: only tests import it.
package seasontest
