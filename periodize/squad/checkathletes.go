package squad

import (
	"fmt"
	"slices"
	"strconv"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// athletes checks each athlete's own request, with the halls in it, and that
// nobody is there twice.
func (c *checker) athletes() {
	seen := map[string]int{}
	zone := calendar.Zone{}
	minutes := 0
	for i := range c.r.Athletes {
		a := &c.r.Athletes[i]
		path := "/athletes/" + strconv.Itoa(i)
		if c.skip[path] {
			continue
		}
		id := a.id()
		if id == "" {
			c.err(CodeMissing, path+"/athlete/id", "", "the athlete has no id", "give one, no name is needed")
		} else if j, ok := seen[id]; ok {
			c.err(CodeTwice, path+"/athlete/id", id, fmt.Sprintf("athlete %d has the same id", j), "give each athlete once")
		} else {
			seen[id] = i
		}
		switch z := a.Season.Athlete.Zone; {
		case z.IsZero():
		case zone.IsZero():
			zone = z
		case !zone.Equal(z):
			c.err(CodeZones, path+"/athlete/zone", z.Name(), "the others are planned in "+zone.Name(), "give all who share a hall its zone")
		}
		for _, p := range a.Season.Places {
			for _, h := range c.r.Halls {
				if p.ID == h.Place.ID {
					c.add(calendar.ClassWarning, CodeHallAndPlace, path+"/places", p.ID, "it is a hall and a place of the athlete's own: the hall counts", "leave it out of the athlete's places")
				}
			}
		}
		for _, p := range c.alone(a).Validate() {
			whole, ok := ofAll(path + p.Path)
			switch {
			case !ok:
				p.Path = path + p.Path
			case p.Class == calendar.ClassError:
				continue // found in the squad's own already
			default:
				p.Path = whole // said once for all
			}
			c.list = append(c.list, p)
		}
		c.most(path+"/played", len(a.Played), MaxPlayed)
		for j, p := range a.Played {
			c.between(fmt.Sprintf("%s/played/%d/minutes", path, j), p.Minutes, 0, mostPlayed, "give the minutes on the field")
		}
		c.most(path+"/topUps", len(a.TopUps), MaxPlayed)
		for j, x := range a.TopUps {
			c.between(fmt.Sprintf("%s/topUps/%d/minutes", path, j), x.Minutes, 0, mostPlayed, "give the minutes on the field")
			if x.Date.IsZero() || !sane(x.Date) {
				c.err(season.CodeDate, fmt.Sprintf("%s/topUps/%d/date", path, j), x.Date.String(), "the date is missing or outside 1900 to 2199", "give the day after the game")
			}
		}
		if len(a.Played) > 0 {
			minutes++
		}
	}
	for i := range c.r.Halls {
		if z := c.r.Halls[i].Place.Zone; !z.IsZero() && !zone.IsZero() && !zone.Equal(z) {
			c.err(CodeZones, "/halls/"+strconv.Itoa(i)+"/zone", z.Name(), "the athletes are planned in "+zone.Name(), "give the athletes the zone of their hall")
		}
	}
	if minutes > 0 && minutes < len(c.r.Athletes) {
		c.add(calendar.ClassQuestion, CodeNoMinutes, "/athletes", strconv.Itoa(len(c.r.Athletes)-minutes),
			"of so many athletes no minutes played are known: they stand behind those with as many lifts whose minutes are", "give the minutes, 0 for who did not play")
	}
}

// alone is an athlete's request as it is checked: the halls, which are checked by
// themselves, are places that pins may name.
func (c *checker) alone(a *Athlete) season.Request {
	req := c.r.seasonOf(a)
	req.Places = slices.Clone(a.Season.Places)
	for i := range c.r.Halls {
		if id := c.r.Halls[i].Place.ID; !slices.ContainsFunc(req.Places, func(p season.Place) bool { return p.ID == id }) {
			req.Places = append(req.Places, season.Place{ID: id})
		}
	}
	return req
}

// supervision asks about what protects minors.
func (c *checker) supervision() {
	minors := 0
	for i := range c.r.Athletes {
		if c.r.age(&c.r.Athletes[i]) < 18 {
			minors++
		}
	}
	if minors == 0 {
		return
	}
	if len(c.r.Ratios) == 0 {
		c.add(calendar.ClassQuestion, CodeNoRatio, "/ratios", "", fmt.Sprintf("minors: %d, and no supervision ratio: one coach to %d athletes is assumed for all of them", minors, protective),
			"give how many athletes one coach may watch, by age and by your local rules")
	}
	if len(c.r.Coaches) == 0 {
		c.add(calendar.ClassQuestion, CodeNoCoach, "/coaches", "", fmt.Sprintf("minors: %d, and no coach: one is assumed whenever a hall is open", minors),
			"give who is there and when: minors train only supervised")
	}
}

// age is the age on the first date, 13 if it is not known.
func (r *Request) age(a *Athlete) int {
	if n, ok := a.Season.Athlete.Born.AgeOn(r.Period.From); ok {
		return n
	}
	return 13
}

// ratio is how many of an athlete's age one coach may watch.
func (r *Request) ratio(a *Athlete) int {
	age := r.age(a)
	list := r.Ratios
	if len(list) == 0 {
		if age < 18 {
			return protective
		}
		list = DefaultRatios()
	}
	best, narrow, all := 0, 0, 0
	for _, x := range list {
		switch {
		case x.Under == 0:
			all = x.Athletes
		case age < x.Under && (narrow == 0 || x.Under < narrow):
			best, narrow = x.Athletes, x.Under
		}
	}
	switch {
	case best > 0:
		return best
	case all > 0:
		return all
	case age < 18:
		return protective
	}
	return DefaultRatios()[2].Athletes
}

// seasonOf is the request of one athlete with the squad's period, now and halls.
func (r *Request) seasonOf(a *Athlete) season.Request {
	req := a.Season
	req.Period, req.Now = r.Period, r.Now
	req.Places = nil
	for i := range r.Halls {
		req.Places = append(req.Places, r.Halls[i].Place)
	}
	for _, p := range a.Season.Places {
		if r.hall(p.ID) < 0 {
			req.Places = append(req.Places, p)
		}
	}
	if r.Issued != nil {
		if p := r.Issued.planOf(a.id()); p != nil && r.loose(a) {
			req.Log = append(slices.Clip(req.Log), a.lived(p, r.Now)...)
		} else if p != nil {
			req.Issued = append(slices.Clip(req.Issued), *p)
		}
	}
	return req
}

// hall is the number of a hall, -1 if there is no such one.
func (r *Request) hall(id string) int {
	for i := range r.Halls {
		if r.Halls[i].Place.ID == id {
			return i
		}
	}
	return -1
}
