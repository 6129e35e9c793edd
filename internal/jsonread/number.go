package jsonread

import (
	"math"
	"strconv"
	"strings"
)

// Int reads a whole number from least to most. It is written with digits only:
// 1.0 and 1e3 are refused, since they show that something else was meant.
func (v Value) Int(least, most int64) (int64, bool) {
	return v.fixed(0, least, most)
}

// Decimal reads a number with at most places decimals as a whole number of
// units of 10^-places: with one place, 7.5 is 75. least and most are in the
// same units. Further decimals must be zeros; exponents are refused. places
// outside 0 to 18 stands for the nearer end.
func (v Value) Decimal(places int, least, most int64) (int64, bool) {
	return v.fixed(min(max(places, 0), 18), least, most)
}

func (v Value) fixed(places int, least, most int64) (int64, bool) {
	if !v.is(Number) {
		return 0, false
	}
	n := &v.d.nodes[v.n]
	raw := v.d.src[n.start:n.end]
	value, form, fits := fixed(raw, places)
	bounds := "give a number from " + decimal(least, places) + " to " + decimal(most, places)
	if places > 0 {
		bounds += " with at most " + count(places, "decimal")
	}
	switch {
	case form == withExponent:
		v.wrong(CodeNumber, "the number has an exponent", "write it out in digits")
	case form == withDecimals && places == 0:
		v.wrong(CodeNumber, "a whole number is wanted", "write it without a decimal point")
	case form == withDecimals:
		v.wrong(CodeNumber, "the number has more than "+count(places, "decimal"), bounds)
	case !fits || value < least || value > most:
		v.wrong(CodeRange, "the number is out of range", bounds)
	default:
		return value, true
	}
	return 0, false
}

type numberForm uint8

const (
	ordinaryForm numberForm = iota
	withDecimals            // more than wanted; any point at all where none are
	withExponent
)

// fixed reads a number of RFC 8259 in units of 10^-places. fits is false
// beyond int64.
func fixed(b []byte, places int) (value int64, form numberForm, fits bool) {
	negative := b[0] == '-'
	if negative {
		b = b[1:]
	}
	// Counting downwards holds the whole range of int64.
	fits = true
	shift := func(digit int64) {
		switch {
		case !fits:
		case value < math.MinInt64/10 || value*10 < math.MinInt64+digit:
			fits = false
		default:
			value = value*10 - digit
		}
	}
	decimals := -1 // before the point
	for _, c := range b {
		switch {
		case c == '.':
			decimals = 0
			if places == 0 {
				form = withDecimals
			}
		case c == 'e' || c == 'E':
			return 0, withExponent, false
		case decimals < 0:
			shift(int64(c - '0'))
		case decimals < places:
			shift(int64(c - '0'))
			decimals++
		case c != '0':
			form = withDecimals
		}
	}
	for decimals = max(decimals, 0); decimals < places; decimals++ {
		shift(0)
	}
	if !negative {
		if value == math.MinInt64 {
			fits = false
		}
		value = -value
	}
	return value, form, fits
}

// decimal prints units of 10^-places without trailing zeros.
func decimal(value int64, places int) string {
	s := strconv.FormatInt(value, 10)
	if places == 0 {
		return s
	}
	sign := ""
	if value < 0 {
		sign, s = "-", s[1:]
	}
	if len(s) <= places {
		s = strings.Repeat("0", places-len(s)+1) + s
	}
	return sign + strings.TrimSuffix(strings.TrimRight(s[:len(s)-places]+"."+s[len(s)-places:], "0"), ".")
}
