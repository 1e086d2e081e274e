package chart

import (
	"strings"
	"sync"
	"unicode"

	"golang.org/x/image/font/sfnt"
	"gonum.org/v1/plot/font"
)

// drawable drops what the letters at hand cannot draw, such as the little
// pictures that people put into names, which would come out as empty boxes.
func drawable(line string) string {
	face := sans()
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case has(face, r):
			return r
		}
		return -1
	}, line))
}

// sans returns the typeface of all pictures.
var sans = sync.OnceValue(func() *sfnt.Font {
	f := font.Font{Typeface: "Liberation", Variant: "Sans"}
	return font.DefaultCache.Lookup(f, font.Length(small)).Face
})

// has tells whether the typeface knows a sign. Its buffer is not shared, so that
// pictures may be drawn side by side.
func has(face *sfnt.Font, r rune) bool {
	i, err := face.GlyphIndex(&sfnt.Buffer{}, r)
	return err == nil && i != 0
}
