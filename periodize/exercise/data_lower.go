package exercise

// Squats are listed as loading the adductors where the usual stance or depth
// does, so that a groin complaint leads to hinges in a narrow stance.
var squatRows = []row{
	{"back-squat", "Back squat", Squat, Main, Bar, "bar rack", "quadriceps knee glutes adductors low-back ankle", 2, "h", 4, 0, "front-squat goblet-squat", ""},
	{"front-squat", "Front squat", Squat, Main, Bar, "bar rack", "quadriceps knee glutes adductors upper-back wrist low-back ankle", 2, "h", 4, 0, "goblet-squat", ""},
	{"box-squat", "Box squat", Squat, Main, Bar, "bar rack box", "quadriceps knee glutes adductors low-back", 1, "h", 4, 0, "goblet-squat", ""},
	{"landmine-squat", "Landmine squat", Squat, Main, Bar, "bar landmine", "quadriceps knee glutes adductors ankle", 1, "h", 4, 0, "goblet-squat", ""},
	{"goblet-squat", "Goblet squat", Squat, Main, Single, "dumbbell|kettlebell", "quadriceps knee glutes adductors ankle", 0, "h", 4, 0, "bodyweight-squat", ""},
	{"double-kettlebell-squat", "Squat with two kettlebells in front", Squat, Main, Pair, "kettlebells", "quadriceps knee glutes adductors upper-back low-back ankle", 1, "h", 4, 0, "goblet-squat", ""},
	{"leg-press", "Leg press, feet hip-wide", Squat, Main, Stack, "leg-press", "quadriceps knee glutes", 0, "h", 4, 0, "narrow-sit-to-box", ""},
	{"sandbag-squat", "Sandbag squat", Squat, Main, Untracked, "sandbag", "quadriceps knee glutes adductors upper-back low-back ankle", 0, "h", 4, 0, "bodyweight-squat", ""},
	{"slow-goblet-squat", "Goblet squat, 5 s down", Squat, Accessory, Single, "dumbbell|kettlebell", "quadriceps knee glutes adductors ankle", 1, "e", 7, 6, "goblet-squat", ""},
	{"bodyweight-squat", "Squat, own weight", Squat, Accessory, Body, "", "quadriceps knee glutes adductors ankle", 0, "", 3, 12, "narrow-sit-to-box", ""},
	{"pause-squat", "Squat with a 3 s pause, own weight", Squat, Accessory, Body, "", "quadriceps knee glutes adductors ankle", 0, "", 6, 8, "bodyweight-squat", ""},
	{"narrow-sit-to-box", "Sit to a box and stand, narrow stance", Squat, Accessory, Body, "box|bench|chair", "quadriceps knee glutes", 0, "", 4, 10, "", ""},
	{"wall-sit", "Wall sit, feet hip-wide", Squat, Accessory, Body, "", "quadriceps knee", 0, "t", 30, 1, "", ""},
	{"heels-raised-goblet", "Goblet squat, heels raised", Squat, Accessory, Single, "dumbbell|kettlebell", "quadriceps knee adductors ankle", 1, "", 4, 0, "bodyweight-squat", ""},
}

var hingeRows = []row{
	{"deadlift", "Deadlift", Hinge, Main, Bar, "bar", "hamstrings glutes low-back upper-back forearm", 2, "h", 4, 0, "trap-bar-deadlift romanian-deadlift kettlebell-deadlift", ""},
	{"trap-bar-deadlift", "Trap-bar deadlift, narrow stance", Hinge, Main, TrapBar, "trap-bar", "quadriceps knee hamstrings glutes low-back forearm", 1, "h", 4, 0, "kettlebell-deadlift", ""},
	{"romanian-deadlift", "Romanian deadlift, feet hip-wide", Hinge, Main, Bar, "bar", "hamstrings glutes low-back forearm", 1, "h", 4, 0, "dumbbell-romanian-deadlift", ""},
	{"sumo-deadlift", "Wide-stance deadlift", Hinge, Main, Bar, "bar", "hamstrings glutes adductors low-back forearm", 2, "h", 4, 0, "trap-bar-deadlift", ""},
	{"block-deadlift", "Deadlift from blocks", Hinge, Main, Bar, "bar box", "hamstrings glutes low-back upper-back forearm", 1, "h", 4, 0, "kettlebell-deadlift", ""},
	{"hip-thrust", "Hip thrust", Hinge, Main, Bar, "bar bench", "glutes hamstrings hip", 1, "h", 3, 0, "glute-bridge", ""},
	{"kettlebell-deadlift", "Deadlift with one weight between the feet", Hinge, Main, Single, "dumbbell|kettlebell", "hamstrings glutes low-back", 0, "h", 4, 0, "hip-hinge-drill", ""},
	{"dumbbell-romanian-deadlift", "Romanian deadlift with dumbbells", Hinge, Main, Pair, "dumbbells", "hamstrings glutes low-back forearm", 0, "h", 4, 0, "kettlebell-deadlift", ""},
	{"slow-romanian-deadlift", "Romanian deadlift, 5 s down", Hinge, Main, Bar, "bar", "hamstrings glutes low-back forearm", 2, "he", 7, 0, "romanian-deadlift", ""},
	{"good-morning", "Good morning", Hinge, Accessory, Bar, "bar rack", "hamstrings glutes low-back", 3, "", 4, 0, "romanian-deadlift", ""},
	{"single-leg-romanian-deadlift", "Single-leg Romanian deadlift", Hinge, Accessory, Single, "dumbbell|kettlebell", "hamstrings glutes hip ankle", 1, "s", 4, 8, "single-leg-reach", ""},
	{"single-leg-reach", "Single-leg hinge and reach, own weight", Hinge, Accessory, Body, "", "hamstrings glutes hip ankle", 0, "s", 4, 8, "hip-hinge-drill", ""},
	{"glute-bridge", "Glute bridge", Hinge, Accessory, Body, "", "glutes", 0, "", 3, 12, "", ""},
	{"single-leg-bridge", "Single-leg bridge", Hinge, Accessory, Body, "", "glutes hamstrings", 0, "s", 3, 8, "glute-bridge", ""},
	{"single-leg-hip-thrust", "Single-leg hip thrust", Hinge, Accessory, Body, "bench|box|chair", "glutes hamstrings hip", 1, "s", 3, 8, "single-leg-bridge", ""},
	{"hamstring-walkout", "Bridge with walk-outs", Hinge, Accessory, Body, "", "hamstrings glutes", 1, "", 6, 5, "glute-bridge", ""},
	{"back-extension", "Back extension", Hinge, Accessory, Body, "back-extension", "hamstrings glutes low-back", 0, "", 3, 10, "glute-bridge", ""},
	{"band-pull-through", "Pull-through", Hinge, Accessory, Band, "band|cable", "hamstrings glutes", 0, "", 3, 10, "glute-bridge", ""},
	{"hip-hinge-drill", "Hip hinge with a stick", Hinge, Accessory, Body, "", "hamstrings", 0, "", 4, 10, "", ""},
	{"kettlebell-swing", "Kettlebell swing", Hinge, Accessory, Single, "kettlebell", "hamstrings glutes low-back forearm", 2, "", 2, 10, "kettlebell-deadlift", ""},
}

