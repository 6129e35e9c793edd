package exercise

import "strings"

// row is an exercise as it is written down here. Words are separated by spaces.
// Marks: s sided, a apart, e eccentric emphasis, h heavy lower-body work, t a
// timed hold, 1 and 2 impact.
type row struct {
	id, name string
	pattern  Pattern
	role     Role
	load     Implement
	kit      string
	tissues  string
	skill    int
	marks    string
	seconds  int
	reps     int
	easier   string
	gentle   string
}

// builtin is the catalogue that comes with the package. It is never changed.
var builtin = compileRows(squatRows, hingeRows, singleLegRows, pushRows, pullRows, trunkRows, powerRows, careRows, easyRows)

func compileRows(tables ...[]row) *compiled {
	var list []Exercise
	for _, rows := range tables {
		for _, r := range rows {
			x := Exercise{ID: r.id, Name: r.name, Pattern: r.pattern, Role: r.role, Load: r.load, Kit: strings.Fields(r.kit),
				Skill: r.skill, Seconds: r.seconds, Reps: r.reps, Easier: strings.Fields(r.easier)}
			for _, t := range strings.Fields(r.tissues) {
				x.Tissues = append(x.Tissues, Tissue(t))
			}
			for _, t := range strings.Fields(r.gentle) {
				x.Gentle = append(x.Gentle, Tissue(t))
			}
			for _, m := range r.marks {
				switch m {
				case 's':
					x.Sided = true
				case 'a':
					x.Apart = true
				case 'e':
					x.Eccentric = true
				case 'h':
					x.Heavy = true
				case 't':
					x.Hold = true
				case '1':
					x.Impact = 1
				case '2':
					x.Impact = 2
				}
			}
			list = append(list, x)
		}
	}
	// Harder relatives are the easier ones read backwards.
	at := map[string]int{}
	for i := range list {
		at[list[i].ID] = i
	}
	for i := range list {
		for _, e := range list[i].Easier {
			if j, ok := at[e]; ok {
				list[j].Harder = append(list[j].Harder, list[i].ID)
			}
		}
	}
	return compile(list)
}
