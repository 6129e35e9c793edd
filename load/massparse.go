package load

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"math/bits"
	"strconv"
	"strings"
)

// maxMassText bounds the text of a mass, in bytes.
const maxMassText = 32

// ParseMass reads a mass such as "100 kg", "102.5kg" or "225 lb": digits, at
// most one decimal point with digits on both sides, at most one space, and the
// unit kg, g or lb. The conversion is exact and rounded to the nearest gram,
// ties down. Refused, with every reason: no unit or another one, signs,
// exponents, decimal commas, NaN, infinities, more than 7 digits before or 9
// behind the point, more than [MaxMass], more than 32 bytes.
func ParseMass(s string) (Mass, error) {
	var ps problems
	if len(s) > maxMassText {
		ps.add("", quoted(s), "longer than 32 bytes", `write a load such as "100 kg" or "225 lb"`)
		return 0, ps.err()
	}
	number, unit := splitMass(s)
	perUnit, perUnitDigits := gramsOf(unit)
	if perUnit == 0 {
		reason := "unknown unit " + quoted(unit)
		if unit == "" {
			reason = "a load without a unit"
		}
		ps.add("", quoted(s), reason, "add kg, g or lb")
	}
	value, decimals, why, remedy := decimal(number)
	if why != "" {
		ps.add("", quoted(s), why, remedy)
	}
	if len(ps) > 0 {
		return 0, ps.err()
	}
	hi, lo := bits.Mul64(value, perUnit)
	divisor := pow10(decimals + perUnitDigits)
	if hi >= divisor { // the quotient would not fit 64 bits
		ps.add("", quoted(s), "over 10000 kg", "check the unit and the number")
		return 0, ps.err()
	}
	grams, rest := bits.Div64(hi, lo, divisor)
	if rest > divisor-rest {
		grams++
	}
	if grams > uint64(MaxMass) {
		ps.add("", quoted(s), "over 10000 kg", "check the unit and the number")
		return 0, ps.err()
	}
	return Mass(grams), nil
}

// splitMass parts the trailing letters from the number, and one space between.
func splitMass(s string) (number, unit string) {
	i := len(s)
	for i > 0 && (s[i-1] >= 'a' && s[i-1] <= 'z' || s[i-1] >= 'A' && s[i-1] <= 'Z') {
		i--
	}
	number, unit = s[:i], s[i:]
	if unit != "" {
		number = strings.TrimSuffix(number, " ")
	}
	return number, unit
}

// gramsOf gives the grams in a unit as digits and the number of decimals in
// them; 0 for an unknown unit.
func gramsOf(unit string) (grams uint64, decimals int) {
	switch unit {
	case "kg":
		return 1000, 0
	case "g":
		return 1, 0
	case "lb":
		return 45359237, 5
	}
	return 0, 0
}

// decimal reads digits with at most one point, or says why not.
func decimal(s string) (value uint64, decimals int, why, remedy string) {
	const plain = "write plain digits with a decimal point, such as 102.5"
	whole, fraction, point := strings.Cut(s, ".")
	switch {
	case s == "":
		return 0, 0, "no number", plain
	case s[0] == '-':
		return 0, 0, "a load is not negative", "give a load from 0 to 10000 kg"
	case strings.Contains(s, ","):
		return 0, 0, "a comma in the number", plain
	case whole == "" || point && fraction == "" || !digits(whole) || !digits(fraction):
		return 0, 0, "not a plain decimal number", plain
	case len(whole) > 7 || len(fraction) > 9:
		return 0, 0, "too many digits", "use at most 7 digits before the point and 9 behind it"
	}
	for _, c := range []byte(whole + fraction) {
		value = value*10 + uint64(c-'0')
	}
	return value, len(fraction), "", ""
}

func digits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return true
}

func pow10(n int) uint64 {
	p := uint64(1)
	for range n {
		p *= 10
	}
	return p
}

// MarshalJSON writes {"grams": n}. A negative mass is an error, since no load
// is negative.
func (m Mass) MarshalJSON() ([]byte, error) {
	if m < 0 {
		var ps problems
		ps.add("", m.String(), "a load is not negative", "write the two loads, not their difference")
		return nil, ps.err()
	}
	return []byte(`{"grams":` + strconv.FormatInt(int64(m), 10) + `}`), nil
}

// UnmarshalJSON reads a string as [ParseMass] does, or what MarshalJSON
// wrote. A bare number has no unit and is refused; so is null.
func (m *Mass) UnmarshalJSON(b []byte) error {
	var ps problems
	trimmed := bytes.TrimSpace(b)
	if len(trimmed) > 0 {
		switch c := trimmed[0]; {
		case c == '"':
			var s string
			if err := json.Unmarshal(trimmed, &s); err != nil {
				break
			}
			mass, err := ParseMass(s)
			if err == nil {
				*m = mass
			}
			return err
		case c == '{':
			grams, err := gramsObject(trimmed)
			if err != nil {
				break
			}
			if grams < 0 || grams > int64(MaxMass) {
				ps.add("", quoted(string(trimmed)), "not from 0 to 10000 kg", "give the grams as a whole number")
				return ps.err()
			}
			*m = Mass(grams)
			return nil
		case c == '-' || c >= '0' && c <= '9':
			ps.add("", quoted(string(trimmed)), "a load without a unit", `write it as text with its unit, such as "100 kg"`)
			return ps.err()
		}
	}
	ps.add("", quoted(string(trimmed)), "not a load", `write "100 kg", "225 lb" or {"grams": 100000}`)
	return ps.err()
}

var errNotGrams = errors.New("not an object of grams")

// gramsObject reads {"grams": n} and nothing else: encoding/json would also
// take other cases and repeated keys.
func gramsObject(b []byte) (int64, error) {
	d := json.NewDecoder(bytes.NewReader(b))
	d.UseNumber()
	var tokens [4]json.Token
	for i := range tokens {
		t, err := d.Token()
		if err != nil {
			return 0, err
		}
		tokens[i] = t
	}
	if _, err := d.Token(); err != io.EOF {
		return 0, errNotGrams
	}
	number, isNumber := tokens[2].(json.Number)
	if tokens[0] != json.Delim('{') || tokens[1] != "grams" || !isNumber || tokens[3] != json.Delim('}') {
		return 0, errNotGrams
	}
	return strconv.ParseInt(number.String(), 10, 64)
}
