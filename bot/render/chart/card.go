package chart

import (
	"bytes"
	"fmt"
	"image/color"
	"image/png"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
)

// A card's size in points; at 96 dots an inch 900 x 506.25 points are 1200 x 675
// pixels, the shape that chats show without cutting.
const (
	dots   = 96
	width  = vg.Length(900)
	height = vg.Length(506.25)
	// low is the least height of a picture without axes.
	low    = vg.Length(260)
	margin = vg.Length(24)
)

// Letter sizes in points. On a phone a card is shown at about a third of its
// width, so the smallest is still 7 to 8 points there.
const (
	large  = 26
	medium = 20
	small  = 17
)

// card is one picture under the pen. Its zero corner is at the bottom left.
type card struct {
	image *vgimg.Canvas
	draw.Canvas
}

func newCard(h vg.Length) card {
	image := vgimg.NewWith(vgimg.UseWH(width, h), vgimg.UseDPI(dots), vgimg.UseBackgroundColor(paper))
	return card{image, draw.New(image)}
}

// png encodes the card.
func (c card) png() ([]byte, error) {
	var out bytes.Buffer
	// Speed matters more than three hundredths of the size.
	if err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&out, c.image.Image()); err != nil {
		return nil, fmt.Errorf("encode a picture: %w", err)
	}
	return out.Bytes(), nil
}

// letters is the style of a line of text.
func letters(size float64, ink color.Color, x text.XAlignment, y text.YAlignment) text.Style {
	return text.Style{
		Color: ink, XAlign: x, YAlign: y, Handler: handler,
		Font: font.Font{Typeface: "Liberation", Variant: "Sans", Size: font.Length(size)},
	}
}

// bold is a heavier style of the same.
func bold(s text.Style) text.Style {
	s.Font.Weight = 3 // bold
	return s
}

var handler = text.Plain{Fonts: font.DefaultCache}

// write puts one line of text, without signs the letters do not have.
func (c card) write(s text.Style, x, y vg.Length, line string) {
	c.FillText(s, vg.Point{X: x, Y: y}, drawable(line))
}

// writeWithin puts one line of text, cut so that it is at most wide points long.
func (c card) writeWithin(s text.Style, x, y, wide vg.Length, line string) {
	c.write(s, x, y, shorten(s, wide, drawable(line)))
}

// shorten cuts a line until it fits, and shows that it did.
func shorten(s text.Style, wide vg.Length, line string) string {
	if s.Width(line) <= wide {
		return line
	}
	for r := []rune(line); len(r) > 1; {
		r = r[:len(r)-1]
		if cut := string(r) + "…"; s.Width(cut) <= wide {
			return cut
		}
	}
	return ""
}

// box fills a rectangle.
func (c card) box(x0, y0, x1, y1 vg.Length, paint color.Color) {
	c.FillPolygon(paint, []vg.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}})
}

// stroke draws a straight line.
func (c card) stroke(x0, y0, x1, y1, thick vg.Length, paint color.Color) {
	c.StrokeLines(draw.LineStyle{Color: paint, Width: thick}, []vg.Point{{X: x0, Y: y0}, {X: x1, Y: y1}})
}

// heading writes the title and a second line under it; it returns the height
// below which the card is free.
func (c card) heading(top vg.Length, title, under string) vg.Length {
	y := top - margin
	c.writeWithin(bold(letters(large, ink, text.XLeft, text.YTop)), margin, y, width-2*margin, title)
	y -= large + 10
	if under != "" {
		c.writeWithin(letters(small, faint, text.XLeft, text.YTop), margin, y, width-2*margin, under)
		y -= small + 10
	}
	return y
}
