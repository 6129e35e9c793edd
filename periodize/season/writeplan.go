package season

import "encoding/json"

// MarshalJSON writes empty lists as [], never as null.
func (p Plan) MarshalJSON() ([]byte, error) {
	type plain Plan
	w := plain(p)
	w.Cost.ByRule = some(w.Cost.ByRule)
	w.Games = some(w.Games)
	w.Sessions = append([]Session{}, w.Sessions...)
	for i := range w.Sessions {
		w.Sessions[i].GameDay = some(w.Sessions[i].GameDay)
		w.Sessions[i].Why = some(w.Sessions[i].Why)
	}
	w.Missed = append([]Missed{}, w.Missed...)
	for i := range w.Missed {
		w.Missed[i].InTheWay = some(w.Missed[i].InTheWay)
	}
	w.Findings = some(w.Findings)
	w.Questions = some(w.Questions)
	w.Refusals = some(w.Refusals)
	w.Warnings = some(w.Warnings)
	w.Changes = some(w.Changes)
	return json.Marshal(w)
}

// some returns the list, or an empty one for nil.
func some[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}
