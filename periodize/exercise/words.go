package exercise

import "slices"

// Pattern is a movement pattern.
type Pattern string

// The movement patterns. They belong to regions, see [Pattern.Region].
const (
	Squat          Pattern = "squat"
	Hinge          Pattern = "hinge"
	SingleLeg      Pattern = "single-leg"
	PushHorizontal Pattern = "push-horizontal"
	PushVertical   Pattern = "push-vertical"
	PullHorizontal Pattern = "pull-horizontal"
	PullVertical   Pattern = "pull-vertical"
	TrunkBrace     Pattern = "trunk-brace"
	TrunkRotate    Pattern = "trunk-rotate"
	TrunkSide      Pattern = "trunk-side"
	Carry          Pattern = "carry"
	JumpVertical   Pattern = "jump-vertical"
	JumpLateral    Pattern = "jump-lateral"
	Throw          Pattern = "throw"
	Sprint         Pattern = "sprint"
	Movement       Pattern = "movement"
	Adduction      Pattern = "adduction"
	Abduction      Pattern = "abduction"
	KneeFlexion    Pattern = "knee-flexion"
	LowerLeg       Pattern = "lower-leg"
	HipFlexion     Pattern = "hip-flexion"
	ShoulderCare   Pattern = "shoulder-care"
	NeckCare       Pattern = "neck-care"
	Mobility       Pattern = "mobility"
	Aerobic        Pattern = "aerobic"
)

// Region is a part of a session that patterns belong to.
type Region string

// The regions. The first four make a full-body session complete.
const (
	Lower     Region = "lower"
	Push      Region = "push"
	Pull      Region = "pull"
	Trunk     Region = "trunk"
	Power     Region = "power"
	Speed     Region = "speed"
	Moving    Region = "movement"
	Care      Region = "care"
	Range     Region = "mobility"
	Endurance Region = "endurance"
)

var patternRegions = []struct {
	pattern Pattern
	region  Region
}{
	{Squat, Lower}, {Hinge, Lower}, {SingleLeg, Lower},
	{PushHorizontal, Push}, {PushVertical, Push},
	{PullHorizontal, Pull}, {PullVertical, Pull},
	{TrunkBrace, Trunk}, {TrunkRotate, Trunk}, {TrunkSide, Trunk}, {Carry, Trunk},
	{JumpVertical, Power}, {JumpLateral, Power}, {Throw, Power}, {Sprint, Speed},
	{Movement, Moving},
	{Adduction, Care}, {Abduction, Care}, {KneeFlexion, Care}, {LowerLeg, Care}, {HipFlexion, Care}, {ShoulderCare, Care}, {NeckCare, Care},
	{Mobility, Range}, {Aerobic, Endurance},
}

// Patterns lists the movement patterns in their fixed order.
func Patterns() []Pattern {
	out := make([]Pattern, len(patternRegions))
	for i, p := range patternRegions {
		out[i] = p.pattern
	}
	return out
}

// Region is the region a pattern belongs to, "" for an unknown pattern.
func (p Pattern) Region() Region {
	for _, x := range patternRegions {
		if x.pattern == p {
			return x.region
		}
	}
	return ""
}

// Role is what an exercise is for in a session.
type Role string

// The roles.
const (
	Main       Role = "main"
	Accessory  Role = "accessory"
	Corrective Role = "corrective"
	Powerful   Role = "power"
	Easy       Role = "easy" // unloaded: mobility, movement, the aerobic piece
)

var roles = []Role{Main, Accessory, Corrective, Powerful, Easy}

// Implement is what the load of an exercise is, and so what it is rounded down
// to.
type Implement string

// The implements.
const (
	Body      Implement = "body"      // no load
	Bar       Implement = "bar"       // bar and discs
	TrapBar   Implement = "trap-bar"  // trap bar and discs
	Pair      Implement = "pair"      // a dumbbell or kettlebell in each hand; the load is that of one
	Single    Implement = "single"    // one dumbbell or kettlebell
	Band      Implement = "band"      // elastic band
	Stack     Implement = "stack"     // cable or machine
	Ball      Implement = "ball"      // medicine ball
	Untracked Implement = "untracked" // a load of which no kilograms are told
)

var implements = []Implement{Body, Bar, TrapBar, Pair, Single, Band, Stack, Ball, Untracked}

// Tissue is a part of the body that an exercise loads.
type Tissue string

