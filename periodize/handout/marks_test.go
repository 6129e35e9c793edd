package handout

import (
	"regexp"
	"strconv"
	"testing"
)

var segments = regexp.MustCompile(`M(-?\d+) (-?\d+)L(-?\d+) (-?\d+)`)

// Hatches are cut at their box, whatever its size, and there is some ink in each
// that is not tiny.
func TestHatchesStayInside(t *testing.T) {
	for w := 0; w <= 40; w += 3 {
		for h := 0; h <= 31; h += 2 {
			r := box{7, 11, w, h}
			for name, d := range map[string]string{
				"across": across(r, 5), "upright": upright(r, 3), "slanted": slanted(r, 4), "fallen": fallen(r, 7), "dotted": dotted(r, 4),
			} {
				found := segments.FindAllStringSubmatch(d, -1)
				if w > 9 && h > 9 && len(found) == 0 {
					t.Errorf("%s of %v is empty", name, r)
				}
				for _, m := range found {
					var n [4]int
					for i := range n {
						n[i], _ = strconv.Atoi(m[i+1])
					}
					for i := 0; i < 4; i += 2 {
						if n[i] < r.x || n[i] > r.x+w || n[i+1] < r.y || n[i+1] > r.y+h {
							t.Errorf("%s of %v leaves it: %v", name, r, n)
						}
					}
				}
			}
			for _, m := range segments.FindAllStringSubmatch(slanted(r, 4), -1) {
				x1, _ := strconv.Atoi(m[1])
				y1, _ := strconv.Atoi(m[2])
				x2, _ := strconv.Atoi(m[3])
				y2, _ := strconv.Atoi(m[4])
				if x2-x1 != y1-y2 {
					t.Errorf("a slanted line of %v is not at 45 degrees: %v", r, m[0])
				}
			}
		}
	}
}
