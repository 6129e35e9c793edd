package exercise_test

import (
	"fmt"
	"strings"

	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

func ExampleBuilder_Session() {
	in := exercise.Input{Session: session(season.FullBody, 45, "2026-11-10"), Athlete: adult(), Kit: exercise.Gym()}
	in.Athlete.Maxima = []season.Maximum{{Exercise: "back-squat", Grams: 140_000, Kind: "tested", Date: day("2026-10-20")}}
	card, err := exercise.Builder{}.Session(in)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, b := range card.Blocks {
		fmt.Println(b.Minutes, "min", b.Name)
	}
	for _, it := range card.Blocks[2].Items {
		if it.Slot == "main lower" {
			fmt.Println(it.Exercise.Name, it.Exercise.Sets, "x", it.Exercise.Reps, load.Mass(it.Exercise.Load.Grams))
			fmt.Println(it.Exercise.Evidence.Text)
		}
	}
	// Output:
	// 10 min Warm-up
	// 7 min Power and movement
	// 12 min Main lift
	// 8 min Push, pull and trunk
	// 8 min Second round of strength
	// Back squat 2 x 5 112.5 kg
	// tested 140 kg on 2026-10-20, 21 days ago, repeats within about 4 % (Grgic et al. 2020); 5 with 2 left is 81 % by epley, 113.513 kg before rounding down
}

func ExampleBuilder_Season() {
	plan, cards, err := exercise.Builder{}.Season(invented(2), club())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(len(cards), "cards")
	for _, p := range plan.Sessions[2].Parts {
		fmt.Println(p.Minutes, "min", p.Name)
	}
	// Output:
	// 8 cards
	// 12 min Warm-up
	// 7 min Short sprints
	// 7 min Fast and springy
	// 5 min Pull and loosen
	// 4 min Easy mobility and breathing
}

func ExampleBuilder_Today() {
	in := exercise.Input{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: adult(), Kit: exercise.Gym()}
	card, err := exercise.Builder{}.Session(in)
	if err != nil {
		fmt.Println(err)
		return
	}
	report := exercise.CheckIn{Minutes: 20, Kit: &exercise.Kit{Kettlebells: []load.Mass{16 * load.Kilogram}},
		Pain: []exercise.Complaint{{Region: "groin", Side: "left", Pain: 3}}}
	result, err := exercise.Builder{}.Today(in, card, report)
	if err != nil {
		fmt.Println(err)
		return
	}
	switch r := result.(type) {
	case exercise.Held:
		fmt.Println("no session:", r.Why[0].Text)
	case exercise.Swapped:
		for _, b := range r.Card.Blocks[1:] {
			for _, it := range b.Items {
				fmt.Printf("%d x %s %s\n", it.Exercise.Sets, it.Exercise.Reps, it.Exercise.Name)
			}
		}
		fmt.Println("on the wall: modified", r.Card.Wall().Modified)
		fmt.Println("minutes left in the week's plan:", r.Effect().Minutes)
	}
	// Output:
	// 2 x 5 Fast push-up
	// 2 x 8-15 Deadlift with one weight between the feet
	// 2 x 2 x 15 s Short-lever squeeze, ball between the knees, at most 2 of 10 sore
	// 2 x 10 Shoulder-blade push-up
	// 2 x 8 Pike push-up
	// 2 x 8 One-arm row, split stance
	// 2 x 20 s Long plank
	// on the wall: modified true
	// minutes left in the week's plan: 20
}

func ExampleHeld() {
	in := exercise.Input{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: adult(), Kit: exercise.Gym()}
	result, err := exercise.Builder{}.Today(in, exercise.Card{}, exercise.CheckIn{Signs: []exercise.Sign{exercise.HeadKnock}})
	if err != nil {
		fmt.Println(err)
		return
	}
	held := result.(exercise.Held)
	fmt.Println(held.State(), held.Clearance)
	fmt.Println(held.Why[0].Text)
	fmt.Println("hold from", held.Effect().Hold.From)
	// Output:
	// held true
	// knock to the head: no session until a named clinician has cleared it
	// hold from 2026-11-10
}

func ExampleBuilder_FirstSet() {
	in := exercise.Input{Kit: exercise.Gym()}
	it := exercise.Item{ID: "back-squat", Reps: 5, Left: 2}
	did := exercise.DoneSet{Load: 100 * load.Kilogram, Reps: 5, Left: 3}
	adjusted, err := exercise.Builder{}.FirstSet(in, it, did)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(load.Mass(adjusted.Load.Grams), "-", adjusted.Why.Text)
	// Output:
	// 102.5 kg - the first set decides: 126.667 kg estimated by epley from 100 kg x 5, 3 left
}

func ExampleCatalogue_With() {
	mine, err := exercise.Catalogue{}.With(exercise.Exercise{ID: "sled-push", Name: "Sled push", Pattern: exercise.SingleLeg, Role: exercise.Accessory,
		Kit: []string{"sled", "corridor"}, Load: exercise.Untracked, Tissues: []exercise.Tissue{exercise.Quadriceps, exercise.Calf}, Seconds: 20, Hold: true})
	if err != nil {
		fmt.Println(err)
		return
	}
	x, ok := mine.Find("Sled push")
	fmt.Println(len(mine.All())-len(exercise.Catalogue{}.All()), x.ID, ok)
	// Output:
	// 1 sled-push true
}

func ExampleNewCatalogue() {
	_, err := exercise.NewCatalogue([]exercise.Exercise{{ID: "Squat!", Name: "Squat", Pattern: "squatt", Role: exercise.Main, Load: exercise.Body, Seconds: 3}})
	fmt.Println(err)
	// Output:
	// /exercises/0/id: error: "Squat!" - an id is small letters, digits and hyphens, at most 64; write one such as "back-squat"
	// /exercises/0/pattern: error: "squatt" - no such movement pattern; use one of Patterns
}

func ExampleCatalogue_ParseKit() {
	kit, problems := exercise.Catalogue{}.ParseKit([]string{"bar 15 kg", "discs 10 kg x 1", "dumbbells 4-10 kg by 2 kg", "kettlebell 16"})
	fmt.Println(kit.Bar, kit.Discs, kit.Dumbbells)
	for _, p := range problems {
		fmt.Println(p.Error())
	}
	// Output:
	// 15 kg [{10 kg 1}] [4 kg 6 kg 8 kg 10 kg]
	// /kit/3: error: "kettlebell 16" - "16": a load without a unit; add kg, g or lb; write "bar 20 kg", "dumbbells 4-40 kg by 2 kg" or "discs 10 kg x 2"
}

func ExampleGym() {
	k := exercise.Gym()
	k.Bar = load.WomensBar
	fmt.Println(k.Bar, k.Dumbbells[0])
	// Output: 15 kg 4 kg
}

func ExampleTissuesOf() {
	out, ok := exercise.TissuesOf("groin")
	fmt.Println(out, ok, len(exercise.BodyWords()) > len(exercise.Tissues()))
	// Output: [adductors hip-flexors] true true
}

func ExamplePattern_Region() {
	fmt.Println(exercise.Hinge.Region(), len(exercise.Patterns()))
	// Output: lower 25
}

func ExampleRead() {
	var unknown exercise.Reading
	fmt.Println(exercise.Read(0).Known, unknown.Known)
	// Output: true false
}

func ExampleSigns() {
	fmt.Println(len(exercise.Signs()), exercise.Signs()[0])
	// Output: 8 knock to the head
}

func ExampleCodes() {
	for _, c := range exercise.Codes() {
		if c.Code == "card-restart" {
			fmt.Println(c.Class, c.Params, c.Text)
		}
	}
	// Output: why [days] {days} dates without a lift: one set less, no progress credited
}

func ExampleCard_Wall() {
	in := exercise.Input{Session: session(season.Recovery, 30, "2026-11-10"), Athlete: adult(), Kit: exercise.Gym()}
	card, err := exercise.Builder{}.Session(in)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, l := range card.Wall().Lines {
		fmt.Println(l.Sets, l.Reps, l.Name)
	}
	fmt.Println(card.Regions(), card.Sets()[exercise.Endurance], len(card.Parts()))
	// Output:
	// 1 23 min Easy ride
	// 2 6 Kneeling reach, side to side
	// 2 6 Cat and camel
	// 2 20 s Deep squat hold
	// 2 10 Arm swings, standing tall
	// [movement mobility endurance] 1 2
}

func ExampleReadCatalogue() {
	c, _, err := exercise.ReadCatalogue(strings.NewReader(`{"builtIn": true, "exercises": [
		{"id": "sled-push", "name": "Sled push", "pattern": "single-leg", "role": "accessory", "load": "untracked",
		 "kit": ["sled"], "tissues": ["quadriceps", "calf"], "seconds": 20, "hold": true}]}`))
	if err != nil {
		fmt.Println(err)
		return
	}
	x, _ := c.Find("sled push")
	fmt.Println(x.ID, x.Tissues)
	// Output: sled-push [quadriceps calf]
}

func ExampleCatalogue_ReadKit() {
	kit, problems, err := exercise.Catalogue{}.ReadKit(strings.NewReader(`{"kettlebells": ["16 kg"], "words": ["bnech"]}`))
	fmt.Println(kit.Kettlebells, err)
	for _, p := range problems {
		fmt.Println(p.Error())
	}
	_, _, err = exercise.Catalogue{}.ReadKit(strings.NewReader(`{"bar": 20, "dumbbells": ["4 kg", "6"]}`))
	fmt.Println(err)
	// Output:
	// [16 kg] <nil>
	// /words/0: warning: "bnech" - no exercise uses it; did you mean bench?
	// /bar: error: "20" - a load without a unit; write it as text with its unit, such as "20 kg"
	// /dumbbells/1: error: "6" - "6": a load without a unit; add kg, g or lb; write a load such as "20 kg" or "45 lb"
}

func ExampleCatalogue_ReadCheckIn() {
	in := exercise.Input{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: adult(), Kit: exercise.Gym()}
	written, err := exercise.Builder{}.Session(in)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, text := range []string{
		`{"pain": [{"region": "groin", "side": "left", "pain": 3}], "minutes": 20, "kit": ["kettlebell 16 kg"]}`,
		`{"signs": ["fainting"], "energy": 11}`,
	} {
		report, _, err := exercise.Catalogue{}.ReadCheckIn(strings.NewReader(text))
		if err != nil {
			fmt.Println(err)
		}
		result, err := exercise.Builder{}.Today(in, written, report)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(result.State(), result.Effect().Minutes)
	}
	// Output:
	// swapped 20
	// /energy: error: "(private)" - outside 0 to 10; check the number, or leave it unknown
	// held 0
}

func ExampleCatalogue_ReadProfile() {
	_, _, err := exercise.Catalogue{}.ReadProfile(strings.NewReader(`{"prehab": ["short-copenhagn"]}`))
	fmt.Println(err)
	// Output: /prehab/0: error: "short-copenhagn" - no such exercise in the catalogue; did you mean short-copenhagen?
}

func ExampleBuilder_Test() {
	in := exercise.Input{Session: session(season.FullBody, 45, "2026-11-10"), Kit: exercise.Gym(),
		Athlete: season.Athlete{ID: "b", Born: season.YearMonth{Year: 2013, Month: 4}}}
	_, err := exercise.Builder{}.Test(in, exercise.TestOrder{Exercise: "goblet-squat", Reps: 3})
	fmt.Println(err)
	in.Athlete = adult()
	in.Athlete.Maxima = []season.Maximum{{Exercise: "back-squat", Grams: 140_000, Kind: "tested", Date: day("2026-09-08")}}
	card, err := exercise.Builder{}.Test(in, exercise.TestOrder{Exercise: "back-squat", Reps: 3})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, it := range card.Blocks[1].Items {
		fmt.Println(it.Exercise.Reps, "x", load.Mass(it.Exercise.Load.Grams), it.Exercise.Name)
	}
	// Output:
	// /test: refusal: no maximal testing for beginners; let repetitions rise; or name the adult who answers for it, and why
	// 3 x 62.5 kg Back squat, lighter
	// 3 x 87.5 kg Back squat, lighter
	// 3 x 107.5 kg Back squat, lighter
	// 3 x 120 kg Back squat
	// 3 x 125 kg Back squat
}

func ExampleBuilder_Written() {
	in, card, err := exercise.Builder{}.Written(invented(2), club(), "2026-09-09")
	if err != nil {
		fmt.Println(err)
		return
	}
	result, err := exercise.Builder{}.Today(in, card, exercise.CheckIn{Energy: exercise.Read(2)})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(card.Kind, "then", result.Effect().Kind, "-", result.State())
	// Output: full-body then trimmed-full-body - eased
}

func ExampleCard_Main() {
	_, cards, err := exercise.Builder{}.Season(invented(1), club())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range cards {
		var names []string
		for _, it := range c.Main() {
			names = append(names, it.Exercise.Name)
		}
		fmt.Println(c.Kind, "-", strings.Join(names, "; "))
	}
	// Output:
	// full-body - Back squat; Bench press; Bent-over row
	// full-body - Romanian deadlift, feet hip-wide; Overhead press; Pulldown
	// primer - Sprint 10 m, walk back; Vertical jump holding dumbbells
	// recovery - Easy ride
}