// The tissues.
const (
	Adductors  Tissue = "adductors"
	HipFlexors Tissue = "hip-flexors"
	Hip        Tissue = "hip"
	Glutes     Tissue = "glutes"
	Hamstrings Tissue = "hamstrings"
	Quadriceps Tissue = "quadriceps"
	Knee       Tissue = "knee"
	Shin       Tissue = "shin"
	Calf       Tissue = "calf"
	Achilles   Tissue = "achilles"
	Ankle      Tissue = "ankle"
	Foot       Tissue = "foot"
	LowBack    Tissue = "low-back"
	Abdomen    Tissue = "abdomen"
	Chest      Tissue = "chest"
	UpperBack  Tissue = "upper-back"
	Shoulder   Tissue = "shoulder"
	Elbow      Tissue = "elbow"
	Forearm    Tissue = "forearm"
	Wrist      Tissue = "wrist"
	Neck       Tissue = "neck"
)

var tissues = []Tissue{Adductors, HipFlexors, Hip, Glutes, Hamstrings, Quadriceps, Knee, Shin, Calf, Achilles, Ankle, Foot,
	LowBack, Abdomen, Chest, UpperBack, Shoulder, Elbow, Forearm, Wrist, Neck}

// Tissues lists the tissues in their fixed order.
func Tissues() []Tissue { return slices.Clone(tissues) }

// regionWords are the words of the body that complaints and restrictions may
// use, besides the tissues themselves, and the tissues they rule out.
var regionWords = []struct {
	word string
	out  []Tissue
}{
	{"groin", []Tissue{Adductors, HipFlexors}},
	{"adductor", []Tissue{Adductors}},
	{"hamstring", []Tissue{Hamstrings}},
	{"thigh", []Tissue{Quadriceps, Hamstrings}},
	{"quad", []Tissue{Quadriceps}},
	{"buttock", []Tissue{Glutes}},
	{"pelvis", []Tissue{Adductors, HipFlexors, Hip, Glutes, Abdomen}},
	{"heel", []Tissue{Achilles, Calf, Foot}},
	{"toe", []Tissue{Foot}},
	{"lower-leg", []Tissue{Shin, Calf, Achilles}},
	{"leg", []Tissue{Adductors, HipFlexors, Hip, Hamstrings, Quadriceps, Knee, Shin, Calf, Achilles, Ankle, Foot}},
	{"back", []Tissue{LowBack, UpperBack}},
	{"lower-back", []Tissue{LowBack}},
	{"abdominals", []Tissue{Abdomen}},
	{"rib", []Tissue{Abdomen, Chest, UpperBack}},
	{"collarbone", []Tissue{Shoulder, Chest}},
	{"upper-arm", []Tissue{Shoulder, Elbow}},
	{"arm", []Tissue{Shoulder, Elbow, Forearm, Wrist}},
	{"hand", []Tissue{Forearm, Wrist}},
	{"finger", []Tissue{Forearm, Wrist}},
}

// tissueMask is a set of tissues.
type tissueMask uint32

func maskOf(list []Tissue) tissueMask {
	var m tissueMask
	for _, t := range list {
		if i := slices.Index(tissues, t); i >= 0 {
			m |= 1 << i
		}
	}
	return m
}

// regionMask is the set of tissues that a word of the body rules out; ok is
// false for an unknown word.
func regionMask(word string) (tissueMask, bool) {
	word = plainWord(word)
	if i := slices.Index(tissues, Tissue(word)); i >= 0 {
		return 1 << i, true
	}
	for _, w := range regionWords {
		if w.word == word {
			return maskOf(w.out), true
		}
	}
	return 0, false
}

// BodyWords lists the words of the body that complaints and restrictions may
// use, sorted.
func BodyWords() []string {
	var out []string
	for _, t := range tissues {
		out = append(out, string(t))
	}
	for _, w := range regionWords {
		out = append(out, w.word)
	}
	slices.Sort(out)
	return out
}

// TissuesOf lists the tissues that a word of the body rules out: "groin" stands
// for the adductors and the hip flexors. ok is false for an unknown word, see
// [BodyWords].
func TissuesOf(word string) (out []Tissue, ok bool) {
	m, ok := regionMask(word)
	for i, t := range tissues {
		if m&(1<<i) != 0 {
			out = append(out, t)
		}
	}
	return out, ok
}

// plainWord is a word in small letters with hyphens for spaces.
func plainWord(s string) string {
	if len(s) > 200 {
		return ""
	}
	b := make([]byte, 0, len(s))
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case c >= 'A' && c <= 'Z':
			b = append(b, c+'a'-'A')
		case c == ' ' || c == '_':
			b = append(b, '-')
		default:
			b = append(b, c)
		}
	}
	return string(b)
}
