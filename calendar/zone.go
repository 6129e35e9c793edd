package calendar

import (
	"strings"
	"time"
)

// Zone is a named time zone. The zero value is unset. Compare zones with Equal.
type Zone struct {
	name  string
	loc   *time.Location
	rules string // what a custom zone was made of; "" for an IANA zone
}

// LoadZone returns the zone of an IANA name such as Europe/Berlin. The empty
// name, "Local", fixed offsets such as +02:00 or Etc/GMT-2, and unknown names are
// refused with a *ValueError; for an unknown name the remedy says which name was
// probably meant. UTC is accepted. Nothing ever falls back to UTC.
func LoadZone(name string) (Zone, error) {
	if e := refuseZoneName(name); e != nil {
		return Zone{}, e
	}
	loc, err := time.LoadLocation(name)
	if err != nil {
		if ianaName(name) {
			return Zone{}, &ValueError{
				What: "zone", Value: name, Reason: "the zone data cannot be loaded: " + err.Error(),
				Remedy: "install zone data, or import time/tzdata in the program",
			}
		}
		return Zone{}, unknownZone(name)
	}
	return Zone{name: name, loc: loc}, nil
}

// refuseZoneName returns the error of a name that must not be looked up.
func refuseZoneName(name string) *ValueError {
	refuse := func(reason, remedy string) *ValueError {
		return &ValueError{What: "zone", Value: name, Reason: reason, Remedy: remedy}
	}
	const place = "name the place, such as Europe/Berlin"
	lower := strings.ToLower(name)
	switch {
	case name == "":
		return refuse("no time zone given", place)
	case lower == "local" || lower == "localtime":
		return refuse("the zone of a machine is not the zone of a fixture", place)
	}
	if reason := refuseZoneShape(name); reason != "" {
		return refuse(reason, place)
	}
	if len(name) > 64 || strings.HasPrefix(lower, "posix") || strings.HasPrefix(lower, "right/") || lower == "factory" || !zoneNameShape(name) {
		return unknownZone(name)
	}
	// Some file systems ignore case; the answer must not depend on them.
	if near := ianaFold(name); near != "" && near != name {
		return unknownZone(name)
	}
	return nil
}

// refuseZoneShape says why a name that may well exist is no place.
func refuseZoneShape(name string) string {
	switch lower := strings.ToLower(name); {
	case fixedOffset(lower):
		return "a fixed offset knows no clock changes"
	case lower == "est" || lower == "mst" || lower == "hst":
		return "an abbreviation for a fixed offset knows no clock changes"
	}
	return ""
}

// fixedOffset reports whether a lower-case name is an offset, not a place.
func fixedOffset(s string) bool {
	s = strings.TrimPrefix(s, "etc/")
	named := false
	for _, p := range []string{"utc", "gmt"} {
		if rest, ok := strings.CutPrefix(s, p); ok {
			s, named = rest, true
			break
		}
	}
	if s == "" || (named && s == "0") {
		return false
	}
	if s[0] != '+' && s[0] != '-' && !(named && s[0] >= '0' && s[0] <= '9') {
		return false
	}
	for _, r := range s[1:] {
		if r != ':' && (r < '0' || r > '9') {
			return false
		}
	}
	return true
}

func zoneNameShape(name string) bool {
	for i := 0; i < len(name); i++ {
		switch c := name[i]; {
		case c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z', c >= '0' && c <= '9':
		case c == '_' || c == '-' || c == '+' || c == '/':
		default:
			return false
		}
	}
	return true
}

// Name returns the name given to LoadZone or NewRuleZone, "" if unset.
func (z Zone) Name() string { return z.name }

// IsZero reports whether the zone is unset.
func (z Zone) IsZero() bool { return z.loc == nil }

// Custom reports whether the zone was made by NewRuleZone.
func (z Zone) Custom() bool { return z.rules != "" }

// Location returns the zone for use with package time, nil if unset.
func (z Zone) Location() *time.Location { return z.loc }

// Equal reports whether both zones have the same name and, if custom, the same
// transitions.
func (z Zone) Equal(o Zone) bool { return z.name == o.name && z.rules == o.rules }

// String returns the name.
func (z Zone) String() string { return z.name }

// MarshalText writes the name. A custom zone is an error, because its name alone
// does not say what it is.
func (z Zone) MarshalText() ([]byte, error) {
	if z.Custom() {
		return nil, &ValueError{
			What: "zone", Value: z.name, Reason: "a custom zone cannot be written as a name",
			Remedy: "write it as a VTIMEZONE, or use an IANA zone",
		}
	}
	return []byte(z.name), nil
}

// UnmarshalText reads what LoadZone accepts.
func (z *Zone) UnmarshalText(b []byte) error {
	v, err := LoadZone(string(b))
	if err != nil {
		return err
	}
	*z = v
	return nil
}
