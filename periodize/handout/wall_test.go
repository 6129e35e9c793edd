package handout

import (
	"reflect"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// TestWallHasNoRoomForHealth walks the type: whatever a wall can hold is a date,
// a time, a kind of session, the paper, a mark without a reason, or a short
// public name, and the names of the fields are these.
func TestWallHasNoRoomForHealth(t *testing.T) {
	leaves := map[reflect.Type]bool{
		reflect.TypeOf(calendar.Date{}): true, reflect.TypeOf(calendar.Clock(0)): true, reflect.TypeOf(season.Kind("")): true,
		reflect.TypeOf(Paper(0)): true, reflect.TypeOf(false): true, reflect.TypeOf(Label("")): true,
	}
	names := map[string]bool{
		"Team": true, "Zone": true, "Rules": true, "From": true, "To": true, "Plans": true, "Entries": true, "Paper": true, "Example": true,
		"Athlete": true, "Date": true, "Kind": true, "Place": true, "Modified": true,
	}
	var walk func(path string, x reflect.Type)
	walk = func(path string, x reflect.Type) {
		switch {
		case leaves[x]:
		case x.Kind() == reflect.Slice:
			walk(path+"[]", x.Elem())
		case x.Kind() == reflect.Struct:
			for i := range x.NumField() {
				f := x.Field(i)
				if !f.IsExported() || !names[f.Name] {
					t.Errorf("%s has a field %s", path, f.Name)
				}
				walk(path+"."+f.Name, f.Type)
			}
		default:
			t.Errorf("%s is a %s, which can hold anything", path, x)
		}
	}
	walk("Wall", reflect.TypeOf(Wall{}))
}
