package chart

import (
	"image/color"

	"blockbell/planner"
)

// The card's own colours.
var (
	paper  = color.NRGBA{R: 0xfb, G: 0xfa, B: 0xf6, A: 0xff}
	ink    = color.NRGBA{R: 0x24, G: 0x26, B: 0x2b, A: 0xff}
	faint  = color.NRGBA{R: 0x6a, G: 0x6d, B: 0x74, A: 0xff}
	stripe = color.NRGBA{R: 0xf1, G: 0xf0, B: 0xeb, A: 0xff}
	rule   = color.NRGBA{R: 0xd9, G: 0xd8, B: 0xd2, A: 0xff}
	line   = color.NRGBA{R: 0x00, G: 0x72, B: 0xb2, A: 0xff}
	cloud  = color.NRGBA{R: 0x00, G: 0x72, B: 0xb2, A: 0x38}
	alert  = color.NRGBA{R: 0xa8, G: 0x3e, B: 0x00, A: 0xff}
)

// fills tell blocks apart for every kind of colour vision: they differ in
// lightness and along blue and orange, the pair that all common kinds keep
// (Okabe and Ito 2008).
var fills = map[planner.BlockKind]color.NRGBA{
	planner.Hypertrophy: {R: 0xe1, G: 0xee, B: 0xf8, A: 0xff},
	planner.Strength:    {R: 0xfd, G: 0xec, B: 0xc9, A: 0xff},
	planner.Peaking:     {R: 0xf6, G: 0xce, B: 0xab, A: 0xff},
	planner.Recovery:    {R: 0xec, G: 0xec, B: 0xea, A: 0xff},
}

// names are what a block is called where there is little room.
var names = map[planner.BlockKind]string{
	planner.Hypertrophy: "muscle",
	planner.Strength:    "strength",
	planner.Peaking:     "peaking",
	planner.Recovery:    "recovery",
}

func fill(k planner.BlockKind) color.NRGBA {
	if c, ok := fills[k]; ok {
		return c
	}
	return fills[planner.Recovery]
}
