package chart

import (
	"bytes"
	"flag"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"gonum.org/v1/plot/text"

	"blockbell/planner"
)

var out = flag.String("pictures", "", "folder to write the sample pictures to, for looking at")

func decode(t *testing.T, b []byte) image.Image {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// share is the part of a picture that has exactly one colour.
func share(img image.Image, c color.NRGBA) float64 {
	n, r := 0, img.Bounds()
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			if color.NRGBAModel.Convert(img.At(x, y)) == c {
				n++
			}
		}
	}
	return float64(n) / float64(r.Dx()*r.Dy())
}

func TestPicturesAreThePhonesWidthAndOpaque(t *testing.T) {
	for name, draw := range all() {
		b, err := draw()
		if err != nil {
			t.Fatal(name, err)
		}
		if *out != "" {
			if err := os.WriteFile(filepath.Join(*out, name+".png"), b, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		img := decode(t, b)
		if w := img.Bounds().Dx(); w != 1200 {
			t.Errorf("%s is %d pixels wide, want 1200", name, w)
		}
		if len(b) > 1<<20 {
			t.Errorf("%s has %d bytes, want at most a megabyte", name, len(b))
		}
		if share(img, paper) < 0.1 {
			t.Errorf("%s has no card of its own under it", name)
		}
		if o, ok := img.(interface{ Opaque() bool }); ok && !o.Opaque() {
			t.Errorf("%s lets the chat's background through", name)
		}
	}
}

func TestSameValuesSameBytes(t *testing.T) {
	for name, draw := range all() {
		var wait sync.WaitGroup
		results := make([][]byte, 4)
		for i := range results {
			wait.Go(func() { results[i], _ = draw() })
		}
		wait.Wait()
		for _, r := range results {
			if len(r) == 0 || !bytes.Equal(r, results[0]) {
				t.Errorf("%s differs between two drawings", name)
			}
		}
	}
}

// Every kind of block covers as much of the bar as it lasts.
func TestBlocksCoverTheirTime(t *testing.T) {
	v := sampleSeason()
	v.Rows, v.Today = v.Rows[:1], 0
	v.Rows[0].Meets = nil
	b, err := Season(v)
	if err != nil {
		t.Fatal(err)
	}
	img := decode(t, b)
	perDay := share(img, fill(planner.Hypertrophy)) / 56
	for _, b := range v.Rows[0].Blocks[1:] {
		days := float64(b.Start.DaysUntil(b.End) + 1)
		// Letters, gaps and taper ticks take some of it.
		if got := share(img, fill(b.Kind)) / days / perDay; got < 0.7 || got > 1.05 {
			t.Errorf("a day of %s covers %.2f of what a day of muscle work does", b.Kind, got)
		}
	}
}

// A time away covers its days in neutral, whatever block it lies in, and ends with today
// where it has no last day.
func TestTimesAwayAreDrawn(t *testing.T) {
	v := sampleSeason()
	v.Rows = v.Rows[:1]
	v.Rows[0].Meets = nil
	neutral := func(away ...planner.Away) float64 {
		v.Rows[0].Away = away
		b, err := Season(v)
		if err != nil {
			t.Fatal(err)
		}
		return share(decode(t, b), absence) + share(decode(t, b), slope)
	}
	none := neutral()
	none += neutral(planner.Away{From: first, To: first}) - none // the key, and a day
	four, two := neutral(planner.Away{From: first.AddDays(28), To: first.AddDays(55)})-none, neutral(planner.Away{From: first.AddDays(28), To: first.AddDays(41)})-none
	if ratio := four / two; two <= 0 || ratio < 1.7 || ratio > 2.3 {
		t.Errorf("four weeks away cover %.2f of what two weeks do", ratio)
	}
	open := neutral(planner.Away{From: v.Today.AddDays(-13)}) - none
	if ratio := open / two; ratio < 0.7 || ratio > 1.3 {
		t.Errorf("two weeks away up to today cover %.2f of two told weeks", ratio)
	}
	if outside := neutral(planner.Away{From: first.AddDays(-90), To: first.AddDays(-60)}); outside != 0 {
		t.Errorf("a time away before the plan covers %v", outside)
	}
}

// luminance and contrast are the formulas of WCAG 2.1 (W3C 2018), which asks for
// 4.5 for text.
func luminance(c color.NRGBA) float64 {
	linear := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

func contrast(a, b color.NRGBA) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func TestLettersStandOutFromWhatIsUnderThem(t *testing.T) {
	for _, letter := range []color.NRGBA{ink, faint} {
		if got := contrast(letter, paper); got < 4.5 {
			t.Errorf("%v on the card: contrast %.1f, want 4.5", letter, got)
		}
	}
	if got := contrast(alert, paper); got < 4.5 {
		t.Errorf("warnings on the card: contrast %.1f, want 4.5", got)
	}
	if got := contrast(alert, stripe); got < 4.5 {
		t.Errorf("warnings on a stripe: contrast %.1f, want 4.5", got)
	}
	for kind, c := range fills {
		if got := contrast(ink, c); got < 7 {
			t.Errorf("letters on %s: contrast %.1f, want 7", kind, got)
		}
		if names[kind] == "" {
			t.Errorf("%s has a colour and no name", kind)
		}
	}
}

func TestSignsWithoutALetterAreDropped(t *testing.T) {
	for in, want := range map[string]string{
		"River Open 🏋": "River Open", "Łukasz Zieliński": "Łukasz Zieliński", "田中 Aya": "Aya", "a\nb": "a b", "🏋": "",
	} {
		if got := drawable(in); got != want {
			t.Errorf("drawable(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestLongLinesAreCutAndSaySo(t *testing.T) {
	s := letters(small, ink, text.XLeft, text.YTop)
	long := "Emil Østergård with a name too long for one row"
	got := shorten(s, 150, long)
	if s.Width(got) > 150 || got == long || !bytes.HasSuffix([]byte(got), []byte("…")) {
		t.Errorf("cut to %q, %v wide", got, s.Width(got))
	}
	if got := shorten(s, 4, long); got != "" {
		t.Errorf("a place too narrow for one letter shows %q", got)
	}
}

func TestTicksAreRoundAndFew(t *testing.T) {
	for _, span := range [][2]float64{{0, 1}, {134, 160}, {59.2, 66.8}, {20, 320}, {140, 140.4}} {
		ticks := masses{span[0], span[1]}.Ticks(0, 0)
		if len(ticks) < 3 || len(ticks) > 7 {
			t.Errorf("%v: %d ticks", span, len(ticks))
		}
	}
	for _, days := range []int{20, 100, 400, 1100} {
		if n := len((months{first, first.AddDays(days)}).Ticks(0, 0)); n > 10 || days > 60 && n < 3 {
			t.Errorf("%d days: %d months named", days, n)
		}
	}
}

// Nothing to show is a picture too, not a crash.
func TestEmptyViews(t *testing.T) {
	for name, draw := range map[string]func() ([]byte, error){
		"lift": func() ([]byte, error) {
			return Lift(LiftView{Title: "Squat", From: first, To: first.AddDays(7), Least: 15})
		},
		"season": func() ([]byte, error) { return Season(SeasonView{Title: "Nothing planned"}) },
		"board":  func() ([]byte, error) { return Board(BoardView{From: first, To: first.AddDays(7), Today: first}) },
		"sheet":  func() ([]byte, error) { return Sheet(SheetView{}) },
		"weight": func() ([]byte, error) { return Weight(WeightView{From: first, To: first.AddDays(7)}) },
	} {
		if b, err := draw(); err != nil || len(b) == 0 {
			t.Errorf("%s: %d bytes, %v", name, len(b), err)
		}
	}
}

func BenchmarkLift(b *testing.B) {
	v := sampleLift()
	for b.Loop() {
		if _, err := Lift(v); err != nil {
			b.Fatal(err)
		}
	}
}
