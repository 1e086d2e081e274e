package parse

import "testing"

// Words of pain and alarm as they are typed: misspelt, short, denied, of others, and
// talk that only sounds like them. (From memory of how lifters write.)
func TestWordsOfPainAsTheyAreTyped(t *testing.T) {
	for text, want := range map[string]AlarmKind{
		"my nee hurts": Pain, "kne pain on squats today": Pain, "my shouder hurts": Pain, "my sholder hurts when I bench": Pain, "my knee hurst": Pain,
		"back pain again": Pain, "lower back hurts after deads": Pain, "my lower back is tweaked": Pain, "felt a twinge in my hamstring": Pain,
		"pulled something in my groin": Pain, "elbow hurting bad": Pain, "squat 140x5 knee hurt a bit": Pain, "squat 140x5 but my hip hurts": Pain,
		"i think i tore my bicep": Pain, "bicep torn": Pain, "i hurt myself": Pain, "I'm injured": Pain, "sharp pain in my back": Pain,
		"stabbing in my ribs": Pain, "wrist is swollen": Pain, "my ankle is broken": Pain,
		"injured": Pain, "injured again": Pain, "got injured today": Pain, "squat 60x5, injured": Pain, "back tweaked": Pain, "back is tweaked": Pain,
		"pulled my hamstring": Pain, "my hamstring pulled": Pain, "hamstring is pulled": Pain, "hamstring pulled again": Pain, "pulled a muscle": Pain,
		"I tweaked my knee last year and it hurts again": Pain, "injured my knee today": Pain, "I injured my back": Pain,
		"injured list": "", "I was injured last year, now fine": "", "im on the injured list": "", "ben is injured": "", "I'm not injured": "",
		"hurt my back in 2019, all good now": "", "I tweaked my knee 3 years ago": "", "injured lifters get in free": "", "not injured": "",
		"legs pulled 200 today": "", "pulled 200 for my back day": "", "back pulled 180x3": "", "coming back after being injured": "",
		"chest hurts": Alarm, "chest pian": Alarm, "my chest hurts and left arm is numb": Alarm, "i feinted after deads": Alarm, "feel faint": Alarm,
		"i feel dizzy": Alarm, "got dizzy after the last set": Alarm, "saw stars": Alarm, "cant breath": Alarm, "my pec went pop": Alarm,
		"heard a crack in my knee": Alarm, "something tore": Alarm, "numb fingers": Alarm, "fingers tingling": Alarm, "my hand went numb": Alarm,
		"vision went black": Alarm, "squat 140x5 then I was dizzy": Alarm,
		"no pain today": "", "no pain today, squat 140x5": "", "knee felt fine, no pain": "", "pain free today": "", "no more knee pain!": "",
		"no more hip or knee pain": "", "my knee doesnt hurt anymore": "", "my knee has stopped hurting": "", "without any pain in my shoulder": "",
		"didn't hurt my back this time": "", "no numbness today": "", "not dizzy at all": "", "my elbow's sore": "", "legs are killing me": "",
		"everything hurts lol": "", "this hurts my soul": "", "the pain of leg day": "", "no pain no gain": "", "hurt so good": "", "back squat hurts": "",
		"painful to watch": "", "ben hurt his knee": "", "my coach hurt his back": "", "squat 140x5 pain cave": "", "broke my back squat record": "",
		"pin squat 140x5": "", "hip thrusts 100x8": "", "chest press 60x8": "",
	} {
		c := lifter("kg")
		if got := Log(text, c).Alarm; got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