var singleLegRows = []row{
	{"split-squat", "Split squat", SingleLeg, Main, Pair, "dumbbells", "quadriceps knee glutes adductors hip-flexors", 0, "sh", 4, 6, "bodyweight-split-squat", ""},
	{"bar-split-squat", "Split squat with a bar", SingleLeg, Main, Bar, "bar rack", "quadriceps knee glutes adductors hip-flexors low-back", 2, "sh", 4, 6, "split-squat", ""},
	{"rear-foot-raised-split-squat", "Split squat, rear foot raised", SingleLeg, Main, Pair, "dumbbells bench", "quadriceps knee glutes adductors hip-flexors", 1, "sh", 4, 6, "split-squat", ""},
	{"step-up", "Step-up", SingleLeg, Main, Pair, "dumbbells box", "quadriceps knee glutes", 0, "sh", 4, 6, "low-step-up", ""},
	{"bodyweight-split-squat", "Split squat, own weight", SingleLeg, Accessory, Body, "", "quadriceps knee glutes adductors hip-flexors", 0, "s", 3, 8, "", ""},
	{"isometric-split-squat", "Split squat hold", SingleLeg, Accessory, Body, "", "quadriceps knee glutes adductors hip-flexors", 0, "st", 20, 1, "bodyweight-split-squat", ""},
	{"reverse-lunge", "Reverse lunge", SingleLeg, Accessory, Single, "dumbbell|kettlebell", "quadriceps knee glutes adductors hip-flexors", 0, "s", 3, 6, "bodyweight-split-squat", ""},
	{"dumbbell-walking-lunge", "Walking lunge with dumbbells", SingleLeg, Accessory, Pair, "dumbbells corridor", "quadriceps knee glutes adductors hip-flexors forearm ankle", 1, "s", 3, 6, "walking-lunge", ""},
	{"front-foot-raised-split-squat", "Split squat with one weight, front foot raised", SingleLeg, Accessory, Single, "dumbbell|kettlebell box|step", "quadriceps knee glutes adductors hip-flexors", 1, "s", 3, 6, "bodyweight-split-squat", ""},
	{"weighted-lateral-lunge", "Lateral lunge with one weight", SingleLeg, Accessory, Single, "dumbbell|kettlebell", "adductors quadriceps knee glutes ankle", 1, "s", 4, 5, "lateral-lunge", ""},
	{"bodyweight-reverse-lunge", "Reverse lunge, own weight", SingleLeg, Accessory, Body, "", "quadriceps knee glutes adductors hip-flexors", 0, "s", 3, 8, "bodyweight-split-squat", ""},
	{"walking-lunge", "Walking lunge", SingleLeg, Accessory, Body, "corridor", "quadriceps knee glutes adductors hip-flexors ankle", 0, "s", 3, 8, "bodyweight-split-squat", ""},
	{"lateral-lunge", "Lateral lunge", SingleLeg, Accessory, Body, "", "adductors quadriceps knee glutes ankle", 0, "s", 4, 6, "bodyweight-split-squat", ""},
	{"cossack-squat", "Side-to-side deep squat", SingleLeg, Accessory, Body, "", "adductors quadriceps knee hip ankle", 1, "s", 4, 5, "lateral-lunge", ""},
	{"low-step-up", "Step-up, own weight", SingleLeg, Accessory, Body, "box|bench|chair", "quadriceps knee glutes", 0, "s", 3, 8, "", ""},
	{"single-leg-squat-to-box", "Single-leg squat to a box", SingleLeg, Accessory, Body, "box|bench|chair", "quadriceps knee glutes hip", 1, "s", 4, 5, "low-step-up", ""},
	{"slow-step-down", "Lateral step-down, 4 s", SingleLeg, Accessory, Body, "box|bench", "quadriceps knee hip", 1, "se", 6, 5, "low-step-up", ""},
	{"skater-squat", "Single-leg squat, rear knee to a pad", SingleLeg, Accessory, Body, "", "quadriceps knee glutes adductors hip ankle", 2, "s", 4, 5, "bodyweight-split-squat", ""},
}
